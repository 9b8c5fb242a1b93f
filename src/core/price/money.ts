/** Money and sums of money. */
import Decimal from 'decimal.js';
import { entryOf } from '../memoized';

// Money: decimal arithmetic, rounded half up to the currency's minor unit. An amount that leaves this
// module is a number that prints as the exact decimal, so that a sum of amounts reconciles to the cent.

/**
 * Digits of the minor unit where they are not 2: ISO 4217, list one, as Firefox's source has it
 * (generated from the list of 2025-02-04).
 * A code that is not here counts in hundredths.
 */
const MINOR_DIGITS: Readonly<Record<string, number>> = {
  BIF: 0,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  ISK: 0,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  PYG: 0,
  RWF: 0,
  UGX: 0,
  UYI: 0,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
  CLF: 4,
  UYW: 4,
  BHD: 3,
  IQD: 3,
  JOD: 3,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  TND: 3,
};

/** Decimal places of an amount in `currency` (an ISO 4217 code; blank counts in hundredths). */
export const minorDigits = (currency: string): number => MINOR_DIGITS[currency.toUpperCase()] ?? 2;

/** An amount rounded half up (away from zero) to the minor unit of `currency`. */
export const roundMoney = (amount: number | Decimal, currency: string): number =>
  new Decimal(amount).toDecimalPlaces(minorDigits(currency), Decimal.ROUND_HALF_UP).toNumber() + 0;

/** `price` × `units`, multiplied in decimals and rounded once. */
export const extend = (price: number, units: number, currency: string): number =>
  roundMoney(new Decimal(price).times(units), currency);

/** The share of a sale unit's price that `quantity` of its `contents` makes, in decimals and rounded once. */
export const shareOf = (price: number, quantity: number, contents: number, currency: string): number =>
  roundMoney(new Decimal(price).times(quantity).div(contents), currency);

/** Finer than any minor unit. */
const TEN_THOUSANDTHS = 10_000;
/** So many of them are counted exactly, and an amount of no more prints with all of its digits. */
const MOST = 1e11;
/** Below 2^53, up to which whole numbers are exact. */
const MOST_TOGETHER = 1e15;

/** The sum of amounts that are rounded already: exact, so that a total equals what stands above it. */
export function sumMoney(amounts: readonly number[], currency: string): number {
  let [counted, others] = [0, new Decimal(0)];
  for (const amount of amounts) {
    const count = Math.round(amount * TEN_THOUSANDTHS);
    // A whole number of them is counted: a list has thousands of amounts, and a decimal of each takes as long as reading it.
    if (count / TEN_THOUSANDTHS === amount && Math.abs(count) <= MOST && Math.abs(counted) <= MOST_TOGETHER)
      counted += count;
    else others = others.plus(amount);
  }
  return roundMoney(others.plus(new Decimal(counted).div(TEN_THOUSANDTHS)), currency);
}

// What costs come to: amounts of two currencies are never added, and one unknown cost makes the sum incomplete.

/** How a sum is shown where a cost is missing from it. */
export const INCOMPLETE = 'incomplete';

export interface Cost {
  /** One a currency, in order of appearance; '' where none is stated. */
  readonly amounts: readonly { readonly currency: string; readonly amount: number }[];
  /** Costs that are not known: they are missing from the amounts. */
  readonly unpriced: number;
}

export class CostSum implements Cost {
  private readonly byCurrency = new Map<string, number[]>();
  unpriced = 0;

  add(amount: number, currency = ''): void {
    entryOf(this.byCurrency, currency, (): number[] => []).push(amount);
  }

  addUnpriced(): void {
    this.unpriced += 1;
  }

  merge({ amounts, unpriced }: Cost): void {
    for (const { amount, currency } of amounts) this.add(amount, currency);
    this.unpriced += unpriced;
  }

  get amounts(): Cost['amounts'] {
    return [...this.byCurrency].map(([currency, amounts]) => ({ currency, amount: sumMoney(amounts, currency) }));
  }
}

/** The sum as one number; undefined where it is incomplete, or in more than one currency. */
export const oneAmount = ({ amounts, unpriced }: Cost): number | undefined =>
  unpriced > 0 || amounts.length > 1 ? undefined : (amounts[0]?.amount ?? 0);

/** "12.50", "12.50 USD + 3.00 EUR", "incomplete". */
export function costText(cost: Cost, write: (value: number, places: number) => string): string {
  if (cost.unpriced > 0) return INCOMPLETE;
  const one = oneAmount(cost);
  return one === undefined
    ? cost.amounts.map(({ amount, currency }) => `${write(amount, 2)} ${currency || '(no currency)'}`).join(' + ')
    : write(one, 2);
}
