/** Cell addresses as a spreadsheet writes them. Rows and columns count from 0 in code, from 1 and A in text. */
import type { RangeAddress } from './model';

/** 0 → "A", 27 → "AB" */
export function columnName(column: number): string {
  let name = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26))
    name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  return name;
}

/** "AB" → 27 */
export function columnIndex(name: string): number {
  let index = 0;
  for (const letter of name.toUpperCase()) index = index * 26 + (letter.charCodeAt(0) - 64);
  return index - 1;
}

/** (0, 1) → "B1" */
export const cellName = (row: number, column: number): string => `${columnName(column)}${row + 1}`;

/** "B1" or "$B$1" → its place; undefined where it is no cell. */
export function parseCell(name: string): { row: number; column: number } | undefined {
  const match = /^\$?([A-Za-z]{1,3})\$?(\d{1,7})$/.exec(name);
  return match ? { row: Number(match[2]) - 1, column: columnIndex(match[1]!) } : undefined;
}

/** A sheet's name as a formula wants it: quoted where it is not a plain word. */
export const quoteSheet = (name: string): string =>
  /^[A-Za-z_][A-Za-z0-9_]*$/.test(name) && !parseCell(name) ? name : `'${name.replaceAll("'", "''")}'`;

/** "A1:B3", without the sheet; one cell as "A1". */
export function rangeName({ row, column, rows, columns }: Omit<RangeAddress, 'sheet'>): string {
  const first = cellName(row, column);
  return rows === 1 && columns === 1 ? first : `${first}:${cellName(row + rows - 1, column + columns - 1)}`;
}

/** True where two ranges share a cell. */
export const overlap = (a: RangeAddress, b: RangeAddress): boolean =>
  a.sheet.toLowerCase() === b.sheet.toLowerCase() &&
  a.row < b.row + b.rows &&
  b.row < a.row + a.rows &&
  a.column < b.column + b.columns &&
  b.column < a.column + a.columns;

/** True for a cell of the range, whatever sheet it is on. */
export const isInRange = (range: Omit<RangeAddress, 'sheet'>, row: number, column: number): boolean =>
  row >= range.row && row < range.row + range.rows && column >= range.column && column < range.column + range.columns;

/** A range with its sheet as a formula names it that does not move: Prices!$A$2:$A$500. */
export function absoluteName({ sheet, row, column, rows, columns }: RangeAddress): string {
  const corner = (r: number, c: number): string => `$${columnName(c)}$${r + 1}`;
  const last = rows === 1 && columns === 1 ? '' : `:${corner(row + rows - 1, column + columns - 1)}`;
  return `${quoteSheet(sheet)}!${corner(row, column)}${last}`;
}

/** "Parts!A1:B3" */
export const fullName = (range: RangeAddress): string => `${quoteSheet(range.sheet)}!${rangeName(range)}`;

/** "A1:B3" on a sheet; undefined where it is no range. */
export function parseRange(text: string, sheet: string): RangeAddress | undefined {
  const [from, to = from] = text.split(':');
  const first = from ? parseCell(from) : undefined;
  const last = to ? parseCell(to) : undefined;
  if (!first || !last) return undefined;
  const row = Math.min(first.row, last.row);
  const column = Math.min(first.column, last.column);
  return {
    sheet,
    row,
    column,
    rows: Math.abs(last.row - first.row) + 1,
    columns: Math.abs(last.column - first.column) + 1,
  };
}
