/** The report's section on hardware: pieces by item, what they weigh, what that rests on and what they cost. */
import { ByName } from '../core/names';
import { CostSum, type Cost } from '../core/price';
import type { Quantities } from '../core/quantity';
import { currencyOfItems, readHardware, type HardwareSheet, type ProjectSheets } from '../project';
import { section, table, type Html } from './html';
import { costColumn, numberColumn, quantityColumns } from './numbers';

interface HardwareLine {
  readonly item: string;
  count: number;
  weight: number;
  readonly bases: Set<string>;
  readonly costs: Cost;
}

/** One line an item, in the order of the sheet. */
function linesOf({ rows, form }: HardwareSheet, currencyOf: (item: string) => string): HardwareLine[] {
  const lines = new ByName((item): HardwareLine & { readonly costs: CostSum } => ({
    item,
    count: 0,
    weight: 0,
    bases: new Set(),
    costs: new CostSum(),
  }));
  for (const { item, quantity, weight = 0, cost, basis } of rows) {
    if (item === '') continue;
    const line = lines.get(item);
    line.count += quantity;
    line.weight += weight;
    if (basis !== '') line.bases.add(basis);
    if (cost !== undefined) line.costs.add(cost, currencyOf(item));
    else if (form.columns.cost !== undefined) line.costs.addUnpriced();
  }
  return lines.entries().map(({ value }) => value);
}

/** Undefined without a sheet Hardware that has a row. */
export function hardwareSection({ values, prices }: ProjectSheets, costs: Cost, say: Quantities): Html | undefined {
  const sheet = readHardware(values);
  const lines = sheet ? linesOf(sheet, currencyOfItems(prices?.book)) : [];
  if (lines.length === 0) return undefined;
  const quantity = quantityColumns(say);
  const sum = (key: 'count' | 'weight'): number => lines.reduce((all, line) => all + line[key], 0);
  return section(
    'Hardware',
    table<HardwareLine>({
      columns: [
        { head: 'Item', cell: ({ item }) => item },
        numberColumn('Number', undefined, 0, ({ count }) => count),
        quantity('Weight', 'weight', 3, ({ weight }) => weight),
        { head: 'Weight from', cell: ({ bases }) => [...bases].join('; ') },
        costColumn(prices?.currency ?? '', (line) => line.costs),
      ],
      rows: lines,
      total: { item: 'Total', count: sum('count'), weight: sum('weight'), bases: new Set(), costs },
    }),
  );
}
