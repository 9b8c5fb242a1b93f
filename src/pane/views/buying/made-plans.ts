/** Plans that have been made, and what the shopping list takes from them. */
import { sameName } from '../../../core/names';
import { fromUnit } from '../../../core/quantity';
import { shoppingList, type PlannedItem, type ShoppingList } from '../../../core/shopping';
import { partsOf, type CuttingPlan } from '../../../core/stock';
import {
  cuttingStock,
  planRequest,
  stockKey,
  type CuttingGroup,
  type PlanRequest,
  type StockSource,
} from './cutting-needs';
import type { BuyingSheets } from './buying-sheets';

export interface MadePlan {
  readonly plan: CuttingPlan;
  readonly request: PlanRequest;
  /** Where each stock of the request comes from. */
  readonly sources: readonly StockSource[];
  /** True once its leftovers were put on the sheet Stock. */
  readonly cut: boolean;
}

/** Plans by the name of their group. */
export type MadePlans = ReadonlyMap<string, MadePlan>;

export const requestOf = (
  group: CuttingGroup,
  { stock, book, terms, cutting }: BuyingSheets,
  seconds = 0,
): PlanRequest => planRequest(group, { stock: stock?.pieces ?? [], book, terms, cutting }, seconds);

export const sourcesOf = (group: CuttingGroup, { stock, book, terms }: BuyingSheets): StockSource[] =>
  cuttingStock(group, stock?.pieces ?? [], book, terms);

/** Whether a plan still fits the sheets: fresh, stale, or cut. It is cut where only the stock has changed since, because the plan used it up. */
export type Standing = 'fresh' | 'cut' | 'stale';

export function standingOf({ cut, request }: MadePlan, group: CuttingGroup, sheets: BuyingSheets): Standing {
  const now = requestOf(group, sheets);
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
  const byKey = new Map(sources.map((source) => [stockKey(source.stock), source]));
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
    const source = byKey.get(stockKey({ ...pattern, name: pattern.stock }));
    if (!source) continue;
    const { from } = source;
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
