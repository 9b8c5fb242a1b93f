/** What the pane does to the price table, as edits of the workbook. */
import { PRICE_COLUMNS, priceColumn, PRICE_KINDS, SALE_UNITS, type PriceColumnKey } from '../../core/price';
import type { Cell } from '../../functions';
import type { CellInput, Edit, RangeAddress, TableModel } from '../../workbook';
import type { Places, PriceLine } from './lines';

export const DATE_FORMAT = 'yyyy-mm-dd';
const PRICE_FORMAT = '0.00##';

/** One cell of data row `row` of a table. */
const cellRange = ({ range }: TableModel, row: number, place: number): RangeAddress => ({ sheet: range.sheet, row: range.row + 1 + row, column: range.column + place, rows: 1, columns: 1 });

/** A column of data rows, from `row` on. */
const columnRange = (table: TableModel, row: number, rows: number, place: number): RangeAddress => ({ ...cellRange(table, row, place), rows });

/** Writes some fields of one row; the row's other cells are left alone. */
export function writeFields(table: TableModel, places: Places, row: number, fields: ReadonlyMap<PriceColumnKey, CellInput>): Edit[] {
  const edits: Edit[] = [];
  for (const [key, input] of fields) {
    const place = places.get(key);
    if (place === undefined) continue;
    const range = cellRange(table, row, place);
    edits.push({ kind: 'write', range, cells: [[input]] });
    if (key === 'quotedOn' && typeof input === 'number') edits.push({ kind: 'format', range, numberFormat: DATE_FORMAT });
  }
  return edits;
}

/** A whole table row from fields; columns that are the user's own are blank. */
export function tableRow(table: TableModel, places: Places, fields: ReadonlyMap<PriceColumnKey, CellInput>): CellInput[] {
  const row: CellInput[] = table.columns.map(() => null);
  for (const [key, input] of fields) {
    const place = places.get(key);
    if (place !== undefined) row[place] = input;
  }
  return row;
}

/** Adds rows at the end: into blank rows that wait there, then below. Says where the first one went. */
export function addRows(table: TableModel, places: Places, lines: readonly PriceLine[], rows: readonly (readonly CellInput[])[]): { readonly edits: Edit[]; readonly at: number } {
  let at = lines.length;
  // A blank row is one without anything, the user's own columns included.
  while (at > 0 && lines[at - 1]!.cells.every((cell) => cell === null || cell === '') && lines[at - 1]!.formulas.every((formula) => formula === null)) at -= 1;
  const intoBlank = rows.slice(0, lines.length - at);
  const below = rows.slice(intoBlank.length);
  const edits: Edit[] = [];
  if (intoBlank.length > 0) {
    const range = { ...table.range, row: table.range.row + 1 + at, rows: intoBlank.length };
    edits.push({ kind: 'write', range, cells: intoBlank });
  }
  if (below.length > 0) edits.push({ kind: 'insertTableRows', table: table.name, at: lines.length, cells: below });
  edits.push(...rowLooks(table, places, at, rows.length));
  return { edits, at };
}

/** Dates, prices and choices of some rows as the list has them. */
function rowLooks(table: TableModel, places: Places, row: number, rows: number): Edit[] {
  const edits: Edit[] = [];
  const at = (key: PriceColumnKey): RangeAddress | undefined => {
    const place = places.get(key);
    return place === undefined ? undefined : columnRange(table, row, rows, place);
  };
  const [kind, soldBy, quotedOn, price] = [at('kind'), at('soldBy'), at('quotedOn'), at('price')];
  if (kind) edits.push({ kind: 'choices', range: kind, choices: PRICE_KINDS });
  if (soldBy) edits.push({ kind: 'choices', range: soldBy, choices: SALE_UNITS });
  if (quotedOn) edits.push({ kind: 'format', range: quotedOn, numberFormat: DATE_FORMAT });
  if (price) edits.push({ kind: 'format', range: price, numberFormat: PRICE_FORMAT });
  return edits;
}

/** Removes a row; the last one is emptied instead, since a table keeps one. */
export function removeRow(table: TableModel, lines: number, row: number): Edit[] {
  if (lines > 1) return [{ kind: 'removeTableRows', table: table.name, at: row, count: 1 }];
  const range = { ...table.range, row: table.range.row + 1 + row, rows: 1 };
  return [{ kind: 'write', range, cells: [table.columns.map(() => null)] }];
}

/** All rows in another order. Only for a table without formulas, whose references a reordering would break. */
export function reorderRows(table: TableModel, lines: readonly PriceLine[]): Edit[] {
  const range = { ...table.range, row: table.range.row + 1, rows: lines.length };
  return [{ kind: 'write', range, cells: lines.map(({ cells }) => [...cells]) }];
}

/** Widths in characters, by column. */
const WIDTHS: Readonly<Record<PriceColumnKey, number>> = { item: 26, kind: 8, soldBy: 9, contents: 13, price: 10, currency: 10, from: 8, supplier: 20, quotedOn: 12, note: 34 };

/** A new price list with rows, on a sheet that is added or empty: a table with headers, choices, formats. */
export function newList(sheet: string, addSheet: boolean, name: string, rows: readonly (readonly Cell[])[]): Edit[] {
  const columns = PRICE_COLUMNS.map(({ header }) => header);
  const range: RangeAddress = { sheet, row: 0, column: 0, rows: rows.length + 1, columns: columns.length };
  return [
    ...(addSheet ? [{ kind: 'addSheet', name: sheet } as const] : []),
    { kind: 'write', range, cells: [columns, ...rows] },
    ...madeTable({ name, range, columns }),
    ...PRICE_COLUMNS.map(({ key }, column): Edit => ({ kind: 'format', range: { ...range, column, columns: 1 }, columnWidth: WIDTHS[key] })),
  ];
}

/** Makes a table of a range that has the list's header row already. */
export function madeTable(table: TableModel): Edit[] {
  const { name, range, columns } = table;
  const places = new Map(PRICE_COLUMNS.map(({ key }) => [key, columns.findIndex((label) => label.trim().toLowerCase() === priceColumn(key).header.toLowerCase())]).filter(([, place]) => (place as number) >= 0) as [PriceColumnKey, number][]);
  return [
    { kind: 'addTable', name, range },
    { kind: 'format', range: { ...range, rows: 1 }, bold: true },
    ...rowLooks(table, places, 0, range.rows - 1),
  ];
}
