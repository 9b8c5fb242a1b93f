/** Operators of formulas, over cells and blocks of cells. */
import { CellError, type Cell, type Matrix } from '../sheet';
import { elementAt } from './lift';
import type { BinaryOperator } from '../sheet/formula';
import { compare, failure, finite, toNumber, toText } from './values';

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
  '=': comparison((order) => order === 0),
  '<>': comparison((order) => order !== 0),
  '<': comparison((order) => order < 0),
  '>': comparison((order) => order > 0),
  '<=': comparison((order) => order <= 0),
  '>=': comparison((order) => order >= 0),
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
