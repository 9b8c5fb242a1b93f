/** Functions that give blocks of cells. Source: Microsoft, the page of each function. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { compare, equalityKey, failure, toFlag, toMatrix, type Value } from '../values';
import {
  errorIn,
  flagOf,
  fn,
  integerOf,
  made,
  MANY,
  MOST_CELLS,
  NUM,
  numberOf,
  numbersFrom,
  paddingOf,
  sizeOf,
  transposed,
  unlessError,
  values,
  type Family,
  type FunctionSpec,
} from './define';

const orEmpty = (block: Matrix): Value => (block.length && block[0]!.length ? block : failure('#CALC!'));

/** Whole numbers of rows and columns; an error where they make no block. */
function sizesOf(height: number, width: number): readonly [rows: number, columns: number] | CellError {
  const [rows, columns] = [Math.trunc(height), Math.trunc(width)];
  if (rows >= 1 && columns >= 1 && rows * columns <= MOST_CELLS) return [rows, columns];
  return failure(rows < 0 || columns < 0 ? '#VALUE!' : '#CALC!');
}

const sequence = (rows: Value, columns: Value, start: Value, step: Value): Value =>
  unlessError(
    [numberOf(rows, 1), numberOf(columns, 1), numberOf(start, 1), numberOf(step, 1)],
    (height, width, first, by) =>
      unlessError([sizesOf(height, width)], (sizes) => made(...sizes, (r, c) => first + (r * sizes[1] + c) * by)),
  );

const randomArray = (rows: Value, columns: Value, low: Value, high: Value, whole: Value): Value =>
  unlessError(
    [numberOf(rows, 1), numberOf(columns, 1), numberOf(low, 0), numberOf(high, 1)],
    (height, width, from, to) =>
      unlessError([sizesOf(height, width), flagOf(whole)], (sizes, isWhole) => {
        if (from > to) return failure('#VALUE!');
        return made(...sizes, () =>
          isWhole ? from + Math.floor(Math.random() * (to - from + 1)) : from + Math.random() * (to - from),
        );
      }),
  );

/** A block with its columns as rows, where lines go down and not across. */
const turned = (block: Matrix, isTurned: boolean): Matrix => (isTurned ? transposed(block) : block);

const keyOf = (cell: Cell): string =>
  cell instanceof CellError ? `e${cell.code}` : cell === null ? '' : `${typeof cell} ${String(equalityKey(cell))}`;

const unique = (array: Value, byColumn: Value, once: Value): Value =>
  unlessError([flagOf(byColumn), flagOf(once)], (across, single) => {
    const seen = new Map<string, { line: Cell[]; times: number }>();
    for (const line of turned(toMatrix(array), across)) {
      const key = line.map(keyOf).join('\n');
      const found = seen.get(key);
      if (found) found.times++;
      else seen.set(key, { line, times: 1 });
    }
    const kept = [...seen.values()].filter(({ times }) => !single || times === 1).map(({ line }) => line);
    return orEmpty(turned(kept, across));
  });

/** Order of cells when sorted: errors after everything, blanks last. */
function sortOrder(a: Cell, b: Cell, direction: number): number {
  const late = (cell: Cell): number => (cell === null ? 2 : cell instanceof CellError ? 1 : 0);
  const ranks = late(a) - late(b);
  return ranks !== 0 || late(a) !== 0 ? ranks : compare(a, b) * direction;
}

/** SORT: `by` and `order` are one number, or a list with a number for each column that is sorted by. */
const sort = (array: Value, by: Value, order: Value, byColumn: Value): Value =>
  unlessError([flagOf(byColumn), listOf(by), listOf(order)], (across, indices, directions) => {
    const lines = turned(toMatrix(array), across);
    const { columns } = sizeOf(lines);
    if (
      indices.some((index) => index < 1 || Math.trunc(index) > columns) ||
      directions.some((one) => Math.abs(one) !== 1)
    )
      return failure('#VALUE!');
    const sorted = [...lines].sort((a, b) =>
      indices.reduce(
        (decided, index, at) =>
          decided ||
          sortOrder(a[Math.trunc(index) - 1]!, b[Math.trunc(index) - 1]!, directions[at] ?? directions.at(-1)!),
        0,
      ),
    );
    return turned(sorted, across);
  });

/** The numbers of a list, which is 1 where it is left out. */
const listOf = (value: Value): number[] | CellError =>
  value === undefined ? [1] : numbersFrom(toMatrix(value).flat());

