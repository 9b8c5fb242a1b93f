/** Short forms of function specs whose arguments are mostly numbers. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { cells, MANY, type EagerFunction, type FunctionSpec } from '../function-spec';
import { failure, firstCell, toFlag, toMatrix, toNumber, toText, type Value } from '../values';

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

/** Cells as numbers, undefined staying undefined; the first error where one is none. */
export function numbersFrom(args: readonly (Cell | undefined)[]): number[] | CellError {
  const numbers: number[] = [];
  for (const arg of args) {
    const number = arg === undefined ? (undefined as never as number) : toNumber(arg);
    if (number instanceof CellError) return number;
    numbers.push(number);
  }
  return numbers;
}

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

/** The one number that a value is; `otherwise` where it is left out. */
export const numberOf = (value: Value, otherwise = 0): number | CellError =>
  value === undefined ? otherwise : toNumber(firstCell(value));

export const flagOf = (value: Value, otherwise = false): boolean | CellError =>
  value === undefined ? otherwise : toFlag(firstCell(value));

export const textOf = (cell: Cell | undefined): string => {
  const text = toText(cell);
  return typeof text === 'string' ? text : '';
};

export const transposed = (block: Matrix): Matrix =>
  (block[0] ?? []).map((_cell, c) => block.map((line) => line[c] ?? null));

/** Every cell of a value as a number; an error where one is none. Blanks are what is said, or none either. */
export function numberBlock(value: Value, blank?: number): number[][] | CellError {
  const block = toMatrix(value).map((line) =>
    line.map((cell) => (cell === null && blank !== undefined ? blank : cell)),
  );
  for (const line of block)
    for (const cell of line) {
      if (cell instanceof CellError) return cell;
      if (typeof cell !== 'number') return failure('#VALUE!');
    }
  return block as number[][];
}
