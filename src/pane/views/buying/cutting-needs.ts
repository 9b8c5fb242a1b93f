/** What is to be cut of each material and gauge, and from which stock. */
import { sameName } from '../../../core/names';
import { InputError } from '../../../core/input-error';
import type { Offer, PriceBook } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { ownMoney, type ShoppingTerms } from '../../../core/shopping';
import {
  isPriced,
  type BarPart,
  type BarStock,
  type CutLists,
  type SheetPart,
  type SheetStock,
} from '../../../core/stock';
import type { CuttingTerms, PartRow, StockPiece, StockSheet } from '../../../project';
import { textOrder } from '../../locale';
import { gaugeText } from './buying-words';

export interface CuttingGroup {
  /** "6061-T6 0.025 in" in the workbook's units, or a bar's price item. */
  readonly name: string;
  readonly kind: CutLists['kind'];
  readonly parts: readonly PartRow[];
  /** Rows of the material without a size: in no plan. */
  readonly unsized: readonly PartRow[];
}

/** A plan as it is asked for: plain data, which goes to a worker as it is. Lengths in inches. */
export type PlanRequest = CutLists & {
  readonly kerf: number;
  readonly scrapBelow: number;
  readonly keepFrom: number;
  readonly seconds: number;
};

/** Gauges closer than this are one: a parts list may say 0.0253 for 22 gauge. */
const SAME_GAUGE = 0.0008;

/** Sheet by material and gauge, then bars by price item; only what has a row with a size. */
export function cuttingGroups(rows: readonly PartRow[], units: UnitSystem): CuttingGroup[] {
  const groups: {
    name: string;
    kind: CutLists['kind'];
    parts: PartRow[];
    unsized: PartRow[];
    material: string;
    thickness: number;
  }[] = [];
  for (const row of rows) {
    const { material, thickness, cutLength, cutWidth, item } = row;
    const sheet = thickness !== undefined && material !== '';
    if (!sheet && (cutLength === undefined || item === '')) continue;
    const kind = sheet ? 'sheets' : 'bars';
    const known = groups.find(
      (group) =>
        group.kind === kind &&
        (sheet
          ? sameName(group.material, material) && Math.abs(group.thickness - thickness) < SAME_GAUGE
          : sameName(group.name, item)),
    );
    const group = known ?? {
      name: sheet ? `${material} ${gaugeText(thickness, units)}` : item,
      kind,
      parts: [],
      unsized: [],
      material,
      thickness: thickness ?? 0,
    };
    if (!known) groups.push(group);
    const sized = cutLength !== undefined && (!sheet || cutWidth !== undefined) && row.quantity >= 1;
    (sized ? group.parts : group.unsized).push(row);
  }
  return groups
    .filter(({ parts }) => parts.length > 0)
    .sort(
      (a, b) =>
        b.kind.localeCompare(a.kind) ||
        (a.material === b.material && a.thickness - b.thickness) ||
        textOrder().compare(a.name, b.name),
    );
}

/** Area of the rows without a size, in². */
export const unsizedArea = ({ unsized }: CuttingGroup): number =>
  unsized.reduce((sum, { area = 0, quantity }) => sum + area * quantity, 0);

/** What a plan goes by, each from a sheet of its own. */
export interface PlanSheets {
  readonly stock: Pick<StockSheet, 'pieces'> | undefined;
  readonly book: PriceBook;
  readonly terms: ShoppingTerms;
  readonly cutting: CuttingTerms;
}

export function planRequest(group: CuttingGroup, sheets: PlanSheets, seconds = 0): PlanRequest {
  const { kerf, scrapBelow, keepFrom, turn } = sheets.cutting;
  const limits = { kerf, scrapBelow, keepFrom, seconds };
  const sources = [...cuttingStock(group, sheets).values()].map(({ stock }) => stock);
  if (group.kind === 'bars') return { kind: 'bars', parts: group.parts.map(barPart), stock: sources, ...limits };
  const parts = group.parts.map((row): SheetPart => ({
    ...barPart(row),
    width: row.cutWidth!,
    lie: row.grain ?? (turn ? 'any' : 'along'),
  }));
  return { kind: 'sheets', parts, stock: sources.flatMap((one) => ('width' in one ? [one] : [])), ...limits };
}

