/** Cells as data that another thread can be handed: an error keeps its class in its own thread only. */
import { CellError, revived, type Cell, type CellModel, type Result, type SheetModel } from '../../sheet';
import type { PackedCell, PackedResult, PackedValue, Results, RowPiece } from './messages';

export const packValue = (value: Cell): PackedValue =>
  value instanceof CellError ? { code: value.code, message: value.message } : value;

export const packResult = (result: Result): PackedResult =>
  Array.isArray(result) ? result.map((line) => line.map(packValue)) : packValue(result);

export const unpackResult = (packed: PackedResult): Result =>
  isMatrix(packed) ? packed.map((line) => line.map(revived)) : revived(packed);

const isMatrix = (packed: PackedResult): packed is readonly (readonly PackedValue[])[] => Array.isArray(packed);

/** All that the formula in a cell of a sheet spilled; undefined for one that has a single cell. */
export function packedSpill({ cells }: SheetModel, row: number, column: number): PackedValue[][] | undefined {
  const spill = cells[row]?.[column]?.spill;
  if (!spill || spill.rows * spill.columns === 1) return undefined;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => packValue(cells[row + r]?.[column + c]?.value ?? null)),
  );
}

/** What one message holds: it is made, and taken, in a few milliseconds. */
const ROWS_AT_ONCE = 500;
const CELLS_AT_ONCE = 2000;

/** The rows of a sheet in pieces; those in which nothing stands are left out. */
export function* rowPieces(rows: number, lineAt: (row: number) => readonly PackedCell[]): Generator<RowPiece> {
  let lines: (readonly PackedCell[])[] = [];
  let cells = 0;
  for (let row = 0; row < rows; row++) {
    const line = lineAt(row);
    lines.push(line);
    cells += line.length;
    if (row < rows - 1 && cells < CELLS_AT_ONCE && lines.length < ROWS_AT_ONCE) continue;
    if (cells > 0) yield { row: row - lines.length + 1, lines };
    lines = [];
    cells = 0;
  }
}

/** Calls `take` with every result and its cell. */
export function eachResult(
  { row, column, columns, values }: Results,
  take: (row: number, column: number, value: PackedValue) => void,
): void {
  values.forEach((value: PackedValue, index: number) =>
    take(row + Math.floor(index / columns), column + (index % columns), value),
  );
}

/** Most cells are a value and nothing else. */
export function packCell(cell: CellModel | undefined): PackedCell {
  if (!cell) return undefined;
  const { value, formula, spilled, style } = cell;
  if (formula === undefined && style === undefined && !spilled) return packValue(value);
  return value instanceof CellError ? { ...cell, value: packValue(value) } : cell;
}

export function unpackCell(packed: PackedCell): CellModel | undefined {
  if (packed === undefined) return undefined;
  if (typeof packed !== 'object' || packed === null || 'code' in packed) return { value: revived(packed) };
  const { value } = packed;
  return typeof value === 'object' && value !== null ? { ...packed, value: revived(value) } : packed;
}
