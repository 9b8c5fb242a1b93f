/** What a project takes of each item: the parts' use, the joints' rivets and the hardware, gathered by item. */
import { designationOf, rivet, rivetsAmong, rivetWeight, sortOf, type OwnRivets } from '../fastener';
import { unlessRefused } from '../input-error';
import { entryOf } from '../memoized';
import type { PriceKind, Measure, PriceBook, Offer } from '../price';
import { distinctNames, nameKey, sameName } from '../names';
import { fromUnit, type Unit } from '../quantity';

// Kinds of hardware, as far as a builder buys spares of them differently.

export const HARDWARE = ['sheet', 'bar', 'solid rivet', 'blind rivet', 'other'] as const;
export type Hardware = (typeof HARDWARE)[number];

/**
 * Bought beyond the need, as a share: of sheet and bar for what cutting wastes, of rivets for the bent, the
 * dropped and the drilled out. Common practice, no source: put your own in.
 */
export const DEFAULT_SPARES: Readonly<Record<Hardware, number>> = {
  sheet: 0.15,
  bar: 0.1,
  'solid rivet': 0.15,
  'blind rivet': 0.1,
  other: 0,
};

/** The kind of an item of the price list; a rivet that is no known designation counts as solid unless its name says blind. */
export function hardwareOf(item: string, kind: PriceKind, own?: OwnRivets): Hardware {
  if (kind !== 'rivet') return kind;
  return unlessRefused(
    () => `${sortOf(rivet(item, 'item', own))} rivet` as const,
    () => (/blind|pop|pull/i.test(item) ? 'blind rivet' : 'solid rivet'),
  );
}

export interface PartUse {
  readonly component: string;
  readonly item: string;
  /** Of the item for all pieces, in its unit of use. */
  readonly use: number | undefined;
  /** What `use` is in, by what the item is used by; in², in and lb where it is left out. */
  readonly useUnits?: Readonly<Partial<Record<Measure, Unit>>> | undefined;
}

export interface JointUse {
  readonly component: string;
  /** Designation. */
  readonly rivet: string;
  readonly count: number;
}

/** Hardware of its own sheet: pieces of an item. */
interface PieceUse {
  readonly component: string;
  readonly item: string;
  readonly count: number;
  /** lb of one, for what is sold by weight. */
  readonly each: number | undefined;
}

export interface Need {
  /** As the price list spells it, where it has it. */
  readonly item: string;
  /** in², in, pieces or lb. */
  readonly quantity: number;
  /** Components that take it. */
  readonly uses: readonly string[];
}

/** Finds the price list's own spelling of an item: a rivet by its designation, whatever series it is named by. */
export function itemNames(book: PriceBook, own?: OwnRivets): (item: string) => string {
  const rivets = rivetsAmong(book.items, own);
  const spelled = new Map(book.items.map((item) => [nameKey(item), item]));
  return (item) => spelled.get(nameKey(item)) ?? rivets.get(designationOf(item, own) ?? '') ?? item;
}

/** Needs in the order in which they come first. Rows without an item or a use are passed over. */
export function gatherNeeds(
  parts: readonly PartUse[],
  joints: readonly JointUse[],
  book: PriceBook,
  own?: OwnRivets,
  hardware: readonly PieceUse[] = [],
): Need[] {
  const nameOf = itemNames(book, own);
  const needs = new Map<string, { item: string; quantity: number; uses: string[] }>();
  const add = (item: string, quantity: number, component: string): void => {
    if (item.trim() === '' || !(quantity > 0)) return;
    const name = nameOf(item);
    const need = entryOf(needs, nameKey(name), () => ({ item: name, quantity: 0, uses: [] }));
    need.quantity += quantity;
    need.uses.push(component);
  };
  for (const { item, use, useUnits, component } of parts)
    add(item, fromUnit(use ?? 0, useUnits?.[measureOf(nameOf(item), book) ?? 'pieces']), component);
  for (const joint of joints) add(joint.rivet, quantityOf(joint, nameOf(joint.rivet), book, own), joint.component);
  for (const { item, count, each, component } of hardware) {
    const byWeight = each !== undefined && measureOf(nameOf(item), book) === 'weight';
    add(item, byWeight ? count * each : count, component);
  }
  return [...needs.values()].map(({ item, quantity, uses }) => ({ item, quantity, uses: distinctNames(uses) }));
}

/** Undefined for what the price list does not hold: then nobody knows what its use is in. */
const measureOf = (item: string, book: PriceBook): Measure | undefined =>
  book.has(item) ? unlessRefused(() => book.find(item).measure) : undefined;

/** Pieces, or pounds where the price list's item is used by weight. */
const quantityOf = (
  { rivet: name, count }: JointUse,
  item: string,
  book: PriceBook,
  own: OwnRivets | undefined,
): number =>
  unlessRefused(
    () => (measureOf(item, book) === 'weight' ? count * rivetWeight(rivet(name, 'rivet', own), 'bought') : count),
    () => count,
  );

// An item that a cutting plan takes in whole sheets or bars: then the plan says how many are bought, and not the area.

