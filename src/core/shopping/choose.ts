/** Which supplier sells what: the cheapest by item, then fewer suppliers where their freight costs more than they save. */
import { extend, roundMoney, purchase, sumMoney, type PricedItem, type Purchase } from '../price';
import { nameKey } from '../names';

// Amounts of several currencies in the user's own, by rates that the user gives with their dates.

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
      return rate === undefined ? undefined : extend(amount, rate, own);
    },
  };
}

export interface SupplierTerms {
  readonly supplier: string;
  /** For one order, own currency. */
  readonly freight: number;
  /** For one cut at the supplier's, own currency. */
  readonly cutCharge: number;
  readonly cuts: number;
}

export interface Wanted {
  readonly priced: PricedItem;
  readonly short: number;
}

/** With more suppliers than this the cheapest offer of each item is taken: there are 2^n choices. */
const MOST_SUPPLIERS = 10;

/** A purchase for each item, so that goods, freight and cuts together cost least (in the own currency). */
export function choosePurchases(
  wanted: readonly Wanted[],
  suppliers: readonly SupplierTerms[],
  money: OwnMoney,
): Purchase[] {
  const cheapest = wanted.map(({ priced, short }) => purchase(priced, short));
  const names = [...new Set(wanted.flatMap(({ priced }) => priced.offers.map(({ row }) => nameKey(row.supplier))))];
  if (names.length > MOST_SUPPLIERS || names.length < 2) return cheapest;
  const charge = new Map(
    suppliers.map((terms) => [nameKey(terms.supplier), terms.freight + terms.cutCharge * terms.cuts]),
  );
  const choices = wanted.map(({ priced, short }) => byPlace(priced, short, names, money));
  let best: { cost: number; bought: readonly Choice[] } | undefined;
  for (let subset = 1; subset < 1 << names.length; subset++) {
    const bought: Choice[] = [];
    for (const offers of choices) {
      const choice = offers.reduce<Choice | undefined>(
        (least, one) => ((subset >> one.place) & 1 && (least === undefined || one.cost < least.cost) ? one : least),
        undefined,
      );
      if (!choice) break;
      bought.push(choice);
    }
    if (bought.length < choices.length) continue;
    const used = [...new Set(bought.map(({ place }) => place))];
    const cost = sumMoney(
      [...bought.map((one) => one.cost), ...used.map((place) => charge.get(names[place]!) ?? 0)],
      money.currency,
    );
    if (best === undefined || cost < best.cost) best = { cost, bought };
  }
  return best ? best.bought.map(({ bought }) => bought) : cheapest;
}

interface Choice {
  readonly place: number;
  readonly bought: Purchase;
  readonly cost: number;
}

/** The cheapest purchase of an item at each supplier that has it. */
const byPlace = (priced: PricedItem, short: number, names: readonly string[], money: OwnMoney): Choice[] =>
  names.flatMap((name, place): Choice[] => {
    const offers = priced.offers.filter(({ row }) => nameKey(row.supplier) === name);
    if (offers.length === 0) return [];
    const bought = purchase({ ...priced, offers }, short);
    return [{ place, bought, cost: money.of(bought.cost, priced.currency) ?? bought.cost }];
  });
