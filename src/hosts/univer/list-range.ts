/** The list that a selection is about: the selected rows, the table under the cursor, or the filled cells around it. */
import type { Injector, IRange, Workbook as EngineWorkbook, Worksheet } from '@univerjs/core';
import type { Cell, RangeAddress } from '../../sheet';
import { fromCellData } from './cells';
import { toAddress } from './ranges';
import { spilledCells } from './spills';
import { tablesOf } from './tables';

export interface ListRange {
  /** With its row of headings. */
  readonly range: RangeAddress;
  readonly hasHeadings: boolean;
  /** Of a table its name: that its first row has headings is then settled. */
  readonly table?: string;
}

/** What cells of a sheet show: their values, or those that formulas spill over them. */
export function cellReader(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
): (row: number, column: number) => Cell {
  const cells = sheet.getCellMatrix();
  const spilled = spilledCells(injector, book.getUnitId(), sheet.getSheetId());
  return (row, column) => fromCellData(spilled?.[row]?.[column] ?? cells.getValue(row, column));
}

export const isBlank = (cell: Cell): boolean => cell === null || cell === '';

/** undefined where there is no list: a single cell with nothing around it. */
export function listAt(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  selected: IRange,
): ListRange | undefined {
  const name = sheet.getName();
  const read = cellReader(injector, book, sheet);
  const isSeveral = selected.endRow > selected.startRow && !isWholeLines(selected, sheet);
  if (isSeveral) {
    const range = toAddress(name, selected);
    return { range, hasHeadings: looksLikeHeadings(range, read) };
  }
  const at = { row: selected.startRow, column: selected.startColumn };
  const table = tablesOf(injector, book).find(({ range }) => range.sheet === name && isInside(range, at));
  if (table) return { range: table.range, hasHeadings: true, table: table.name };
  const range = filledAround(name, at, read);
  return range && range.rows > 1 ? { range, hasHeadings: looksLikeHeadings(range, read) } : undefined;
}

const isWholeLines = ({ startRow, endRow, startColumn, endColumn }: IRange, sheet: Worksheet): boolean =>
  endRow - startRow + 1 >= sheet.getRowCount() ||
  endColumn - startColumn + 1 >= sheet.getColumnCount() ||
  Number.isNaN(startRow) ||
  Number.isNaN(startColumn);

const isInside = (range: RangeAddress, { row, column }: { row: number; column: number }): boolean =>
  row >= range.row && row < range.row + range.rows && column >= range.column && column < range.column + range.columns;

/** The filled cells that hang together around one: a blank row and a blank column end them. */
function filledAround(
  sheet: string,
  at: { readonly row: number; readonly column: number },
  read: (row: number, column: number) => Cell,
): RangeAddress | undefined {
  let [top, bottom, left, right] = [at.row, at.row, at.column, at.column];
  const rowHas = (row: number): boolean => {
    if (row < 0) return false;
    for (let column = Math.max(0, left - 1); column <= right + 1; column++)
      if (!isBlank(read(row, column))) return true;
    return false;
  };
  const columnHas = (column: number): boolean => {
    if (column < 0) return false;
    for (let row = Math.max(0, top - 1); row <= bottom + 1; row++) if (!isBlank(read(row, column))) return true;
    return false;
  };
  for (let grown = true; grown;) {
    grown = false;
    if (rowHas(top - 1)) [top, grown] = [top - 1, true];
    if (rowHas(bottom + 1)) [bottom, grown] = [bottom + 1, true];
    if (columnHas(left - 1)) [left, grown] = [left - 1, true];
    if (columnHas(right + 1)) [right, grown] = [right + 1, true];
  }
  return top === bottom && left === right
    ? undefined
    : { sheet, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** Headings are texts, each of them. */
function looksLikeHeadings(range: RangeAddress, read: (row: number, column: number) => Cell): boolean {
  const line = (row: number): Cell[] =>
    Array.from({ length: range.columns }, (_none, index) => read(row, range.column + index)).filter(
      (cell) => !isBlank(cell),
    );
  const first = line(range.row);
  return first.length > 0 && first.every((cell) => typeof cell === 'string') && range.rows > 1;
}
