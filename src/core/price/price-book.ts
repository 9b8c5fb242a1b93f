/**
 * A price list opened for look-ups: an item's offers (one for each supplier, sale unit and contents)
 * with their price breaks, what one unit of use costs, and what a quantity costs at the counter.
 */
import { InputError, NotListedError } from '../input-error';
import { gathered, nameKey, nearItems } from '../names';
import { POUNDS_IN_KILOGRAM, type Measure } from './columns';
import { extend, shareOf } from './money';
import type { PriceList, PriceRow } from './read-price-list';

/** Pieces in one pound of an item as it is bought, from its computed weight; undefined where it is no known rivet. */
export type PiecesPerPound = (item: string) => number | undefined;

export interface Offer {
  /** The row of the lowest break. */
  readonly row: PriceRow;
  /** in², in, pieces or lb in one sale unit. */
  readonly contents: number;
  /** By from-quantity, lowest first. */
  readonly breaks: readonly { readonly from: number; readonly price: number }[];
}

export interface PricedItem {
  readonly item: string;
  readonly measure: Measure;
  readonly currency: string;
  /** Cheapest first, by the price of one unit of use at the lowest break. */
  readonly offers: readonly Offer[];
}

/** What is bought so that a quantity is at hand. */
export interface Purchase {
  readonly offer: Offer;
  /** Whole sale units. */
  readonly units: number;
  /** Price of one sale unit at the break that is reached. */
  readonly price: number;
  /** Rounded half up to the currency's minor unit. */
  readonly cost: number;
  /** What the units hold, in the unit of use. */
  readonly quantity: number;
  readonly leftOver: number;
}

export interface PriceBook {
  readonly list: PriceList;
  /** The names of all items, once each, as they are written first. */
  readonly items: readonly string[];
  /** Throws NotListedError where the item is not in the list, InputError where its row has a problem. */
  find(item: string): PricedItem;
  has(item: string): boolean;
}

/** Opens a price list; `piecesPerPound` serves rivets that are sold by weight. */
export function openPriceBook(list: PriceList, piecesPerPound: PiecesPerPound = () => undefined): PriceBook {
  const byItem = gathered(list.rows, ({ item }) => nameKey(item));
  /** By key, and by every spelling that has been asked for. */
  const opened = new Map<string, PricedItem>();
  return {
    list,
    items: [...byItem.values()].map((rows) => rows[0]!.item),
    has: (item) => byItem.has(nameKey(item)),
    find(item) {
      const asWritten = opened.get(item);
      if (asWritten) return asWritten;
      const key = nameKey(item);
      const rows = byItem.get(key);
      // A wrong row is not passed over: the item would be priced without one of its breaks or suppliers.
      if (!rows || list.problems.some((problem) => nameKey(problem.item) === key))
        throw missing(
          item,
          list,
          [...byItem.values()].map((some) => some[0]!.item),
        );
      const priced = opened.get(key) ?? price(rows, piecesPerPound);
      opened.set(key, priced).set(item, priced);
      return priced;
    },
  };
}

function missing(item: string, list: PriceList, names: readonly string[]): InputError {
  const whole = list.problems.find((problem) => problem.item === '' && problem.message.includes('header'));
  if (whole)
    return new InputError('prices', 'a range without them', `the price list with its header row (${whole.message})`);
  const own = list.problems.find((problem) => nameKey(problem.item) === nameKey(item));
  if (own) return new InputError('item', item, `an item whose row in the price list is right (${own.message})`);
  const near = nearItems(item, names);
  return new NotListedError(
    'item',
    item,
    'an item of the price list',
    near.length > 0 ? `Near to it: ${near.join(', ')}` : undefined,
  );
}

function price(rows: readonly PriceRow[], piecesPerPound: PiecesPerPound): PricedItem {
  const first = rows[0]!;
  const { measure, currency } = first;
  for (const row of rows) {
    if (row.measure !== measure)
      throw new InputError(
        'item',
        first.item,
        `an item that is used in one unit: rows ${first.row} and ${row.row} of the price list differ in what they count`,
      );
    if (row.currency !== currency)
      throw new InputError(
        'item',
        first.item,
        `an item priced in one currency: row ${first.row} of the price list has ${first.currency || 'none'}, row ${row.row} ${row.currency || 'none'}`,
      );
  }
  const byOffer = gathered(rows, (row) => `${nameKey(row.supplier)}|${row.soldBy}|${row.contents ?? ''}`);
  const offers = [...byOffer.values()].map((some) => offer(some, piecesPerPound));
  offers.sort((a, b) => a.breaks[0]!.price / a.contents - b.breaks[0]!.price / b.contents);
  return { item: first.item, measure, currency, offers };
}

function offer(rows: readonly PriceRow[], piecesPerPound: PiecesPerPound): Offer {
  const breaks = rows.map(({ from, price: each }) => ({ from, price: each })).sort((a, b) => a.from - b.from);
  const row = rows.find(({ from }) => from === breaks[0]!.from)!;
  return { row, contents: row.contents ?? piecesByWeight(row, piecesPerPound), breaks };
}

function piecesByWeight(row: PriceRow, piecesPerPound: PiecesPerPound): number {
  const pieces = piecesPerPound(row.item);
  if (pieces === undefined || !(pieces > 0)) {
    throw new InputError(
      'item',
      row.item,
      `a rivet's designation, since it is sold by weight (row ${row.row} of the price list), or its pieces per ${row.soldBy} under Contents`,
    );
  }
  return row.soldBy === 'kg' ? pieces * POUNDS_IN_KILOGRAM : pieces;
}

/**
 * Price of one in², in, piece or lb. Without a quantity it is that of the lowest break of the cheapest
 * offer; with one, that of the break at which the quantity is bought. Not rounded.
 */
export function priceEach(item: PricedItem, quantity?: number): number {
  if (quantity === undefined || quantity === 0) return item.offers[0]!.breaks[0]!.price / item.offers[0]!.contents;
  const bought = purchase(item, quantity);
  return bought.price / bought.offer.contents;
}

/**
 * Value of what is used, at the lowest break's price and with no rounding up to sale units; rounded to
 * the minor unit, so that a column of values adds up to what is shown. The lowest break is taken
 * because a part's value should not depend on how much of the item other parts need.
 */
export function valueUsed(item: PricedItem, quantity: number): number {
  const { breaks, contents } = item.offers[0]!;
  return shareOf(breaks[0]!.price, quantity, contents, item.currency);
}

/** A quantity that exceeds a whole number of sale units by less than this share is that number: the rest is rounding. */
const SLACK = 1e-9;

/**
 * The cheapest way to have `quantity` at hand: every offer and every break is tried, also buying up to a
 * break where that costs less. At equal cost the fewer units, then the offer first in the list.
 */
export function purchase(item: PricedItem, quantity: number): Purchase {
  let best: Purchase | undefined;
  for (const one of item.offers) {
    const needed = quantity <= 0 ? 0 : Math.max(1, Math.ceil(quantity / one.contents - SLACK));
    for (const { from, price: each } of one.breaks) {
      const units = needed === 0 ? 0 : Math.max(needed, Math.ceil(from));
      const cost = extend(each, units, item.currency);
      if (best && (cost > best.cost || (cost === best.cost && units >= best.units))) continue;
      best = {
        offer: one,
        units,
        price: each,
        cost,
        quantity: units * one.contents,
        leftOver: Math.max(0, units * one.contents - quantity),
      };
    }
  }
  return best!;
}
