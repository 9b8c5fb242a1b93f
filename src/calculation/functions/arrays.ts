/** Functions that give blocks of cells, and dates, which are numbers. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { cells, MANY, values, type FunctionSpec } from '../function-spec';
import { compare, failure, finite, toFlag, toMatrix, toNumber, type Value } from '../values';

const numberOr = (value: Value, otherwise: number): number | CellError =>
  value === undefined ? otherwise : toNumber(toMatrix(value)[0]![0]!);
const flagOr = (value: Value, otherwise: boolean): boolean | CellError =>
  value === undefined ? otherwise : toFlag(toMatrix(value)[0]![0]!);

const transposed = (block: Matrix): Matrix => (block[0] ?? []).map((_cell, c) => block.map((line) => line[c]!));
const orEmpty = (block: Matrix): Value => (block.length && block[0]!.length ? block : failure('#CALC!'));

const MOST_CELLS = 5_000_000;

function sequence(rows: Value, columns: Value, start: Value, step: Value): Value {
  const given = [numberOr(rows, 1), numberOr(columns, 1), numberOr(start, 1), numberOr(step, 1)];
  for (const one of given) if (one instanceof CellError) return one;
  const [height, width, first, by] = given.map(Number) as [number, number, number, number];
  if (height < 1 || width < 1 || height * width > MOST_CELLS)
    return failure(height < 0 || width < 0 ? '#VALUE!' : '#CALC!');
  return Array.from({ length: Math.trunc(height) }, (_r, r) =>
    Array.from({ length: Math.trunc(width) }, (_c, c) => first + (r * Math.trunc(width) + c) * by),
  );
}

function unique(array: Value, byColumn: Value, once: Value): Value {
  const across = flagOr(byColumn, false);
  const single = flagOr(once, false);
  if (typeof across !== 'boolean') return across;
  if (typeof single !== 'boolean') return single;
  const lines = across ? transposed(toMatrix(array)) : toMatrix(array);
  const seen = new Map<string, { line: Cell[]; times: number }>();
  for (const line of lines) {
    const key = line
      .map((cell) =>
        typeof cell === 'string'
          ? `t${cell.toLowerCase()}`
          : `${typeof cell}${cell instanceof CellError ? cell.code : String(cell)}`,
      )
      .join('\n');
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

function sort(array: Value, by: Value, order: Value, byColumn: Value): Value {
  const index = numberOr(by, 1);
  const direction = numberOr(order, 1);
  const across = flagOr(byColumn, false);
  if (index instanceof CellError) return index;
  if (direction instanceof CellError) return direction;
  if (typeof across !== 'boolean') return across;
  const lines = across ? transposed(toMatrix(array)) : toMatrix(array);
  if (Math.abs(direction) !== 1 || index < 1 || index > (lines[0]?.length ?? 0)) return failure('#VALUE!');
  const sorted = [...lines].sort((a, b) => sortOrder(a[Math.trunc(index) - 1]!, b[Math.trunc(index) - 1]!, direction));
  return across ? transposed(sorted) : sorted;
}

function sortBy(array: Value, ...pairs: Value[]): Value {
  const lines = toMatrix(array);
  const keys: { cells: Cell[]; direction: number }[] = [];
  for (let at = 0; at < pairs.length; at += 2) {
    const block = toMatrix(pairs[at]);
    const direction = numberOr(pairs[at + 1], 1);
    if (direction instanceof CellError) return direction;
    if (Math.abs(direction) !== 1 || block.length !== lines.length) return failure('#VALUE!');
    keys.push({ cells: block.map((line) => line[0]!), direction });
  }
  const order = lines.map((_line, index) => index);
  order.sort((a, b) =>
    keys.reduce((decided, { cells: own, direction }) => decided || sortOrder(own[a]!, own[b]!, direction), 0),
  );
  return order.map((index) => lines[index]!);
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
    const height = rows === undefined ? undefined : numberOr(rows, 0);
    const width = columns === undefined ? undefined : numberOr(columns, 0);
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
    const line = number > 0 ? lines[Math.trunc(number) - 1] : lines.at(Math.trunc(number));
    if (!line || number === 0) return failure('#VALUE!');
    result.push(line);
  }
  return result;
}

function product(a: Value, b: Value): Value {
  const left = toMatrix(a);
  const right = toMatrix(b);
  if (
    left[0]?.length !== right.length ||
    [...left, ...right].some((line) => line.some((cell) => typeof cell !== 'number'))
  )
    return failure('#VALUE!');
  return left.map((line) =>
    right[0]!.map((_cell, c) =>
      finite(line.reduce<number>((sum, cell, k) => sum + Number(cell) * Number(right[k]![c]), 0)),
    ),
  );
}

const DAY_MS = 86_400_000;
/** The day after the last one that spreadsheets know, 31 December 9999. */
const AFTER_9999 = 2_958_466;
const EPOCH = Date.UTC(1899, 11, 30);

