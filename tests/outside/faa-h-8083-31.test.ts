/** FAA-H-8083-31, Aviation Maintenance Technician Handbook - Airframe, chapter 4: layout, forming, least bend radius. */
import { describe, expect, it } from 'vitest';
import { angleSection, bendAllowance, develop, setback, webSection } from '../../src/core/geometry';
import { call, findDefinition } from '../../src/functions';
import type { Argument } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): number => {
  const result = call(findDefinition(name)!, args);
  expect(typeof result, String(result)).toBe('number');
  return result as number;
};

describe('U-channel of .040 in 2024-T3, 1.00 × 2.00 × 1.00 in, radius .16 in (the worked example)', () => {
  const { flats, allowances, width } = develop(webSection(2, 1, 1), [90, 90], 0.04, 0.16);

  it('takes the least radius .16 from its chart', () =>
    expect(tare('BEND.MINRADIUS', '2024-T3', 0.04, 'handbook')).toBe(0.16));
  it('has a setback of .20', () => expect(tare('BEND.SETBACK', 0.16, 0.04)).toBeCloseTo(0.2, 12));
  it('has flats of .80, 1.60 and .80', () =>
    expect(flats.map((flat) => Number(flat.toFixed(10)))).toEqual([0.8, 1.6, 0.8]));
  it('has a bend allowance of .27 (printed cut off; the arithmetic gives .279)', () => {
    expect(Math.floor(allowances[0]! * 100) / 100).toBe(0.27);
    expect(tare('BEND.ALLOWANCE', 0.16, 0.04)).toBeCloseTo(0.279, 3);
  });
  it('has a developed width of 3.74 by the printed allowance and 3.758 by the arithmetic', () => {
    expect(0.8 + 1.6 + 0.8 + 2 * 0.27).toBeCloseTo(3.74, 12);
    expect(width).toBeCloseTo(3.758, 3);
    expect(tare('FLAT.CHANNEL', 2, 1, 1, 0.04, 0.16)).toBeCloseTo(3.758, 3);
  });
});

describe('K-chart: setback factor tan(N/2), AC 43.13-1B table 4-7 (p. 4-15)', () => {
  it.each([
    [1, 0.00873],
    [10, 0.08749],
    [15, 0.13165],
    [20, 0.17633],
    [30, 0.26795],
    [45, 0.41421],
    [60, 0.57735],
    [75, 0.76733],
    [89, 0.9827],
    [90, 1],
    [91, 1.0176],
    [105, 1.3032],
    [120, 1.7321],
    [135, 2.4142],
    [150, 3.732],
    [165, 7.5957],
    [175, 22.904],
    [179, 114.59],
  ])('%i°: %f', (angle, factor) => {
    // To one unit of the last place written here: the chart cuts off in places.
    const place = 10 ** -(String(factor).split('.')[1] ?? '').length;
    expect(Math.abs(setback(0.6, 0.4, angle) - factor)).toBeLessThanOrEqual(place);
  });
});

describe('bend allowance chart, 90° bends and each degree (from memory): agrees with the printed formula to 0.6 %', () => {
  // The chart was computed with radii cut off to three decimals (.031 for 1/32).
  it.each([
    [0.031, 0.02, 0.062, 0.000693],
    [0.031, 0.025, 0.066, 0.000736],
    [0.063, 0.025, 0.116, 0.001294],
    [0.063, 0.032, 0.121, 0.001345],
    [0.094, 0.032, 0.17, 0.001886],
    [0.094, 0.04, 0.176, 0.001952],
    [0.125, 0.032, 0.218, 0.002427],
    [0.125, 0.04, 0.224, 0.002493],
  ])('radius %f, thickness %f', (radius, thickness, right, degree) => {
    expect(Math.abs(bendAllowance(radius, thickness, 90) - right)).toBeLessThan(0.0015);
    expect(Math.abs(bendAllowance(radius, thickness, 1) / degree - 1)).toBeLessThan(0.006);
  });
});

describe('the neutral axis lies about .445 T from the inside', () => {
  it.each([0.016, 0.025, 0.04, 0.063, 0.125])('as the formula has it for %f in', (thickness) => {
    const onNeutral = 2 * Math.PI * (90 / 360) * (0.125 + 0.445 * thickness);
    expect(Math.abs(bendAllowance(0.125, thickness, 90) / onNeutral - 1)).toBeLessThan(0.0015);
  });
});

describe('least bend radius chart (from memory)', () => {
  it.each([
    ['5052-O', 0.032, 0.03],
    ['6061-O', 0.05, 0.06],
    ['6061-T4', 0.063, 0.09],
    ['6061-T6', 0.025, 0.06],
    ['6061-T6', 0.032, 0.06],
    ['6061-T6', 0.04, 0.09],
    ['6061-T6', 0.063, 0.16],
    ['7075-T6', 0.04, 0.22],
    ['2024-T3', 0.02, 0.09],
    ['2024-T3', 0.032, 0.12],
    ['2024-T3', 0.063, 0.22],
    ['2024-O', 0.04, 0.06],
  ])('%s of %f in: %f', (material, thickness, radius) =>
    expect(tare('BEND.MINRADIUS', material, thickness, 'handbook')).toBe(radius),
  );
});

describe('flat of a side = mold line dimension less setback', () => {
  it('for an angle of one bend', () => {
    const legs = angleSection(1.5, 0.75);
    expect(develop(legs, [90], 0.051, 0.125).flats.map((flat) => Number(flat.toFixed(9)))).toEqual([1.324, 0.574]);
  });
});
