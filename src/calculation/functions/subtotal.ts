/** SUBTOTAL and AGGREGATE: totals that leave out other totals, hidden rows and errors. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { AGGREGATES, count, numbersOf } from './aggregates';
import { many, numberOf } from './define';
import { largest, modes, percentile, quartile } from './ranking';
import { MANY, values, type FunctionSpec } from '../function-spec';
import { Areas, failure, Reference, toMatrix, type Value } from '../values';

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
  if (!name) return failure('#VALUE!');
  const numbers = numbersOf(shown);
  return Array.isArray(numbers) ? AGGREGATES[name]!(numbers) : numbers;
}

/** Several ranges in brackets are as several arguments. */
const apart = (ranges: readonly Value[]): Value[] =>
  ranges.flatMap((range): Value[] => (range instanceof Areas ? [...range.parts] : [range]));

function subtotal(kind: Value, ...given: Value[]): Value {
  const ranges = apart(given);
  const code = numberOf(kind);
  if (typeof code !== 'number') return code;
  const whole = Math.trunc(code);
  if (ranges.some((range) => !(range instanceof Reference)))
    return ranges.find((range): range is CellError => range instanceof CellError) ?? failure('#VALUE!');
  if (whole > 11 && whole < 101) return failure('#VALUE!');
  const left = { hidden: whole > 100, errors: false, totals: true };
  return totalOf(
    left.hidden ? whole - 100 : whole,
    ranges.map((range) => shownCells(range as Reference, left)),
  );
}

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

function aggregate(kind: Value, option: Value, ...given: Value[]): Value {
  const rest = apart(given);
  const code = numberOf(kind);
  const choice = numberOf(option);
  if (typeof code !== 'number') return code;
  if (typeof choice !== 'number') return choice;
  const left = OPTIONS[Math.trunc(choice)];
  const whole = Math.trunc(code);
  if (!left || whole < 1 || whole > 19) return failure('#VALUE!');
  if (whole <= 13) {
    const other = rest.find((range) => !(range instanceof Reference));
    if (other !== undefined) return other instanceof CellError ? other : failure('#VALUE!');
    const shown = rest.map((range) => shownCells(range as Reference, left));
    return whole <= 11 ? totalOf(whole, shown) : ofNumbers(whole, shown, 0);
  }
  if (rest.length !== 2) return failure('#VALUE!');
  const at = numberOf(rest[1]);
  if (typeof at !== 'number') return at;
  return ofNumbers(whole, [shownOf(rest[0], left)], at);
}

function shownOf(value: Value, left: Left): Matrix {
  if (value instanceof Reference) return shownCells(value, left);
  return toMatrix(value).map((line) => line.map((cell) => (left.errors && cell instanceof CellError ? null : cell)));
}

/** The functions from MEDIAN on. */
function ofNumbers(kind: number, shown: readonly Value[], at: number): Cell {
  const numbers = numbersOf(shown);
  if (!Array.isArray(numbers)) return numbers;
  switch (kind) {
    case 12:
      return percentile(numbers, 0.5, 'inclusive');
    case 13:
      return modes(numbers)[0] ?? failure('#N/A');
    case 14:
      return largest(numbers, at);
    case 15:
      return largest(numbers, numbers.length + 1 - Math.trunc(at));
    case 16:
      return percentile(numbers, at, 'inclusive');
    case 17:
      return quartile(numbers, at, 'inclusive');
    case 18:
      return percentile(numbers, at, 'exclusive');
    default:
      return quartile(numbers, at, 'exclusive');
  }
}

export const subtotalFunctions: Readonly<Record<string, FunctionSpec>> = {
  SUBTOTAL: many('cv', 2, ([kind, ...given]) => subtotal(kind, ...given), { volatile: true }),
  // Its array form is computed over arrays: Microsoft, page on AGGREGATE (functions 14 to 19).
  AGGREGATE: values(3, MANY, aggregate, { volatile: true, arrays: true }),
};
