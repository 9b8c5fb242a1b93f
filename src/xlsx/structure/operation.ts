/** What was done to a workbook's structure, in order. Sheets and tables go by the names that they have at that moment. */
import type { CellsMove, LineEdit } from '../../sheet/formula';

/** Whole rows or columns that are put elsewhere on their sheet, as dragging their heads does. */
export interface LinesMove {
  readonly kind: 'moveLines';
  readonly sheet: string;
  readonly axis: 'rows' | 'columns';
  readonly from: number;
  readonly count: number;
  /** The line in front of which they are put, numbered as before the move. */
  readonly to: number;
}

/**
 * Rows of a range put into another order, as sorting does. Cells go with their looks, notes and links, and relative
 * references of their formulas as a fill moves them; what names the cells from elsewhere stays as it is.
 */
export interface RowsOrder {
  readonly kind: 'order';
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly columns: number;
  /** For each row of the range, from the first: which of its old rows (0 is the first) is there afterwards. */
  readonly order: readonly number[];
  /** Columns whose contents stay, because one formula fills them: their looks alone go with the rows. */
  readonly staying: readonly number[];
  /** True where rows take their heights along. */
  readonly heights: boolean;
}

export type Operation =
  | LineEdit
  | CellsMove
  | LinesMove
  | RowsOrder
  /** `at` counts the worksheets alone: a chart sheet stays behind the sheet that it follows. */
  | { readonly kind: 'addSheet'; readonly name: string; readonly at: number }
  | { readonly kind: 'removeSheet'; readonly sheet: string }
  | { readonly kind: 'renameSheet'; readonly sheet: string; readonly name: string }
  | { readonly kind: 'placeSheet'; readonly sheet: string; readonly at: number }
  | { readonly kind: 'renameTable'; readonly table: string; readonly name: string }
  | { readonly kind: 'renameColumn'; readonly table: string; readonly column: string; readonly name: string };

/** What changes places of cells. */
export type CellOperation = LineEdit | CellsMove;

export const isCellOperation = (operation: { readonly kind: string }): operation is CellOperation =>
  operation.kind === 'insert' || operation.kind === 'delete' || operation.kind === 'move';
