import { describe, expect, it } from 'vitest';
import type { Compared } from '../../../src/core/rivet-choice';
import { savedWords } from '../../../src/pane/rivets/words';

const compared = (ratios: readonly (number | undefined)[], weightDifference = -1, costDifference = -50): Compared =>
  ({
    perPoundSaved: costDifference / Math.abs(weightDifference),
    weightDifference,
    costDifference,
    material: { currency: 'USD' },
    lines: ratios.map((ratio, index) => ({ joint: { name: `joint ${index}` }, strength: { ratio } })),
  }) as unknown as Compared;

describe('what an option saves', () => {
  it('is not said without the strength that it costs', () => {
    expect(savedWords(compared([1, 0.36]))).toBe('lighter and cheaper, but weaker');
    expect(savedWords(compared([1, undefined]))).toBe('lighter and cheaper, strength not known at every joint');
    expect(savedWords(compared([1, 1.2]))).toBe('lighter and cheaper');
  });

  it('is money for each pound where one is paid for with the other', () => {
    expect(savedWords(compared([1], -2, 50))).toBe('25.00 USD for each pound saved');
    expect(savedWords(compared([0.9], 2, -50))).toBe('saves 25.00 USD for each pound gained, but weaker');
  });
});
