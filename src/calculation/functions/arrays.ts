/** Functions that give blocks of cells. Source: Microsoft, the page of each function. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { MANY, values, type FunctionSpec } from '../function-spec';
import { compare, equalityKey, failure, firstCell, toFlag, toMatrix, toNumber, type Value } from '../values';
import { flagOf, fn, numberOf, transposed } from './define';

const orEmpty = (block: Matrix): Value => (block.length && block[0]!.length ? block : failure('#CALC!'));

const MOST_CELLS = 5_000_000;

/** Whole numbers of rows and columns, and the other numbers as they are; an error where they make no block. */
function sizesOf(given: readonly (number | CellError)[]): number[] | CellError {
  for (const one of given) if (one instanceof CellError) return one;
  const numbers = given as number[];
  const [rows, columns] = [Math.trunc(numbers[0]!), Math.trunc(numbers[1]!)];
  if (rows < 1 || columns < 1 || rows * columns > MOST_CELLS)
    return failure(rows < 0 || columns < 0 ? '#VALUE!' : '#CALC!');
  return [rows, columns, ...numbers.slice(2)];
}

const made = (rows: number, columns: number, cell: (r: number, c: number) => Cell): Matrix =>
  Array.from({ length: rows }, (_line, r) => Array.from({ length: columns }, (_cell, c) => cell(r, c)));

function sequence(rows: Value, columns: Value, start: Value, step: Value): Value {
  const sizes = sizesOf([numberOf(rows, 1), numberOf(columns, 1), numberOf(start, 1), numberOf(step, 1)]);
  if (sizes instanceof CellError) return sizes;
  const [height, width, first, by] = sizes as [number, number, number, number];
  return made(height, width, (r, c) => first + (r * width + c) * by);
}

function randomArray(rows: Value, columns: Value, low: Value, high: Value, whole: Value): Value {
  const sizes = sizesOf([numberOf(rows, 1), numberOf(columns, 1), numberOf(low, 0), numberOf(high, 1)]);
  const isWhole = flagOf(whole);
  if (sizes instanceof CellError) return sizes;
  if (isWhole instanceof CellError) return isWhole;
  const [height, width, from, to] = sizes as [number, number, number, number];
  if (from > to) return failure('#VALUE!');
  return made(height, width, () =>
    isWhole ? from + Math.floor(Math.random() * (to - from + 1)) : from + Math.random() * (to - from),
  );
}

const keyOf = (cell: Cell): string =>
  cell instanceof CellError ? `e${cell.code}` : cell === null ? '' : `${typeof cell} ${String(equalityKey(cell))}`;

function unique(array: Value, byColumn: Value, once: Value): Value {
  const across = flagOf(byColumn);
  const single = flagOf(once);
  if (typeof across !== 'boolean') return across;
  if (typeof single !== 'boolean') return single;
  const lines = across ? transposed(toMatrix(array)) : toMatrix(array);
  const seen = new Map<string, { line: Cell[]; times: number }>();
  for (const line of lines) {
    const key = line.map(keyOf).join('\n');
    const found = seen.get(key);
    if (found) found.times++;
    else seen.set(key, { line, times: 1 });
  }
  const kept = [...seen.values()].filter(({ times }) => !single || times === 1).map(({ line }) => line);
  return orEmpty(across ? transposed(kept) : kept);
}

/** Order of cells when sorted: errors after everything, blanks last. */
function sortOrder(a: Cell, b: Cell, direction: number): number {
  const late = (cell: Cell): number => (cell === null ? 2 : cell instanceof CellError ? 1 : 0);
  const ranks = late(a) - late(b);
  return ranks !== 0 || late(a) !== 0 ? ranks : compare(a, b) * direction;
}

