/** The search for the worst loadings against brute force: every corner that the ranges and the weight limit have. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allInside,
  armsAt,
  contains,
  makeEnvelope,
  worstLoadings,
  type Airplane,
  type Envelope,
  type Station,
  type WorstLoading,
} from '../../../src/core/balance';
import { loadedPoint } from '../../../src/core/balance/loading';

const envelopeOf = (corners: readonly (readonly [arm: number, weight: number])[]): Envelope =>
  makeEnvelope(corners.map(([arm, weight]) => ({ arm, weight })));
const wide = (top: number): Envelope =>
  envelopeOf([
    [-500, 100],
    [500, 100],
    [500, top],
    [-500, top],
  ]);

const station = fc
  .record({
    arm: fc.integer({ min: -100, max: 200 }),
    min: fc.integer({ min: 0, max: 80 }),
    range: fc.integer({ min: 0, max: 300 }),
  })
  .map(({ arm, min, range }): Station => ({ name: '', arm, min, max: min + range }));
const eight = fc.array(station, { minLength: 8, maxLength: 8 });
const empty = fc.record({ weight: fc.integer({ min: 500, max: 1500 }), arm: fc.integer({ min: 20, max: 60 }) });

/** Every corner of the box of ranges cut at a highest weight: all at an end, or one between that fills up to the weight. */
function corners({ empty, stations }: Pick<Airplane, 'empty' | 'stations'>, top: number): number[][] {
  const found: number[][] = [];
  for (let bits = 0; bits < 2 ** stations.length; bits++) {
    const loads = stations.map(({ min, max }, i) => ((bits >> i) & 1 ? max : min));
    const weight = loads.reduce((sum, load) => sum + load, empty.weight);
    if (weight <= top) found.push(loads);
    stations.forEach(({ min, max }, i) => {
      const rest = loads[i]! + top - weight;
      if (rest >= min && rest <= max) found.push(loads.map((load, j) => (i === j ? rest : load)));
    });
  }
  return found;
}

function consistent(airplane: Airplane, worst: WorstLoading): void {
  worst.loads.forEach((load, i) => {
    expect(load).toBeGreaterThanOrEqual(airplane.stations[i]!.min - 1e-9);
    expect(load).toBeLessThanOrEqual(airplane.stations[i]!.max + 1e-9);
  });
  const point = loadedPoint(airplane, worst.loads);
  expect(point.weight).toBeCloseTo(worst.weight, 6);
  expect(point.arm).toBeCloseTo(worst.arm, 6);
}

