/** Sums, counts and means of the cells that meet conditions. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { criterion, criterionKey } from '../criteria';
import type { FunctionSpec } from '../function-spec';
import { LAST_COLUMN, LAST_ROW } from '../../sheet/formula';
import { failure, Reference, toMatrix, type Value } from '../values';
import { AGGREGATES, numbersOf } from './aggregates';

type Aggregate = (cells: readonly Cell[]) => Cell;

const numeric =
  (name: string): Aggregate =>
  (cells) => {
    const numbers = numbersOf([[[...cells]]]);
    return Array.isArray(numbers) ? AGGREGATES[name]!(numbers) : numbers;
  };

/** A place in a range is its row times this, plus its column, so that places of ranges with different used parts compare. */
const STRIDE = LAST_COLUMN + 1;
/** Ranges of fewer cells are looked through each time. */
const INDEXED_FROM = 32;

/** Where conditions hold. */
interface Found {
  readonly places: readonly number[];
  /** True where cells beyond the used part, which are blank, meet them too. */
  readonly blanks: boolean;
}

/** Places of the cells that meet a condition; ranges that many formulas ask are indexed once. */
function placesOf(range: Value, condition: Cell): Found {
  const { test, key } = criterion(condition);
  if (key !== undefined && range instanceof Reference && range.rows * range.columns > INDEXED_FROM) {
    const index = range.grid.derived('places', range.used(), () => placesByKey(toMatrix(range)));
    return { places: index.get(key) ?? [], blanks: false };
  }
  const places: number[] = [];
  toMatrix(range).forEach((line, r) => line.forEach((cell, c) => void (test(cell) && places.push(r * STRIDE + c))));
  return { places, blanks: test(null) };
}

function placesByKey(block: Matrix): Map<string, number[]> {
  const index = new Map<string, number[]>();
  block.forEach((line, r) =>
    line.forEach((cell, c) => {
      const key = criterionKey(cell);
      if (key === undefined) return;
      const places = index.get(key);
      if (places) places.push(r * STRIDE + c);
      else index.set(key, [r * STRIDE + c]);
    }),
  );
  return index;
}

interface Shape {
  readonly rows: number;
  readonly columns: number;
}

function shapeOf(value: Value): Shape {
  if (value instanceof Reference) return value;
  const block = toMatrix(value);
  return { rows: block.length, columns: block[0]?.length ?? 0 };
}

const sameShape = (a: Shape, b: Shape): boolean => a.rows === b.rows && a.columns === b.columns;

/** The part of a range that is used, which is what its places lie in. */
function usedShape(value: Value): Shape {
  return shapeOf(value instanceof Reference ? value.used() : value);
}

/** Ranges and conditions in turn: the places where all hold. */
function matching(pairs: readonly Value[]): Found | CellError {
  const ranges = pairs.filter((_value, index) => index % 2 === 0);
  const other = noRange(ranges);
  if (other) return other;
  const first = shapeOf(ranges[0]);
  if (ranges.some((range) => !sameShape(shapeOf(range), first))) return failure('#VALUE!');
  // Where one range is used further down than another, its cells there stand beside blank cells of the other.
  const used = ranges.map(usedShape);
  const rows = Math.max(...used.map((shape) => shape.rows));
  const columns = Math.max(...used.map((shape) => shape.columns));
  let found: Found | undefined;
  ranges.forEach((range, index) => {
    const own = placesOf(range, (pairs[index * 2 + 1] as Cell | undefined) ?? null);
    const places = own.blanks ? [...own.places, ...placesBeyond(used[index]!, rows, columns)] : own.places;
    if (!found) found = { places, blanks: own.blanks };
    else {
      const both = new Set(places);
      found = { places: found.places.filter((place) => both.has(place)), blanks: found.blanks && own.blanks };
    }
  });
  return found ?? { places: [], blanks: false };
}

