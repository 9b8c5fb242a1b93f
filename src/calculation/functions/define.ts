/**
 * What the families of functions are written with: how the compiler takes a function, short forms of that, and readers of
 * arguments.
 */
import { CellError, type Cell, type Matrix } from '../../sheet';
import type { FormulaNode } from '../../sheet/formula';
import type { Grid } from '../grid';
import { eachCell, failure, firstCell, Reference, toFlag, toMatrix, toNumber, toText, type Value } from '../values';

/** The cell whose formula is evaluated. */
export interface Place {
  readonly grid: Grid;
  readonly row: number;
  readonly column: number;
  /** What names of LET and LAMBDA stand for here, the innermost first. */
  readonly frame?: Frame | undefined;
}

/** The value of one name of a LET or LAMBDA, and those around it. */
export interface Frame {
  /** undefined: an argument that was left out. */
  readonly value: Value;
  readonly next: Frame | undefined;
}

export type Evaluate = (place: Place) => Value;

/** A function that takes values. */
export interface EagerFunction {
  readonly kind: 'eager';
  readonly min: number;
  readonly max: number;
  /**
   * One letter a parameter, the last one for all that follow: "c" a cell, over which the function is lifted
   * when it is given several; "n" the same, but that a logical value is #VALUE!; "v" whatever is given. An error
   * in a cell is the result, unless takesErrors.
   *
   * "n" is for functions that mostly came with Excel's Analysis ToolPak. Source of the dates' and of QUOTIENT: what Excel
   * gives, in github.com/ironcalc/IronCalc, issue 625 and pull requests 524, 1393, 1401 and 1410; of the others
   * IronCalc 0.8.4.
   */
  readonly takes: string;
  readonly takesErrors?: boolean;
  /** True: its arguments are computed as arrays even in a plain formula. */
  readonly arrays?: boolean;
  /** True: it asks where a reference is, and not what is there. */
  readonly place?: boolean;
  /** True: it may read cells that its arguments do not name, as OFFSET does. */
  readonly reaches?: boolean;
  /** True: equal arguments need not give equal results. */
  readonly volatile?: boolean;
  /** Gives false for arguments with which the function is not known here, such as CELL("filename"). */
  readonly knows?: (args: readonly (FormulaNode | undefined)[]) => boolean;
  readonly apply: (args: Value[], place: Place) => Value;
}

/** A function that evaluates only the arguments that it needs. */
interface LazyFunction {
  readonly kind: 'lazy';
  readonly min: number;
  readonly max: number;
  /** Which arguments (from 0, of so many) are cells: a plain formula takes the cell of its own row from a range. Else the first. */
  readonly cells?: (index: number, count: number) => boolean;
  readonly apply: (args: readonly (Evaluate | undefined)[], place: Place) => Value;
}

export type FunctionSpec = EagerFunction | LazyFunction;

/** Functions by their names. In the place of a function, the name of the one that is the same under another name. */
export type Family = Readonly<Record<string, FunctionSpec | string>>;

