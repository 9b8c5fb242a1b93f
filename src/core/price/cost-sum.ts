/** What costs come to: amounts of two currencies are never added, and one unknown cost makes the sum incomplete. */
import { sumMoney } from './money';

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
    const amounts = this.byCurrency.get(currency);
    if (amounts) amounts.push(amount);
    else this.byCurrency.set(currency, [amount]);
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
export function oneAmount({ amounts, unpriced }: Cost): number | undefined {
  if (unpriced > 0 || amounts.length > 1) return undefined;
  return amounts[0]?.amount ?? 0;
}

/** "12.50", "12.50 USD + 3.00 EUR", "incomplete". */
export function costText(cost: Cost, write: (value: number, places: number) => string): string {
  if (cost.unpriced > 0) return INCOMPLETE;
  const one = oneAmount(cost);
  if (one !== undefined) return write(one, 2);
  return cost.amounts.map(({ amount, currency }) => `${write(amount, 2)} ${currency || '(no currency)'}`).join(' + ');
}
