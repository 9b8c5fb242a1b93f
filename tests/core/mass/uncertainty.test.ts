import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyBias,
  isBiasCertain,
  thicknessTolerance,
  weighingBias,
  weightBands,
  type TolerancedRow,
} from '../../../src/core/mass';
import { student95, THICKNESS_TOLERANCES } from '../../../src/core/mass/uncertainty';

const row = (weight: number, fraction: number, more: Partial<TolerancedRow> = {}): TolerancedRow => ({
  group: 'A',
  weight,
  tolerance: { fraction },
  ...more,
});
const first = (...rows: TolerancedRow[]) => weightBands(rows)[0]!;

describe('weight bands', () => {
  it('independent rows: root of the sum of squares, and the plain sum', () =>
    expect(first(row(100, 0.03), row(100, 0.04))).toEqual({ group: 'A', weight: 200, rootSum: 5, worst: 7 }));
  it('equal pieces of one row share their error', () =>
    expect(first(row(10, 0.1, { quantity: 8 }))).toMatchObject({ weight: 80, rootSum: 8, worst: 8 }));
  it('rows of one lot share their error, also over groups', () => {
    const rows = [row(100, 0.03, { lot: 'Sheet 1' }), row(100, 0.04, { lot: 'sheet 1 ', group: 'B' }), row(100, 0.01)];
    const [a, b, total] = weightBands(rows);
    expect(a!.rootSum).toBeCloseTo(Math.hypot(3, 1), 12);
    expect(b!.rootSum).toBeCloseTo(4, 12);
    expect(total!.rootSum).toBeCloseTo(Math.hypot(7, 1), 12);
  });
  it('a cut-out of the same lot takes its share of the error off', () =>
    expect(first(row(10, 0.1, { lot: 'x' }), row(-4, 0.1, { lot: 'x' })).rootSum).toBeCloseTo(0.6, 12));
  it('tolerances in pounds are a piece’s', () =>
    expect(first(row(10, 0, { tolerance: { pounds: 0.5 }, quantity: 4 }))).toMatchObject({ rootSum: 2, worst: 2 }));

  it('the root sum is never more than worst, and never less than the largest single error', () => {
    const any = fc.array(
      fc.record({
        weight: fc.integer({ min: 1, max: 100 }),
        percent: fc.integer({ min: 0, max: 20 }),
        lot: fc.constantFrom('', 'a', 'b'),
      }),
      { minLength: 1 },
    );
    fc.assert(
      fc.property(any, (list) => {
        const band = first(...list.map(({ weight, percent, lot }) => row(weight, percent / 100, { lot })));
        expect(band.rootSum).toBeLessThanOrEqual(band.worst + 1e-9);
        expect(band.rootSum).toBeGreaterThanOrEqual(
          Math.max(...list.map(({ weight, percent }) => (weight * percent) / 100)) - 1e-9,
        );
        expect(band.worst).toBeCloseTo(
          list.reduce((sum, { weight, percent }) => sum + (weight * percent) / 100, 0),
          6,
        );
      }),
    );
  });
});

describe('sheet tolerances', () => {
  it('grow, or stay, with thickness', () => {
    const steps = THICKNESS_TOLERANCES.map((one) => one.plusMinus);
    expect([...steps].sort((a, b) => a - b)).toEqual(steps);
  });
  it.each([
    [0.012, 0.0025],
    [0.016, 0.0025],
    [0.02, 0.0025],
    [0.025, 0.0025],
    [0.032, 0.0025],
    [0.04, 0.003],
    [0.063, 0.004],
    [0.125, 0.005],
    [0.0453, 0.003],
  ])('%f: ± %f', (thickness, plusMinus) => expect(thicknessTolerance(thickness)).toBe(plusMinus));
  it('outside the table is refused', () => {
    expect(() => thicknessTolerance(0.01)).toThrow('thickness: got 0.01; takes a sheet thickness in the table');
    expect(() => thicknessTolerance(0.25)).toThrow('thickness');
  });
});

describe('what the weighed parts say', () => {
  it('the ratio of the sums, and Student’s band', () => {
    const bias = weighingBias([
      { computed: 10, weighed: 10.2 },
      { computed: 10, weighed: 10.4 },
    ])!;
    expect(bias).toMatchObject({ parts: 2, computed: 20, weighed: 20.6 });
    expect(bias.fraction).toBeCloseTo(0.03, 12);
    expect(bias.plusMinus).toBeCloseTo(0.12706, 9);
    expect(isBiasCertain(bias)).toBe(false);
  });
  it('a single part has no band, none has no bias', () => {
    expect(weighingBias([{ computed: 4, weighed: 5 }])).toMatchObject({ fraction: 0.25, plusMinus: undefined });
    expect(weighingBias([])).toBeUndefined();
    expect(weighingBias([{ computed: 0, weighed: 5 }])).toBeUndefined();
  });
  it('parts that all come out 4 % heavy are certain of it', () => {
    const bias = weighingBias([1, 2, 5, 9].map((computed) => ({ computed, weighed: 1.04 * computed })))!;
    expect(bias.fraction).toBeCloseTo(0.04, 12);
    expect(isBiasCertain(bias)).toBe(true);
    expect(applyBias(bias, 50).weight).toBeCloseTo(52, 9);
  });
  it('a single part’s bias is applied without a band', () =>
    expect(applyBias(weighingBias([{ computed: 4, weighed: 5 }])!, 8)).toEqual({ weight: 10, plusMinus: undefined }));

  /** Even and repeatable numbers from 0 to 1 (a linear congruential sequence), made normal by their sum. */
  const scatter = (seed: number): (() => number) => {
    let state = seed;
    const even = (): number => ((state = (state * 1664525 + 1013904223) % 2 ** 32) + 0.5) / 2 ** 32;
    return () => Array.from({ length: 12 }, even).reduce((sum, one) => sum + one, -6);
  };

  it('the bands hold the truth in about 95 of 100 builds', () => {
    const normal = scatter(7);
    const builds = 2000;
    const held = { bias: 0, rest: 0 };
    for (let build = 0; build < builds; build++) {
      const make = (computed: number): number => 1.03 * computed + 0.05 * Math.sqrt(computed) * normal();
      const bias = weighingBias([0.5, 1, 2, 3, 4, 6].map((computed) => ({ computed, weighed: make(computed) })))!;
      if (Math.abs(bias.fraction - 0.03) <= bias.plusMinus!) held.bias++;
      const rest = [1, 2, 3, 4];
      const { weight, plusMinus } = applyBias(bias, 10);
      if (Math.abs(rest.reduce((sum, one) => sum + make(one), 0) - weight) <= plusMinus!) held.rest++;
    }
    expect(held.bias / builds).toBeGreaterThan(0.935);
    expect(held.bias / builds).toBeLessThan(0.965);
    expect(held.rest / builds).toBeGreaterThan(0.935);
    expect(held.rest / builds).toBeLessThan(0.965);
  });
});

describe('Student’s t, two-sided 95 %', () => {
  it.each([
    [1, 12.706],
    [2, 4.303],
    [5, 2.571],
    [10, 2.228],
    [30, 2.042],
    [40, 2.021],
    [60, 2.0],
    [120, 1.98],
  ])('%i degrees: %f', (degrees, printed) => expect(student95(degrees)).toBeCloseTo(printed, 3));
  it('comes down to the normal 1.96', () => expect(student95(1e6)).toBeCloseTo(1.96, 4));
});
