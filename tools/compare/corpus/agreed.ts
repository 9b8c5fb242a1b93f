/** Formulas of every function, and what LibreOffice 7.4.7 gave for them on the sheet Data when they were stored. */
import { CellError, isErrorCode, type Cell } from '../../../src/sheet';
import rows from './agreed.json';

export interface Agreed {
  readonly name: string;
  readonly formula: string;
  readonly gives: Cell;
}

type Stored = number | string | boolean | null | { readonly error: string };

const cellOf = (stored: Stored): Cell =>
  stored !== null && typeof stored === 'object'
    ? new CellError(isErrorCode(stored.error) ? stored.error : '#VALUE!')
    : stored;

export const AGREED: readonly Agreed[] = (rows as unknown as [string, string, Stored][]).map(
  ([name, formula, stored]) => ({
    name,
    formula,
    gives: cellOf(stored),
  }),
);
