/** Sums, counts and means of the cells that meet conditions. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { criterion } from '../criteria';
import type { FunctionSpec } from '../function-spec';
import { failure, Reference, toMatrix, type Value } from '../values';
import { AGGREGATES, numbersOf } from './statistics';

type Aggregate = (cells: readonly Cell[]) => Cell;

const numeric =
  (name: string): Aggregate =>
  (cells) => {
    const numbers = numbersOf([[[...cells]]]);
    return Array.isArray(numbers) ? AGGREGATES[name]!(numbers) : numbers;
  };

/** Places (in reading order) of the cells that meet a condition; ranges that many formulas ask are searched by value once. */
function placesOf(range: Value, condition: Cell): readonly number[] {
  const plain =
    typeof condition === 'number' ||
    (typeof condition === 'string' && condition !== '' && !/^[<>=]|[*?~]/.test(condition));
  if (range instanceof Reference && plain && range.rows * range.columns > 32) {
    const index = range.grid.derived('places', range.used(), () => placesByValue(toMatrix(range)));
    return index.get(keyOf(condition)) ?? [];
  }
  const test = criterion(condition);
  const found: number[] = [];
  const block = toMatrix(range);
  const width = block[0]?.length ?? 0;
  block.forEach((line, r) => line.forEach((cell, c) => void (test(cell) && found.push(r * width + c))));
  return found;
}

function placesByValue(block: Matrix): Map<string, number[]> {
  const index = new Map<string, number[]>();
  const width = block[0]?.length ?? 0;
  block.forEach((line, r) =>
    line.forEach((cell, c) => {
      if (cell === null || cell instanceof CellError) return;
      const key = keyOf(cell);
      const places = index.get(key);
      if (places) places.push(r * width + c);
      else index.set(key, [r * width + c]);
    }),
  );
  return index;
}

/** Numbers and texts that read as them are the same to a condition. */
function keyOf(cell: Cell): string {
  if (typeof cell === 'boolean') return `b${String(cell)}`;
  const text = String(cell).trim();
  const number = typeof cell === 'number' ? cell : text !== '' ? Number(text) : Number.NaN;
  return Number.isFinite(number) ? `n${number}` : `t${String(cell).toLowerCase()}`;
}

/** Cells of `from` at the places where all conditions hold; an error where the ranges differ in shape. */
function matching(from: Value, pairs: readonly Value[]): Cell[] | CellError {
  const first = shapeOf(pairs[0]);
  let places: readonly number[] | undefined;
  for (let index = 0; index + 1 < pairs.length; index += 2) {
    const shape = shapeOf(pairs[index]);
    if (shape.rows !== first.rows || shape.columns !== first.columns) return failure('#VALUE!');
    const found = placesOf(pairs[index], (pairs[index + 1] as Cell | undefined) ?? null);
    if (places === undefined) places = found;
    else {
      const both = new Set(found);
      places = places.filter((place) => both.has(place));
    }
  }
  const shape = shapeOf(from);
  if (shape.rows !== first.rows || shape.columns !== first.columns) return failure('#VALUE!');
  return (places ?? []).map((place) => cellOf(from, Math.floor(place / first.width), place % first.width));
}

function shapeOf(value: Value): { rows: number; columns: number; width: number } {
  if (value instanceof Reference) return { rows: value.rows, columns: value.columns, width: value.used().columns };
  const block = toMatrix(value);
  const columns = block[0]?.length ?? 0;
  return { rows: block.length, columns, width: columns };
}

function cellOf(value: Value, row: number, column: number): Cell {
  return value instanceof Reference
    ? value.grid.get(value.row + row, value.column + column)
    : (toMatrix(value)[row]?.[column] ?? null);
}

const finish = (cells: Cell[] | CellError, aggregate: Aggregate): Cell =>
  Array.isArray(cells) ? aggregate(cells) : cells;

/** SUMIF(range, condition, [values]): the values' range has the shape of the first, whatever its own. */
const single = (aggregate: Aggregate): FunctionSpec => ({
  kind: 'eager',
  min: 2,
  max: 3,
  takes: 'vcv',
  apply: ([range, condition, from]) => {
    const shape = shapeOf(range);
    const values =
      from instanceof Reference
        ? new Reference(from.grid, from.row, from.column, shape.rows, shape.columns)
        : (from ?? range);
    return finish(matching(values, [range, condition]), aggregate);
  },
});

/** SUMIFS(values, range, condition, …) */
const several = (aggregate: Aggregate): FunctionSpec => ({
  kind: 'eager',
  min: 3,
  max: 255,
  takes: `v${'vc'.repeat(127)}`,
  apply: ([from, ...pairs]) => (pairs.length % 2 ? failure('#VALUE!') : finish(matching(from, pairs), aggregate)),
});

const counting: Aggregate = (cells) => cells.length;

export const conditionalFunctions: Readonly<Record<string, FunctionSpec>> = {
  SUMIF: single(numeric('SUM')),
  AVERAGEIF: single(numeric('AVERAGE')),
  COUNTIF: {
    kind: 'eager',
    min: 2,
    max: 2,
    takes: 'vc',
    apply: ([range, condition]) => finish(matching(range, [range, condition]), counting),
  },
  SUMIFS: several(numeric('SUM')),
  AVERAGEIFS: several(numeric('AVERAGE')),
  MAXIFS: several(numeric('MAX')),
  MINIFS: several(numeric('MIN')),
  COUNTIFS: {
    kind: 'eager',
    min: 2,
    max: 254,
    takes: 'vc'.repeat(127),
    apply: (pairs) => (pairs.length % 2 ? failure('#VALUE!') : finish(matching(pairs[0], pairs), counting)),
  },
};
