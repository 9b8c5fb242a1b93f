/**
 * Functions that call a LAMBDA for each cell, row or column. Source: Microsoft, the page of each. They hand on references
 * where they are given one, so that SUBTOTAL and its like work on them.
 */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { failure, Lambda, read, Reference, toMatrix, type Value } from '../values';
import {
  fn,
  integerOf,
  made,
  MANY,
  MOST_CELLS,
  NUM,
  partOf,
  sizeOf,
  unlessError,
  values,
  type Family,
  type FunctionSpec,
} from './define';

/** The LAMBDA that is given, if it takes so many values. */
const taking = (value: Value, count: number): Lambda | undefined =>
  value instanceof Lambda && value.least <= count && count <= value.most ? value : undefined;

/** The one cell that a call gives. Several are #CALC!, because a block cannot hold blocks. */
function oneCell(value: Value): Cell {
  const cells = read(value);
  if (!Array.isArray(cells)) return cells;
  return cells.length === 1 && cells[0]!.length === 1 ? cells[0]![0]! : failure('#CALC!');
}

const wholeOf = (value: Value): Reference | Matrix => (value instanceof Reference ? value.used() : toMatrix(value));

const cellOf = (whole: Reference | Matrix, row: number, column: number): Value =>
  whole instanceof Reference
    ? new Reference(whole.grid, whole.row + row, whole.column + column, 1, 1)
    : whole[row]![column]!;

/** Beyond the smaller of two blocks there is #N/A (from memory, verify). */
function map(...given: Value[]): Value {
  const of = taking(given.at(-1), given.length - 1);
  if (!of) return failure('#VALUE!');
  const wholes = given.slice(0, -1).map(wholeOf);
  const sizes = wholes.map(sizeOf);
  const height = Math.max(...sizes.map(({ rows }) => rows));
  const width = Math.max(...sizes.map(({ columns }) => columns));
  return made(height, width, (r, c) => {
    if (sizes.some(({ rows, columns }) => r >= rows || c >= columns)) return failure('#N/A');
    return oneCell(of.call(wholes.map((whole) => cellOf(whole, r, c))));
  });
}

/** Calls a LAMBDA with what it gave last and each cell in rows; without a start the first cell is the start. */
function along(given: readonly Value[], note: (value: Value) => void): CellError | undefined {
  const of = taking(given.at(-1), 2);
  if (!of) return failure('#VALUE!');
  const whole = wholeOf(given.at(-2));
  const { rows, columns } = sizeOf(whole);
  let last = given.length > 2 ? given[0] : undefined;
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const cell = cellOf(whole, r, c);
      last = r + c === 0 && last === undefined ? cell : of.call([last, cell]);
      note(last);
    }
  return undefined;
}

function reduce(...given: Value[]): Value {
  let last: Value;
  return along(given, (value) => (last = value)) ?? last;
}

function scan(...given: Value[]): Value {
  const steps: Cell[] = [];
  const fault = along(given, (value) => steps.push(oneCell(value)));
  const { rows, columns } = sizeOf(wholeOf(given.at(-2)));
  return fault ?? made(rows, columns, (r, c) => steps[r * columns + c]!);
}

const byLine = (isRow: boolean): FunctionSpec =>
  values(2, 2, (array, call) => {
    if (call instanceof CellError) return call;
    // MS, BYROW: "Not providing a LAMBDA function" is #CALC!, one of other parameters #VALUE!.
    if (!(call instanceof Lambda)) return failure('#CALC!');
    const of = taking(call, 1);
    if (!of) return failure('#VALUE!');
    const whole = wholeOf(array);
    const { rows, columns } = sizeOf(whole);
    const line = (row: number, column: number, height: number, width: number): Value =>
      height * width === 1 ? cellOf(whole, row, column) : partOf(whole, row, column, height, width);
    return isRow
      ? made(rows, 1, (r) => oneCell(of.call([line(r, 0, 1, columns)])))
      : made(1, columns, (_r, c) => oneCell(of.call([line(0, c, rows, 1)])));
  });

function makeArray([height, width, call]: Value[]): Value {
  const of = taking(call, 2);
  return unlessError([integerOf(height), integerOf(width)], (rows, columns) => {
    if (!of || rows < 1 || columns < 1) return failure('#VALUE!');
    return rows * columns > MOST_CELLS ? NUM() : made(rows, columns, (r, c) => oneCell(of.call([r + 1, c + 1])));
  });
}

export const lambdaFunctions: Family = {
  MAP: values(2, MANY, map),
  REDUCE: values(2, 3, reduce),
  SCAN: values(2, 3, scan),
  BYROW: byLine(true),
  BYCOL: byLine(false),
  MAKEARRAY: fn('ccv', 3, makeArray),
  ISOMITTED: values(1, 1, (value) => value === undefined),
};