describe('worst arms over eight stations', () => {
  it.each([
    ['without', 1e6],
    ['with', 0],
  ] as const)('are those of brute force, %s a highest weight in the way', (_label, free) => {
    fc.assert(
      fc.property(empty, eight, fc.integer({ min: 0, max: 1000 }), (bare, stations, spare) => {
        const least = stations.reduce((sum, one) => sum + one.min, bare.weight);
        const top = free || least + spare;
        const airplane: Airplane = { empty: bare, stations, envelope: wide(top) };
        const arms = corners(airplane, top).map((loads) => loadedPoint(airplane, loads).arm);
        const { forward, aft } = worstLoadings(airplane);
        expect(forward!.arm).toBeCloseTo(Math.min(...arms), 9);
        expect(aft!.arm).toBeCloseTo(Math.max(...arms), 9);
        consistent(airplane, forward!);
        consistent(airplane, aft!);
        expect(Math.max(forward!.weight, aft!.weight)).toBeLessThanOrEqual(top + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('there are none where the minimums alone pass the highest weight', () => {
    const airplane: Airplane = {
      empty: { weight: 1000, arm: 40 },
      stations: [{ name: '', arm: 50, min: 200, max: 300 }],
      envelope: wide(1100),
    };
    expect(worstLoadings(airplane)).toMatchObject({ forward: undefined, aft: undefined, lightest: { weight: 1200 } });
  });
});

describe('least margins to limits that slope', () => {
  const sloping = fc
    .record({
      a: fc.integer({ min: 20, max: 30 }),
      b: fc.integer({ min: 20, max: 38 }),
      c: fc.integer({ min: 50, max: 70 }),
      d: fc.integer({ min: 42, max: 70 }),
      level: fc.integer({ min: 1000, max: 1900 }),
    })
    .map(({ a, b, c, d, level }) =>
      envelopeOf([
        [a, 600],
        [c, 600],
        [c, level],
        [d, 2400],
        [b, 2400],
        [a, level],
      ]),
    );

  /** Least and greatest arm at a total weight: at a corner of the slice, one station between its ends. */
  function slice({ empty, stations }: Airplane, total: number): { forward: number; aft: number } | undefined {
    let [forward, aft] = [Infinity, -Infinity];
    for (const loads of corners({ empty, stations }, total)) {
      const weight = loads.reduce((sum, load) => sum + load, empty.weight);
      if (Math.abs(weight - total) > 1e-6) continue;
      const { arm } = loadedPoint({ empty, stations }, loads);
      [forward, aft] = [Math.min(forward, arm), Math.max(aft, arm)];
    }
    return forward === Infinity ? undefined : { forward, aft };
  }

  it('are attained, and no weight has a smaller one', () => {
    fc.assert(
      fc.property(empty, fc.array(station, { minLength: 1, maxLength: 5 }), sloping, (bare, stations, envelope) => {
        const airplane: Airplane = { empty: bare, stations, envelope };
        const { forwardMargin, aftMargin, lightest, heaviest } = worstLoadings(airplane);
        const from = Math.max(lightest.weight, envelope.weights.from);
        const to = Math.min(heaviest.weight, envelope.weights.to);
        expect(forwardMargin === undefined).toBe(from > to);
        if (!forwardMargin || !aftMargin) return;
        for (const [margin, sign] of [
          [forwardMargin, 1],
          [aftMargin, -1],
        ] as const) {
          consistent(airplane, margin);
          expect(margin.margin).toBeCloseTo(sign * (margin.arm - margin.limit), 9);
        }
        let [least, leastAft] = [Infinity, Infinity];
        const steps = 60;
        for (let i = 0; i <= steps; i++) {
          const weight = from + ((to - from) * i) / steps;
          const arms = slice(airplane, weight);
          const [range] = armsAt(envelope, weight);
          if (!arms || !range) continue;
          least = Math.min(least, arms.forward - range.from);
          leastAft = Math.min(leastAft, range.to - arms.aft);
        }
        expect(forwardMargin.margin).toBeLessThanOrEqual(least + 1e-6);
        expect(aftMargin.margin).toBeLessThanOrEqual(leastAft + 1e-6);
      }),
      { numRuns: 60 },
    );
  });

  it('lie between corners where the limit’s slope says so', () => {
    // Filling at 60 moves the arm aft ever more slowly. The margin to a forward limit is least at an end of the
    // weights; that to an aft limit which moves aft evenly is least where both move alike.
    const airplane: Airplane = {
      empty: { weight: 1000, arm: 30 },
      stations: [{ name: '', arm: 60, min: 0, max: 1000 }],
      envelope: envelopeOf([
        [20, 1000],
        [70, 1000],
        [70, 2000],
        [45, 2000],
      ]),
    };
    const { forwardMargin } = worstLoadings(airplane);
    expect([forwardMargin!.weight, forwardMargin!.margin].map((one) => Number(one.toFixed(6)))).toEqual([2000, 0]);
    const aft = worstLoadings({
      ...airplane,
      envelope: envelopeOf([
        [20, 1000],
        [40, 1000],
        [50, 2000],
        [20, 2000],
      ]),
    });
    expect(aft.aftMargin!.weight).toBeCloseTo(Math.sqrt(30_000 / 0.01), 6);
    expect(aft.aftMargin!.weight).toBeLessThan(2000);
  });
});

describe('everything inside', () => {
  it('is said only where no corner of the ranges is outside', () => {
    fc.assert(
      fc.property(empty, fc.array(station, { minLength: 1, maxLength: 5 }), (bare, stations) => {
        const envelope = envelopeOf([
          [25, 500],
          [60, 500],
          [60, 2600],
          [35, 2600],
          [25, 1500],
        ]);
        const airplane: Airplane = { empty: bare, stations, envelope };
        const outside = corners(airplane, 1e9).filter((loads) => {
          const { weight, arm } = loadedPoint(airplane, loads);
          return !contains(envelope, weight, arm);
        });
        if (allInside(airplane, worstLoadings(airplane))) expect(outside).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });
});
