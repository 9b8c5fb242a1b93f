/** SUBTOTAL and AGGREGATE: totals that leave out other totals, hidden rows and errors. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { Areas, failure, Reference, toMatrix, type Value } from '../values';
import { aggregated, count, numbersOf } from './aggregates';
import { errorIn, integerOf, many, MANY, numberOf, unlessError, values, type Family } from './define';
import { largest, modes, percentile, quartile } from './ranking';

/** Their first argument → the function that it stands for. Source: Microsoft, the pages on SUBTOTAL and AGGREGATE. */
const KINDS: ReadonlyMap<number, string> = new Map([
  [1, 'AVERAGE'],
  [4, 'MAX'],
  [5, 'MIN'],
  [6, 'PRODUCT'],
  [7, 'STDEV.S'],
  [8, 'STDEV.P'],
  [9, 'SUM'],
  [10, 'VAR.S'],
  [11, 'VAR.P'],
]);

interface Left {
  readonly hidden: boolean;
  readonly errors: boolean;
  readonly totals: boolean;
}

function totalOf(kind: number, shown: readonly Value[]): Value {
  if (kind === 2) return count(shown, (cell) => typeof cell === 'number');
  if (kind === 3) return count(shown, (cell) => cell !== null);
  const name = KINDS.get(kind);
  return name ? aggregated(name, shown) : failure('#VALUE!');
}

/** Several ranges in brackets are as several arguments. */
const apart = (ranges: readonly Value[]): Value[] =>
  ranges.flatMap((range): Value[] => (range instanceof Areas ? [...range.parts] : [range]));

const subtotal = ([kind, ...given]: Value[]): Value =>
  unlessError([integerOf(kind)], (whole) => {
    const ranges = apart(given);
    if (ranges.some((range) => !(range instanceof Reference))) return errorIn(ranges) ?? failure('#VALUE!');
    if (whole > 11 && whole < 101) return failure('#VALUE!');
    const left = { hidden: whole > 100, errors: false, totals: true };
    return totalOf(
      left.hidden ? whole - 100 : whole,
      ranges.map((range) => shownCells(range as Reference, left)),
    );
  });

/** Cells of a range without what is left out. A filter hides rows from either kind of total. */
function shownCells(range: Reference, { hidden, errors, totals }: Left): Matrix {
  const used = range.used();
  const { sheet } = used.grid;
  const rows = new Set(hidden || sheet.filtered ? sheet.hiddenRows : []);
  const isTotal = (row: number, column: number): boolean =>
    totals && /\b(?:SUBTOTAL|AGGREGATE)\(/i.test(sheet.cells[row]?.[column]?.formula ?? '');
  return toMatrix(used).flatMap((line, r) =>
    rows.has(used.row + r)
      ? []
      : [
          line.map((cell, c) =>
            isTotal(used.row + r, used.column + c) || (errors && cell instanceof CellError) ? null : cell,
          ),
        ],
  );
}

/** AGGREGATE's second argument: what is left out. */
const OPTIONS: readonly Left[] = [
  { totals: true, hidden: false, errors: false },
  { totals: true, hidden: true, errors: false },
  { totals: true, hidden: false, errors: true },
  { totals: true, hidden: true, errors: true },
  { totals: false, hidden: false, errors: false },
  { totals: false, hidden: true, errors: false },
  { totals: false, hidden: false, errors: true },
  { totals: false, hidden: true, errors: true },
];

const aggregate = (kind: Value, option: Value, ...given: Value[]): Value =>
  unlessError([integerOf(kind), integerOf(option)], (whole, choice) => {
    const rest = apart(given);
    const left = OPTIONS[choice];
    if (!left || whole < 1 || whole > 19) return failure('#VALUE!');
    if (whole <= 13) {
      const other = rest.find((range) => !(range instanceof Reference));
      if (other !== undefined) return other instanceof CellError ? other : failure('#VALUE!');
      const shown = rest.map((range) => shownCells(range as Reference, left));
      return whole <= 11 ? totalOf(whole, shown) : ofNumbers(whole, shown, 0);
    }
    if (rest.length !== 2) return failure('#VALUE!');
    return unlessError([numberOf(rest[1])], (at) => ofNumbers(whole, [shownOf(rest[0], left)], at));
  });

function shownOf(value: Value, left: Left): Matrix {
  if (value instanceof Reference) return shownCells(value, left);
  return toMatrix(value).map((line) => line.map((cell) => (left.errors && cell instanceof CellError ? null : cell)));
}

/** The functions from MEDIAN on, which is 12. */
const OF_NUMBERS: readonly ((numbers: readonly number[], at: number) => Cell)[] = [
  (numbers) => percentile(numbers, 0.5, 'inclusive'),
  (numbers) => modes(numbers)[0] ?? failure('#N/A'),
  largest,
  (numbers, at) => largest(numbers, numbers.length + 1 - Math.trunc(at)),
  (numbers, at) => percentile(numbers, at, 'inclusive'),
  (numbers, at) => quartile(numbers, at, 'inclusive'),
  (numbers, at) => percentile(numbers, at, 'exclusive'),
  (numbers, at) => quartile(numbers, at, 'exclusive'),
];

const ofNumbers = (kind: number, shown: readonly Value[], at: number): Cell =>
  unlessError([numbersOf(shown)], (numbers) => OF_NUMBERS[kind - 12]!(numbers, at));

export const subtotalFunctions: Family = {
  SUBTOTAL: many('cv', 2, subtotal, { volatile: true }),
  // Its array form is computed over arrays: Microsoft, page on AGGREGATE (functions 14 to 19).
  AGGREGATE: values(3, MANY, aggregate, { volatile: true, arrays: true }),
};
