/** ISO 7089, plain washers, as a published list prints them: hole, outside, thickness, mm. */
import { describe, expect, it } from 'vitest';
import { standardPart } from '../../src/core/fastener';

describe('ISO 7089, plain washers', () => {
  it.each([
    [3, 3.2, 7, 0.5],
    [4, 4.3, 9, 0.8],
    [5, 5.3, 10, 1],
    [6, 6.4, 12, 1.6],
    [8, 8.4, 16, 1.6],
    [10, 10.5, 20, 2],
    [12, 13, 24, 2.5],
  ])('M%i: %f × %f × %f', (size, hole, outside, thickness) => {
    const mm3 = standardPart(`ISO 7089 M${size}`).volume * 25.4 ** 3;
    expect(mm3).toBeCloseTo((Math.PI / 4) * (outside ** 2 - hole ** 2) * thickness, 6);
  });
});
