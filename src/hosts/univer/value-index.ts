/**
 * The engine's index of the values of a column, for its look-up functions, walks through all values of the
 * column for every cell that a spill fills: a column of n results takes n² steps. With the place of each row
 * remembered beside the index it takes n.
 */
import { isRealNum } from '@univerjs/core';
import { CELL_INVERTED_INDEX_CACHE } from '@univerjs/engine-formula';

type Rows = Set<number>;
type Column = Map<unknown, Rows>;

interface Index {
  _cache: Map<string, Map<string, Map<number, Column>>>;
  shouldContinueBuildingCache(unit: string, sheet: string, column: number, row: number): boolean;
  set(unit: string, sheet: string, column: number, value: unknown, row: number, force?: boolean): void;
}

/** For each column of the index, in which of its sets a row stands. */
const places = new WeakMap<Column, Map<number, Rows>>();
/** The engine's own key for blank cells, seen when it is first used. */
let blankKey: unknown;

export function speedUpValueIndex(): void {
  const index = CELL_INVERTED_INDEX_CACHE as unknown as Index;
  if (!(index._cache instanceof Map) || Object.hasOwn(index, 'set')) return;
  const original = index.set;
  index.set = function set(unit, sheet, column, value, row, force = false) {
    const before = this._cache.get(unit)?.get(sheet)?.get(column);
    // Blank cells have a key that only the engine knows: it makes the set for them.
    if (!before || ((value === null || value === undefined || value === '') && !before.has(blankKey))) {
      original.call(this, unit, sheet, column, value, row, force);
      learn(this._cache.get(unit)?.get(sheet)?.get(column), value, row);
      return;
    }
    if (!force && !this.shouldContinueBuildingCache(unit, sheet, column, row)) return;
    const rows = places.get(before) ?? placesOf(before);
    if (force) rows.get(row)?.delete(row);
    const key = keyOf(value);
    let list = before.get(key);
    if (!list) before.set(key, (list = new Set()));
    list.add(row);
    rows.set(row, list);
  };
}

function learn(column: Column | undefined, value: unknown, row: number): void {
  if (!column) return;
  if (value === null || value === undefined || value === '')
    blankKey = [...column.keys()].find((key) => typeof key === 'symbol') ?? blankKey;
  const list = column.get(keyOf(value));
  const rows = places.get(column) ?? placesOf(column);
  if (list?.has(row)) rows.set(row, list);
}

function placesOf(column: Column): Map<number, Rows> {
  const rows = new Map<number, Rows>();
  for (const list of column.values()) for (const row of list) rows.set(row, list);
  places.set(column, rows);
  return rows;
}

/** Under which key the engine looks a value up: numbers, also those in texts, as numbers, texts in small letters. */
function keyOf(value: unknown): unknown {
  if (value === null || value === undefined || value === '') return blankKey;
  if (isRealNum(value as string) && Number(value).toString() === String(value))
    return Number(value) === 0 ? 0 : Number(value);
  return typeof value === 'string' ? value.toLowerCase() : value;
}
