import { afterEach, describe, expect, it } from 'vitest';
import { readUnit } from '../../../src/core/quantity';
import { cellNumber, readNumber, setLocale, writeNumber, type FieldUnit } from '../../../src/pane/locale';

const inLocale = (numbers: string): void => setLocale({ language: 'en', numbers });
const field = (dimension: FieldUnit['dimension'], sign: string): FieldUnit => ({
  dimension,
  unit: readUnit(sign, dimension)!,
});
const value = (typed: string, unit?: FieldUnit): number => {
  const read = readNumber(typed, unit);
  if ('wrong' in read) throw new Error(read.wrong);
  return read.value;
};
const wrong = (typed: string, unit?: FieldUnit): string => {
  const read = readNumber(typed, unit);
  if ('value' in read) throw new Error(`read as ${read.value}`);
  return read.wrong;
};

afterEach(() => setLocale());

describe('what is typed where a number belongs', () => {
  it('is read as a decimal, with thousands, or as a fraction of an inch', () => {
    expect(
      ['12.5', '.020', '1,234.5', '-3', '−3', '1e-3', '3/32', '1 1/4', ' 7 '].map((typed) => value(typed)),
    ).toEqual([12.5, 0.02, 1234.5, -3, -3, 0.001, 0.09375, 1.25, 7]);
  });

  it('is read by the signs of the locale', () => {
    inLocale('de-DE');
    expect(['12,5', '1.234,5', '1.234.567', '0.020', '12.5', '3/32'].map((typed) => value(typed))).toEqual([
      12.5, 1234.5, 1_234_567, 0.02, 12.5, 0.09375,
    ]);
    inLocale('fr-FR');
    expect(['12,5', '1 234,5', '1\u202f234,5', '1 1/4'].map((typed) => value(typed))).toEqual([
      12.5, 1234.5, 1234.5, 1.25,
    ]);
    inLocale('de-CH');
    expect(['1’234.5', "1'234.5", '12.5'].map((typed) => value(typed))).toEqual([1234.5, 1234.5, 12.5]);
  });

  it('is refused where it can be read in two ways', () => {
    inLocale('de-DE');
    expect(wrong('1.234')).toBe('“1.234” can be read in two ways: write 1234 or 1,234');
    setLocale();
    expect(wrong('12,5')).toBe('“12,5”: write the decimals as 12.5');
    expect(wrong('1,23')).toContain('1.23');
  });

  it('may bring its unit, which is converted to the one of the field', () => {
    expect(value('3/32 in', field('length', 'in'))).toBe(0.09375);
    expect(value('2.54 mm', field('length', 'in'))).toBeCloseTo(0.1, 12);
    expect(value('1/2"', field('length', 'mm'))).toBeCloseTo(12.7, 12);
    expect(value('8 oz', field('weight', 'lb'))).toBe(0.5);
    expect(value('1 lb', field('weight', 'kg'))).toBeCloseTo(0.45359237, 15);
    expect(value('1 sq in', field('area', 'mm²'))).toBeCloseTo(645.16, 10);
    expect(value('10 in-lb', field('moment', 'lb·in'))).toBe(10);
  });

  it('is refused with the unit that is not the field’s kind, and nothing at all is no number', () => {
    expect(wrong('2 kg', field('length', 'in'))).toBe('“2 kg”: kg is not a unit here. Type in, ft, mm, cm, m');
    expect(wrong('twelve', field('length', 'in'))).toBe('“twelve” is not a number. Type inches');
    expect(['', '-', '1/0', '1..2', '--1', '5 apples'].map((typed) => 'wrong' in readNumber(typed))).toEqual(
      Array(6).fill(true),
    );
  });
});

describe('numbers as they are written', () => {
  it('have the signs of the locale, a true minus and no negative nought', () => {
    expect([writeNumber(-1320.5, 2), writeNumber(-0.0001, 2)]).toEqual(['−1,320.50', '0.00']);
    // The machine holds this half as a little less.
    expect(writeNumber(1479.55, 1)).toBe('1,479.6');
    inLocale('de-DE');
    expect(writeNumber(1320.5, 2)).toBe('1.320,50');
  });

  it('are read back as what they were', () => {
    for (const numbers of ['en-US', 'de-DE', 'fr-FR', 'de-CH', 'sv-SE']) {
      inLocale(numbers);
      for (const number of [0.02, 13.96224, -0.5, 1234.5, 98_765.4321, 1 / 3]) {
        expect(value(cellNumber(number))).toBe(Number(number.toPrecision(10)));
        expect(value(writeNumber(number, 2))).toBeCloseTo(number, 2);
      }
    }
  });
});
