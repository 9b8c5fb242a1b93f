/** Sums, means, extremes and counts over ranges. */
import { CellError, type Cell } from '../../sheet';
import { eachCell, failure, finite, Reference, toMatrix, toNumber, type Value } from '../values';
import { fn, gathered, MANY, sizeOf, unlessError, values, type Family, type FunctionSpec, type Size } from './define';

/**
 * The numbers among values: in ranges and arrays only what is a number counts, a value given directly has to
 * be one. The first error is the result.
 */
export function numbersOf(given: readonly Value[]): number[] | CellError {
  const numbers: number[] = [];
  let error: CellError | undefined;
  for (const value of given) {
    eachCell(value, (cell, direct) => {
      if (typeof cell === 'number') numbers.push(cell);
      else if (cell instanceof CellError) error ??= cell;
      else if (direct) {
        const number = toNumber(cell);
        if (typeof number === 'number') numbers.push(number);
        else error ??= number;
      }
    });
    if (error) return error;
  }
  return numbers;
}

/** The numbers among values for AVERAGEA and its like: in ranges a text is 0, TRUE is 1 and FALSE 0. */
const numbersOfAll = (given: readonly Value[]): number[] | CellError =>
  gathered(given, (cell, direct) => {
    if (cell === null && !direct) return undefined;
    return typeof cell === 'string' && !direct ? 0 : toNumber(cell);
  });

type Numbers = (numbers: number[]) => Cell;

export const over = (apply: Numbers, numbers = numbersOf): FunctionSpec =>
  values(1, MANY, (...given) => unlessError([numbers(given)], apply));

export function total(numbers: readonly number[]): number {
  let sum = 0;
  for (const number of numbers) sum += number;
  return sum;
}

export const mean = (numbers: readonly number[]): number => total(numbers) / numbers.length;

/** Sum of the squared distances of the numbers from their mean. */
export const squares = (numbers: readonly number[]): number => {
  const middle = mean(numbers);
  return total(numbers.map((number) => (number - middle) ** 2));
};

const spread =
  (spare: number, apply = (variance: number): number => variance): Numbers =>
  (numbers) =>
    numbers.length <= spare ? failure('#DIV/0!') : finite(apply(squares(numbers) / (numbers.length - spare)));

const AGGREGATES: Readonly<Record<string, Numbers>> = {
  SUM: (numbers) => finite(total(numbers)),
  AVERAGE: (numbers) => (numbers.length ? finite(mean(numbers)) : failure('#DIV/0!')),
  MAX: (numbers) => (numbers.length ? numbers.reduce((best, number) => Math.max(best, number)) : 0),
  MIN: (numbers) => (numbers.length ? numbers.reduce((best, number) => Math.min(best, number)) : 0),
  PRODUCT: (numbers) => (numbers.length ? finite(numbers.reduce((product, number) => product * number, 1)) : 0),
  SUMSQ: (numbers) => finite(total(numbers.map((number) => number * number))),
  STDEV: spread(1, Math.sqrt),
  'STDEV.S': spread(1, Math.sqrt),
  STDEVP: spread(0, Math.sqrt),
  'STDEV.P': spread(0, Math.sqrt),
  VAR: spread(1),
  'VAR.S': spread(1),
  VARP: spread(0),
  'VAR.P': spread(0),
  DEVSQ: (numbers) => (numbers.length ? finite(squares(numbers)) : failure('#NUM!')),
};

/** What one of these functions gives for the numbers among values. */
export const aggregated = (name: string, given: readonly Value[]): Cell =>
  unlessError([numbersOf(given)], AGGREGATES[name]!);

const OVER_ALL: Readonly<Record<string, string>> = {
  AVERAGEA: 'AVERAGE',
  MAXA: 'MAX',
  MINA: 'MIN',
  STDEVA: 'STDEV',
  STDEVPA: 'STDEVP',
  VARA: 'VAR',
  VARPA: 'VARP',
};

export const count = (given: readonly Value[], counts: (cell: Cell, direct: boolean) => boolean): number => {
  let number = 0;
  for (const value of given) {
    if (value === undefined) number++;
    else eachCell(value, (cell, direct) => void (counts(cell, direct) && number++));
  }
  return number;
};

const isCounted = (cell: Cell, direct: boolean): boolean =>
  typeof cell === 'number' ||
  (direct && (typeof cell === 'boolean' || (typeof cell === 'string' && typeof toNumber(cell) === 'number')));

/** How far the most used of some ranges is used. */
export const usedSize = (ranges: readonly Reference[]): Size => {
  const used = ranges.map((range) => range.used());
  return { rows: Math.max(...used.map(({ rows }) => rows)), columns: Math.max(...used.map(({ columns }) => columns)) };
};

/** Ranges are cut so that each keeps as much as the most used one: whole columns of two sheets stay of one size. */
function sumProduct(...given: Value[]): Value {
  const ranges = given.filter((value): value is Reference => value instanceof Reference);
  if (ranges.some(({ rows, columns }) => rows !== ranges[0]!.rows || columns !== ranges[0]!.columns))
    return failure('#VALUE!');
  const used = usedSize(ranges);
  const blocks = given.map((value) => {
    if (!(value instanceof Reference)) return toMatrix(value);
    const { grid, row, column, rows, columns } = value;
    return toMatrix(new Reference(grid, row, column, Math.min(rows, used.rows), Math.min(columns, used.columns)));
  });
  const [first] = blocks;
  if (blocks.some((block) => block.length !== first!.length || block[0]?.length !== first![0]?.length))
    return failure('#VALUE!');
  let sum = 0;
  for (let r = 0; r < first!.length; r++) {
    for (let c = 0; c < first![r]!.length; c++) {
      let product = 1;
      for (const block of blocks) {
        const cell = block[r]![c]!;
        if (cell instanceof CellError) return cell;
        product *= typeof cell === 'number' ? cell : 0;
      }
      sum += product;
    }
  }
  return finite(sum);
}

export const aggregateFunctions: Family = {
  ...Object.fromEntries(Object.entries(AGGREGATES).map(([name, apply]) => [name, over(apply)])),
  ...Object.fromEntries(Object.entries(OVER_ALL).map(([name, of]) => [name, over(AGGREGATES[of]!, numbersOfAll)])),
  COUNT: values(1, MANY, (...given) => count(given, isCounted)),
  COUNTA: values(1, MANY, (...given) => count(given, (cell, direct) => direct || cell !== null)),
  // Cells beyond the used part of the sheet are blank, too.
  COUNTBLANK: fn('v', 1, ([range]) => {
    const { rows, columns } = sizeOf(range);
    return rows * columns - count([range], (cell) => cell !== null && cell !== '');
  }),
  SUMPRODUCT: values(1, MANY, sumProduct, { arrays: true }),
};