/** A function of single cells. */
export const cells = (
  min: number,
  max: number,
  apply: (...args: (Cell | undefined)[]) => Cell,
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({
  kind: 'eager',
  min,
  max,
  takes: 'c',
  apply: (args) => apply(...(args as (Cell | undefined)[])),
  ...options,
});

/** As many arguments as a function may have. */
export const MANY = 255;

/** A function of whatever it is given. */
export const values = (
  min: number,
  max: number,
  apply: (...args: Value[]) => Value,
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({
  kind: 'eager',
  min,
  max,
  takes: 'v',
  apply: (args) => apply(...args),
  ...options,
});

/** A function of numbers, each one cell; optional ones that are left out come as undefined. */
export const numeric = (
  min: number,
  max: number,
  apply: (...numbers: number[]) => Cell,
  options: Partial<EagerFunction> = {},
): FunctionSpec =>
  cells(
    min,
    max,
    (...args) => {
      const numbers = numbersFrom(args);
      return numbers instanceof CellError ? numbers : apply(...numbers);
    },
    options,
  );

/** A function of whatever its letters say: "c" one cell, "n" one that is no logical value, "v" a value as it is given. */
export const fn = (
  takes: string,
  min: number,
  apply: EagerFunction['apply'],
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({ kind: 'eager', min, max: takes.length, takes, apply, ...options });

/** The same for a function that takes as many arguments as one likes: the last letter is for all that follow. */
export const many = (
  takes: string,
  min: number,
  apply: EagerFunction['apply'],
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({ ...fn(takes, min, apply, options), max: MANY });

type Numbers<T> = { -readonly [K in keyof T]: number };

/** Cells as numbers, undefined staying undefined; the first error where one is none. */
export function numbersFrom<const T extends readonly (Cell | undefined)[]>(args: T): Numbers<T> | CellError {
  const numbers: number[] = [];
  for (const arg of args) {
    const number = arg === undefined ? (undefined as never as number) : toNumber(arg);
    if (number instanceof CellError) return number;
    numbers.push(number);
  }
  return numbers as Numbers<T>;
}

/** The first error among values. */
export const errorIn = (given: readonly unknown[]): CellError | undefined =>
  given.find((one): one is CellError => one instanceof CellError);

type Sound<T> = { [K in keyof T]: Exclude<T[K], CellError> };

/** What a function makes of values of which none is an error; else the first error. */
export const unlessError = <const T extends readonly unknown[], R>(
  given: T,
  apply: (...sound: Sound<T>) => R,
): R | CellError => errorIn(given) ?? apply(...(given as Sound<T>));

/** What is taken from the cells of values, undefined being left out; the first error is the result. */
export function gathered<T>(
  given: readonly Value[],
  take: (cell: Cell, direct: boolean) => T | CellError | undefined,
): T[] | CellError {
  const found: T[] = [];
  let error: CellError | undefined;
  for (const value of given) {
    eachCell(value, (cell, direct) => {
      const one = take(cell, direct);
      if (one instanceof CellError) error ??= one;
      else if (one !== undefined) found.push(one);
    });
    if (error) return error;
  }
  return found;
}

/** The one number that a value is; `otherwise` where it is left out. */
export const numberOf = (value: Value, otherwise = 0): number | CellError =>
  value === undefined ? otherwise : toNumber(firstCell(value));

/** The one number that a value is, cut to a whole one; `otherwise` where it is left out. */
export const integerOf = (value: Value, otherwise = 0): number | CellError =>
  unlessError([numberOf(value, otherwise)], Math.trunc);

/** The one logical value that a value is. */
export const flagOf = (value: Value, otherwise = false): boolean | CellError =>
  value === undefined ? otherwise : toFlag(firstCell(value));

/** A cell as a text; '' where it is an error. */
export const textOf = (cell: Cell | undefined): string => {
  const text = toText(cell);
  return typeof text === 'string' ? text : '';
};

/** What stands where a block is filled up. */
export const paddingOf = (padding: Value): Cell => (padding === undefined ? failure('#N/A') : firstCell(padding));

/** What most functions give for numbers that they cannot take. */
export const NUM = (): CellError => failure('#NUM!');

/** As many cells as a formula may make. */
export const MOST_CELLS = 5_000_000;

/** A block of so many rows and columns, cell by cell. */
export const made = (rows: number, columns: number, cell: (r: number, c: number) => Cell): Matrix =>
  Array.from({ length: rows }, (_line, r) => Array.from({ length: columns }, (_cell, c) => cell(r, c)));

/** How large a reference or block is; a cell is a block of one. */
export interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** The size of a value. A reference to whole columns or rows has all of them. */
export function sizeOf(value: Value): Size {
  if (value instanceof Reference) return value;
  const block = toMatrix(value);
  return { rows: block.length, columns: block[0]?.length ?? 0 };
}

/** A rectangle of a reference or block. */
export const partOf = (
  whole: Reference | Matrix,
  row: number,
  column: number,
  rows: number,
  columns: number,
): Reference | Matrix =>
  whole instanceof Reference
    ? new Reference(whole.grid, whole.row + row, whole.column + column, rows, columns)
    : whole.slice(row, row + rows).map((line) => line.slice(column, column + columns));

/** A block with its columns as rows. */
export const transposed = (block: Matrix): Matrix =>
  (block[0] ?? []).map((_cell, c) => block.map((line) => line[c] ?? null));

/** Every cell of a value as a number; an error where one is none. Blanks are what is said, or none either. */
export function numberBlock(value: Value, blank?: number): number[][] | CellError {
  const numberIn = (cell: Cell): number | CellError => {
    const number = cell ?? blank;
    return typeof number === 'number' || number instanceof CellError ? number : failure('#VALUE!');
  };
  const block = toMatrix(value).map((line) => line.map(numberIn));
  return errorIn(block.flat()) ?? (block as number[][]);
}
