/** What was done to a workbook's structure, in order. Sheets and tables go by the names that they have at that moment. */
import type { CellsMove, LineEdit } from '../../sheet/formula';

/** Whole rows or columns that are put elsewhere on their sheet, as dragging their heads does. */
export interface LinesMove {
  readonly kind: 'moveLines';
  readonly sheet: string;
  readonly axis: 'rows' | 'columns';
  readonly from: number;
  readonly count: number;
  /** The line, as they are counted before, in front of which they come to stand. */
  readonly to: number;
}

export type SheetOperation =
  /** `at` counts the worksheets alone: a chart sheet stays behind the sheet that it follows. */
  | { readonly kind: 'addSheet'; readonly name: string; readonly at: number }
  | { readonly kind: 'removeSheet'; readonly sheet: string }
  | { readonly kind: 'renameSheet'; readonly sheet: string; readonly name: string }
  | { readonly kind: 'placeSheet'; readonly sheet: string; readonly at: number };

export type TableOperation =
  | { readonly kind: 'renameTable'; readonly table: string; readonly name: string }
  | { readonly kind: 'renameColumn'; readonly table: string; readonly column: string; readonly name: string };

export type Operation = LineEdit | CellsMove | LinesMove | SheetOperation | TableOperation;

/** What changes places of cells. */
export type CellOperation = LineEdit | CellsMove;

export const isCellOperation = (operation: Operation): operation is CellOperation =>
  operation.kind === 'insert' || operation.kind === 'delete' || operation.kind === 'move';
