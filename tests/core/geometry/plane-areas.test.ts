import { describe, expect, it } from 'vitest';
import { holes, slot } from '../../../src/core/geometry';

describe('slot', () => {
  it('is a disc where it is as long as wide, and refuses to be shorter', () => {
    expect(slot(2, 2)).toBeCloseTo(Math.PI, 12);
    expect(() => slot(1, 2)).toThrow('overall_length: got 1; takes the width (2) or more');
  });
});

describe('holes', () => {
  it('counts them', () => {
    expect(holes(2, 5)).toBeCloseTo(5 * Math.PI, 12);
    expect(holes(2, 0)).toBe(0);
  });

  it('leaves the metal of a flange in the part', () => {
    expect(holes(3, 1, 0.25)).toBeCloseTo(holes(2.5, 1), 12);
    expect(holes(3, 1, 1.5)).toBe(0);
  });

  it('refuses a flange wider than the hole', () => {
    expect(() => holes(3, 1, 1.6)).toThrow('flange: got 1.6; takes at most half the diameter (1.5)');
  });
});