const barPart = ({ component, part, cutLength, quantity }: PartRow): BarPart => ({
  name: `${component}: ${part}`,
  length: cutLength!,
  quantity: Math.ceil(quantity),
});

/** Stock of a plan and where it comes from: a row of the sheet Stock, or an item of the price list. */
export interface StockSource {
  readonly stock: BarStock | SheetStock;
  readonly from: { readonly piece: StockPiece } | { readonly item: string; readonly contents: number };
}

/** The stock of a plan in the order of the request, by what tells it apart: no two have the same name and size. */
export function cuttingStock(group: CuttingGroup, { stock, book, terms }: PlanSheets): Map<string, StockSource> {
  const all = [...onShelf(group, stock?.pieces ?? []), ...toBeHad(group, book, terms)];
  // Stock without a price is not free: beside stock that has a cost it is left out.
  const priced = all.some(({ stock: one }) => isPriced(one));
  const sources = new Map<string, StockSource>();
  for (const { stock: own, from } of all) {
    if (priced && own.offcut !== true && own.cost === undefined) continue;
    let named = own;
    for (let times = 2; sources.has(stockKey(named)); times += 1) named = { ...own, name: `${own.name} (${times})` };
    sources.set(stockKey(named), { stock: named, from });
  }
  return sources;
}

/** What tells the stock of one plan apart. */
export const stockKey = (stock: {
  readonly name: string;
  readonly length: number;
  readonly width?: number | undefined;
}): string => JSON.stringify([stock.name, stock.length, stock.width ?? 0]);

/** Rows of the sheet Stock that the parts can be cut from: of their material and gauge, or called by their price item. */
function onShelf({ kind, parts }: CuttingGroup, stock: readonly StockPiece[]): StockSource[] {
  const [first] = parts;
  return stock
    .filter(({ name, width }) => (kind === 'sheets') === (width !== undefined) && name !== '')
    .filter(
      ({ name, material, thickness }) =>
        (kind === 'sheets' &&
          sameName(material, first!.material) &&
          thickness !== undefined &&
          Math.abs(thickness - first!.thickness!) < SAME_GAUGE) ||
        parts.some(({ item }) => item !== '' && sameName(item, name)),
    )
    .map((piece) => ({
      stock: {
        name: piece.name,
        length: piece.length,
        ...(piece.cost === undefined ? {} : { cost: piece.cost }),
        offcut: piece.offcut,
        ...(piece.width === undefined ? {} : { width: piece.width }),
        ...(piece.available === undefined ? {} : { available: piece.available }),
      },
      from: { piece },
    }));
}

/** What the price list sells of the parts' items in whole sheets or bars, at the price without a quantity break. */
function toBeHad({ kind, parts }: CuttingGroup, book: PriceBook, terms: ShoppingTerms): StockSource[] {
  const money = ownMoney(terms.currency, terms.rates);
  return [...new Set(parts.map(({ item }) => item).filter((item) => item !== ''))]
    .flatMap((item) => offersOf(item, book))
    .flatMap(({ row, contents, breaks }): StockSource[] => {
      const cost = money.of(breaks[0]!.price, row.currency) ?? breaks[0]!.price;
      const name = row.supplier ? `${row.item}, ${row.supplier}` : row.item;
      const from = { item: row.item, contents };
      if (kind === 'sheets') return row.size ? [{ stock: { name, ...row.size, cost }, from }] : [];
      return row.measure === 'length' && row.soldBy === 'each'
        ? [{ stock: { name, length: contents, cost }, from }]
        : [];
    });
}

function offersOf(item: string, book: PriceBook): readonly Offer[] {
  try {
    return book.find(item).offers;
  } catch (error) {
    // The shopping list says what is wrong with the item; here it gives no stock.
    if (error instanceof InputError) return [];
    throw error;
  }
}
