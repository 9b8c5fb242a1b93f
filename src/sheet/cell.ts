/** What a spreadsheet cell can hold, as every host hands it over and takes it back. */

const CODES = ['#VALUE!', '#N/A', '#NUM!', '#REF!', '#NAME?', '#DIV/0!', '#NULL!', '#SPILL!', '#CALC!'] as const;

export type ErrorCode = (typeof CODES)[number];

/** An error as a value. The message reaches the user where the host can show one. */
export class CellError {
  constructor(
    readonly code: ErrorCode,
    readonly message = '',
  ) {}

  toString(): string {
    return this.message ? `${this.code} ${this.message}` : this.code;
  }
}

/** The number that digits are read as; #NUM! where it is larger than any number that a cell holds (1e400). */
export const numberFrom = (digits: string | number): number | CellError => {
  const value = Number(digits);
  return Number.isFinite(value) ? value : new CellError('#NUM!', 'The number is too large: numbers end at 1.8E+308.');
};

export type Cell = number | string | boolean | null | CellError;

/** A value that came from another thread: an error loses its class on its way. */
export const revived = (value: Cell | Pick<CellError, 'code' | 'message'>): Cell =>
  typeof value === 'object' && value !== null ? new CellError(value.code, value.message) : value;

export type Matrix = Cell[][];
/** One argument of a worksheet function: a single value, or a block of cells in rows. */
export type Argument = Cell | Matrix | undefined;
export type Result = Cell | Matrix;

/** Hosts disagree on a blank cell (null, undefined or empty text): all three are blank here. */
export const isBlank = (cell: unknown): cell is null | undefined | '' =>
  cell === null || cell === undefined || cell === '';

/** True where a text is a spreadsheet's own error value. */
export const isErrorCode = (text: unknown): text is ErrorCode =>
  typeof text === 'string' && (CODES as readonly string[]).includes(text);

/** True where two values are the same; a formula's empty text and a blank are. */
export const sameCell = (a: Cell, b: Cell): boolean =>
  a instanceof CellError && b instanceof CellError
    ? a.code === b.code
    : a === b || ((a === null || a === '') && (b === null || b === ''));

/** The text in a cell; '' where it is blank or holds an error. */
export const textIn = (cell: Cell | undefined): string =>
  cell === null || cell === undefined || cell instanceof CellError ? '' : String(cell).trim();