/** Whole sheets or bars of one size that a plan takes of the price list. */
export interface PlannedStock {
  readonly pieces: number;
  /** in² or in of one. */
  readonly contents: number;
  /** Of a sheet, in. */
  readonly size?: { readonly length: number; readonly width: number } | undefined;
}

/** Quantities in the item's unit of use: in² of sheet, in of bar. */
export interface PlannedItem {
  readonly item: string;
  /** What of the need the plan's parts are: the rest is counted by area or length. */
  readonly covers: number;
  /** Empty where the plan takes nothing of the item but what is on the shelf. */
  readonly stock: readonly PlannedStock[];
  /** Of that stock what becomes no part: what has no cut size is cut from it. */
  readonly free: number;
  /** What the plan takes from the shelf. */
  readonly shelf: number;
  /** Of it what is not known to come from elsewhere: a leftover of a sheet that was bought is no second sheet. */
  readonly again: number;
  /** Parts that are cut from that. */
  readonly againParts: number;
}

/** One kind of sheet or bar that is bought for a need. */
export interface PlannedNeed {
  /** Undefined where the plan takes none. */
  readonly stock: PlannedStock | undefined;
  readonly offers: readonly Offer[];
  /** Share of the need that is counted here. */
  readonly share: number;
  readonly spares: number;
  /** What must be at hand, of it `besides` beyond the plan's pieces. */
  readonly target: number;
  readonly besides: number;
  /** What the plan takes from the shelf, without what was bought. */
  readonly shelf: number;
}

/** Plans of several gauges that take the same item, as one; undefined where there is none. */
export function planOf(
  item: string,
  plans: readonly PlannedItem[],
  nameOf: (item: string) => string,
): PlannedItem | undefined {
  const own = plans.filter((plan) => sameName(nameOf(plan.item), item));
  if (own.length === 0) return undefined;
  const sum = (key: 'covers' | 'free' | 'shelf' | 'again' | 'againParts'): number =>
    own.reduce((total, plan) => total + plan[key], 0);
  return {
    item,
    covers: sum('covers'),
    stock: together(own.flatMap(({ stock }) => stock)),
    free: sum('free'),
    shelf: sum('shelf'),
    again: sum('again'),
    againParts: sum('againParts'),
  };
}

function together(stock: readonly PlannedStock[]): PlannedStock[] {
  const sizes: { -readonly [K in keyof PlannedStock]: PlannedStock[K] }[] = [];
  for (const one of stock) {
    const known = sizes.find((size) => sameSize(size, one));
    if (known) known.pieces += one.pieces;
    else sizes.push({ ...one });
  }
  return sizes;
}

const SAME = 1e-6;
const near = (one: number, other: number): boolean => Math.abs(one - other) <= SAME * Math.max(one, other);

const sameSize = (one: PlannedStock, other: PlannedStock): boolean =>
  near(one.contents, other.contents) &&
  (one.size === undefined
    ? other.size === undefined
    : other.size !== undefined && near(one.size.length, other.size.length) && near(one.size.width, other.size.width));

/** Offers of the plan's sizes first: a purchase does not say its size, and is taken to be one that the plan asks for. */
export const plannedFirst = (offers: readonly Offer[], { stock }: PlannedItem): Offer[] => {
  const isPlanned = ({ contents, row }: Offer): boolean =>
    stock.some((one) => sameSize({ pieces: 0, contents, size: row.size }, one));
  return [...offers.filter(isPlanned), ...offers.filter((offer) => !isPlanned(offer))];
};

/**
 * What is bought by the plan, size by size. Rows without a cut size are counted by area with their spares, as far as
 * what the plan's sheets have free does not hold them; so are the parts that it cuts from what was bought already.
 *
 * @param spareOf what is bought beyond a quantity
 */
export function plannedNeeds(
  quantity: number,
  bought: number,
  plan: PlannedItem,
  offers: readonly Offer[],
  spareOf: (quantity: number) => number,
): PlannedNeed[] {
  const rest = Math.max(0, quantity - plan.covers);
  const restSpares = spareOf(rest);
  const againParts = Math.min(bought, plan.againParts);
  const besides = Math.max(0, rest + restSpares + againParts + spareOf(againParts) - Math.max(0, plan.free));
  // What the plan's sheets have room for is no spare that is bought.
  const spares = besides > 0 ? restSpares : 0;
  const shelf = plan.shelf - Math.min(bought, plan.again);
  if (plan.stock.length === 0) return [{ stock: undefined, offers, share: 1, spares, target: besides, besides, shelf }];
  const planned = plan.stock.reduce((sum, { pieces, contents }) => sum + pieces * contents, 0);
  return plan.stock.map((stock, index) => {
    const own = offers.filter(({ contents, row }) => sameSize({ pieces: 0, contents, size: row.size }, stock));
    const pieces = stock.pieces * stock.contents;
    const extra = index === 0 ? besides : 0;
    return {
      stock,
      offers: own.length > 0 ? own : offers,
      share: pieces / planned,
      spares: index === 0 ? spares : 0,
      target: pieces + extra,
      besides: extra,
      shelf: index === 0 ? shelf : 0,
    };
  });
}