function sortBy(array: Value, ...pairs: Value[]): Value {
  const block = toMatrix(array);
  const first = toMatrix(pairs[0]);
  const across = first.length === 1 && block.length !== 1;
  const lines = turned(block, across);
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
  return turned(
    order.map((index) => lines[index]!),
    across,
  );
}

function filter(array: Value, include: Value, instead: Value): Value {
  const lines = toMatrix(array);
  const tests = toMatrix(include);
  const across = tests.length === 1 && lines.length !== 1;
  const list = across ? tests[0]! : tests.map((line) => line[0]!);
  const source = turned(lines, across);
  if (list.length !== source.length) return failure('#VALUE!');
  const flags = list.map(toFlag);
  const error = errorIn(flags);
  if (error) return error;
  const kept = source.filter((_line, index) => flags[index] === true);
  if (kept.length) return turned(kept, across);
  return instead === undefined ? failure('#CALC!') : instead;
}

function stack(given: readonly Value[]): Matrix {
  const blocks = given.map(toMatrix);
  const width = Math.max(...blocks.map((block) => sizeOf(block).columns));
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
  values(2, 3, (array, rows, columns) =>
    unlessError(
      [rows === undefined ? undefined : numberOf(rows), columns === undefined ? undefined : numberOf(columns)],
      (height, width) => orEmpty(transposed(part(transposed(part(toMatrix(array), height, take)), width, take))),
    ),
  );

/** CHOOSECOLS and CHOOSEROWS: lines by number, from the end when below 0. */
function chosen(lines: Matrix, numbers: readonly Value[]): Matrix | CellError {
  const found = numbers
    .flatMap((value) => toMatrix(value).flat())
    .map((cell) =>
      unlessError([integerOf(cell)], (n) => (n === 0 ? undefined : lines.at(n > 0 ? n - 1 : n)) ?? failure('#VALUE!')),
    );
  return errorIn(found) ?? (found as Matrix);
}

function expand(array: Value, rows: Value, columns: Value, padding: Value): Value {
  const block = toMatrix(array);
  const own = sizeOf(block);
  return unlessError([numberOf(rows, own.rows), numberOf(columns, own.columns)], (height, width) => {
    if (Math.trunc(height) < own.rows || Math.trunc(width) < own.columns) return failure('#VALUE!');
    if (height * width > MOST_CELLS) return NUM();
    const fill = paddingOf(padding);
    return made(Math.trunc(height), Math.trunc(width), (r, c) =>
      r < own.rows && c < own.columns ? block[r]![c]! : fill,
    );
  });
}

/** TOROW: 1 leaves out blanks, 2 errors, 3 both. */
const flattened = (array: Value, leave: Value, byColumn: Value): Matrix | CellError =>
  unlessError([numberOf(leave), flagOf(byColumn)], (kind, across) => {
    if (![0, 1, 2, 3].includes(kind)) return failure('#VALUE!');
    const kept = turned(toMatrix(array), across)
      .flat()
      .filter((cell) => !((kind & 1 && cell === null) || (kind & 2 && cell instanceof CellError)));
    return kept.length ? [kept] : failure('#CALC!');
  });

/** WRAPROWS: a list broken into lines. */
function wrapped(array: Value, count: Value, padding: Value): Matrix | CellError {
  const block = toMatrix(array);
  return unlessError([integerOf(count)], (each) => {
    if (block.length > 1 && sizeOf(block).columns > 1) return failure('#VALUE!');
    if (each < 1) return NUM();
    const cells = block.flat();
    const fill = paddingOf(padding);
    return made(Math.ceil(cells.length / each), each, (r, c) =>
      r * each + c < cells.length ? cells[r * each + c]! : fill,
    );
  });
}

/** Columns as lines, in the other direction. */
const across = (lines: Matrix | CellError): Value => unlessError([lines], transposed);

export const arrayFunctions: Family = {
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
  CHOOSECOLS: values(2, MANY, (array, ...numbers) => across(chosen(transposed(toMatrix(array)), numbers))),
  TOCOL: values(1, 3, (array, leave, byColumn) => across(flattened(array, leave, byColumn))),
  TOROW: values(1, 3, flattened),
  WRAPROWS: values(2, 3, wrapped),
  WRAPCOLS: values(2, 3, (array, count, padding) => across(wrapped(array, count, padding))),
};
