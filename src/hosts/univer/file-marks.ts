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
  readonly kept?: {
    readonly shape: string;
    readonly value: ICellData['v'];
    readonly type: ICellData['t'];
    /** Where it came with a result of several cells: all of them, this one first. */
    readonly block?: ICellData[][];
  };
}

const marksOf = (data: Nullable<ICellData>): Marks => (data?.custom ?? {}) as Marks;

/** Only where it makes a difference: most formulas give the same in both kinds. */
export const withPlainMark = (data: ICellData, formula: string): ICellData =>
  needsArray(formula, () => true) ? { ...data, custom: { plain: shapeOf(formula) } } : data;

export const isPlain = (data: Nullable<ICellData>, formula: string): boolean => {
  const { plain } = marksOf(data);
  return plain !== undefined && plain === shapeOf(formula);
};

/**
 * Has a cell keep the value that it has now, as long as it has this formula and no other value.
 * @param block what it spilled in the file
 */
export function keep(data: ICellData, formula: string, block?: ICellData[][]): void {
  const kept: Marks['kept'] = {
    shape: shapeOf(formula),
    value: data.v ?? null,
    type: data.t ?? null,
    ...(block ? { block } : {}),
  };
  data.custom = { ...data.custom, kept };
}

/** What a cell keeps, with the engine's type of it; undefined for a formula that was typed. The engine empties cells that move. */
export function keptData(data: ICellData, formula: string): Pick<ICellData, 'v' | 't'> | undefined {
  const { kept } = marksOf(data);
  const value = data.v ?? null;
  return kept && (value === null || value === kept.value) && kept.shape === shapeOf(formula)
    ? { v: kept.value, t: kept.type }
    : undefined;
}

/** What a cell keeps beside its own value; undefined for one that spilled nothing, or has another formula now. */
export function keptBlock(data: Nullable<ICellData>, formula: string): readonly (readonly ICellData[])[] | undefined {
  const block = marksOf(data).kept?.block;
  return block && data && keptData(data, formula) ? block : undefined;
}

/** True for contents that bring a kept block with them, as taking back an edit does. */
export const bringsBlock = (data: Nullable<ICellData>): boolean => marksOf(data).kept?.block !== undefined;
