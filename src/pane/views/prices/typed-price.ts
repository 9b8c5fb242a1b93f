/** A price as it is typed with the sign of its money: "$82.60", "€ 82,60", "82.60 USD". */
import { CURRENCY_SIGNS } from '../../../core/price';

/** Currencies that a sign may mean. A sign that is not listed may mean any. */
const CURRENCIES: Readonly<Record<string, readonly string[]>> = {
  $: ['USD', 'CAD', 'AUD', 'NZD', 'MXN', 'SGD', 'HKD'],
  US$: ['USD'],
  CA$: ['CAD'],
  '€': ['EUR'],
  '£': ['GBP'],
  '¥': ['JPY', 'CNY'],
};
const SIGN = `(?:[A-Za-z]{0,3}[${CURRENCY_SIGNS}]|[A-Za-z]{3})`;
const BEFORE = new RegExp(`^(${SIGN})\\s*(?=[-+.,\\d])`);
const BEHIND = new RegExp(`(?<number>[\\d.,])\\s*(${SIGN})$`);

export interface TypedPrice {
  /** The number as it was typed. */
  readonly number: string;
  /** The sign before or behind it; undefined where there is none. */
  readonly sign: string | undefined;
}

export function typedPrice(text: string): TypedPrice {
  const trimmed = text.trim();
  const before = BEFORE.exec(trimmed);
  if (before) return { number: trimmed.slice(before[0].length), sign: before[1]!.toUpperCase() };
  const behind = BEHIND.exec(trimmed);
  if (!behind) return { number: trimmed, sign: undefined };
  return { number: trimmed.slice(0, behind.index + 1), sign: behind[2]!.toUpperCase() };
}

/** Currencies that a typed sign may mean; undefined where that cannot be told. */
export const currenciesOf = (sign: string): readonly string[] | undefined =>
  CURRENCIES[sign] ?? (/^[A-Z]{3}$/.test(sign) ? [sign] : undefined);
