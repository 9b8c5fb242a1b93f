import { afterEach, describe, expect, it } from 'vitest';
import { mark, rich, setLocale, t } from '../../../src/pane/locale';

const GERMAN = {
  language: 'de',
  numbers: 'de-DE',
  texts: {
    Undo: 'Rückgängig',
    '{count, plural, one {# row} other {# rows}} of {all, number}':
      'Von {all, number} {count, plural, one {# Zeile} other {# Zeilen}}',
    'see <b>{what}</b>': '<b>{what}</b> ansehen',
  },
};

afterEach(() => setLocale());

describe('a text', () => {
  it('is English as it stands, and in the language where there is a translation', () => {
    const undo = mark('Undo');
    expect(t(undo)).toBe('Undo');
    setLocale(GERMAN);
    expect([t(undo), t('Redo')]).toEqual(['Rückgängig', 'Redo']);
  });

  it('has its plurals by the language and its digits by the way of writing numbers', () => {
    const rows = (count: number, all: number) =>
      t('{count, plural, one {# row} other {# rows}} of {all, number}', { count, all });
    expect([rows(1, 2), rows(1200, 12_000)]).toEqual(['1 row of 2', '1,200 rows of 12,000']);
    setLocale(GERMAN);
    expect([rows(1, 2), rows(1200, 12_000)]).toEqual(['Von 2 1 Zeile', 'Von 12.000 1.200 Zeilen']);
    setLocale({ language: 'en', numbers: 'de-DE' });
    expect(rows(1200, 12_000)).toBe('1.200 rows of 12.000');
  });

  it('may hold nodes, whose place the translation says', () => {
    setLocale(GERMAN);
    expect(rich('see <b>{what}</b>', { what: 'Prices', b: (inside) => `[${inside.join('')}]` })).toBe(
      '[Prices] ansehen',
    );
  });

  it('is refused by the compiler where it is neither a literal nor marked', () => {
    const text: string = 'Undo';
    // @ts-expect-error a text that nobody collects
    expect(t(text)).toBe('Undo');
  });
});
