/** Plans that have been made: what the shopping list takes from them, and what one that was cut changes on the sheet Stock. */
import { sameName } from '../../../core/names';
import { fromUnit, inUnit } from '../../../core/quantity';
import { shoppingList, type PlannedItem, type ShoppingList } from '../../../core/shopping';
import { partsOf, planLeftovers, type CuttingPlan } from '../../../core/stock';
import type { FormSheet, StockPiece, StockSheetKey } from '../../../project';
import type { Cell, Edit } from '../../../sheet';
import { rowBelow, writeCell } from '../../shared/edits';
import type { BuyingSheets } from './buying-sheets';
import { planRequest, stockKey, type CuttingGroup, type PlanRequest, type StockSource } from './cutting-needs';

export interface MadePlan {
  readonly plan: CuttingPlan;
  readonly request: PlanRequest;
  /** Where each stock of the request comes from, by its stockKey. */
  readonly sources: ReadonlyMap<string, StockSource>;
  /** True once its leftovers were put on the sheet Stock. */
  readonly cut: boolean;
}

/** Plans by the name of their group. */
export type MadePlans = ReadonlyMap<string, MadePlan>;

/** Whether a plan still fits the sheets: fresh, stale, or cut. It is cut where only the stock has changed since, because the plan used it up. */
export type Standing = 'fresh' | 'cut' | 'stale';

export function standingOf({ cut, request }: MadePlan, group: CuttingGroup, sheets: BuyingSheets): Standing {
  const now = planRequest(group, sheets);
  if (isSame(now, request)) return 'fresh';
  return cut && isSame({ ...now, stock: [] }, { ...request, stock: [] }) ? 'cut' : 'stale';
}

/** However long either may take. */
const isSame = (one: PlanRequest, other: PlanRequest): boolean =>
  JSON.stringify({ ...one, seconds: 0 }) === JSON.stringify({ ...other, seconds: 0 });

/** The shopping list with as many sheets and bars as the plans need that still hold; where there is no such plan, the list by area and length. */
export function listByPlans(sheets: BuyingSheets, made: MadePlans): ShoppingList {
  const plans = sheets.groups.flatMap((group) => {
    const own = made.get(group.name);
    const holds = own && own.plan.missing.length === 0 && standingOf(own, group, sheets) !== 'stale';
    return holds ? plannedItems(group, own) : [];
  });
  return plans.length === 0
    ? sheets.list
    : shoppingList({ ...sheets, bought: sheets.purchases?.purchases ?? [], plans });
}

function plannedItems(group: CuttingGroup, { plan, sources }: MadePlan): PlannedItem[] {
  const names = [...new Set(group.parts.map(({ item }) => item).filter((item) => item !== ''))];
  const items = names.map((item) => ({
    item,
    covers: coveredBy(group, item),
    stock: [] as PlannedItem['stock'][number][],
    free: 0,
    shelf: 0,
    again: 0,
    againParts: 0,
  }));
  const [first] = items;
  if (!first) return [];
  for (const pattern of plan.patterns) {
    const from = sources.get(stockKey({ ...pattern, name: pattern.stock }))?.from;
    if (!from) continue;
    const parts = partsOf(pattern);
    const width = 'strips' in pattern ? pattern.width : undefined;
    if ('piece' in from) {
      const taken = pattern.length * (width ?? 1) * pattern.times;
      first.shelf += taken;
      if (!from.piece.takesOff) {
        first.again += taken;
        first.againParts += parts;
      }
    } else {
      const own = items.find(({ item }) => sameName(item, from.item)) ?? first;
      own.stock.push({
        pieces: pattern.times,
        contents: from.contents,
        size: width === undefined ? undefined : { length: pattern.length, width },
      });
      own.free += from.contents * pattern.times - parts;
    }
  }
  return items;
}

/** What the rows of the plan say that they take of the item, in² or in. */
const coveredBy = ({ parts, kind }: CuttingGroup, item: string): number =>
  parts.reduce(
    (sum, part) =>
      part.item === item ? sum + fromUnit(part.use ?? 0, part.useUnits?.[kind === 'sheets' ? 'area' : 'length']) : sum,
    0,
  );

// A plan that was cut

export interface ShelfChange {
  readonly edits: readonly Edit[];
  /** Leftovers that are written, and pieces of the sheet Stock that are taken off, in pieces. */
  readonly put: number;
  readonly taken: number;
}

/** Pieces of the sheet Stock that the plan spends, where their number is limited. */
export const spent = ({ plan, sources }: MadePlan): { readonly piece: StockPiece; readonly used: number }[] =>
  plan.stockUsed.flatMap((use) => {
    const from = sources.get(stockKey(use))?.from;
    return from && 'piece' in from && from.piece.available !== undefined && use.used > 0
      ? [{ piece: from.piece, used: use.used }]
      : [];
  });

/** How many pieces would be written, and how many taken off. */
export const shelfCounts = (made: MadePlan): Pick<ShelfChange, 'put' | 'taken'> => ({
  put: planLeftovers(made.plan).reduce((sum, { count }) => sum + count, 0),
  taken: spent(made).reduce((sum, { used }) => sum + used, 0),
});

/**
 * The edits that put a cut plan's leftovers on the sheet Stock, and take off it what the plan has spent.
 * @param note says on the sheet where a leftover comes from
 */
export function shelfChange(
  made: MadePlan,
  group: CuttingGroup,
  form: FormSheet<StockSheetKey>,
  note: (stock: string) => string,
): ShelfChange {
  const { sheet, columns, units } = form;
  const write = (row: number, key: StockSheetKey, cell: Cell): Edit[] => {
    const column = columns[key];
    return column === undefined ? [] : [writeCell(sheet, row, column, cell)];
  };
  const taken = spent(made).flatMap(({ piece: { row, available = 0 }, used }): Edit[] =>
    used >= available
      ? (Object.keys(columns) as StockSheetKey[]).flatMap((key) => write(row, key, null))
      : write(row, 'available', available - used),
  );
  const { thickness, material } = group.parts[0]!;
  const nameOf = new Map(
    [...made.sources.values()].map(({ stock, from }) => [stock.name, 'piece' in from ? from.piece.name : from.item]),
  );
  const first = rowBelow(form);
  const put = planLeftovers(made.plan).flatMap(({ stock, length, width, count }, index): Edit[] => {
    const cells: Partial<Record<StockSheetKey, Cell>> = {
      name: nameOf.get(stock) ?? stock,
      ...(group.kind === 'sheets'
        ? {
            material,
            thickness: inUnit(thickness!, units.thickness),
            width: side(width!, form, 'width'),
            grain: 'along',
          }
        : {}),
      length: side(length, form, 'length'),
      available: count,
      offcut: 'yes',
      note: note(stock),
    };
    return (Object.keys(cells) as StockSheetKey[]).flatMap((key) => write(first + index, key, cells[key] ?? null));
  });
  return { edits: [...taken, ...put], ...shelfCounts(made) };
}

/** The smallest step of a length: a hundredth of a millimetre, or a thousandth of an inch. */
const STEP = { 'mm-kg': 0.01 / 25.4, 'in-lb': 0.001 } as const;

/** A side in the column's unit, rounded down, so that a leftover is never listed longer than it is. */
function side(inches: number, { units }: FormSheet<StockSheetKey>, key: 'length' | 'width'): number {
  const unit = units[key];
  const scale = Math.round(1 / inUnit(STEP[unit?.system ?? 'in-lb'], unit));
  return Math.floor(inUnit(inches, unit) * scale + 1e-6) / scale;
}
