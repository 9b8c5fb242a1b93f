/**
 * Cells of the engine as the port's cells, and the other way round; and what a cell of a file says beside its formula.
 * That is carried in the engine's cell, so that it moves, is copied, kept and taken back with it. A mark holds for the
 * formula that it was made for, whatever rows move under it, and for no other that is put into the cell.
 */
import { CellValueType, type ICellData, type Nullable } from '@univerjs/core';
import { CellError, isErrorCode, numberFrom, type Cell, type CellInput, type CellModel } from '../../sheet';
import { needsArray } from '../../sheet/formula';
import { shapeOf } from './formula-reader';

/** Every property that holds content is named, so that the engine clears what the new content does not set. */
const CLEARED: ICellData = { v: null, f: null, si: null, p: null, custom: null };

/** A cell's value; blank and empty text are null, an error a CellError without its message. */
// eslint-disable-next-line complexity -- one kind of the engine's cell after the other
export function fromCellData(data: Nullable<ICellData>): Cell {
  if (!data) return null;
  const value = data.v ?? data.p?.body?.dataStream.replace(/\r\n$/, '');
  if (value === undefined || value === null || value === '') return null;
  if (data.t === CellValueType.BOOLEAN) return value === 1 || value === true || value === '1';
  if (typeof value === 'string') {
    if (data.t === CellValueType.NUMBER && !Number.isNaN(Number(value))) return numberFrom(value);
    return data.t !== CellValueType.FORCE_STRING && isErrorCode(value) ? new CellError(value) : value;
  }
  return typeof value === 'number' ? numberFrom(value) : value;
}

/** What a cell is given, as the engine takes it; looks are left as they are. */
export function toInputData(input: CellInput): ICellData {
  if (typeof input === 'object' && input !== null && !(input instanceof CellError))
    return { ...CLEARED, f: asTyped(input.formula) };
  return { ...CLEARED, ...toValueData(input) };
}

/** A cell of a model as the engine's. Parts of a spill are left out: they come again with the formula's result. */
export function toCellData(cell: CellModel): ICellData {
  const style = cell.style === undefined ? {} : { s: String(cell.style) };
  if (cell.spilled) return style;
  const value = toValueData(cell.value);
  if (cell.formula === undefined) return { ...value, ...style };
  const data = { f: asTyped(cell.formula), ...value, ...style };
  // Marked only where it makes a difference: most formulas give the same in both kinds.
  return cell.plain && needsArray(cell.formula, () => true)
    ? { ...data, custom: { plain: shapeOf(cell.formula) } }
    : data;
}

const asTyped = (formula: string): string => (formula.startsWith('=') ? formula : `=${formula}`);

export function toValueData(cell: Cell): ICellData {
  if (cell === null) return {};
  if (typeof cell === 'number') return { v: cell, t: CellValueType.NUMBER };
  if (typeof cell === 'boolean') return { v: cell ? 1 : 0, t: CellValueType.BOOLEAN };
  // Marked as text, so that a part number of digits or a leading "=" stays what it is.
  return { v: cell instanceof CellError ? cell.code : cell, t: CellValueType.STRING };
}

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
