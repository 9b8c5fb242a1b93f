/** AC 43.13-1B, chapter 4: setback, bend allowance and recommended radii. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import type { Argument } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): number => {
  const result = call(findDefinition(name)!, args);
  expect(typeof result, String(result)).toBe('number');
  return result as number;
};

describe('setback of .064 in sheet at a radius of .25 in', () => {
  it.each([
    [45, 0.13],
    [90, 0.314],
    [135, 0.758],
  ])('%i°: %f', (angle, printed) => {
    expect(tare('BEND.SETBACK', 0.25, 0.064, angle)).toBeCloseTo(printed, 3);
  });
});

describe('bend allowance (0.01743 R + 0.0078 T) N', () => {
  it.each([
    [0.25, 0.064, 90, (0.01743 * 0.25 + 0.0078 * 0.064) * 90],
    [0.25, 0.064, 45, (0.01743 * 0.25 + 0.0078 * 0.064) * 45],
    [0.25, 0.064, 135, (0.01743 * 0.25 + 0.0078 * 0.064) * 135],
  ])('R %f, T %f, N %i', (radius, thickness, angle, value) =>
    expect(tare('BEND.ALLOWANCE', radius, thickness, angle)).toBeCloseTo(value, 12),
  );
});

describe('table 4-6, recommended radii for 90° bends, upper end of the range in thicknesses (seen in a scan)', () => {
  it.each([
    ['2024-T3', 0.016, 3],
    ['2024-T3', 0.032, 4],
    ['2024-T3', 0.064, 5],
    ['2024-T3', 0.128, 6],
    ['2024-T6', 0.064, 5],
    ['5052-H32', 0.064, 1],
    ['5052-H34', 0.064, 1.5],
    ['6061-T4', 0.064, 1.5],
    ['6061-T6', 0.032, 1.5],
    ['6061-T6', 0.064, 2],
    ['7075-T6', 0.064, 6],
  ])('%s of %f in: %f T', (material, thickness, times) =>
    expect(tare('BEND.MINRADIUS', material, thickness, 'advisory')).toBeCloseTo(times * thickness, 12),
  );
});

describe('where the charts disagree, both are to be had and neither is hidden', () => {
  it.each([
    ['2024-T3', 0.04, 0.16, 0.2, 0.16],
    ['6061-T6', 0.032, 0.06, 0.048, 0.032],
    ['7075-T6', 0.063, 0.31, 0.378, 0.315],
  ])(
    '%s of %f in: handbook %f, this circular %f, Aluminum Association %f',
    (material, thickness, handbook, advisory, association) => {
      expect(tare('BEND.MINRADIUS', material, thickness)).toBeCloseTo(advisory, 9);
      expect(tare('BEND.MINRADIUS', material, thickness, 'handbook')).toBe(handbook);
      expect(tare('BEND.MINRADIUS', material, thickness, 'advisory')).toBeCloseTo(advisory, 9);
      expect(tare('BEND.MINRADIUS', material, thickness, 'association')).toBeCloseTo(association, 9);
    },
  );
});
