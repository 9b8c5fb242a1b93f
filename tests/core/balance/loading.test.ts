import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ballastIntoEnvelope, contains, judgeCase, makeEnvelope, type Airplane } from '../../../src/core/balance';
import { armOnLine, endOf, stretches, loadedPoint } from '../../../src/core/balance/loading';

const envelope = makeEnvelope(
  [
    [35, 1000],
    [47, 1000],
    [47, 2100],
    [41, 2100],
    [35, 1600],
  ].map(([arm, weight]) => ({ arm: arm!, weight: weight! })),
);
const airplane: Airplane = {
  empty: { weight: 1100, arm: 38 },
  envelope,
  stations: [
    { name: 'seats', arm: 42, min: 120, max: 440 },
    { name: 'main tank', arm: 36, min: 20, max: 200, fuel: true },
    { name: 'aft tank', arm: 60, min: 0, max: 100, fuel: true },
    { name: 'baggage', arm: 70, min: 0, max: 80 },
  ],
};

describe('a loading case', () => {
  it('adds weights and moments', () => {
    const point = loadedPoint(airplane, [340, 150, 0, 40]);
    expect(point.weight).toBe(1630);
    expect(point.moment).toBe(1100 * 38 + 340 * 42 + 150 * 36 + 40 * 70);
    expect(point.arm).toBeCloseTo(point.moment / 1630, 12);
  });

  it('burns each tank down to its minimum, in order', () => {
    const result = judgeCase(airplane, { name: '', loads: [340, 150, 50, 40] });
    expect(result.takeoff.weight - result.landing.weight).toBeCloseTo(130 + 50, 9);
    const landed = loadedPoint(airplane, [340, 20, 0, 40]);
    expect(result.landing.arm).toBeCloseTo(landed.arm, 9);
    expect(result.landing.moment).toBeCloseTo(landed.moment, 6);
    expect(result.burn[0]).toMatchObject({ weight: result.takeoff.weight });
    expect(result.burn.at(-1)!.weight).toBeCloseTo(result.landing.weight, 9);
  });

  it('without fuel to burn stays where it is', () => {
    const result = judgeCase(airplane, { name: '', loads: [340, 20, 0, 0] });
    expect(result.landing).toEqual(result.takeoff);
    expect(result.burn).toEqual([expect.objectContaining({ weight: result.takeoff.weight })]);
    expect(result.inside).toBe(true);
  });

  it('that burns its way out of the envelope says where and after how much', () => {
    // Emptying a forward tank moves the balance aft.
    const aftHeavy: Airplane = {
      ...airplane,
      empty: { weight: 1100, arm: 45.5 },
      stations: [
        { name: 'nose tank', arm: 20, min: 0, max: 200, fuel: true },
        { name: 'baggage', arm: 70, min: 0, max: 120 },
      ],
    };
    const result = judgeCase(aftHeavy, { name: '', loads: [150, 120] });
    expect(result.takeoff.judgement.inside).toBe(true);
    expect(result.landing.judgement.inside).toBe(false);
    expect(result.inside).toBe(false);
    const { firstOutside } = result;
    expect(firstOutside!.arm).toBeCloseTo(47, 9);
    expect(loadedPoint(aftHeavy, [150 - firstOutside!.burnt, 120]).arm).toBeCloseTo(47, 9);
  });

  it('that is outside at take-off says so with nothing burnt', () => {
    const result = judgeCase(airplane, { name: '', loads: [440, 200, 100, 2000] });
    expect(result.firstOutside).toMatchObject({ burnt: 0 });
  });

  it('names stations over their maximum and under their minimum', () => {
    const { stationFindings, inside } = judgeCase(airplane, { name: '', loads: [100, 150, 0, 95] });
    expect(stationFindings.map(({ station, by }) => [station.name, by])).toEqual([
      ['seats', -20],
      ['baggage', 15],
    ]);
    expect(inside).toBe(false);
  });
});

describe('a line of loading', () => {
  const line = fc.record({
    weight: fc.integer({ min: 800, max: 2300 }),
    at: fc.integer({ min: 300, max: 520 }).map((n) => n / 10),
    arm: fc.integer({ min: 0, max: 100 }),
    change: fc.integer({ min: -600, max: 600 }),
  });

  it('is cut where sampling finds it to enter and leave', () => {
    fc.assert(
      fc.property(line, ({ weight, at, arm, change }) => {
        const one = { start: { weight, arm: at }, arm, endWeight: weight + change };
        const parts = stretches(envelope, one);
        for (let i = 0; i <= 200; i++) {
          const here = weight + (change * i) / 200;
          const part = parts.find(({ from, to }) => (here - from) * (here - to) < -1e-6);
          if (part) expect(contains(envelope, here, armOnLine(one, here))).toBe(part.inside);
        }
        for (const [index, part] of parts.entries()) if (index > 0) expect(part.inside).toBe(!parts[index - 1]!.inside);
      }),
      { numRuns: 200 },
    );
  });

  it('ends where weight and moment say', () => {
    fc.assert(
      fc.property(line, ({ weight, at, arm, change }) => {
        const end = endOf({ start: { weight, arm: at }, arm, endWeight: weight + change });
        expect(end.arm).toBeCloseTo((weight * at + change * arm) / (weight + change), 9);
      }),
    );
  });
});

describe('ballast into the envelope', () => {
  it('is none where the loading is inside, and undefined where it cannot help', () => {
    expect(ballastIntoEnvelope(envelope, { weight: 1500, arm: 40 }, 100)).toBe(0);
    expect(ballastIntoEnvelope(envelope, { weight: 1500, arm: 34 }, 10)).toBeUndefined();
    expect(ballastIntoEnvelope(envelope, { weight: 2200, arm: 44 }, 10)).toBeUndefined();
  });

  it('is the least that brings it in, though the forward limit moves aft with weight', () => {
    const load = { weight: 1800, arm: 36.5 };
    const ballast = ballastIntoEnvelope(envelope, load, 150)!;
    const arm = (extra: number): number => (1800 * 36.5 + extra * 150) / (1800 + extra);
    expect(contains(envelope, 1800 + ballast, arm(ballast))).toBe(true);
    expect(contains(envelope, 1800 + ballast - 0.01, arm(ballast - 0.01))).toBe(false);
    // To the limit at the weight without ballast it would be less.
    expect(ballast).toBeGreaterThan((1800 * (37.4 - 36.5)) / (150 - 37.4));
  });
});
