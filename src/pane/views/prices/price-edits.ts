/** What the pane does to the price table, as edits of the workbook. */
import type { PriceColumnKey } from '../../../core/price';
import { type CellInput, type Edit, type RangeAddress, type TableModel } from '../../../sheet';
import { DATE_FORMAT, priceRowLooks } from '../../../project';
import type { Places, RawLine } from './lines';

/** One cell of data row `row` of a table. */
const cellRange = ({ range }: TableModel, row: number, place: number): RangeAddress => ({
  sheet: range.sheet,
  row: range.row + 1 + row,
  column: range.column + place,
  rows: 1,
  columns: 1,
});

/** Writes some fields of one row; the row's other cells are left alone. */
export function writeFields(
  table: TableModel,
  places: Places,
  row: number,
  fields: ReadonlyMap<PriceColumnKey, CellInput>,
): Edit[] {
  const edits: Edit[] = [];
  for (const [key, input] of fields) {
    const place = places.get(key);
    if (place === undefined) continue;
    const range = cellRange(table, row, place);
    edits.push({ kind: 'write', range, cells: [[input]] });
    if (key === 'quotedOn' && typeof input === 'number')
      edits.push({ kind: 'format', range, numberFormat: DATE_FORMAT });
  }
  return edits;
}

/** A whole table row from fields; columns that are the user's own are blank. */
export function tableRow(
  table: TableModel,
  places: Places,
  fields: ReadonlyMap<PriceColumnKey, CellInput>,
): CellInput[] {
  const row: CellInput[] = table.columns.map(() => null);
  for (const [key, input] of fields) {
    const place = places.get(key);
    if (place !== undefined) row[place] = input;
  }
  return row;
}

/** Adds rows at the end: into blank rows that wait there, then below. Says where the first one went. */
export function addRows(
  table: TableModel,
  places: Places,
  lines: readonly RawLine[],
  rows: readonly (readonly CellInput[])[],
): { readonly edits: Edit[]; readonly at: number } {
  let at = lines.length;
  // A blank row is one without anything, the user's own columns included.
  while (
    at > 0 &&
    lines[at - 1]!.cells.every((cell) => cell === null || cell === '') &&
    lines[at - 1]!.formulas.every((formula) => formula === null)
  )
    at -= 1;
  const intoBlank = rows.slice(0, lines.length - at);
  const below = rows.slice(intoBlank.length);
  const edits: Edit[] = [];
  if (intoBlank.length > 0) {
    const range = { ...table.range, row: table.range.row + 1 + at, rows: intoBlank.length };
    edits.push({ kind: 'write', range, cells: intoBlank });
  }
  if (below.length > 0) edits.push({ kind: 'insertTableRows', table: table.name, at: lines.length, cells: below });
  edits.push(...priceRowLooks(table, places, at, rows.length));
  return { edits, at };
}

/** Removes a row; the last one is emptied instead, since a table keeps one. */
export function removeRow(table: TableModel, lines: number, row: number): Edit[] {
  if (lines > 1) return [{ kind: 'removeTableRows', table: table.name, at: row, count: 1 }];
  const range = { ...table.range, row: table.range.row + 1 + row, rows: 1 };
  return [{ kind: 'write', range, cells: [table.columns.map(() => null)] }];
}

/** All rows in another order. Only for a table without formulas, whose references a reordering would break. */
export function reorderRows(table: TableModel, lines: readonly RawLine[]): Edit[] {
  const range = { ...table.range, row: table.range.row + 1, rows: lines.length };
  return [{ kind: 'write', range, cells: lines.map(({ cells }) => [...cells]) }];
}
