/**
 * What a cell of a file says beside its formula, carried in the engine's cell so that it moves, is copied, kept and
 * taken back with it. A mark holds for the formula that it was made for, whatever rows move under it, and for no
 * other that is put into the cell.
 */
import type { ICellData, Nullable } from '@univerjs/core';
import { needsArray } from '../../sheet/formula';
import { shapeOf } from './formula-reader';

interface Marks {
  /** A formula of the plain kind (see CellModel), by its shape. */
  readonly plain?: string;
  /** A formula that cannot be calculated here, by its shape and the value that it came with. */
  readonly kept?: { readonly shape: string; readonly value: unknown };
}

const marksOf = (data: Nullable<ICellData>): Marks => (data?.custom ?? {}) as Marks;

/** Only where it makes a difference: most formulas give the same in both kinds. */
export const withPlainMark = (data: ICellData, formula: string): ICellData =>
  needsArray(formula, () => true) ? { ...data, custom: { plain: shapeOf(formula) } } : data;

export const isPlain = (data: Nullable<ICellData>, formula: string): boolean => {
  const { plain } = marksOf(data);
  return plain !== undefined && plain === shapeOf(formula);
};

/** Has a cell keep the value that it has now, as long as it has this formula and this value. */
export function keep(data: ICellData, formula: string): void {
  data.custom = { ...data.custom, kept: { shape: shapeOf(formula), value: data.v ?? null } satisfies Marks['kept'] };
}

export const isKept = (data: Nullable<ICellData>, formula: string): boolean => {
  const { kept } = marksOf(data);
  return kept !== undefined && kept.value === (data?.v ?? null) && kept.shape === shapeOf(formula);
};