/** The error for an argument that should be a reference and is not: Excel does not let an array be typed there (from memory, verify). */
function noRange(ranges: readonly Value[]): CellError | undefined {
  const other = ranges.find((range) => !(range instanceof Reference));
  return other instanceof CellError
    ? other
    : ranges.every((range) => range instanceof Reference)
      ? undefined
      : failure('#VALUE!');
}

function placesBeyond(used: Shape, rows: number, columns: number): number[] {
  const places: number[] = [];
  for (let r = 0; r < rows; r++)
    for (let c = r < used.rows ? used.columns : 0; c < columns; c++) places.push(r * STRIDE + c);
  return places;
}

function cellsAt(from: Value, { places }: Found): Cell[] {
  if (from instanceof Reference)
    return inOrder(places).map((place) =>
      from.grid.get(from.row + Math.floor(place / STRIDE), from.column + (place % STRIDE)),
    );
  const block = toMatrix(from);
  return inOrder(places).map((place) => block[Math.floor(place / STRIDE)]?.[place % STRIDE] ?? null);
}

const inOrder = (places: readonly number[]): number[] => [...places].sort((a, b) => a - b);

/** SUMIF(range, condition, [values]): of the values, as many rows and columns are taken as the first range has, whatever their own shape. */
const single = (aggregate: Aggregate): FunctionSpec => ({
  kind: 'eager',
  min: 2,
  max: 3,
  takes: 'vcv',
  reaches: true,
  apply: ([range, condition, from]) => {
    const found = matching([range, condition]);
    if (found instanceof CellError) return found;
    if (from === undefined) return aggregate(cellsAt(range, found));
    return noRange([from]) ?? aggregate(cellsAt(shapedAs(from, shapeOf(range)), found));
  },
});

function shapedAs(from: Value, { rows, columns }: Shape): Value {
  if (!(from instanceof Reference)) return from;
  return new Reference(
    from.grid,
    from.row,
    from.column,
    Math.min(rows, LAST_ROW + 1 - from.row),
    Math.min(columns, LAST_COLUMN + 1 - from.column),
  );
}

/** SUMIFS(values, range, condition, …) */
const several = (aggregate: Aggregate): FunctionSpec => ({
  kind: 'eager',
  min: 3,
  max: 255,
  takes: `v${'vc'.repeat(127)}`,
  apply: ([from, ...pairs]) => {
    if (pairs.length % 2 || !sameShape(shapeOf(from), shapeOf(pairs[0]))) return failure('#VALUE!');
    const found = noRange([from]) ?? matching(pairs);
    return found instanceof CellError ? found : aggregate(cellsAt(from, found));
  },
});

/** Blank cells count too, where a condition takes them, to the end of the range. */
function count(pairs: readonly Value[]): Cell {
  if (pairs.length % 2) return failure('#VALUE!');
  const found = matching(pairs);
  if (found instanceof CellError) return found;
  if (!found.blanks) return found.places.length;
  const ranges = pairs.filter((_value, index) => index % 2 === 0);
  const { rows, columns } = shapeOf(ranges[0]);
  const used = ranges.map(usedShape);
  const seen = Math.max(...used.map((shape) => shape.rows)) * Math.max(...used.map((shape) => shape.columns));
  return found.places.length + rows * columns - seen;
}

export const conditionalFunctions: Readonly<Record<string, FunctionSpec>> = {
  SUMIF: single(numeric('SUM')),
  AVERAGEIF: single(numeric('AVERAGE')),
  COUNTIF: { kind: 'eager', min: 2, max: 2, takes: 'vc', apply: count },
  SUMIFS: several(numeric('SUM')),
  AVERAGEIFS: several(numeric('AVERAGE')),
  MAXIFS: several(numeric('MAX')),
  MINIFS: several(numeric('MIN')),
  COUNTIFS: { kind: 'eager', min: 2, max: 254, takes: 'vc'.repeat(127), apply: count },
};
