/** Table references: Parts[width], Parts[[#Headers],[a]:[b]], [@width]. */
import type { RangeAddress, TableModel } from '../model';
import { partItems } from './part-items';

export interface TablePart {
  readonly area: 'data' | 'headers' | 'all' | 'row' | 'totals' | 'headers-data' | 'data-totals';
  /** First and last column, from 0 in the table. */
  readonly from: number;
  readonly to: number;
}

/** What a reference names of a table; undefined where the table has no such column, or the reference cannot be read. */
export function tablePart(table: TableModel, text: string): TablePart | undefined {
  const { isRow, items } = partItems(text);
  const areas = items.flatMap(({ isArea, name }) => (isArea ? [name] : []));
  const columns = items.flatMap(({ isArea, name }) => (isArea ? [] : [name]));
  const area = areas.length === 0 ? (isRow ? 'row' : 'data') : AREAS.get(areas.sort().join(' '));
  if (!area) return undefined;
  if (columns.length > 2) return undefined;
  if (!columns.length) return { area, from: 0, to: table.columns.length - 1 };
  const places = columns.map((column) =>
    table.columns.findIndex((name) => name.toLowerCase() === column.toLowerCase()),
  );
  if (places.includes(-1)) return undefined;
  return { area, from: Math.min(...places), to: Math.max(...places) };
}

const AREAS: ReadonlyMap<string, TablePart['area']> = new Map([
  ['#data', 'data'],
  ['#headers', 'headers'],
  ['#all', 'all'],
  ['#totals', 'totals'],
  ['#this row', 'row'],
  ['#data #headers', 'headers-data'],
  ['#data #totals', 'data-totals'],
]);

/** The cells that a part stands for, seen from a row; undefined where there are none. */
export function partRange(
  { range, totals }: TableModel,
  { area, from, to }: TablePart,
  row: number,
): RangeAddress | undefined {
  const columns = { sheet: range.sheet, column: range.column + from, columns: to - from + 1 };
  switch (area) {
    case 'data':
      return { ...columns, row: range.row + 1, rows: Math.max(1, range.rows - 1) };
    case 'headers':
      return { ...columns, row: range.row, rows: 1 };
    case 'all':
      return { ...columns, row: range.row, rows: range.rows + (totals ? 1 : 0) };
    case 'headers-data':
      return { ...columns, row: range.row, rows: range.rows };
    case 'data-totals':
      return { ...columns, row: range.row + 1, rows: Math.max(1, range.rows - 1 + (totals ? 1 : 0)) };
    case 'row':
      return row > range.row && row < range.row + range.rows ? { ...columns, row, rows: 1 } : undefined;
    case 'totals':
      return totals ? { ...columns, row: range.row + range.rows, rows: 1 } : undefined;
  }
}
