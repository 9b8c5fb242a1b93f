/** Amounts of several currencies in the user's own, by rates that the user gives with their dates. */
import { exchange, roundMoney } from '../price';

export interface Rate {
  /** ISO 4217 code. */
  readonly currency: string;
  /** Units of the own currency for one of it, above 0. */
  readonly rate: number;
  /** "2026-03-31", the day of the rate; '' where it is not said. */
  readonly date: string;
}

export interface OwnMoney {
  readonly currency: string;
  /** The amount in the own currency, rounded once; undefined where there is no rate. A blank currency is the own. */
  of(amount: number, currency: string): number | undefined;
}

export function ownMoney(currency: string, rates: readonly Rate[]): OwnMoney {
  const own = currency.toUpperCase();
  const byCode = new Map(rates.map(({ currency: code, rate }) => [code.toUpperCase(), rate]));
  return {
    currency: own,
    of(amount, code) {
      if (code === '' || code.toUpperCase() === own) return roundMoney(amount, own);
      const rate = byCode.get(code.toUpperCase());
      return rate === undefined ? undefined : exchange(amount, rate, own);
    },
  };
}
