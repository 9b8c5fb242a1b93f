import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeCase, makeEnvelope, type Airplane } from '../../../../src/core/balance';
import { ballastFor } from '../../../../src/pane/views/balance/ballast-panel';

const envelope = makeEnvelope([
  { arm: 66.5, weight: 800 },
  { arm: 66.5, weight: 1050 },
  { arm: 69, weight: 1320 },
  { arm: 74.5, weight: 1320 },
  { arm: 74.5, weight: 800 },
]);
const airplane: Airplane = {
  empty: { weight: 778.8, arm: 68.71 },
  stations: [
    { name: 'Pilot', arm: 78, min: 110, max: 250 },
    { name: 'Baggage', arm: 118, min: 0, max: 80 },
    { name: 'Tank', arm: 69, min: 18, max: 144, fuel: true },
  ],
  envelope,
};
const insideWith = (loads: readonly number[], arm: number, weight: number): boolean =>
  judgeCase(
    { ...airplane, stations: [...airplane.stations, { name: 'Ballast', arm, min: 0, max: 1e4 }] },
    { name: '', loads: [...loads, weight] },
  ).firstOutside === undefined;

describe('ballast for a whole flight', () => {
  it('is nothing where the loading is inside', () => expect(ballastFor(airplane, [170, 0, 100], 20)!.weight).toBe(0));

  it('brings a tail-heavy loading inside at take-off and at landing', () => {
    const loads = [200, 130, 60];
    const { weight, result } = ballastFor(airplane, loads, 10)!;
    expect(weight).toBeGreaterThan(0);
    expect(result.takeoff.judgement.inside && result.landing.judgement.inside).toBe(true);
    expect(insideWith(loads, 10, weight)).toBe(true);
    expect(insideWith(loads, 10, weight - 0.1)).toBe(false);
  });

  it('is not to be had where it would have to be taken away, or the airplane is too heavy', () => {
    expect(ballastFor(airplane, [200, 130, 60], 118)).toBeUndefined();
    expect(ballastFor(airplane, [250, 260, 144], 10)).toBeUndefined();
  });

  it('is the least of all tenths of a pound: no lighter one does, of any loading', () => {
    fc.assert(
      fc.property(
        fc.tuple(
          fc.integer({ min: 100, max: 260 }),
          fc.integer({ min: 0, max: 200 }),
          fc.integer({ min: 18, max: 144 }),
        ),
        fc.integer({ min: 0, max: 160 }),
        (loads, arm) => {
          const found = ballastFor(airplane, loads, arm);
          const tenths = Array.from({ length: 4000 }, (_, index) => index / 10);
          const least = tenths.find((weight) => insideWith(loads, arm, weight));
          expect(found?.weight).toBe(least);
        },
      ),
      { numRuns: 40 },
    );
  });
});
