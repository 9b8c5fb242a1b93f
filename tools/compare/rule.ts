/** What explains a difference. */
import { CellError } from '../../src/sheet';
import { textNumber } from '../../src/calculation/text-number';
import type { Case, Value } from './case';

export interface Rule {
  /** Which results differ and why; who is right by which document. */
  readonly why: string;
  readonly applies: (one: Case) => boolean;
}

export const isCode = (value: Value, code: CellError['code']): boolean =>
  value instanceof CellError && value.code === code;
export const isError = (value: Value): value is CellError => value instanceof CellError;
/** A number as functions take it: a blank is 0, a text that is none is undefined. */
export const numberOf = (value: Value): number | undefined => {
  if (value === null || value === undefined) return 0;
  if (Array.isArray(value)) return numberOf(value[0]?.[0]);
  if (typeof value === 'number' || typeof value === 'boolean') return Number(value);
  return typeof value === 'string' ? textNumber(value) : undefined;
};
