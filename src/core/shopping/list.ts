/** The shopping list: what is still needed, by supplier, in whole sale units; what is spent, and what will be left over. */
import type { OwnRivets } from '../fastener';
import { extend, sumMoney, valueUsed, type Measure, type Purchase, type PriceBook, type PricedItem } from '../price';
import {
  hardwareOf,
  itemNames,
  plannedFirst,
  plannedNeeds,
  planOf,
  type Hardware,
  type Need,
  type PlannedItem,
} from './needs';
import { ownMoney, choosePurchases, type Rate, type SupplierTerms, type OwnMoney } from './choose';
import { NotListedError, unlessRefused } from '../input-error';
import { gathered, nameKey, sameName } from '../names';

// A shopping list as plain data: what it is asked for and what it says.

/** What has been bought already. */
export interface Bought {
  readonly item: string;
  readonly supplier: string;
  /** Sale units. */
  readonly units: number;
  /** What one of them is: "100", "lb"; '' or left out: as the supplier sells the item. */
  readonly soldBy?: string;
  readonly paid: number;
  /** ISO 4217 code; '' for the own currency. */
  readonly currency: string;
}

/** What is on the shelf and was not bought for this project. */
export interface OnHand {
  readonly item: string;
  /** in², in, pieces or lb. */
  readonly quantity: number;
}

export interface ShoppingTerms {
  /** The user's own currency, in which totals are. */
  readonly currency: string;
  readonly rates: readonly Rate[];
  /** Share that is bought beyond the need, by kind of hardware. */
  readonly spares: Readonly<Record<Hardware, number>>;
  readonly suppliers: readonly SupplierTerms[];
  /** The builder's own rivets. */
  readonly own?: OwnRivets;
}

/** How a cutting plan counts a line. */
export interface PlannedLine {
  /** Whole sheets or bars, those included that are bought already. */
  readonly pieces: number;
  /** Of a sheet, in. */
  readonly size: { readonly length: number; readonly width: number } | undefined;
  /** Sheets or bars that area or length and the spares would come to; undefined where the plan takes several sizes, or none. */
  readonly byMeasure: number | undefined;
  /** What is needed beyond the plan's pieces, in the unit of use: rows without a cut size. */
  readonly besides: number;
}

export interface ShoppingLine {
  readonly item: string;
  readonly hardware: Hardware;
  readonly measure: Measure;
  /** What the parts take, in the unit of use; `spares` comes on top of it. */
  readonly needed: number;
  readonly spares: number;
  readonly bought: number;
  readonly onHand: number;
  /** What is left to buy, 0 or more. */
  readonly short: number;
  readonly uses: readonly string[];
  /** Undefined where area, length, pieces or weight say what is bought. */
  readonly planned: PlannedLine | undefined;
  /** Undefined where nothing is left to buy. */
  readonly purchase: Purchase | undefined;
  /** Of the price. */
  readonly currency: string;
  /** In the own currency; undefined where there is no rate for its price. */
  readonly cost: number | undefined;
  /** True where more is bought than the quantity takes because that costs less. */
  readonly moreCostsLess: boolean;
  /** What lies about when everything is built, spares counted in, and what it is worth at the list's price. */
  readonly leftOver: number;
  readonly leftOverValue: number | undefined;
}

export interface SupplierOrder {
  /** '' where the price list names none. */
  readonly supplier: string;
  readonly lines: readonly ShoppingLine[];
  readonly goods: number;
  readonly freight: number;
  readonly cutting: number;
  /** goods + freight + cutting, to the cent. */
  readonly total: number;
}

/** A need that the price list cannot meet. */
export interface OtherUse {
  readonly item: string;
  readonly quantity: number;
  /** "not in the price list. Near to it: …", or what is wrong with its row there. */
  readonly message: string;
}

export interface ShoppingList {
  readonly currency: string;
  /** Dearest first. */
  readonly orders: readonly SupplierOrder[];
  /** Needs that are met already. */
  readonly met: readonly ShoppingLine[];
  /** Purchases of which nobody can tell what one sale unit holds: nothing of them counts as had. */
  readonly unclear: readonly Bought[];
  readonly unpriced: readonly OtherUse[];
  /** Sum of the orders. */
  readonly toBuy: number;
  /** Sum of what was paid. */
  readonly spent: number;
  /** spent + toBuy */
  readonly total: number;
  readonly leftOverValue: number;
  /** Amounts that no total holds, because their currency has no rate. */
  readonly withoutRate: readonly { readonly currency: string; readonly amount: number; readonly what: string }[];
}

