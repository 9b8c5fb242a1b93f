/** Operators of formulas and functions of cells, over cells, blocks of cells and references. */
import { CellError, type Cell, type Matrix } from '../sheet';
import type { BinaryOperator } from '../sheet/formula';
import { Areas, compare, COMPARISONS, failure, finite, Reference, toNumber, toText, type Value } from './values';

type Operation = (a: Cell, b: Cell) => Cell;

const arithmetic =
  (apply: (a: number, b: number) => Cell): Operation =>
  (a, b) => {
    const left = typeof a === 'number' ? a : toNumber(a);
    if (typeof left !== 'number') return left;
    const right = typeof b === 'number' ? b : toNumber(b);
    return typeof right === 'number' ? apply(left, right) : right;
  };

const comparison =
  (holds: (order: number) => boolean): Operation =>
  (a, b) => {
    if (a instanceof CellError) return a;
    if (b instanceof CellError) return b;
    return holds(compare(a, b));
  };

export function power(base: number, exponent: number): Cell {
  if (base === 0 && exponent === 0) return failure('#NUM!');
  if (base === 0 && exponent < 0) return failure('#DIV/0!');
  return finite(base ** exponent);
}

/** 2 to the power of -48. */
const DUST = 3.552713678800501e-15;

/**
 * A sum that is nothing but the rounding of its parts is 0, as spreadsheets show it (0.1+0.2-0.3). Sources: Microsoft,
 * "Floating-point arithmetic may give inaccurate results in Excel", which says so and not from where on; LibreOffice,
 * rtl_math_approxSub, whose bound is taken here: parts that agree to 48 bits and are not both whole.
 */
function sum(a: number, b: number): Cell {
  const total = a + b;
  const size = Math.abs(total);
  if (
    size !== 0 &&
    size < Math.abs(a) * DUST &&
    size < Math.abs(b) * DUST &&
    !(Number.isInteger(a) && Number.isInteger(b))
  )
    return 0;
  return finite(total);
}

const OPERATIONS: Readonly<Record<BinaryOperator, Operation>> = {
  '+': arithmetic(sum),
  '-': arithmetic((a, b) => sum(a, -b)),
  '*': arithmetic((a, b) => finite(a * b)),
  '/': arithmetic((a, b) => (b === 0 ? failure('#DIV/0!') : finite(a / b))),
  '^': arithmetic(power),
  '&': (a, b) => {
    const left = toText(a);
    if (typeof left !== 'string') return left;
    const right = toText(b);
    return typeof right === 'string' ? left + right : right;
  },
  '=': comparison(COMPARISONS['=']),
  '<>': comparison(COMPARISONS['<>']),
  '<': comparison(COMPARISONS['<']),
  '>': comparison(COMPARISONS['>']),
  '<=': comparison(COMPARISONS['<=']),
  '>=': comparison(COMPARISONS['>=']),
};

/** The operation of a binary operator on two values. */
export function binary(operator: BinaryOperator): (a: Cell | Matrix, b: Cell | Matrix) => Cell | Matrix {
  const operation = OPERATIONS[operator];
  return (a, b) => (Array.isArray(a) || Array.isArray(b) ? overBlocks(operation, a, b) : operation(a, b));
}

function overBlocks(operation: Operation, a: Cell | Matrix, b: Cell | Matrix): Matrix {
  const left: Matrix = Array.isArray(a) ? a : [[a]];
  const right: Matrix = Array.isArray(b) ? b : [[b]];
  const rows = Math.max(left.length, right.length);
  const columns = Math.max(left[0]?.length ?? 0, right[0]?.length ?? 0);
  const result: Matrix = new Array<Cell[]>(rows);
  for (let r = 0; r < rows; r++) {
    const line = new Array<Cell>(columns);
    for (let c = 0; c < columns; c++) line[c] = operation(elementAt(left, r, c), elementAt(right, r, c));
    result[r] = line;
  }
  return result;
}

/** A value times -1 for a minus sign, or times 0.01 for a percent sign. */
export function scaled(value: Cell | Matrix, factor: number): Cell | Matrix {
  if (Array.isArray(value)) return value.map((row) => row.map((cell) => scaled(cell, factor) as Cell));
  const number = toNumber(value);
  return typeof number === 'number' ? finite(factor === 0.01 ? number / 100 : number * factor) : number;
}

/**
 * Applies a function of cells to values of which some are blocks. A single row or column is repeated over
 * the others' extent; beyond the extent of a block there is #N/A. An error among the cells is the result, unless the function takes errors.
 */
export function lift(
  values: readonly (Cell | Matrix | undefined)[],
  apply: (cells: (Cell | undefined)[]) => Cell,
  takesErrors = false,
): Cell | Matrix {
  const blocks = values.filter((value) => Array.isArray(value));
  const rows = Math.max(0, ...blocks.map((block) => block.length));
  const columns = Math.max(0, ...blocks.map((block) => block[0]?.length ?? 0));
  const once = (cells: (Cell | undefined)[]): Cell => (takesErrors ? undefined : cells.find(isError)) ?? apply(cells);
  if (rows === 0) return once(values as (Cell | undefined)[]);
  return Array.from({ length: rows }, (_row, r) =>
    Array.from({ length: columns }, (_column, c) =>
      once(values.map((value) => (Array.isArray(value) ? elementAt(value, r, c) : value))),
    ),
  );
}

const isError = (value: Value): value is CellError => value instanceof CellError;

/** A cell of a block, of which a single row or column is repeated; #N/A beyond it, as in array formulas of the older kind. */
export function elementAt(matrix: Matrix, row: number, column: number): Cell {
  const line = matrix.length === 1 ? matrix[0] : matrix[row];
  const cell = line?.length === 1 ? line[0] : line?.[column];
  return cell === undefined ? failure('#N/A') : cell;
}

/** A union of several ranges: (A1:A3,C1:C3). */
export function united(given: readonly Value[]): Value {
  const parts = given.map(partsOf);
  return (
    given.find(isError) ?? (parts.every((one) => one !== undefined) ? new Areas(parts.flat()) : failure('#VALUE!'))
  );
}

/** A1:B3 B1:C9: the cells of both, of several ranges each with each. Source: ECMA-376 part 1, 18.17.2.3 (#NULL! where there are none). */
export function overlap(a: Value, b: Value): Value {
  if (a instanceof CellError) return a;
  if (b instanceof CellError) return b;
  const [left, right] = [partsOf(a), partsOf(b)];
  if (!left || !right) return failure('#VALUE!');
  const parts = left.flatMap((one) => right.flatMap((other) => shared(one, other) ?? []));
  return parts.length > 1 ? new Areas(parts) : (parts[0] ?? failure('#NULL!'));
}

const partsOf = (value: Value): readonly Reference[] | undefined =>
  value instanceof Areas ? value.parts : value instanceof Reference ? [value] : undefined;

function shared(a: Reference, b: Reference): Reference | undefined {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return a.grid === b.grid && rows > 0 && columns > 0 ? new Reference(a.grid, row, column, rows, columns) : undefined;
}
