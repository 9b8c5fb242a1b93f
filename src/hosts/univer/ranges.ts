/** Ranges and sheets of the port as the engine's, and the other way round. */
import type { IRange, Workbook as EngineWorkbook, Worksheet } from '@univerjs/core';
import type { RangeAddress } from '../../sheet';

export const toRange = ({ row, column, rows, columns }: Omit<RangeAddress, 'sheet'>): IRange => ({
  startRow: row,
  endRow: row + rows - 1,
  startColumn: column,
  endColumn: column + columns - 1,
});

export const toAddress = (sheet: string, range: IRange): RangeAddress => ({
  sheet,
  row: range.startRow,
  column: range.startColumn,
  rows: range.endRow - range.startRow + 1,
  columns: range.endColumn - range.startColumn + 1,
});

/** Rows or columns from a first to a last one. */
export const linesOf = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_none, index) => first + index);

/** Rows of a sheet that are hidden by hand. */
export const rowsHiddenByHand = (sheet: Worksheet): number[] =>
  sheet.getHiddenRows().flatMap(({ startRow, endRow }) => linesOf(startRow, endRow));

/** The sheet of this name in any case. */
export const sheetNamed = (workbook: EngineWorkbook, name: string): Worksheet | undefined =>
  workbook.getSheets().find((sheet) => sheet.getName().toLowerCase() === name.toLowerCase());
