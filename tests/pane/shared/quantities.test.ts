import { afterEach, describe, expect, it } from 'vitest';
import { setLocale } from '../../../src/pane/locale';
import { amountText, moneyText } from '../../../src/pane/shared/quantities';

afterEach(() => setLocale());

describe('money in the pane', () => {
  it.each([
    [1.005, 'USD', '1.01 USD'],
    [3, 'JPY', '3 JPY'],
    [1e-7, 'USD', '0.00 USD'],
    [5e-3, 'USD', '0.01 USD'],
    [-0.005, 'USD', '−0.01 USD'],
    [0.0005, 'KWD', '0.001 KWD'],
    [12_345.5, '', '12,345.50'],
  ])('%s %s is written %s', (amount, currency, wanted) => {
    expect(moneyText(amount, currency)).toBe(wanted);
  });

  it('goes by the place', () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    expect(amountText(1234.5, 'EUR')).toBe('1.234,50');
  });
});
