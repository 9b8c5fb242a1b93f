import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  barWeight,
  sectionWeight,
  sheetWeight,
  tubeWeight,
  volumeWeight,
  weightPerArea,
} from '../../../src/core/material';

const size = fc.double({ min: 0.01, max: 100, noNaN: true });
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

describe('weights of stock', () => {
  it('a tube is its outside bar less its bore', () => {
    fc.assert(
      fc.property(size, fc.double({ min: 0.01, max: 0.49, noNaN: true }), size, (od, share, length) => {
        const wall = od * share;
        return close(
          tubeWeight(od, wall, length, 0.1),
          barWeight(od, length, 0.1) - barWeight(od - 2 * wall, length, 0.1),
        );
      }),
    );
  });

  it('a square foot of sheet weighs what its weight per area says', () => {
    fc.assert(
      fc.property(size, size, (thickness, density) =>
        close(weightPerArea(thickness, density), sheetWeight(144, thickness, density)),
      ),
    );
  });

  it('sheet, section and volume agree on the same block', () => {
    expect(sheetWeight(12, 0.5, 0.1)).toBeCloseTo(sectionWeight(0.5, 12, 0.1), 12);
    expect(volumeWeight(6, 0.1)).toBeCloseTo(sheetWeight(12, 0.5, 0.1), 12);
  });

  it('quantity multiplies', () => expect(barWeight(1, 1, 0.1, 7)).toBeCloseTo(7 * barWeight(1, 1, 0.1), 12));

  it.each([
    [1, 0.5],
    [1, 0.6],
    [0.25, 0.125],
  ])('a tube of %s with a wall of %s has no bore', (od, wall) => {
    expect(() => tubeWeight(od, wall, 1, 0.1)).toThrow(/wall: got .*; takes less than half of outside_diameter/);
  });
});
