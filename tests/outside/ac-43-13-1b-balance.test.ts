/**
 * FAA AC 43.13-1B, chapter 10, weight and balance: figures 10-10, 10-11, 10-13 and 10-14, run through the
 * worksheet functions, the loading model and the search for the worst loadings.
 */
import { describe, expect, it } from 'vitest';
import { judgeCase, makeEnvelope, worstLoadings, type Airplane } from '../../src/core/balance';
import { call, findDefinition } from '../../src/functions';
import type { Argument, Matrix } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): number => {
  const result = call(findDefinition(name)!, args);
  expect(typeof result, String(result)).toBe('number');
  return result as number;
};
const column = (...values: number[]): Matrix => values.map((value) => [value]);

/** Forward limit +8.5, aft limit +21.9, maximum weight 2,100 lb; the figures give no lowest weight. */
const LIMITS = [
  [8.5, 1169],
  [21.9, 1169],
  [21.9, 2100],
  [8.5, 2100],
];
const airplane: Airplane = {
  empty: { weight: 1169, arm: 10.6 },
  envelope: makeEnvelope(LIMITS.map(([arm, weight]) => ({ arm: arm!, weight: weight! }))),
  stations: [
    { name: 'oil', arm: -49, min: 17, max: 17 },
    { name: 'pilot', arm: 16, min: 170, max: 170 },
    { name: 'front passenger', arm: 16, min: 0, max: 170 },
    { name: 'rear seat', arm: 48, min: 0, max: 340 },
    // ¶10-2p: minimum fuel 1/12 gallon a METO horsepower; 165 hp is 13.75 gal, 83 lb.
    { name: 'fuel', arm: 22, min: 83, max: 240, fuel: true },
    { name: 'baggage', arm: 75.5, min: 0, max: 100 },
  ],
};

interface Figure {
  readonly title: string;
  /** Oil, pilot, front passenger, rear seat, fuel, baggage. */
  readonly loads: readonly number[];
  readonly weight: number;
  readonly moment: number;
  readonly arm: number;
}

const FIGURES: readonly Figure[] = [
  { title: 'figure 10-10, most forward', loads: [17, 170, 0, 0, 83, 0], weight: 1439, moment: 16104, arm: 11.2 },
  { title: 'figure 10-11, most rearward', loads: [17, 170, 0, 340, 240, 100], weight: 2036, moment: 43428, arm: 21.3 },
  // The figure prints 18.6 beside 38,466 / 2,100, which is 18.3: a misprint, the quotient is used.
  {
    title: 'figure 10-13, maximum passengers',
    loads: [17, 170, 170, 340, 234, 0],
    weight: 2100,
    moment: 38466,
    arm: 18.3,
  },
  {
    title: 'figure 10-14, maximum baggage',
    loads: [17, 170, 170, 170, 240, 100],
    weight: 2036,
    moment: 37988,
    arm: 18.7,
  },
];

describe.each(FIGURES)('$title', ({ loads, weight, moment, arm }) => {
  const [weights, arms] = [column(1169, ...loads), column(10.6, ...airplane.stations.map((station) => station.arm))];

  // The figures round each moment to a pound-inch.
  it(`TARE.MOMENT ${moment}`, () => expect(Math.abs(tare('MOMENT', weights, arms) - moment)).toBeLessThan(1));
  it(`TARE.CG ${arm}`, () => expect(tare('CG', weights, arms)).toBeCloseTo(arm, 1));
  it(`the loading model: ${weight} lb, satisfactory`, () => {
    const result = judgeCase(airplane, { name: '', loads });
    expect(result.takeoff.weight).toBe(weight);
    expect(result.takeoff.arm).toBeCloseTo(arm, 1);
    expect(result.takeoff.judgement.inside).toBe(true);
    expect(result.inside).toBe(true);
  });
  it('TARE.BALANCE.INSIDE', () =>
    expect(call(findDefinition('BALANCE.INSIDE')!, [weight, moment / weight, LIMITS])).toBe(true));
});

describe('¶10-17, the extreme conditions, found by the search over the ranges of the stations', () => {
  // As the circular has it: no front passenger in these two checks.
  const alone: Airplane = {
    ...airplane,
    stations: airplane.stations.filter((station) => station.name !== 'front passenger'),
  };
  const worst = worstLoadings(alone);

  it('most forward: minimum fuel, nobody behind', () => {
    expect(worst.forward!.loads).toEqual([17, 170, 0, 83, 0]);
    expect(worst.forward!.weight).toBe(1439);
    expect(worst.forward!.arm).toBeCloseTo(11.2, 1);
  });
  it('most rearward: full fuel, rear seat and baggage', () => {
    expect(worst.aft!.loads).toEqual([17, 170, 340, 240, 100]);
    expect(worst.aft!.weight).toBe(2036);
    expect(worst.aft!.arm).toBeCloseTo(21.3, 1);
  });
  it('both are satisfactory', () => {
    expect(worst.forward!.judgement.inside).toBe(true);
    expect(worst.aft!.judgement.inside).toBe(true);
    expect(worst.aftMargin!.margin).toBeCloseTo(21.9 - 43428 / 2036, 3);
  });
});

describe('¶10-2, terms', () => {
  it('minimum fuel of a 165 hp engine is half as many pounds as METO horsepower: 13.75 gal at 6 lb', () =>
    expect((165 / 12) * 6).toBe(165 / 2));
  it('tare is deducted from the scale reading', () => {
    const [weight] = (
      call(findDefinition('BALANCE.WEIGHING')!, [column(600, 70), column(15, 3), column(3, 222)]) as Matrix
    )[0]!;
    expect(weight).toBe(652);
  });
});
