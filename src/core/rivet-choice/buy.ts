/** What an option's rivets cost at the counter: whole pounds, hundreds and packs, breaks used. */
import { naturalOrder } from '../names';
import { piecesPerPound, rivet as readRivet, rivetWeight, type OwnRivets, type Rivet } from '../fastener';
import { InputError } from '../input-error';
import { openPriceBook, purchase, sumMoney, type PriceBook, type PricedItem, type Purchase } from '../price';

export interface LengthNeed {
  readonly rivet: Rivet;
  readonly count: number;
  /** Undefined where the price list cannot say. */
  readonly purchase: Purchase | undefined;
  readonly currency: string;
  /** Why there is no price. */
  readonly problem: InputError | undefined;
}

export interface Material {
  /** By designation: shortest of the slimmest first. */
  readonly lengths: readonly LengthNeed[];
  /** Undefined where a price is missing. */
  readonly cost: number | undefined;
  readonly currency: string;
  /** A message for each length without a price. */
  readonly missing: readonly string[];
}

/** Prices by a rivet's one spelling, whatever name the list gives it (AN470 for MS20470). */
export type RivetPrices = (rivet: Rivet) => PricedItem;

export function rivetPrices(book: PriceBook, own?: OwnRivets): RivetPrices {
  const names = new Map<string, string>();
  for (const item of book.items) {
    try {
      const { designation } = readRivet(item, 'item', own);
      if (!names.has(designation)) names.set(designation, item);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
  }
  return ({ designation }) => book.find(names.get(designation) ?? designation);
}

/** A price list in which own rivets that are sold by weight count the pieces of their own weight. */
export const bookWithRivets = (book: PriceBook, own: OwnRivets | undefined): PriceBook =>
  own ? openPriceBook(book.list, (item) => piecesPerPound(item, own)) : book;

/** The rivets of an option bought once for all joints. */
export function buyRivets(
  needs: readonly { readonly rivet: Rivet; readonly count: number }[],
  prices: RivetPrices,
): Material {
  const byName = new Map<string, { rivet: Rivet; count: number }>();
  for (const { rivet, count } of needs) {
    const same = byName.get(rivet.designation);
    if (same) same.count += count;
    else if (count > 0) byName.set(rivet.designation, { rivet, count });
  }
  const lengths = [...byName.values()]
    .sort((a, b) => naturalOrder(a.rivet.designation, b.rivet.designation))
    .map(({ rivet, count }) => buy(rivet, count, prices));
  const missing = lengths.flatMap(({ problem }) => (problem ? [problem.message] : []));
  const currencies = [...new Set(lengths.filter((one) => one.purchase).map((one) => one.currency))];
  if (currencies.length > 1)
    missing.push(
      `prices: got ${currencies.map((code) => code || 'no currency').join(' and ')}; takes one currency for the rivets of an option`,
    );
  const currency = currencies[0] ?? '';
  const cost =
    missing.length > 0
      ? undefined
      : sumMoney(
          lengths.map((one) => one.purchase!.cost),
          currency,
        );
  return { lengths, cost, currency, missing };
}

function buy(rivet: Rivet, count: number, prices: RivetPrices): LengthNeed {
  try {
    const item = prices(rivet);
    const amount =
      item.measure === 'pieces' ? count : item.measure === 'weight' ? count * rivetWeight(rivet, 'bought') : undefined;
    if (amount === undefined)
      throw new InputError('item', item.item, 'a price by the piece or by weight: its Kind is "rivet"');
    return { rivet, count, purchase: purchase(item, amount), currency: item.currency, problem: undefined };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { rivet, count, purchase: undefined, currency: '', problem: error };
  }
}
