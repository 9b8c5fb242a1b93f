/** Values while a formula is evaluated: cells, blocks of cells and references to cells. */
import { memoized } from '../core/memoized';
import { CellError, type Cell, type ErrorCode, type Matrix } from '../sheet';
import { LAST_COLUMN, LAST_ROW } from '../sheet/formula';
import type { Grid } from './grid';
import { textNumber } from './text-number';

/** A rectangle of cells on a sheet of the workbook. */
export class Reference {
  constructor(
    readonly grid: Grid,
    readonly row: number,
    readonly column: number,
    readonly rows: number,
    readonly columns: number,
  ) {}

  get isCell(): boolean {
    return this.rows === 1 && this.columns === 1;
  }

  /** The reference without what lies beyond the used extent, where it is of whole columns or rows. */
  used(): Reference {
    const rows =
      this.row + this.rows > LAST_ROW
        ? Math.min(this.rows, Math.max(1, this.grid.shared.height - this.row))
        : this.rows;
    const columns =
      this.column + this.columns > LAST_COLUMN
        ? Math.min(this.columns, Math.max(1, this.grid.shared.width - this.column))
        : this.columns;
    return rows === this.rows && columns === this.columns
      ? this
      : new Reference(this.grid, this.row, this.column, rows, columns);
  }
}

/** Several rectangles, as (A1:A3,C1:C3) has them. */
export class Areas {
  constructor(readonly parts: readonly Reference[]) {}
}

/** What LAMBDA makes: a function of `least` to `most` values. */
export class Lambda {
  constructor(
    readonly least: number,
    readonly most: number,
    readonly call: (args: readonly Value[]) => Value,
  ) {}
}

/** undefined: an argument that was left out. */
export type Value = Cell | Matrix | Reference | Areas | Lambda | undefined;

/** The error without a message. All cells share one object for each code, because a sheet can hold very many. */
export const failure = memoized((code: ErrorCode) => new CellError(code));

/** Why a reference refers to nothing. */
export const noSheet = (name: string): CellError => new CellError('#REF!', `There is no sheet "${name}"`);
export const offSheet = (): CellError => new CellError('#REF!', 'The reference leads off the sheet');

/** A reference's values as a block. */
export function toMatrix(value: Value): Matrix {
  if (value instanceof Reference) {
    const used = value.used();
    if (used !== value) value.grid.shared.isExtentAsked = true;
    return value.grid.block(used);
  }
  return Array.isArray(value) ? value : [[read(value) as Cell]];
}

/** A value with references read: one cell for one cell. */
export function read(value: Value): Cell | Matrix {
  if (value instanceof Reference) return value.isCell ? value.grid.get(value.row, value.column) : toMatrix(value);
  // Several ranges are not one block. A function is not a value: Microsoft, page on LAMBDA (#CALC!).
  if (value instanceof Areas) return failure('#VALUE!');
  return value instanceof Lambda ? failure('#CALC!') : (value ?? null);
}

/** The one cell that a value is, or the first of its block. */
export function firstCell(value: Value): Cell {
  const cells = read(value);
  return Array.isArray(cells) ? (cells[0]?.[0] ?? null) : cells;
}

/** Every cell of a value in rows; `direct` is true for a value that is no reference and no array. */
export function eachCell(value: Value, take: (cell: Cell, direct: boolean) => void): void {
  if (value instanceof Reference) {
    value.grid.each(value.used(), (cell) => take(cell, false));
  } else if (value instanceof Areas) for (const part of value.parts) eachCell(part, take);
  else if (Array.isArray(value)) for (const line of value) for (const cell of line) take(cell, false);
  else take(read(value) as Cell, true);
}

/** A number from one cell, as arithmetic takes it; an error where it is none. */
export function toNumber(cell: Cell | undefined): number | CellError {
  if (typeof cell === 'number') return cell;
  if (cell === null || cell === undefined) return 0;
  if (typeof cell === 'boolean') return cell ? 1 : 0;
  if (typeof cell === 'string') return textNumber(cell) ?? failure('#VALUE!');
  return cell;
}

export function toText(cell: Cell | undefined): string | CellError {
  if (typeof cell === 'string') return cell;
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'number') return numberText(cell);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return cell;
}

