import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  armFromMac,
  ballastWeight,
  counterweight,
  hingeMoment,
  measuredMoment,
  percentMac,
  shiftedArm,
  surfaceBalance,
  weigh,
} from '../../../src/core/balance';

const arm = fc.integer({ min: -300, max: 300 });
const weight = fc.integer({ min: 100, max: 5000 });

describe('arms', () => {
  it('per cent of the chord, there and back', () => {
    fc.assert(
      fc.property(arm, arm, fc.integer({ min: 1, max: 200 }), (at, lemac, mac) => {
        expect(armFromMac(percentMac(at, lemac, mac), lemac, mac)).toBeCloseTo(at, 9);
      }),
    );
    expect(percentMac(50, 40, 50)).toBe(20);
  });

  it('a shifted weight moves the whole moment by its own', () => {
    fc.assert(
      fc.property(weight, arm, arm, arm, fc.integer({ min: 1, max: 100 }), (all, at, from, to, moved) => {
        expect(shiftedArm({ weight: all, arm: at }, moved, from, to) * all).toBeCloseTo(
          at * all - moved * from + moved * to,
          6,
        );
      }),
    );
  });

  it('ballast brings the arm to the target, or is said to be impossible', () => {
    fc.assert(
      fc.property(weight, arm, arm, arm, (all, at, target, place) => {
        const ballast = ballastWeight({ weight: all, arm: at }, target, place);
        const possible = at === target || (target > at ? place > target : place < target);
        expect(ballast !== undefined).toBe(possible);
        if (ballast !== undefined) expect((all * at + ballast * place) / (all + ballast)).toBeCloseTo(target, 6);
      }),
    );
  });
});

describe('weighing', () => {
  const points = [
    { name: 'left', reading: 402, tare: 2, arm: 10 },
    { name: 'right', reading: 405, tare: 5, arm: 10 },
    { name: 'tail', reading: 50, tare: 0, arm: 190 },
  ];

  it('takes tare off, sums moments', () => {
    const result = weigh({ gear: 'tailwheel', points })!;
    expect(result).toMatchObject({ weight: 850, moment: 17500, percentMac: undefined });
    expect(result.arm).toBeCloseTo(17500 / 850, 12);
    expect(result.points.map((point) => point.net)).toEqual([400, 400, 50]);
  });

  it('corrects for what was aboard and what was missing, and keeps what was weighed', () => {
    const corrections = [
      { name: 'tools in the baggage bay', weight: -10, arm: 60 },
      { name: 'cowl', weight: 10, arm: -20 },
    ];
    const result = weigh({ gear: 'tailwheel', points, corrections, chord: { lemac: 0, mac: 50 } })!;
    expect(result).toMatchObject({ weight: 850, moment: 17500 - 600 - 200 });
    expect(result.asWeighed).toMatchObject({ weight: 850, moment: 17500 });
    expect(result.percentMac).toBeCloseTo((100 * 16700) / 850 / 50, 12);
  });

  it('of nothing has no result', () => expect(weigh({ gear: 'nosewheel', points: [] })).toBeUndefined());
});

describe('control surfaces', () => {
  it('parts aft and ahead of the hinge line', () =>
    expect(
      hingeMoment([
        { weight: 3, arm: 4 },
        { weight: 2, arm: -5 },
      ]),
    ).toBe(2));
  it('the mean of both readings leaves friction out: any friction, the same moment', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50 }), (friction) => {
        expect(measuredMoment(0.6 + friction / 100, 0.6 - friction / 100, 10)).toBeCloseTo(6, 12);
      }),
    );
  });
  it('a counterweight takes up the moment, or a share of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 1, max: 30 }), (moment, ahead) => {
        expect(
          hingeMoment([
            { weight: 1, arm: moment },
            { weight: counterweight(moment, ahead), arm: -ahead },
          ]),
        ).toBeCloseTo(0, 9);
        expect(counterweight(moment, ahead, 0.8)).toBeCloseTo(0.8 * counterweight(moment, ahead), 12);
      }),
    );
  });
  it('says which edge is heavy', () => {
    expect(surfaceBalance(2).heavy).toBe('trailing edge');
    expect(surfaceBalance(-2).heavy).toBe('leading edge');
    expect(surfaceBalance(0.4, 0.5).heavy).toBe('neither');
  });
});
