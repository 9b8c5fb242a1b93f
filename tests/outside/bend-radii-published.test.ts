/**
 * Least bend radii as published: AC 43.13-1B table 4-6 (all 13 rows seen in a scan), the Aluminum Association's
 * table (Aluminum Design Manual, January 2005, p. VII-78, and a design book's reprint; copies), and an extract of
 * BAC5300 that an extrusion house publishes (second-hand).
 */
import { describe, expect, it } from 'vitest';
import { minimumBendRadius } from '../../src/core/geometry';
import { call, findDefinition } from '../../src/functions';

const T = [0.016, 0.032, 0.064, 0.128, 0.182, 0.258];

describe('AC 43.13-1B table 4-6, ranges in thicknesses; it is the default', () => {
  it.each([
    ['2024-T3', [1.5, 2, 3, 4, 4, 5], [3, 4, 5, 6, 6, 7]],
    ['5052-H32', [0, 0, 0.5, 0.5, 0.5, 0.5], [0, 0, 1, 1.5, 1.5, 1.5]],
    ['5052-H34', [0, 0, 0.5, 1.5, 1.5, 2], [0, 0, 1.5, 2.5, 2.5, 3]],
    ['6061-T4', [0, 0, 0.5, 1, 1.5, 2.5], [1, 1, 1.5, 2, 3, 4]],
    ['6061-T6', [0, 0.5, 1, 1.5, 2, 3], [1, 1.5, 2, 3, 4, 4]],
    ['7075-T6', [2, 3, 4, 5, 5, 6], [4, 5, 6, 7, 7, 10]],
  ])('%s', (metal, lows, highs) =>
    T.forEach((t, place) => {
      const { radius, low, source } = minimumBendRadius(metal, t);
      expect(radius).toBeCloseTo(highs[place]! * t, 9);
      expect(low).toBeCloseTo(lows[place]! * t, 9);
      expect(source).toContain('AC 43.13-1B table 4-6');
      expect(source).not.toContain('memory');
    }),
  );
});

describe('Aluminum Association, thicknesses at 1/64, 1/32, 1/16, 1/8, 3/16 and 1/4 in', () => {
  it.each([
    ['1100-O', [0, 0, 0, 0, 0.5, 1]],
    ['1100-H14', [0, 0, 0, 1, 1, 1.5]],
    ['2024-T3', [2.5, 3, 4, 5, 5, 6]],
    ['3003-H14', [0, 0, 0, 1, 1, 1.5]],
    ['5052-H32', [0, 0, 1, 1.5, 1.5, 1.5]],
    ['5052-H34', [0, 1, 1.5, 2, 2, 2.5]],
    ['5052-H36', [1, 1, 1.5, 2.5, 3, 3.5]],
    ['6061-T4', [0, 0, 1, 1.5, 2.5, 3]],
    ['6061-T6', [1, 1, 1.5, 2.5, 3, 3.5]],
  ])('%s', (metal, times) =>
    [1 / 64, 1 / 32, 1 / 16, 1 / 8, 3 / 16, 1 / 4].forEach((t, place) =>
      expect(minimumBendRadius(metal, t, 'association').radius).toBeCloseTo(times[place]! * t, 9),
    ),
  );
});

describe('extract of BAC5300, inches', () => {
  it.each([
    ['6061-T6', [0.06, 0.06, 0.09, 0.12]],
    ['2024-T3', [0.06, 0.06, 0.09, 0.12]],
    ['7075-T6', [0.09, 0.09, 0.12, 0.16]],
    ['5052-O', [0.03, 0.03, 0.03, 0.03]],
  ])('%s', (metal, radii) =>
    [0.016, 0.02, 0.025, 0.032].forEach((t, place) =>
      expect(minimumBendRadius(metal, t, 'extract').radius).toBe(radii[place]),
    ),
  );

  it('the spread of 6061-T6 of .020 is said in the answer: .020 to .060', () =>
    expect(call(findDefinition('BEND.SPREAD')!, ['6061-T6', 0.02])).toMatch(
      /^the charts go from 0\.02 in .* to 0\.06 in \(extract of BAC5300, second-hand\): bend a test piece$/,
    ));
});
