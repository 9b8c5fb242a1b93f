/** Functions of single cells over blocks of cells. */
import { CellError, type Cell, type Matrix } from '../sheet';
import { failure } from './values';

/**
 * Applies a function of cells to values of which some are blocks. A single row or column is repeated over
 * the others' extent; beyond the extent of a block there is #N/A. An error among the cells is the result, unless the function takes errors.
 */
export function lift(
  values: readonly (Cell | Matrix | undefined)[],
  apply: (cells: (Cell | undefined)[]) => Cell,
  takesErrors = false,
): Cell | Matrix {
  let rows = 0;
  let columns = 0;
  for (const value of values) {
    if (!Array.isArray(value)) continue;
    rows = Math.max(rows, value.length);
    columns = Math.max(columns, value[0]?.length ?? 0);
  }
  const once = (cells: (Cell | undefined)[]): Cell => (takesErrors ? undefined : cells.find(isError)) ?? apply(cells);
  if (rows === 0) return once(values as (Cell | undefined)[]);
  return Array.from({ length: rows }, (_row, r) =>
    Array.from({ length: columns }, (_column, c) =>
      once(values.map((value) => (Array.isArray(value) ? elementAt(value, r, c) : value))),
    ),
  );
}

const isError = (cell: Cell | undefined): cell is CellError => cell instanceof CellError;

export function elementAt(matrix: Matrix, row: number, column: number): Cell {
  const line = matrix.length === 1 ? matrix[0] : matrix[row];
  const cell = line?.length === 1 ? line[0] : line?.[column];
  return cell === undefined ? failure('#N/A') : cell;
}
