import { describe, expect, it } from 'vitest';
import type { Compared } from '../../../../src/core/rivet-choice';
import { sayIn } from '../../../../src/pane/shared/quantities';
import { savedWords } from '../../../../src/pane/views/rivets/rivet-words';

const compared = (
  ratios: readonly (number | undefined)[],
  weightDifference = -1,
  costDifference = -50,
  hoursDifference = 0,
): Compared =>
  ({
    perPoundSaved: costDifference / Math.abs(weightDifference),
    weightDifference,
    costDifference,
    hoursDifference,
    material: { currency: 'USD' },
    lines: ratios.map((ratio, index) => ({ joint: { name: `joint ${index}` }, strength: { ratio } })),
  }) as unknown as Compared;

const POUNDS = sayIn('in-lb');

describe('what an option saves', () => {
  it('is not said without the strength that it costs', () => {
    expect(savedWords(compared([1, 0.36]), POUNDS)).toBe('Saves 50.00 USD and 1.000 lb. But weaker.');
    expect(savedWords(compared([1, undefined]), POUNDS)).toBe(
      'Saves 50.00 USD and 1.000 lb. Strength not known at every joint.',
    );
    expect(savedWords(compared([1, 1.2]), POUNDS)).toBe('Saves 50.00 USD and 1.000 lb.');
  });

  it('is money for each pound where one is paid for with the other', () => {
    expect(savedWords(compared([1], -2, 50), POUNDS)).toBe(
      'Saves 2.000 lb, adds 50.00 USD. 25.00 USD for each lb saved.',
    );
    expect(savedWords(compared([0.9], 2, -50), POUNDS)).toBe('Saves 50.00 USD, adds 2.000 lb. But weaker.');
  });

  it('is one sentence with the hours', () => {
    expect(savedWords(compared([1], 0.042, -327.12, -47.4), POUNDS)).toBe('Saves 327 USD and 47 hours, adds 0.042 lb.');
    expect(savedWords(compared([1], -0.5, -20, -1.25), POUNDS)).toBe('Saves 20.00 USD, 1.3 hours and 0.500 lb.');
    expect(savedWords(compared([1], 0.0001, 0, 0), POUNDS)).toBeUndefined();
  });

  it('is counted for each kilogram where the workbook is metric', () => {
    expect(savedWords(compared([1], -2, 50), sayIn('mm-kg'))).toBe(
      'Saves 0.9072 kg, adds 50.00 USD. 55.12 USD for each kg saved.',
    );
  });
});
