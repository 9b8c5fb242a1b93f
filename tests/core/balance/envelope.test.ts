import { describe, expect, it } from 'vitest';
import { InputError } from '../../../src/core/input-error';
import { armsAt, contains, judge, judgementWords, makeEnvelope, type Envelope } from '../../../src/core/balance';
import { telling, writeEnglish } from '../../../src/core/quantity';
import { limitPieces } from '../../../src/core/balance/envelope';

const envelopeOf = (...corners: readonly (readonly [arm: number, weight: number])[]): Envelope =>
  makeEnvelope(corners.map(([arm, weight]) => ({ arm, weight })));
/** Forward limit 35 up to 1,600 lb, sloping to 41 at 2,100; aft limit 47. */
const usual = envelopeOf([35, 1000], [47, 1000], [47, 2100], [41, 2100], [35, 1600]);
/** A notch from the top, down to 1,500 lb at 42. */
const notched = envelopeOf([35, 1000], [47, 1000], [47, 2000], [42, 1500], [35, 2000]);

describe('an envelope', () => {
  it('may be closed by repeating its first corner, and a corner may be written twice', () => {
    const same = envelopeOf([35, 1000], [47, 1000], [47, 1000], [47, 2100], [41, 2100], [35, 1600], [35, 1000]);
    expect(same).toEqual(usual);
  });
  it('of fewer than three corners, without area, crossing itself or without weight is refused', () => {
    const cases: (() => unknown)[] = [
      () => envelopeOf(),
      () => envelopeOf([35, 1000], [47, 1000]),
      () => envelopeOf([35, 1000], [40, 1500], [45, 2000]),
      () => envelopeOf([35, 1000], [47, 2000], [47, 1000], [35, 2000]),
      () => envelopeOf([35, 0], [47, 0], [47, 1000]),
    ];
    for (const make of cases) expect(make).toThrow(InputError);
    expect(cases[3]).toThrow('The edge from point 1 to point 2 crosses the edge from point 3 to point 4');
    expect(cases[4]).toThrow('envelope, row 1: got 0; takes an arm and then a weight above 0');
  });
  it('holds its corners and edges, and typed decimals on them', () => {
    expect(contains(usual, 1000, 35)).toBe(true);
    expect(contains(usual, 1850, 38)).toBe(true);
    expect(contains(usual, 1700, 36.2)).toBe(true);
    expect(contains(usual, 2100, 41)).toBe(true);
  });
  it('does not hold a point a thousandth of an inch or a hundredth of a pound off', () => {
    expect(contains(usual, 1850, 37.999)).toBe(false);
    expect(contains(usual, 2100.01, 44)).toBe(false);
    expect(contains(usual, 999.99, 44)).toBe(false);
    expect(contains(usual, 1500, 47.001)).toBe(false);
  });
});

describe('limits', () => {
  it.each([
    [1000, 35, 47],
    [1600, 35, 47],
    [1850, 38, 47],
    [2100, 41, 47],
  ])('at %i lb: %f and %f', (weight, from, to) =>
    expect(armsAt(usual, weight)).toEqual([{ from: expect.closeTo(from, 9), to }]),
  );
  it('outside its weights: none', () => expect([armsAt(usual, 999), armsAt(usual, 2101)]).toEqual([[], []]));
  it('on both sides of a notch: two', () =>
    expect(armsAt(notched, 1750)).toEqual([
      { from: 35, to: 38.5 },
      { from: 44.5, to: 47 },
    ]));
  it('at the foot of a notch: one', () => expect(armsAt(notched, 1500)).toEqual([{ from: 35, to: 47 }]));
  it('at a corner that stands alone: a range without width', () =>
    expect(armsAt(envelopeOf([35, 1000], [47, 1000], [40, 2000]), 2000)).toEqual([{ from: 40, to: 40 }]));
  it('as pieces from corner to corner', () => {
    expect(
      limitPieces(usual).map(({ weights, forward, aft }) => [
        weights.from,
        weights.to,
        forward.from.arm,
        forward.to.arm,
        aft.from.arm,
      ]),
    ).toEqual([
      [1000, 1600, 35, 35, 47],
      [1600, 2100, 41, 35, 47],
    ]);
  });
});

describe('a judgement', () => {
  const words = (weight: number, arm: number, envelope = usual): string =>
    judgementWords(judge(envelope, { weight, arm }));
  it('inside says how far from both limits', () =>
    expect(words(1500, 40)).toBe('inside, 5.00 in aft of the forward limit and 7.00 in forward of the aft limit'));
  it('on a limit says so', () => {
    expect(words(1500, 35)).toBe('inside, on the forward limit and 12.00 in forward of the aft limit');
    expect(words(1500, 47)).toBe('inside, 12.00 in aft of the forward limit and on the aft limit');
  });
  it('forward and aft say by how much, and of what', () => {
    expect(words(1850, 36.5)).toBe('outside: 1.50 in forward of the forward limit, 38.00 in at 1,850.0 lb');
    expect(words(1850, 49.25)).toBe('outside: 2.25 in aft of the aft limit, 47.00 in at 1,850.0 lb');
  });
  it('too heavy and too light say by how much, with the arm against the nearest limits', () => {
    expect(words(2150, 44)).toBe('outside: 50.0 lb over the highest weight, 2,100.0 lb');
    expect(words(2150, 48)).toBe(
      'outside: 50.0 lb over the highest weight, 2,100.0 lb; 1.00 in aft of the aft limit, 47.00 in at the envelope’s highest weight, 2,100.0 lb',
    );
    expect(words(900, 30)).toBe(
      'outside: 100.0 lb under the lowest weight, 1,000.0 lb; 5.00 in forward of the forward limit, 35.00 in at the envelope’s lowest weight, 1,000.0 lb',
    );
  });
  it('in a notch says so', () =>
    expect(words(1750, 40, notched)).toBe(
      'outside: between two allowed ranges of arms at 1,750.0 lb, 1.50 in from the nearer at 40.00 in',
    ));
  it('never reads 0 for something that is out', () =>
    expect(words(1500, 47.0004)).toContain('0.0004 in aft of the aft limit'));
});

describe('numbers in words', () => {
  it.each([
    [1439.04, 1, '1,439.0'],
    [0, 1, '0.0'],
    [0.004, 2, '0.004'],
    [-0.0004, 2, '−0.0004'],
    [12.345, 2, '12.35'],
    [1e-12, 1, '0.0'],
  ])('%f to %i: %s', (value, decimals, said) => expect(telling(writeEnglish)(value, decimals)).toBe(said));
});