/** Spreadsheets keep and compare 15 digits of a number. Source: Microsoft, "Excel specifications and limits". */
export const digits15 = (value: number): number =>
  Number.isSafeInteger(value) && Math.abs(value) < 1e15 ? value : Number(value.toPrecision(15));

/** A number as it reads in a text: 15 digits, an exponent as 1E+21. */
export function numberText(value: number): string {
  if (Number.isSafeInteger(value) && Math.abs(value) < 1e15) return String(value);
  const [mantissa, exponent] = value.toExponential(14).split('e') as [string, string];
  const digits = mantissa.replace(/\.?0+$/, '');
  const power = Number(exponent);
  // The plain form up to 20 places, as the format General has it.
  const places = power < 0 ? digits.replace(/\D/g, '').length - power : power;
  if (places <= 20) return plainDigits(digits, power);
  return `${digits}E${power < 0 ? '-' : '+'}${String(Math.abs(power)).padStart(2, '0')}`;
}

function plainDigits(mantissa: string, power: number): string {
  const sign = mantissa.startsWith('-') ? '-' : '';
  const digits = mantissa.replace(/\D/g, '');
  if (power < 0) return `${sign}0.${'0'.repeat(-power - 1)}${digits}`;
  const whole = digits.padEnd(power + 1, '0');
  return sign + whole.slice(0, power + 1) + (whole.length > power + 1 ? `.${whole.slice(power + 1)}` : '');
}

export function toFlag(cell: Cell | undefined): boolean | CellError {
  if (typeof cell === 'boolean') return cell;
  if (typeof cell === 'number') return cell !== 0;
  if (cell === null || cell === undefined) return false;
  if (cell instanceof CellError) return cell;
  if (/^\s*(true|false)\s*$/i.test(cell)) return cell.trim().toLowerCase() === 'true';
  return failure('#VALUE!');
}

/** A finite number, or the error that a spreadsheet shows instead. */
export const finite = (value: number): Cell => (Number.isFinite(value) ? (value === 0 ? 0 : value) : failure('#NUM!'));

/** Order of two cells as sorting and comparing take it: numbers, texts without case, FALSE, TRUE; a blank is what the other is. */
export function compare(a: Cell, b: Cell): number {
  const left = a ?? blankLike(b);
  const right = b ?? blankLike(a);
  const ranks = rank(left) - rank(right);
  if (ranks !== 0) return ranks;
  if (typeof left === 'string' && typeof right === 'string') return compareTexts(left, right);
  return compareNumbers(Number(left), Number(right));
}

/** What `compare` gives where a comparison holds. */
export const COMPARISONS = {
  '=': (order: number): boolean => order === 0,
  '<>': (order: number): boolean => order !== 0,
  '<': (order: number): boolean => order < 0,
  '>': (order: number): boolean => order > 0,
  '<=': (order: number): boolean => order <= 0,
  '>=': (order: number): boolean => order >= 0,
};
export type Comparison = keyof typeof COMPARISONS;

/** 0.1+0.2 is 0.3 to 15 digits. */
function compareNumbers(a: number, b: number): number {
  if (a === b) return 0;
  const apart = a - b;
  return Math.abs(apart) <= Math.abs(a) * 1e-14 && digits15(a) === digits15(b) ? 0 : apart;
}

const blankLike = (other: Cell): Cell => (typeof other === 'string' ? '' : typeof other === 'boolean' ? false : 0);
const rank = (cell: Cell): number => (typeof cell === 'number' ? 0 : typeof cell === 'string' ? 1 : 2);

/** Signs before digits before letters, whatever the case. */
const ORDER = new Intl.Collator('en', { sensitivity: 'accent' });

function compareTexts(a: string, b: string): number {
  if (a === b) return 0;
  const left = a.toLowerCase();
  const right = b.toLowerCase();
  if (left === right) return 0;
  return ORDER.compare(left, right) || (left < right ? -1 : 1);
}

/** Cells that are equal to `=` and to look-ups have the same key; undefined for blanks and errors, which equal nothing. */
export function equalityKey(cell: Cell): string | number | undefined {
  if (typeof cell === 'number') return digits15(cell);
  if (typeof cell === 'string') return `t${cell.toLowerCase()}`;
  return typeof cell === 'boolean' ? `b${String(cell)}` : undefined;
}
