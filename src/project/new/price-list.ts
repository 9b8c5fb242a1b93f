/** The edits that make a price list: the table, its choices and formats, and invented rows that show how each kind is written. */
import { PRICE_TABLE } from '../prices';
import {
  PRICE_COLUMNS,
  PRICE_KINDS,
  pricePlaces,
  SALE_UNITS,
  serialFromIso,
  type PriceColumnKey,
} from '../../core/price';
import type { Cell, Edit, RangeAddress, TableModel } from '../../sheet';
import { choicesWidth } from './plan';

export const DATE_FORMAT = 'yyyy-mm-dd';
const PRICE_FORMAT = '0.00##';

type ExampleRow = Partial<Record<PriceColumnKey, Cell>>;

const INVENTED = 'invented example, put your own';

/** Sizes carry their unit, so that they read the same in a metric workbook. */
const EXAMPLES: readonly ExampleRow[] = [
  {
    item: 'Sheet 2024-T3 .025',
    kind: 'sheet',
    soldBy: 'sheet',
    contents: '48 x 144 in',
    price: 150,
    supplier: 'Example Metals',
  },
  {
    item: 'Sheet 2024-T3 .025',
    kind: 'sheet',
    soldBy: 'sheet',
    contents: '48 x 144 in',
    price: 130,
    from: 5,
    supplier: 'Example Metals',
  },
  {
    item: 'Sheet 6061-T6 .032',
    kind: 'sheet',
    soldBy: 'sheet',
    contents: '48 x 96 in',
    price: 90,
    supplier: 'Example Metals',
  },
  {
    item: 'Angle 3/4 x 3/4 x 1/8',
    kind: 'bar',
    soldBy: 'each',
    contents: '12 ft',
    price: 24,
    supplier: 'Example Metals',
  },
  { item: 'MS20470AD3-3', kind: 'rivet', soldBy: 'lb', price: 40, supplier: 'Example Fasteners' },
  { item: 'MS20426AD3-4', kind: 'rivet', soldBy: 'lb', price: 45, supplier: 'Example Fasteners' },
  { item: 'BLIND-AA-41', kind: 'rivet', soldBy: 100, price: 12, supplier: 'Example Fasteners' },
  { item: 'Hinge pin .090', kind: 'other', soldBy: 'pack', contents: 10, price: 20, supplier: 'Example Fasteners' },
  { item: 'ISO 4017 M5x16', kind: 'other', soldBy: 100, price: 6, supplier: 'Example Fasteners' },
];

/**
 * Rows of an example list in the list's own column order; one quote is old, so that the word for it is seen.
 * @param today "2026-03-31"
 */
export function examplePrices(today: string): Cell[][] {
  const [year, rest] = [today.slice(0, 4), today.slice(4)];
  const lastYear = `${Number(year) - 1}${rest === '-02-29' ? '-02-28' : rest}`;
  return EXAMPLES.map((row, index) =>
    PRICE_COLUMNS.map(({ key }): Cell => {
      if (key === 'currency') return 'USD';
      if (key === 'note') return INVENTED;
      if (key === 'quotedOn') return serialFromIso(index === 2 ? lastYear : today) ?? null;
      return row[key] ?? null;
    }),
  );
}

/** One row without anything, which a table needs that has no other. */
export const blankPrices = (): Cell[][] => [PRICE_COLUMNS.map(() => null)];

/** Widths in characters, by column. */
const WIDTHS: Readonly<Record<PriceColumnKey, number>> = {
  item: 26,
  kind: 8,
  soldBy: 9,
  contents: 13,
  price: 10,
  currency: 10,
  from: 8,
  supplier: 20,
  quotedOn: 12,
  note: 34,
};

/** A new price list with rows, on a sheet that is added or empty: a table with headers, choices, formats. */
export function newPriceList(sheet: string, addSheet: boolean, rows: readonly (readonly Cell[])[]): Edit[] {
  const columns = PRICE_COLUMNS.map(({ label }) => label);
  const range: RangeAddress = { sheet, row: 0, column: 0, rows: rows.length + 1, columns: columns.length };
  return [
    ...(addSheet ? [{ kind: 'addSheet', name: sheet } as const] : []),
    { kind: 'write', range, cells: [columns, ...rows] },
    ...priceTable({ name: PRICE_TABLE, range, columns }),
    ...PRICE_COLUMNS.map(({ key, choices }, column): Edit => ({
      kind: 'format',
      range: { ...range, column, columns: 1 },
      columnWidth: Math.max(WIDTHS[key], choicesWidth(choices)),
    })),
    { kind: 'freeze', sheet, rows: 1, columns: 1 },
  ];
}

/** Makes a table of a range that has the list's header row already. */
export function priceTable(table: TableModel): Edit[] {
  const { name, range, columns } = table;
  return [
    { kind: 'addTable', name, range },
    { kind: 'format', range: { ...range, rows: 1 }, bold: true },
    ...priceRowLooks(table, pricePlaces(columns), 0, range.rows - 1),
  ];
}

/** How the cells of columns look, and what they offer. */
const COLUMN_LOOKS = {
  kind: { kind: 'choices', choices: PRICE_KINDS },
  soldBy: { kind: 'choices', choices: SALE_UNITS },
  quotedOn: { kind: 'format', numberFormat: DATE_FORMAT },
  price: { kind: 'format', numberFormat: PRICE_FORMAT },
} as const;

/** Dates, prices and choices of some data rows as the list has them. */
export const priceRowLooks = (
  { range }: TableModel,
  places: ReadonlyMap<PriceColumnKey, number>,
  row: number,
  rows: number,
): Edit[] =>
  Object.entries(COLUMN_LOOKS).flatMap(([key, look]): Edit[] => {
    const place = places.get(key as keyof typeof COLUMN_LOOKS);
    if (place === undefined) return [];
    const { sheet, row: top, column } = range;
    return [{ ...look, range: { sheet, row: top + 1 + row, column: column + place, rows, columns: 1 } }];
  });
