/** Cells as data that another thread can be handed: an error keeps its class in its own thread only. */
import { CellError, type Cell, type CellModel, type Result } from '../../sheet';
import type { PackedCell, PackedResult, PackedValue } from './messages';

export const packValue = (value: Cell): PackedValue =>
  value instanceof CellError ? { code: value.code, message: value.message } : value;

export const unpackValue = (packed: PackedValue): Cell =>
  typeof packed === 'object' && packed !== null ? new CellError(packed.code, packed.message) : packed;

export const packResult = (result: Result): PackedResult =>
  Array.isArray(result) ? result.map((line) => line.map(packValue)) : packValue(result);

export const unpackResult = (packed: PackedResult): Result =>
  isMatrix(packed) ? packed.map((line) => line.map(unpackValue)) : unpackValue(packed);

const isMatrix = (packed: PackedResult): packed is readonly (readonly PackedValue[])[] => Array.isArray(packed);

/** Most cells are a value and nothing else. */
export function packCell(cell: CellModel | undefined): PackedCell {
  if (!cell) return undefined;
  const { value, formula, spilled, style } = cell;
  if (formula === undefined && style === undefined && !spilled) return packValue(value);
  return value instanceof CellError ? { ...cell, value: packValue(value) } : cell;
}

export function unpackCell(packed: PackedCell): CellModel | undefined {
  if (packed === undefined) return undefined;
  if (typeof packed !== 'object' || packed === null || 'code' in packed) return { value: unpackValue(packed) };
  const { value } = packed;
  return typeof value === 'object' && value !== null ? { ...packed, value: unpackValue(value) } : packed;
}
