import { describe, expect, it } from 'vitest';
import { setLocale } from '../../../../src/pane/locale';
import { checkDraft, draftCells, type PriceDraft } from '../../../../src/pane/views/prices/price-draft';
import { readField, unreadField } from '../../../../src/pane/views/prices/fields';
import { PRICE_COLUMNS } from '../../../../src/core/price';

const places = new Map(PRICE_COLUMNS.map(({ key }, index) => [key, index]));
const draft = (price: string, currency = ''): PriceDraft => ({
  form: true,
  texts: { item: 'bolt', kind: 'other', soldBy: 'each', price, currency },
  base: {},
  shown: new Set(),
});
const row = (price: string, currency?: string) => checkDraft(draft(price, currency), undefined, places);

describe('a price with the sign of its money', () => {
  it.each([
    ['$82.60', 82.6],
    ['$ 82.60', 82.6],
    ['€ 82.60', 82.6],
    ['82.60 €', 82.6],
    ['82.60€', 82.6],
    ['US$82.60', 82.6],
    ['82.60 USD', 82.6],
    ['EUR 82.60', 82.6],
    ['£1,250', 1250],
    ['$.5', 0.5],
    ['82.60', 82.6],
  ])('%s is %d', (text, value) => {
    expect(readField('price', text)).toBe(value);
    expect(unreadField('price', text)).toBeUndefined();
  });

  it('is read as the place writes decimals', () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    try {
      expect(readField('price', '82,60')).toBe(82.6);
      expect(readField('price', '€ 82,60')).toBe(82.6);
      expect(readField('price', '1.250,5 €')).toBe(1250.5);
    } finally {
      setLocale({ language: 'en', numbers: 'en-US' });
    }
  });

  it('other columns and other texts are not', () => {
    expect(readField('from', '$3')).toBe('$3');
    for (const text of ['$', 'USD', '82.60 per hundred', '$82.60$x', '$8 2'])
      expect(unreadField('price', text)).toBeDefined();
    expect(readField('price', '=B2*2')).toEqual({ formula: '=B2*2' });
  });

  it('names the currency where it stands for one, and never against the one that is named', () => {
    expect(draftCells(draft('€ 5'), undefined, places).get('currency')).toBe('EUR');
    expect(draftCells(draft('5 chf'), undefined, places).get('currency')).toBe('CHF');
    expect(draftCells(draft('$5'), undefined, places).get('currency')).toBeNull();
    expect(row('$5', 'CAD')).toMatchObject({ row: { currency: 'CAD' } });
    expect(row('€ 5', 'USD').row).toBeUndefined();
    expect(row('€ 5', 'USD').problems.get('price')).toBe(
      'The price is in €, and the currency is USD. Change one of them.',
    );
  });

  it('is not wrong before anything is typed', () => expect(draft('').shown.size).toBe(0));
});
