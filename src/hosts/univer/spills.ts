/** What formulas spill, which the engine keeps apart from the cells: values and extents by row and column. */
import type { ICellData, IRange, Injector, Nullable } from '@univerjs/core';
import { FormulaDataModel } from '@univerjs/engine-formula';

export type ByCell<T> = Record<number, Nullable<Record<number, Nullable<T>>>>;

/** Values of all cells of spills on a sheet, the first of each among them. */
export const spilledCells = (injector: Injector, unit: string, sheet: string): Nullable<ByCell<ICellData>> =>
  injector.get(FormulaDataModel).getArrayFormulaCellData()?.[unit]?.[sheet];

/** Extents by the cell that holds the formula. */
export const spillRanges = (injector: Injector, unit: string, sheet: string): Nullable<ByCell<IRange>> =>
  injector.get(FormulaDataModel).getArrayFormulaRange()?.[unit]?.[sheet];