interface Open {
  readonly need: Need;
  readonly priced: PricedItem;
  readonly hardware: Hardware;
  readonly spares: number;
  readonly bought: number;
  readonly onHand: number;
  readonly short: number;
  readonly planned?: PlannedLine;
}

/** What is short by less than this share of the need is rounding. */
const ROUNDING = 1e-9;

/** What a shopping list follows from, each from a sheet of its own. */
export interface ToBuy {
  /** By gatherNeeds. */
  readonly needs: readonly Need[];
  /** All purchases of the project. One of what no part takes counts as spent, too. */
  readonly bought: readonly Bought[];
  readonly onHand: readonly OnHand[];
  readonly book: PriceBook;
  readonly terms: ShoppingTerms;
  /** Cutting plans that hold: they say how many sheets or bars of their items are bought. */
  readonly plans?: readonly PlannedItem[];
}

export function shoppingList({ needs, bought, onHand, book, terms, plans = [] }: ToBuy): ShoppingList {
  const money = ownMoney(terms.currency, terms.rates);
  const unpriced: OtherUse[] = [];
  const nameOf = itemNames(book, terms.own);
  const open = needs.flatMap((need) =>
    unlessRefused(
      () => openNeeds(need, book.find(need.item), { bought, onHand, terms, nameOf }, planOf(need.item, plans, nameOf)),
      (error) => {
        const message =
          error instanceof NotListedError
            ? `not in the price list${error.guess === undefined ? '' : `. ${error.guess}`}`
            : error.message;
        unpriced.push({ item: need.item, quantity: need.quantity, message });
        return [];
      },
    ),
  );
  const short = open.filter((one) => one.short > 0);
  const purchases = choosePurchases(short, terms.suppliers, money);
  const unclear = bought.filter(
    (one) =>
      one.units > 0 &&
      open.some(
        ({ need, priced, planned }) =>
          !planned && isItem(one, need.item, nameOf) && contentsBought(priced, one) === undefined,
      ),
  );
  const lines = short.map((one, index) => lineOf(one, purchases[index], money));
  const met = open.filter((one) => one.short === 0).map((one) => lineOf(one, undefined, money));
  const orders = ordersOf(lines, terms, money);
  const sum = (amounts: readonly (number | undefined)[]): number =>
    sumMoney(
      amounts.filter((amount) => amount !== undefined),
      money.currency,
    );
  const toBuy = sum(orders.map(({ total }) => total));
  const spent = sum(bought.map(({ paid, currency }) => money.of(paid, currency)));
  return {
    currency: money.currency,
    orders,
    met,
    unpriced,
    unclear,
    toBuy,
    spent,
    total: sum([toBuy, spent]),
    leftOverValue: sum([...lines, ...met].map(({ leftOverValue }) => leftOverValue)),
    withoutRate: [
      ...bought.flatMap(({ item, paid, currency }) =>
        money.of(paid, currency) === undefined ? [{ currency, amount: paid, what: item }] : [],
      ),
      ...lines.flatMap(({ cost, purchase, currency, item }) =>
        cost === undefined && purchase ? [{ currency, amount: purchase.cost, what: item }] : [],
      ),
    ],
  };
}

const isItem = ({ item }: { readonly item: string }, name: string, nameOf: (item: string) => string): boolean =>
  sameName(nameOf(item), name);

/** One for a need, and one for each size of sheet or bar that a plan takes for it. */
function openNeeds(
  need: Need,
  priced: PricedItem,
  { bought, onHand, terms, nameOf }: Pick<ToBuy, 'bought' | 'onHand' | 'terms'> & { nameOf: (item: string) => string },
  plan: PlannedItem | undefined,
): Open[] {
  const isIt = (one: { readonly item: string }): boolean => isItem(one, need.item, nameOf);
  const hardware = hardwareOf(priced.item, priced.offers[0]!.row.kind, terms.own);
  const spareOf = (quantity: number): number => {
    const extra = quantity * terms.spares[hardware];
    // Pieces are whole.
    return priced.measure === 'pieces' ? Math.max(0, Math.ceil(extra - ROUNDING * quantity)) : extra;
  };
  const extra = spareOf(need.quantity);
  // What was bought without saying how is what the plan cuts, where there is one.
  const planned = plan ? plannedFirst(priced.offers, plan)[0]!.contents : 0;
  const had = bought.filter(isIt).reduce((sum, one) => sum + one.units * (contentsBought(priced, one) ?? planned), 0);
  if (plan) return plannedOpen({ need, priced, hardware, bought: had }, plan, spareOf);
  const shelf = onHand.filter(isIt).reduce((sum, { quantity }) => sum + quantity, 0);
  const rest = need.quantity + extra - had - shelf;
  return [
    {
      need,
      priced,
      hardware,
      spares: extra,
      bought: had,
      onHand: shelf,
      short: rest > need.quantity * ROUNDING ? rest : 0,
    },
  ];
}

