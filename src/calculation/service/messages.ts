/**
 * What a calculator that runs elsewhere is asked, and what it answers: plain data, which another thread can be handed.
 * A workbook is begun, given its rows in as many pieces as one likes, and calculated; then edited and calculated again.
 */
import {
  CellError,
  revived,
  type Cell,
  type CellModel,
  type NameModel,
  type RangeAddress,
  type Result,
  type SheetModel,
  type StyleModel,
  type TableModel,
} from '../../sheet';
import type { NotRecalculated, UnknownFormula } from '../calculate';

export type PackedError = Pick<CellError, 'code' | 'message'>;

/** A cell's value. An error keeps its class in its own thread only. */
export type PackedValue = number | string | boolean | null | PackedError;

/** A cell with more to it than a value. */
export type PackedFormula = Omit<CellModel, 'value'> & { readonly value: PackedValue };

/** undefined for an empty cell. */
export type PackedCell = PackedValue | PackedFormula | undefined;

export interface SheetHead {
  readonly name: string;
  readonly tables: readonly TableModel[];
  readonly merges: readonly RangeAddress[];
}

/** Rows that subtotals leave out. */
export interface RowsLeftOut {
  readonly hiddenRows: readonly number[];
  /** True where a filter hides some of them. */
  readonly filtered: boolean;
}

/** A formula that stands in no cell, and the cells for which it is asked; it is written for the one at `row`, `column`. */
export interface Asked {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  readonly cells: readonly (readonly [row: number, column: number])[];
}

/** Some rows of a sheet. */
export interface RowPiece {
  /** Of the first line. */
  readonly row: number;
  readonly lines: readonly (readonly PackedCell[])[];
}

/** Requests are taken in order. `book` names a workbook; one that is not known, or has ended, is passed over. */
export type Request =
  | {
      readonly kind: 'begin';
      readonly book: string;
      readonly sheets: readonly SheetHead[];
      readonly names: readonly NameModel[];
      readonly styles: readonly StyleModel[];
      readonly dates1904: boolean;
    }
  | ({ readonly kind: 'rows'; readonly book: string; readonly sheet: number } & RowPiece)
  | {
      readonly kind: 'edit';
      readonly book: string;
      readonly cells: readonly (readonly [sheet: number, row: number, column: number, cell: PackedCell])[];
    }
  | {
      readonly kind: 'calculate';
      readonly book: string;
      /** By sheet; left out where they are what they were. */
      readonly leftOut?: readonly RowsLeftOut[] | undefined;
      /** What is in view: its results come first. */
      readonly inView?: { readonly sheet: number; readonly row: number } | undefined;
    }
  | { readonly kind: 'evaluate'; readonly book: string; readonly question: number; readonly asked: readonly Asked[] }
  | { readonly kind: 'end'; readonly book: string };

/**
 * Results of neighbouring cells, row by row: of formulas one below the other, or of one formula that fills them.
 * An error has its message where it arises, and none in the cells that it is handed on to.
 */
export interface Results {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly columns: number;
  readonly values: Float64Array | readonly PackedValue[];
  /** The whole of what one formula fills, of which these are some rows. */
  readonly spill?: Omit<RangeAddress, 'sheet'>;
}

/** A formula that is not known, with all that it spilled where that is several cells. */
export interface UnknownInBook extends UnknownFormula {
  readonly block?: readonly (readonly PackedValue[])[] | undefined;
}

export type Answer =
  | { readonly kind: 'progress'; readonly book: string; readonly done: number; readonly total: number }
  /** Some of the results; each answer has as many as can be shown at once. */
  | { readonly kind: 'results'; readonly book: string; readonly results: readonly Results[] }
  | {
      readonly kind: 'done';
      readonly book: string;
      /** The last of the results: those of one edit are there with one word. */
      readonly results: readonly Results[];
      readonly unknown: readonly UnknownFormula[];
      readonly notRecalculated: readonly NotRecalculated[];
    }
  /** For each formula that was asked the results in the order of its cells. */
  | {
      readonly kind: 'evaluated';
      readonly book: string;
      readonly question: number;
      readonly results: readonly (readonly PackedResult[])[];
    }
  | { readonly kind: 'fault'; readonly book: string; readonly message: string; readonly stack: string | undefined };

export type PackedResult = PackedValue | readonly (readonly PackedValue[])[];

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