/** SORT: `by` and `order` are one number, or a list with a number for each column that is sorted by. */
function sort(array: Value, by: Value, order: Value, byColumn: Value): Value {
  const across = flagOf(byColumn);
  if (typeof across !== 'boolean') return across;
  const lines = across ? transposed(toMatrix(array)) : toMatrix(array);
  const indices = listOf(by, 1);
  const directions = listOf(order, 1);
  if (indices instanceof CellError) return indices;
  if (directions instanceof CellError) return directions;
  const width = lines[0]?.length ?? 0;
  if (indices.some((index) => index < 1 || Math.trunc(index) > width) || directions.some((one) => Math.abs(one) !== 1))
    return failure('#VALUE!');
  const sorted = [...lines].sort((a, b) =>
    indices.reduce(
      (decided, index, at) =>
        decided ||
        sortOrder(a[Math.trunc(index) - 1]!, b[Math.trunc(index) - 1]!, directions[at] ?? directions.at(-1)!),
      0,
    ),
  );
  return across ? transposed(sorted) : sorted;
}

function listOf(value: Value, otherwise: number): number[] | CellError {
  if (value === undefined) return [otherwise];
  const numbers = toMatrix(value).flat().map(toNumber);
  const error = numbers.find((one): one is CellError => one instanceof CellError);
  return error ?? (numbers as number[]);
}

function sortBy(array: Value, ...pairs: Value[]): Value {
  const block = toMatrix(array);
  const first = toMatrix(pairs[0]);
  const across = first.length === 1 && block.length !== 1;
  const lines = across ? transposed(block) : block;
  const keys: { cells: Cell[]; direction: number }[] = [];
  for (let at = 0; at < pairs.length; at += 2) {
    const own = toMatrix(pairs[at]);
    const cells = own.length === 1 && across ? own[0]! : own.map((line) => line[0]!);
    const direction = numberOf(pairs[at + 1], 1);
    if (direction instanceof CellError) return direction;
    if (Math.abs(direction) !== 1 || cells.length !== lines.length) return failure('#VALUE!');
    keys.push({ cells, direction });
  }
  const order = lines.map((_line, index) => index);
  order.sort((a, b) =>
    keys.reduce((decided, { cells: own, direction }) => decided || sortOrder(own[a]!, own[b]!, direction), 0),
  );
  const sorted = order.map((index) => lines[index]!);
  return across ? transposed(sorted) : sorted;
}

function filter(array: Value, include: Value, instead: Value): Value {
  const lines = toMatrix(array);
  const tests = toMatrix(include);
  const across = tests.length === 1 && lines.length !== 1;
  const list = across ? tests[0]! : tests.map((line) => line[0]!);
  const source = across ? transposed(lines) : lines;
  if (list.length !== source.length) return failure('#VALUE!');
  const kept: Cell[][] = [];
  for (const [index, test] of list.entries()) {
    const flag = toFlag(test);
    if (typeof flag !== 'boolean') return flag;
    if (flag) kept.push(source[index]!);
  }
  if (!kept.length) return instead === undefined ? failure('#CALC!') : instead;
  return across ? transposed(kept) : kept;
}

function stack(given: readonly Value[]): Matrix {
  const blocks = given.map(toMatrix);
  const width = Math.max(...blocks.map((block) => block[0]?.length ?? 0));
  return blocks.flatMap((block) =>
    block.map((line) => Array.from({ length: width }, (_cell, c) => (c < line.length ? line[c]! : failure('#N/A')))),
  );
}

/** TAKE and DROP: a count of lines from the start, or from the end when it is below 0. */
const part = (block: Matrix, count: number | undefined, take: boolean): Matrix => {
  if (count === undefined) return block;
  const n = Math.trunc(count);
  if (take) return n >= 0 ? block.slice(0, n) : block.slice(n);
  return n >= 0 ? block.slice(n) : block.slice(0, n);
};

const trimming = (take: boolean): FunctionSpec =>
  values(2, 3, (array, rows, columns) => {
    const height = rows === undefined ? undefined : numberOf(rows);
    const width = columns === undefined ? undefined : numberOf(columns);
    if (height instanceof CellError) return height;
    if (width instanceof CellError) return width;
    return orEmpty(transposed(part(transposed(part(toMatrix(array), height, take)), width, take)));
  });

/** CHOOSECOLS and CHOOSEROWS: lines by number, from the end when below 0. */
function chosen(lines: Matrix, numbers: readonly Value[]): Matrix | CellError {
  const result: Matrix = [];
  for (const cell of numbers.flatMap((value) => toMatrix(value).flat())) {
    const number = toNumber(cell);
    if (typeof number !== 'number') return number;
    const whole = Math.trunc(number);
    const line = whole > 0 ? lines[whole - 1] : lines.at(whole);
    if (!line || whole === 0) return failure('#VALUE!');
    result.push(line);
  }
  return result;
}

