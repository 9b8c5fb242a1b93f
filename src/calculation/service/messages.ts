/**
 * What a calculator that runs elsewhere is asked, and what it answers: plain data, which another thread can be handed.
 * A workbook is begun, given its rows in as many pieces as one likes, and calculated; then edited and calculated again.
 */
import type { ErrorCode, NameModel, RangeAddress, Spill, StyleModel, TableModel } from '../../sheet';
import type { NotRecalculated, UnknownFormula } from '../calculate';

export interface PackedError {
  readonly code: ErrorCode;
  readonly message: string;
}

export type PackedValue = number | string | boolean | null | PackedError;

/** A cell with more to it than a value. */
export interface PackedFormula {
  readonly value: PackedValue;
  readonly formula?: string;
  readonly plain?: boolean;
  readonly spill?: Spill;
  readonly spilled?: boolean;
  readonly style?: number;
}

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
  readonly spill?: { readonly row: number; readonly column: number; readonly rows: number; readonly columns: number };
}

/** With all that it spilled, where that is several cells. */
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
