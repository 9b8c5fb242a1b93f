/** Cells of the engine as the port's cells, and the other way round. */
import { CellValueType, type ICellData, type Nullable } from '@univerjs/core';
import { CellError, isErrorCode, numberFrom, type Cell, type CellInput, type CellModel } from '../../sheet';
import { withPlainMark } from './file-marks';

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
  return cell.plain ? withPlainMark(data, cell.formula) : data;
}

const asTyped = (formula: string): string => (formula.startsWith('=') ? formula : `=${formula}`);

export function toValueData(cell: Cell): ICellData {
  if (cell === null) return {};
  if (typeof cell === 'number') return { v: cell, t: CellValueType.NUMBER };
  if (typeof cell === 'boolean') return { v: cell ? 1 : 0, t: CellValueType.BOOLEAN };
  // Marked as text, so that a part number of digits or a leading "=" stays what it is.
  return { v: cell instanceof CellError ? cell.code : cell, t: CellValueType.STRING };
}
