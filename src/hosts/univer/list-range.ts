/** The list that a selection is about: the selected rows, the table under the cursor, or the filled cells around it. */
import type { Injector, IRange, Workbook as EngineWorkbook, Worksheet } from '@univerjs/core';
import { isInRange, type Cell, type RangeAddress } from '../../sheet';
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
  /** The selected columns, where the selected rows have others beside them: sorted alone, they would be torn from those. */
  readonly part?: RangeAddress;
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
  const tables = tablesOf(injector, book).filter(({ range }) => range.sheet === name);
  if (selected.endRow > selected.startRow && !isWholeColumns(selected, sheet))
    return selectedRows(name, selected, read);
  for (const at of placesIn(selected, sheet, read)) {
    const table = tables.find(({ range }) => isInRange(range, at.row, at.column));
    if (table) return { range: table.range, hasHeadings: true, table: table.name };
    const range = filledAround(name, at, read);
    if (range && range.rows > 1) return { range, hasHeadings: looksLikeHeadings(range, read) };
  }
  return undefined;
}

const isWholeColumns = ({ startRow, endRow }: IRange, sheet: Worksheet): boolean =>
  Number.isNaN(startRow) || endRow - startRow + 1 >= sheet.getRowCount();

type Reader = (row: number, column: number) => Cell;

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Where to look for a list: at the cell, or in whole columns at the filled cells that have most below them. */
function placesIn(selected: IRange, sheet: Worksheet, read: Reader): Place[] {
  const column = Number.isNaN(selected.startColumn) ? 0 : selected.startColumn;
  if (!isWholeColumns(selected, sheet)) return [{ row: selected.startRow, column }];
  const runs: { row: number; rows: number }[] = [];
  for (let row = 0; row < sheet.getRowCount(); row++) {
    if (isBlank(read(row, column))) continue;
    const last = runs.at(-1);
    if (last && last.row + last.rows === row) last.rows += 1;
    else runs.push({ row, rows: 1 });
  }
  return runs.sort((a, b) => b.rows - a.rows).map(({ row }) => ({ row, column }));
}

/** Rows that are selected, with all their columns that hang together. */
function selectedRows(sheet: string, selected: IRange, read: Reader): ListRange {
  const own = toAddress(sheet, selected);
  let [left, right] = [selected.startColumn, selected.endColumn];
  const has = (column: number): boolean => {
    for (let row = selected.startRow; row <= selected.endRow && column >= 0; row++)
      if (!isBlank(read(row, column))) return true;
    return false;
  };
  while (has(left - 1)) left -= 1;
  while (has(right + 1)) right += 1;
  const range = { ...own, column: left, columns: right - left + 1 };
  return {
    range,
    hasHeadings: looksLikeHeadings(range, read),
    ...(range.columns === own.columns ? {} : { part: own }),
  };
}

/** The filled cells that hang together around one: a blank row and a blank column end them. */
function filledAround(sheet: string, at: Place, read: Reader): RangeAddress | undefined {
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
function looksLikeHeadings(range: RangeAddress, read: Reader): boolean {
  const line = (row: number): Cell[] =>
    Array.from({ length: range.columns }, (_none, index) => read(row, range.column + index)).filter(
      (cell) => !isBlank(cell),
    );
  const first = line(range.row);
  return first.length > 0 && first.every((cell) => typeof cell === 'string') && range.rows > 1;
}
