/** What the pane does to the price table, as edits of the workbook, and how a workbook without one is given one. */
import { PRICE_COLUMNS, priceColumn, type PriceColumnKey } from '../../../core/price';
import { DATE_FORMAT, examplePrices, newPriceList, PRICE_TABLE, priceRowLooks, priceTable } from '../../../project';
import { freeSheetName, type CellInput, type Edit, type TableModel, type Workbook } from '../../../sheet';
import { t } from '../../locale';
import { addTableRows } from '../../shared/edits';
import type { ListCandidate, RawLine, Rows } from './lines';

/** Fields of a row in the table's columns; undefined where there is no field. */
export function inColumns(
  { table, places }: Pick<Rows, 'table' | 'places'>,
  fields: ReadonlyMap<PriceColumnKey, CellInput>,
): (CellInput | undefined)[] {
  const inputs = new Map([...fields].map(([key, input]) => [places.get(key), input]));
  return table.columns.map((_, place) => inputs.get(place));
}

/** Writes some cells of data row `row`; those that are undefined are left alone. */
export const writeCells = (
  { table: { range }, places }: Pick<Rows, 'table' | 'places'>,
  row: number,
  cells: readonly (CellInput | undefined)[],
): Edit[] =>
  cells.flatMap((cell, place): Edit[] => {
    if (cell === undefined) return [];
    const at = { ...range, row: range.row + 1 + row, column: range.column + place, rows: 1, columns: 1 };
    const isDate = place === places.get('quotedOn') && typeof cell === 'number';
    return [
      { kind: 'write', range: at, cells: [[cell]] },
      ...(isDate ? [{ kind: 'format', range: at, numberFormat: DATE_FORMAT } as const] : []),
    ];
  });

/** Adds rows at the end: into blank rows that wait there, then below. */
export function addRows(
  { table, places, rows: lines }: Rows,
  rows: readonly (readonly (CellInput | undefined)[])[],
): Edit[] {
  // A blank row is one without anything, the user's own columns included.
  const isFilled = ({ cells, formulas }: RawLine): boolean =>
    cells.some((cell) => cell !== null && cell !== '') || formulas.some((formula) => formula !== null);
  const at = lines.findLastIndex(isFilled) + 1;
  return [
    ...addTableRows(
      table,
      at,
      rows.map((row) => row.map((cell) => cell ?? null)),
    ),
    ...priceRowLooks(table, places, at, rows.length),
  ];
}

/** Removes a row; the last one is emptied instead, since a table keeps one. */
export function removeRow({ table, rows }: Rows, row: number): Edit[] {
  if (rows.length > 1) return [{ kind: 'removeTableRows', table: table.name, at: row, count: 1 }];
  const range = { ...table.range, row: table.range.row + 1 + row, rows: 1 };
  return [{ kind: 'write', range, cells: [table.columns.map(() => null)] }];
}

/** All rows in another order. Only for a table without formulas, whose references a reordering would break. */
export const reorderRows = ({ range }: TableModel, lines: readonly RawLine[]): Edit => ({
  kind: 'write',
  range: { ...range, row: range.row + 1, rows: lines.length },
  cells: lines.map(({ cells }) => [...cells]),
});

/** Labels of the columns that have choices. */
const CHOSEN = { kind: priceColumn('kind').label, soldBy: priceColumn('soldBy').label };

/** Adds a sheet with a price list of examples; gives the sentences that say what was added. */
export async function makeList(workbook: Workbook, today: string): Promise<string> {
  const { name, add } = await freeSheet(workbook);
  const rows = examplePrices(today);
  await workbook.apply(t('Add a price list'), newPriceList(name, add, rows));
  return t(
    'Added the sheet {sheet} with the table {table}: {columns, number} columns, choices for {kind} and {soldBy}, and {rows, number} invented example rows, marked so in their notes. Put your own prices in their place.',
    {
      ...CHOSEN,
      sheet: name,
      table: PRICE_TABLE,
      columns: PRICE_COLUMNS.length,
      rows: rows.length,
    },
  );
}

/** Makes rows that read as a price list the table; gives the sentences that say what was done. */
export async function makeTableOf(workbook: Workbook, candidate: ListCandidate): Promise<string> {
  await workbook.apply(t('Make the price list a table'), priceTable({ name: PRICE_TABLE, ...candidate }));
  return t(
    'The rows on the sheet {sheet} are the table {table} now, with choices for {kind} and {soldBy}. Nothing in the cells was changed.',
    { ...CHOSEN, sheet: candidate.range.sheet, table: PRICE_TABLE },
  );
}

/** A sheet for the list: an empty one of its name, else a new one. */
async function freeSheet(workbook: Workbook): Promise<{ readonly name: string; readonly add: boolean }> {
  const names = new Map((await workbook.sheets()).map(({ name }) => [name.toLowerCase(), name]));
  const own = names.get(PRICE_TABLE.toLowerCase());
  if (own !== undefined && (await workbook.usedRange(own)) === undefined) return { name: own, add: false };
  return { name: freeSheetName(PRICE_TABLE, new Set(names.keys())), add: true };
}
