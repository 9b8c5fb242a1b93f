import { describe, expect, it } from 'vitest';
import { readKind } from '../../../src/core/rivet-choice';

describe('an option in words', () => {
  it.each([
    ['solid', { style: 'solid' }],
    ['Solid 3/32', { style: 'solid', diameter: 3 / 32 }],
    ['blind AA 1/8', { style: 'blind', alloy: 'AA', diameter: 1 / 8 }],
    ['blind as .125 in', { style: 'blind', alloy: 'AS', diameter: 0.125 }],
    ['flush nearest half', { style: 'flush', rounding: 'nearest half' }],
    ['universal DD 5/32, longer', { style: 'universal', alloy: 'DD', diameter: 5 / 32, rounding: 'longer' }],
    ['as designed', { style: 'designed' }],
  ])('%s', (text, kind) => expect(readKind(text)).toEqual(kind));

  it.each(['', 'welded', 'solid 7/32', 'solid AS 1/8', 'blind DD', '1/8', 'blind 1/8 cheap'])('refuses "%s"', (text) =>
    expect(() => readKind(text)).toThrow(/takes "solid"/),
  );
});
