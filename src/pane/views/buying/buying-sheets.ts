/** What the view reads of the workbook: parts, joints, prices, stock, purchases and the terms of buying. */
import type { OwnRivets } from '../../../core/fastener';
import type { PriceBook } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import {
  gatherNeeds,
  shoppingList,
  type Need,
  type OnHand,
  type ShoppingList,
  type ShoppingTerms,
} from '../../../core/shopping';
import {
  BUYING_SHEET,
  HARDWARE_FORM,
  sheetsNamed,
  pricedRivets,
  JOINTS,
  numberIn,
  OWN_RIVETS_SHEET,
  PARTS,
  PURCHASES,
  readBuying,
  readHardware,
  readParts,
  readPurchases,
  readSheet,
  readStockSheet,
  STOCK,
  USUAL_CUTTING,
  usualTerms,
  type ProjectPrices,
  type ProjectSheets,
  type WantedSheets,
  type CuttingTerms,
  type HardwareSheet,
  type PartsList,
  type Problem,
  type PurchasesSheet,
  type SheetValues,
  type StockSheet,
} from '../../../project';
import { cellName, textIn } from '../../../sheet';
import { cuttingGroups, type CuttingGroup } from './cutting-needs';

export interface BuyingSheets {
  readonly parts: PartsList | undefined;
  readonly stock: StockSheet | undefined;
  readonly purchases: PurchasesSheet | undefined;
  /** False where the workbook has no sheet Buying. */
  readonly hasTerms: boolean;
  readonly terms: ShoppingTerms;
  readonly cutting: CuttingTerms;
  /** What is to be cut, by material and gauge. */
  readonly groups: readonly CuttingGroup[];
  readonly book: PriceBook;
  /** 'unread' where none of its rows can be read. */
  readonly prices: 'none' | 'empty' | 'unread' | 'read';
  readonly needs: readonly Need[];
  readonly onHand: readonly OnHand[];
  /** By area and length, without regard to plans. */
  readonly list: ShoppingList;
  /** What the view is shown in. */
  readonly units: UnitSystem;
  /** Rows of the parts list that say no price item, or not how much of it they take. */
  readonly silent: number;
  readonly problems: readonly Problem[];
}

/** What the view shows is read whole, with the lists that are matched and the price list. */
export const buyingSheets: WantedSheets = (there) => [
  ...[
    ...sheetsNamed(
      there,
      PARTS.sheet,
      JOINTS.sheet,
      HARDWARE_FORM.sheet,
      STOCK.sheet,
      PURCHASES.sheet,
      BUYING_SHEET,
      OWN_RIVETS_SHEET,
    ),
    ...there.matched,
    ...(there.prices ? [there.prices.sheet] : []),
  ].map((sheet) => ({ sheet })),
];

export function readBuyingSheets({ values, prices, units }: ProjectSheets): BuyingSheets {
  const { own, book, problems: ownProblems } = pricedRivets(values, prices, units);
  const currency = mostUsed(book.list.rows.map((row) => row.currency));
  const terms = readBuying(values, currency, units);
  const parts = readParts(values, units);
  const stock = readStockSheet(values, units);
  const purchases = readPurchases(values);
  const used: ShoppingTerms = { ...(terms?.terms ?? usualTerms(currency)), ...(own ? { own } : {}) };
  const hardware = readHardware(values);
  const needs = needsOf(parts, values, { book, own, hardware });
  const onHand = onHandOf(stock);
  const list = shoppingList({ needs, bought: purchases?.purchases ?? [], onHand, book, terms: used });
  return {
    parts,
    stock,
    purchases,
    hasTerms: terms !== undefined,
    terms: used,
    cutting: terms?.cutting ?? USUAL_CUTTING,
    groups: cuttingGroups(parts?.rows ?? [], units),
    book,
    prices: stateOf(prices),
    units,
    needs,
    onHand,
    list,
    silent: (parts?.rows ?? []).filter(({ item, use }) => item === '' || use === undefined).length,
    problems: [
      ...[terms, stock, purchases, hardware].flatMap((read) => read?.problems ?? []),
      ...ownProblems,
      ...unclearIn(purchases, list),
    ],
  };
}

/** Purchases whose quantity may be pieces, hundreds or pounds. */
function unclearIn(purchases: PurchasesSheet | undefined, { unclear }: ShoppingList): Problem[] {
  if (!purchases) return [];
  const { sheet, columns } = purchases.form;
  return purchases.purchases
    .filter((one) => unclear.includes(one))
    .map(({ row, units, item }) => ({
      sheet,
      cell: cellName(row, columns.units ?? 0),
      message: `is ${units}, but ${item} is sold in several sale units: type which one in a column Sold by. It does not count as had until then`,
    }));
}

function stateOf(prices: ProjectPrices | undefined): BuyingSheets['prices'] {
  if (!prices) return 'none';
  const { list } = prices.book;
  if (list.rows.length > 0) return 'read';
  return list.problems.length > 0 ? 'unread' : 'empty';
}

function needsOf(
  parts: PartsList | undefined,
  values: SheetValues,
  {
    book,
    own,
    hardware,
  }: {
    readonly book: PriceBook;
    readonly own: OwnRivets | undefined;
    readonly hardware: HardwareSheet | undefined;
  },
): Need[] {
  return gatherNeeds(
    parts?.rows ?? [],
    (readSheet(values, JOINTS)?.rows ?? []).map(({ cells }) => ({
      component: textIn(cells.component),
      rivet: textIn(cells.rivet),
      count: numberIn(cells.count) ?? 0,
    })),
    book,
    own,
    (hardware?.rows ?? []).map(({ component, item, quantity, weight }) => ({
      component,
      item,
      count: quantity,
      each: weight === undefined || quantity === 0 ? undefined : weight / quantity,
    })),
  );
}

/** Stock that shortens the list: a sheet by its area, a bar by its length. */
const onHandOf = (stock: StockSheet | undefined): OnHand[] =>
  (stock?.pieces ?? []).flatMap(({ takesOff, name, length, width = 1, available = 1 }) =>
    takesOff ? [{ item: name, quantity: length * width * available }] : [],
  );

function mostUsed(codes: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const code of codes) if (code !== '') counts.set(code, (counts.get(code) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? '';
}
