/**
 * FAA-H-8083-1B, Aircraft Weight and Balance Handbook: its worked examples, run through the worksheet
 * functions and through the models of weighing and loading. "From memory" marks figures that were not read again.
 */
import { describe, expect, it } from 'vitest';
import { ballastIntoEnvelope, ballastWeight, makeEnvelope, weigh, type Gear } from '../../src/core/balance';
import { RollUpSum } from '../../src/core/mass';
import { call, findDefinition } from '../../src/functions';
import type { Argument, Matrix } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): number => {
  const result = call(findDefinition(name)!, args);
  expect(typeof result, String(result)).toBe('number');
  return result as number;
};
const row = (name: string, ...args: Argument[]): Matrix[number] => (call(findDefinition(name)!, args) as Matrix)[0]!;
const column = (...values: number[]): Matrix => values.map((value) => [value]);

describe('weighing: net 830 and 836 lb at +46, 340 lb at −32', () => {
  const points = [
    { name: 'right', reading: 830, tare: 0, arm: 46 },
    { name: 'left', reading: 836, tare: 0, arm: 46 },
    { name: 'nose', reading: 340, tare: 0, arm: -32 },
  ];

  it('TARE.BALANCE.WEIGHING: 2,006 lb at +32.8, moment 65,756', () => {
    const [weight, arm, moment] = row('BALANCE.WEIGHING', column(830, 836, 340), column(0, 0, 0), column(46, 46, -32));
    expect([weight, moment]).toEqual([2006, 65756]);
    expect(arm).toBeCloseTo(32.8, 1);
  });

  it('tares of 8, 10 and 8 lb under the wheels come off: the same airplane', () => {
    expect(row('BALANCE.WEIGHING', column(838, 846, 348), column(8, 10, 8), column(46, 46, -32))).toEqual(
      row('BALANCE.WEIGHING', column(830, 836, 340), 0, column(46, 46, -32)),
    );
  });

  it('the weighing model: moments 38,180, 38,456 and −10,880', () => {
    const result = weigh({ gear: 'nosewheel', points })!;
    expect(result.points.map((point) => point.moment)).toEqual([38180, 38456, -10880]);
    expect(result.weight).toBe(2006);
    expect(result.arm).toBeCloseTo(32.8, 1);
  });

  it('TARE.CG gives the same arm', () =>
    expect(tare('CG', column(830, 836, 340), column(46, 46, -32))).toBeCloseTo(32.8, 1));
});

describe('empty-weight CG by the four formulas: wheels 78 in (nose) and 222 in (tail) apart', () => {
  // The first was read in the handbook's chapter on the electronic calculator; the others are from memory.
  const cases: readonly [
    label: string,
    gear: Gear,
    mainArm: number,
    wheelbase: number,
    third: number,
    weight: number,
    printed: number,
  ][] = [
    ['nosewheel, datum at the main wheels: −13.2', 'nosewheel', 0, 78, 340, 2006, -13.2],
    ['nosewheel, datum 128 in ahead of the main wheels: 114.8 (from memory)', 'nosewheel', 128, 78, 340, 2006, 114.8],
    ['nosewheel, datum 75 in aft of the main wheels: −88.2 (from memory)', 'nosewheel', -75, 78, 340, 2006, -88.2],
    ['tailwheel, datum 7.5 in ahead of the main wheels: 19.7 (from memory)', 'tailwheel', 7.5, 222, 67, 1218, 19.7],
    ['tailwheel, datum 80 in aft of the main wheels: −67.8 (from memory)', 'tailwheel', -80, 222, 67, 1218, -67.8],
  ];

  it.each(cases)('%s', (_label, gear, mainArm, wheelbase, third, weight, printed) => {
    const arms = { main: mainArm, third: gear === 'tailwheel' ? mainArm + wheelbase : mainArm - wheelbase };
    const main = weight - third;
    const points = [
      { name: 'left', reading: main / 2, tare: 0, arm: arms.main },
      { name: 'right', reading: main / 2, tare: 0, arm: arms.main },
      { name: gear, reading: third, tare: 0, arm: arms.third },
    ];
    const result = weigh({ gear, points })!;
    expect(result.weight).toBe(weight);
    expect(result.arm).toBeCloseTo(printed, 1);
    expect(row('BALANCE.WEIGHING', column(main, third), column(0, 0), column(arms.main, arms.third))[1]).toBeCloseTo(
      printed,
      1,
    );
  });
});

describe('per cent of the mean aerodynamic chord, 100 × 17 / 62', () => {
  it('CG 161, LEMAC 144, MAC 62: 27.4 %', () => expect(tare('BALANCE.MAC', 161, 144, 62)).toBeCloseTo(27.4, 1));
  it('and back', () => expect(tare('BALANCE.FROMMAC', 27.4, 144, 62)).toBeCloseTo(161, 1));
  it('a weighing record gives it too', () => {
    const points = [{ name: 'all', reading: 5000, tare: 0, arm: 161 }];
    expect(weigh({ gear: 'nosewheel', points, chord: { lemac: 144, mac: 62 } })!.percentMac).toBeCloseTo(27.4, 1);
  });
});

describe('permanent ballast: 1,876 lb at +32.2, forward limit +33, bulkhead at 228', () => {
  it('TARE.BALANCE.BALLAST: 7.7 lb', () => expect(tare('BALANCE.BALLAST', 1876, 32.2, 33, 228)).toBeCloseTo(7.7, 1));
  it('ballast into an envelope whose forward limit is +33', () => {
    const corners = [
      [33, 1800],
      [46, 1800],
      [46, 3100],
      [33, 3100],
    ].map(([arm, weight]) => ({ arm: arm!, weight: weight! }));
    expect(ballastIntoEnvelope(makeEnvelope(corners), { weight: 1876, arm: 32.2 }, 228)).toBeCloseTo(7.7, 1);
  });
  it('with it the airplane balances at the limit', () => {
    const ballast = ballastWeight({ weight: 1876, arm: 32.2 }, 33, 228)!;
    expect(tare('CG', column(1876, ballast), column(32.2, 228))).toBeCloseTo(33, 9);
  });
});

describe('the law of the lever (from memory): 100 lb at 50, 100 lb at 90, 200 lb at 150', () => {
  it('TARE.MOMENT 44,000 and TARE.CG 110', () => {
    expect(tare('MOMENT', column(100, 100, 200), column(50, 90, 150))).toBe(44000);
    expect(tare('CG', column(100, 100, 200), column(50, 90, 150))).toBe(110);
  });
  it('the roll-up has both', () => {
    const sum = new RollUpSum();
    for (const [weight, arm] of [
      [100, 50],
      [100, 90],
      [200, 150],
    ] as const)
      sum.add('Lever', weight, arm);
    expect(sum.result().total).toMatchObject({ weight: 400, center: [110, 0, 0], moment: [44000, 0, 0] });
  });
  it('the datum may stand anywhere: 110 from A’s side is 60 aft of A', () =>
    expect(tare('CG', column(100, 100, 200), column(0, 40, 100))).toBe(60));
});
