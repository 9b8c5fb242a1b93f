/** FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge, chapter on weight and balance: its worked examples. */
import { describe, expect, it } from 'vitest';
import { judge, judgeCase, makeEnvelope } from '../../src/core/balance';
import { call, findDefinition } from '../../src/functions';
import type { Argument, Matrix } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): number => {
  const result = call(findDefinition(name)!, args);
  expect(typeof result, String(result)).toBe('number');
  return result as number;
};
const column = (...values: number[]): Matrix => values.map((value) => [value]);
const box = (forward: number, aft: number, top: number) =>
  makeEnvelope(
    [
      [forward, top / 4],
      [aft, top / 4],
      [aft, top],
      [forward, top],
    ].map(([arm, weight]) => ({ arm: arm!, weight: weight! })),
  );

describe('computational method: 2,100@78.3, 340@85, 350@121, 450@75, 80@150; at most 3,400 lb, CG from 78 to 86', () => {
  const weights = column(2100, 340, 350, 450, 80);
  const arms = column(78.3, 85, 121, 75, 150);

  it('total moment as the parts have it', () =>
    expect(tare('MOMENT', weights, arms)).toBeCloseTo(164430 + 28900 + 42350 + 33750 + 12000, 6));
  it('TARE.CG 84.8', () => expect(tare('CG', weights, arms)).toBeCloseTo(84.8, 1));

  it('the loading model: 3,320 lb at 84.8, within limits', () => {
    const stations = [
      ['front', 85, 340],
      ['rear', 121, 350],
      ['fuel', 75, 450],
      ['baggage', 150, 80],
    ].map(([name, arm, max]) => ({
      name: String(name),
      arm: Number(arm),
      min: 0,
      max: Number(max),
    }));
    const result = judgeCase(
      { empty: { weight: 2100, arm: 78.3 }, stations, envelope: box(78, 86, 3400) },
      { name: 'example', loads: [340, 350, 450, 80] },
    );
    expect(result.takeoff.weight).toBe(3320);
    expect(result.takeoff.arm).toBeCloseTo(84.8, 1);
    expect(result.inside).toBe(true);
  });

  it('100 lb more would be 20 lb over the maximum', () => {
    expect(judge(box(78, 86, 3400), { weight: 3420, arm: 84.8 }).findings).toEqual([{ kind: 'heavy', by: 20 }]);
  });
});

describe('weight shifting: 8,000 lb with a moment of 616,000, 100 lb moved from station 30 to station 150', () => {
  it('the moment grows by 12,000', () => expect(tare('MOMENT', column(100, -100), column(150, 30))).toBe(12000));
  it('TARE.BALANCE.SHIFT 78.5', () =>
    expect(tare('BALANCE.SHIFT', 8000, 616000 / 8000, 100, 30, 150)).toBeCloseTo(78.5, 9));
  it('7,800 lb at 81.5, aft limit 80.5: with 65 lb moved from 150 to 30 the arm is 80.5', () =>
    expect(tare('BALANCE.SHIFT', 7800, 81.5, 65, 150, 30)).toBeCloseTo(80.5, 9));
});

describe('weight added and removed (from memory)', () => {
  it('6,680 lb at 80, 140 lb added at 150: 81.4', () =>
    expect(tare('CG', column(6680, 140), column(80, 150))).toBeCloseTo(81.4, 1));
  it('6,100 lb at 78, 100 lb taken from 150: 76.8', () =>
    expect(tare('CG', column(6100, -100), column(78, 150))).toBeCloseTo(76.8, 9));
});

describe('questions of the FAA mechanic tests on changed equipment', () => {
  it('2,886 lb with a moment of 101,673.78; −30@71, +97@71, +20@71, +30@94: 1.62 in aft', () => {
    const before = 101673.78 / 2886;
    const after = tare('CG', column(2886, -30, 97, 20, 30), column(before, 71, 71, 71, 94));
    expect(after).toBeCloseTo(36.85, 2);
    expect(after - before).toBeCloseTo(1.62, 2);
  });
  it('2,100 lb at +32.5; −36@73, +17@77, +35@74.5, +35@95: moment 72,863.5 over 2,151 lb, +33.87', () => {
    const [weights, arms] = [column(2100, -36, 17, 35, 35), column(32.5, 73, 77, 74.5, 95)];
    expect(tare('MOMENT', weights, arms)).toBeCloseTo(72863.5, 9);
    expect(tare('CG', weights, arms)).toBeCloseTo(33.87, 2);
  });
});