function expand(array: Value, rows: Value, columns: Value, padding: Value): Value {
  const block = toMatrix(array);
  const [height, width] = [numberOf(rows, block.length), numberOf(columns, block[0]?.length ?? 0)];
  if (typeof height !== 'number') return height;
  if (typeof width !== 'number') return width;
  if (Math.trunc(height) < block.length || Math.trunc(width) < (block[0]?.length ?? 0)) return failure('#VALUE!');
  if (height * width > MOST_CELLS) return failure('#NUM!');
  const fill = padding === undefined ? failure('#N/A') : firstCell(padding);
  return made(Math.trunc(height), Math.trunc(width), (r, c) => {
    const line = block[r];
    return line && c < line.length ? line[c]! : fill;
  });
}

/** TOCOL and TOROW: 1 leaves out blanks, 2 errors, 3 both. */
function flattened(array: Value, leave: Value, byColumn: Value): Cell[] | CellError {
  const kind = numberOf(leave);
  const across = flagOf(byColumn);
  if (typeof kind !== 'number') return kind;
  if (typeof across !== 'boolean') return across;
  if (![0, 1, 2, 3].includes(kind)) return failure('#VALUE!');
  const block = toMatrix(array);
  const kept = (across ? transposed(block) : block)
    .flat()
    .filter((cell) => !((kind & 1 && cell === null) || (kind & 2 && cell instanceof CellError)));
  return kept.length ? kept : failure('#CALC!');
}

/** WRAPROWS and WRAPCOLS: a list broken into lines. */
function wrapped(array: Value, count: Value, padding: Value): Matrix | CellError {
  const block = toMatrix(array);
  const length = numberOf(count);
  if (typeof length !== 'number') return length;
  if (block.length > 1 && (block[0]?.length ?? 0) > 1) return failure('#VALUE!');
  const each = Math.trunc(length);
  if (each < 1) return failure('#NUM!');
  const cells = block.flat();
  const fill = padding === undefined ? failure('#N/A') : firstCell(padding);
  return made(Math.ceil(cells.length / each), each, (r, c) => {
    const cell = cells[r * each + c];
    return cell === undefined ? fill : cell;
  });
}

const acrossOr = (lines: Matrix | CellError): Value => (Array.isArray(lines) ? transposed(lines) : lines);

export const arrayFunctions: Readonly<Record<string, FunctionSpec>> = {
  SEQUENCE: values(1, 4, sequence),
  RANDARRAY: values(0, 5, randomArray, { volatile: true }),
  TRANSPOSE: fn('v', 1, ([array]) => transposed(toMatrix(array)), { arrays: true }),
  UNIQUE: values(1, 3, unique),
  SORT: values(1, 4, sort),
  SORTBY: values(2, MANY, sortBy),
  FILTER: values(2, 3, filter, { arrays: true }),
  VSTACK: values(1, MANY, (...given) => stack(given)),
  HSTACK: values(1, MANY, (...given) => transposed(stack(given.map((value) => transposed(toMatrix(value)))))),
  TAKE: trimming(true),
  DROP: trimming(false),
  EXPAND: values(2, 4, expand),
  CHOOSEROWS: values(2, MANY, (array, ...numbers) => chosen(toMatrix(array), numbers)),
  CHOOSECOLS: values(2, MANY, (array, ...numbers) => acrossOr(chosen(transposed(toMatrix(array)), numbers))),
  TOCOL: values(1, 3, (array, leave, byColumn) => {
    const cells = flattened(array, leave, byColumn);
    return Array.isArray(cells) ? cells.map((cell) => [cell]) : cells;
  }),
  TOROW: values(1, 3, (array, leave, byColumn) => {
    const cells = flattened(array, leave, byColumn);
    return Array.isArray(cells) ? [cells] : cells;
  }),
  WRAPROWS: values(2, 3, wrapped),
  WRAPCOLS: values(2, 3, (array, count, padding) => acrossOr(wrapped(array, count, padding))),
};
