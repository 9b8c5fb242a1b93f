/** Sums, counts and means over ranges. */
import { CellError, type Cell } from '../../sheet';
import { MANY, values, type FunctionSpec } from '../function-spec';
import { lift } from '../lift';
import { eachCell, failure, finite, Reference, toMatrix, toNumber, type Value } from '../values';

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

const over = (apply: (numbers: number[]) => Cell, min = 1): FunctionSpec =>
  values(min, MANY, (...given) => {
    const numbers = numbersOf(given);
    return Array.isArray(numbers) ? apply(numbers) : numbers;
  });

function total(numbers: readonly number[]): number {
  let sum = 0;
  for (const number of numbers) sum += number;
  return sum;
}

const mean = (numbers: readonly number[]): number => total(numbers) / numbers.length;
const squares = (numbers: readonly number[]): number => {
  const middle = mean(numbers);
  return total(numbers.map((number) => (number - middle) ** 2));
};

const spread = (spare: number, apply: (variance: number) => number): FunctionSpec =>
  over((numbers) =>
    numbers.length <= spare ? failure('#DIV/0!') : finite(apply(squares(numbers) / (numbers.length - spare))),
  );

const largest = (numbers: readonly number[]): number =>
  numbers.reduce((best, number) => Math.max(best, number), -Infinity);
const smallest = (numbers: readonly number[]): number =>
  numbers.reduce((best, number) => Math.min(best, number), Infinity);

export const AGGREGATES: Readonly<Record<string, (numbers: number[]) => Cell>> = {
  SUM: (numbers) => finite(total(numbers)),
  AVERAGE: (numbers) => (numbers.length ? finite(mean(numbers)) : failure('#DIV/0!')),
  MAX: (numbers) => (numbers.length ? largest(numbers) : 0),
  MIN: (numbers) => (numbers.length ? smallest(numbers) : 0),
  PRODUCT: (numbers) => (numbers.length ? finite(numbers.reduce((product, number) => product * number, 1)) : 0),
};

function median(numbers: readonly number[]): Cell {
  if (!numbers.length) return failure('#NUM!');
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

const count = (given: readonly Value[], counts: (cell: Cell, direct: boolean) => boolean): number => {
  let number = 0;
  for (const value of given) eachCell(value, (cell, direct) => void (counts(cell, direct) && number++));
  return number;
};

/** The k-th of the numbers in an order; `k` may be several. */
const ranked = (order: (a: number, b: number) => number): FunctionSpec =>
  values(2, 2, (range, k) => {
    const numbers = numbersOf([range]);
    if (!Array.isArray(numbers)) return numbers;
    const sorted = numbers.sort(order);
    return lift([k instanceof Reference ? toMatrix(k) : (k as Cell)], ([cell]) => {
      const place = toNumber(cell);
      return typeof place === 'number' ? (sorted[Math.ceil(place) - 1] ?? failure('#NUM!')) : place;
    });
  });

function rank(number: Value, range: Value, ascending: Value): Value {
  const numbers = numbersOf([range]);
  if (!Array.isArray(numbers)) return numbers;
  const own = toNumber(toMatrix(number)[0]![0]!);
  if (typeof own !== 'number') return own;
  if (!numbers.includes(own)) return failure('#N/A');
  const up = toNumber(toMatrix(ascending)[0]![0]!);
  return 1 + numbers.filter((other) => (up ? other < own : other > own)).length;
}

function sumProduct(...given: Value[]): Value {
  const blocks = given.map(toMatrix);
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

/** SUBTOTAL's first argument → the function that it stands for. Those above 100 leave out hidden rows. */
const SUBTOTALS: ReadonlyMap<number, string> = new Map([
  [1, 'AVERAGE'],
  [4, 'MAX'],
  [5, 'MIN'],
  [6, 'PRODUCT'],
  [9, 'SUM'],
]);

/** Cells that hold a SUBTOTAL themselves are left out, and rows that are hidden. */
function subtotal(kind: Value, ...ranges: Value[]): Value {
  const code = toNumber(toMatrix(kind)[0]![0]!);
  if (typeof code !== 'number') return code;
  const shown: Value[] = ranges.map((range) =>
    range instanceof Reference ? shownCells(range.used(), code > 100) : failure('#VALUE!'),
  );
  const bare = code % 100;
  if (bare === 2) return count(shown, (cell) => typeof cell === 'number');
  if (bare === 3) return count(shown, (cell) => cell !== null);
  const name = SUBTOTALS.get(bare);
  if (!name) return failure('#VALUE!');
  const numbers = numbersOf(shown);
  return Array.isArray(numbers) ? AGGREGATES[name]!(numbers) : numbers;
}

function shownCells(range: Reference, withoutHidden: boolean): Cell[][] {
  const { sheet } = range.grid;
  const hidden = new Set(withoutHidden || sheet.filtered ? sheet.hiddenRows : []);
  const isSubtotal = (row: number, column: number): boolean =>
    /\b(?:SUBTOTAL|AGGREGATE)\(/i.test(sheet.cells[row]?.[column]?.formula ?? '');
  return toMatrix(range).flatMap((line, r) =>
    hidden.has(range.row + r)
      ? []
      : [line.map((cell, c) => (isSubtotal(range.row + r, range.column + c) ? null : cell))],
  );
}

export const statisticFunctions: Readonly<Record<string, FunctionSpec>> = {
  ...Object.fromEntries(Object.entries(AGGREGATES).map(([name, apply]) => [name, over(apply)])),
  SUMSQ: over((numbers) => finite(total(numbers.map((number) => number * number)))),
  MEDIAN: over(median),
  'STDEV.S': spread(1, Math.sqrt),
  STDEV: spread(1, Math.sqrt),
  'STDEV.P': spread(0, Math.sqrt),
  STDEVP: spread(0, Math.sqrt),
  'VAR.S': spread(1, (variance) => variance),
  VAR: spread(1, (variance) => variance),
  'VAR.P': spread(0, (variance) => variance),
  VARP: spread(0, (variance) => variance),
  COUNT: values(1, MANY, (...given) =>
    count(
      given,
      (cell, direct) =>
        typeof cell === 'number' ||
        (direct && (typeof cell === 'boolean' || (typeof cell === 'string' && typeof toNumber(cell) === 'number'))),
    ),
  ),
  COUNTA: values(1, MANY, (...given) => count(given, (cell) => cell !== null)),
  COUNTBLANK: values(1, 1, (range) => blanks(range)),
  LARGE: ranked((a, b) => b - a),
  SMALL: ranked((a, b) => a - b),
  RANK: values(2, 3, rank),
  'RANK.EQ': values(2, 3, rank),
  SUMPRODUCT: values(1, MANY, sumProduct, { arrays: true }),
  SUBTOTAL: values(2, MANY, subtotal, { volatile: true }),
};

/** Blank cells of a range, those beyond the used part of the sheet included. */
function blanks(range: Value): Cell {
  const all = range instanceof Reference ? range.rows * range.columns : toMatrix(range).flat().length;
  return all - count([range], (cell) => cell !== null && cell !== '');
}
