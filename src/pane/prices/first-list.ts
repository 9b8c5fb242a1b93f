/** The price list that a workbook without one is given: headers, and invented rows that show how each kind is written. */
import { PRICE_COLUMNS, serialFromIso, type PriceColumnKey } from '../../core/price';
import type { Cell } from '../../functions';
import type { Workbook } from '../../workbook';
import { madeTable, newList } from './edits';
import { TABLE_NAME } from './lines';
import type { Candidate } from './state';

type ExampleRow = Partial<Record<PriceColumnKey, Cell>>;

const INVENTED = 'invented example, put your own';

const EXAMPLES: readonly ExampleRow[] = [
  { item: 'Sheet 2024-T3 .025', kind: 'sheet', soldBy: 'sheet', contents: '48 x 144', price: 148, supplier: 'Example Metals' },
  { item: 'Sheet 2024-T3 .025', kind: 'sheet', soldBy: 'sheet', contents: '48 x 144', price: 131.5, from: 5, supplier: 'Example Metals' },
  { item: 'Sheet 6061-T6 .040', kind: 'sheet', soldBy: 'sheet', contents: '48 x 96', price: 92.4, supplier: 'Example Metals' },
  { item: 'Angle 3/4 x 3/4 x 1/8', kind: 'bar', soldBy: 'each', contents: '12 ft', price: 23.7, supplier: 'Example Metals' },
  { item: 'MS20470AD4-4', kind: 'rivet', soldBy: 'lb', price: 31, supplier: 'Example Fasteners' },
  { item: 'MS20426AD3-4', kind: 'rivet', soldBy: 'lb', price: 36.5, supplier: 'Example Fasteners' },
  { item: 'Blind rivet 1/8 x 1/4', kind: 'rivet', soldBy: '100', price: 11.2, supplier: 'Example Fasteners' },
  { item: 'Hinge pin .090', kind: 'other', soldBy: 'pack', contents: 10, price: 18.9, supplier: 'Example Fasteners' },
];

/** The example's cells in the list's own column order; one quote is old, so that the word for it is seen. */
function exampleRows(today: string): Cell[][] {
  const [year = '2026', rest = '-01-01'] = [today.slice(0, 4), today.slice(4)];
  const lastYear = `${Number(year) - 1}${rest === '-02-29' ? '-02-28' : rest}`;
  return EXAMPLES.map((row, index) =>
    PRICE_COLUMNS.map(({ key }): Cell => {
      if (key === 'currency') return 'USD';
      if (key === 'note') return INVENTED;
      if (key === 'quotedOn') return serialFromIso(index === 2 ? lastYear : today) ?? null;
      const cell = row[key] ?? null;
      return cell === '100' ? 100 : cell;
    }),
  );
}

/** Adds a sheet with a price list of examples; gives the sentences that say what was added. */
export async function makeList(workbook: Workbook, today: string): Promise<string> {
  const { name, add } = await freeSheet(workbook);
  const rows = exampleRows(today);
  await workbook.apply('Add a price list', newList(name, add, TABLE_NAME, rows));
  return `Added the sheet ${name} with the table ${TABLE_NAME}: ${PRICE_COLUMNS.length} columns, choices for Kind and Sold by, and ${rows.length} invented example rows, marked so in their notes. Put your own prices in their place.`;
}

/** Makes rows that read as a price list the table; gives the sentences that say what was done. */
export async function makeTableOf(workbook: Workbook, candidate: Candidate): Promise<string> {
  await workbook.apply('Make the price list a table', madeTable({ name: TABLE_NAME, ...candidate }));
  return `The rows on the sheet ${candidate.range.sheet} are the table ${TABLE_NAME} now, with choices for Kind and Sold by. Nothing in the cells was changed.`;
}

/** A sheet for the list: an empty one of its name, else a new one. */
async function freeSheet(workbook: Workbook): Promise<{ readonly name: string; readonly add: boolean }> {
  const names = new Map((await workbook.sheets()).map(({ name }) => [name.toLowerCase(), name]));
  const own = names.get(TABLE_NAME.toLowerCase());
  if (own === undefined) return { name: TABLE_NAME, add: true };
  if ((await workbook.usedRange(own)) === undefined) return { name: own, add: false };
  let number = 2;
  while (names.has(`${TABLE_NAME} ${number}`.toLowerCase())) number += 1;
  return { name: `${TABLE_NAME} ${number}`, add: true };
}