function plannedOpen(
  { need, priced, hardware, bought: had }: Pick<Open, 'need' | 'priced' | 'hardware' | 'bought'>,
  plan: PlannedItem,
  spareOf: (quantity: number) => number,
): Open[] {
  let left = had;
  const needs = plannedNeeds(need.quantity, had, plan, priced.offers, spareOf);
  return needs.map(({ stock, offers, share, spares, target, besides, shelf }, index) => {
    // The last size takes what was bought of others.
    const bought = index === needs.length - 1 ? left : Math.min(left, target);
    left -= bought;
    const short = target - bought;
    const byMeasure =
      stock && needs.length === 1 ? (need.quantity + spareOf(need.quantity)) / stock.contents : undefined;
    return {
      need: { ...need, quantity: need.quantity * share },
      priced: { ...priced, offers },
      hardware,
      spares,
      bought,
      onHand: shelf,
      short: short > need.quantity * ROUNDING ? short : 0,
      planned: { pieces: stock?.pieces ?? 0, size: stock?.size, byMeasure, besides },
    };
  });
}

/**
 * What the sale units of a purchase hold: in the sale unit that it names, else as its supplier sells the item, else as
 * all do. Undefined where that leaves several, since 2 may then be two pieces, two hundred or two pounds.
 */
function contentsBought({ offers, measure }: PricedItem, { supplier, soldBy = '' }: Bought): number | undefined {
  const known = [offers.filter(({ row }) => sameName(row.supplier, supplier)), offers].map((some) =>
    some.filter(({ row }) => soldBy === '' || row.soldBy === soldBy),
  );
  const contents = new Set((known.find((some) => some.length > 0) ?? []).map((one) => one.contents));
  if (contents.size === 1) return [...contents][0];
  return contents.size === 0 && measure === 'pieces' ? PIECES_IN[soldBy] : undefined;
}

const PIECES_IN: Readonly<Record<string, number>> = { each: 1, '100': 100, '1000': 1000 };

function lineOf(
  { need, priced, hardware, spares, bought, onHand, short, planned }: Open,
  purchase: Purchase | undefined,
  money: OwnMoney,
): ShoppingLine {
  const leftOver = Math.max(0, bought + onHand + (purchase?.quantity ?? 0) - need.quantity);
  return {
    item: need.item,
    hardware,
    measure: priced.measure,
    needed: need.quantity,
    spares,
    bought,
    onHand,
    short,
    uses: need.uses,
    planned,
    purchase,
    currency: priced.currency,
    cost: purchase && money.of(purchase.cost, priced.currency),
    moreCostsLess:
      purchase !== undefined && purchase.units > Math.max(1, Math.ceil(short / purchase.offer.contents - ROUNDING)),
    leftOver,
    leftOverValue: money.of(valueUsed(priced, leftOver), priced.currency),
  };
}

function ordersOf(
  lines: readonly ShoppingLine[],
  { suppliers }: ShoppingTerms,
  { currency }: OwnMoney,
): SupplierOrder[] {
  const bySupplier = gathered(lines, (line) => nameKey(line.purchase!.offer.row.supplier));
  const orders = [...bySupplier].map(([key, own]): SupplierOrder => {
    const charges = suppliers.find(({ supplier }) => nameKey(supplier) === key);
    const goods = sumMoney(
      own.flatMap(({ cost }) => (cost === undefined ? [] : [cost])),
      currency,
    );
    const freight = sumMoney([charges?.freight ?? 0], currency);
    const cutting = extend(charges?.cutCharge ?? 0, charges?.cuts ?? 0, currency);
    return {
      supplier: own[0]!.purchase!.offer.row.supplier,
      lines: own,
      goods,
      freight,
      cutting,
      total: sumMoney([goods, freight, cutting], currency),
    };
  });
  return orders.sort((a, b) => b.total - a.total || a.supplier.localeCompare(b.supplier, 'en'));
}
