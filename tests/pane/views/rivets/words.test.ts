import { describe, expect, it } from 'vitest';
import type { Compared } from '../../../../src/core/rivet-choice';
import { sayIn } from '../../../../src/pane/shared/quantities';
import { savedWords } from '../../../../src/pane/views/rivets/words';

const compared = (ratios: readonly (number | undefined)[], weightDifference = -1, costDifference = -50): Compared =>
  ({
    perPoundSaved: costDifference / Math.abs(weightDifference),
    weightDifference,
    costDifference,
    material: { currency: 'USD' },
    lines: ratios.map((ratio, index) => ({ joint: { name: `joint ${index}` }, strength: { ratio } })),
  }) as unknown as Compared;

const POUNDS = sayIn('in-lb');

describe('what an option saves', () => {
  it('is not said without the strength that it costs', () => {
    expect(savedWords(compared([1, 0.36]), POUNDS)).toBe('Lighter and cheaper. But weaker.');
    expect(savedWords(compared([1, undefined]), POUNDS)).toBe(
      'Lighter and cheaper. Strength not known at every joint.',
    );
    expect(savedWords(compared([1, 1.2]), POUNDS)).toBe('Lighter and cheaper.');
  });

  it('is money for each pound where one is paid for with the other', () => {
    expect(savedWords(compared([1], -2, 50), POUNDS)).toBe('25.00 USD for each lb saved.');
    expect(savedWords(compared([0.9], 2, -50), POUNDS)).toBe('Saves 25.00 USD for each lb gained. But weaker.');
  });

  it('is counted for each kilogram where the workbook is metric', () => {
    expect(savedWords(compared([1], -2, 50), sayIn('mm-kg'))).toBe('55.12 USD for each kg saved.');
  });
});