/** Days since 1900 as spreadsheets count them: they hold 1900 for a leap year. */
function serial(time: number): number {
  const days = (time - EPOCH) / DAY_MS;
  return days < 61 ? days - 1 : days;
}

const dateOf = (days: number): Date =>
  new Date(EPOCH + (Math.floor(days) < 60 ? Math.floor(days) + 1 : Math.floor(days)) * DAY_MS);

const datePart = (take: (date: Date) => number): FunctionSpec =>
  cells(1, 1, (cell) => {
    const days = toNumber(cell);
    return typeof days !== 'number' ? days : days < 0 || days >= AFTER_9999 ? failure('#NUM!') : take(dateOf(days));
  });

/** This moment by the computer's own clock, as a spreadsheet shows it. */
function now(): number {
  const date = new Date();
  return serial(date.getTime() - date.getTimezoneOffset() * 60_000);
}

export const arrayFunctions: Readonly<Record<string, FunctionSpec>> = {
  SEQUENCE: values(1, 4, sequence),
  TRANSPOSE: values(1, 1, (array) => transposed(toMatrix(array))),
  UNIQUE: values(1, 3, unique),
  SORT: values(1, 4, sort),
  SORTBY: values(2, MANY, sortBy),
  FILTER: values(2, 3, filter),
  VSTACK: values(1, MANY, (...given) => stack(given)),
  HSTACK: values(1, MANY, (...given) => transposed(stack(given.map((value) => transposed(toMatrix(value)))))),
  TAKE: trimming(true),
  DROP: trimming(false),
  CHOOSEROWS: values(2, MANY, (array, ...numbers) => chosen(toMatrix(array), numbers)),
  CHOOSECOLS: values(2, MANY, (array, ...numbers) => {
    const lines = chosen(transposed(toMatrix(array)), numbers);
    return Array.isArray(lines) ? transposed(lines) : lines;
  }),
  MMULT: values(2, 2, product, { arrays: true }),
  TODAY: cells(0, 0, () => Math.floor(now()), { volatile: true }),
  NOW: cells(0, 0, now, { volatile: true }),
  DATE: cells(3, 3, (y, m, d) => {
    const [year, month, day] = [toNumber(y), toNumber(m), toNumber(d)];
    if (typeof year !== 'number') return year;
    if (typeof month !== 'number') return month;
    if (typeof day !== 'number') return day;
    const days = serial(Date.UTC(Math.trunc(year) + (year < 1900 ? 1900 : 0), Math.trunc(month) - 1, Math.trunc(day)));
    return days >= 0 && days < AFTER_9999 ? days : failure('#NUM!');
  }),
  YEAR: datePart((date) => date.getUTCFullYear()),
  MONTH: datePart((date) => date.getUTCMonth() + 1),
  DAY: datePart((date) => date.getUTCDate()),
  DAYS: cells(2, 2, (end, start) => {
    const [last, first] = [toNumber(end), toNumber(start)];
    if (typeof last !== 'number') return last;
    return typeof first === 'number' ? Math.trunc(last) - Math.trunc(first) : first;
  }),
};
