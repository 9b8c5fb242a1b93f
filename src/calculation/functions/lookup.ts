/** Looking things up, and asking where they are. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { Areas, compare, equalityKey, failure, Reference, toMatrix, type Value } from '../values';
import { hasWildcard, wildcard } from '../wildcard';
import {
  flagOf,
  fn,
  integerOf,
  numberOf,
  partOf,
  sizeOf,
  unlessError,
  type Family,
  type FunctionSpec,
  type Size,
} from './define';

const INDEXED_FROM = 32;

/** A vector's cells, and an index of their first places for ranges that many formulas search. */
interface Vector {
  readonly cells: readonly Cell[];
  readonly first: ((key: string | number) => number | undefined) | undefined;
}

function vector(value: Value): Vector | undefined {
  const block = toMatrix(value);
  if (block.length !== 1 && block[0]?.length !== 1) return undefined;
  if (!(value instanceof Reference) || value.rows * value.columns <= INDEXED_FROM)
    return { cells: flat(block), first: undefined };
  return value.grid.derived('vector', value.used(), () => {
    const cells = flat(block);
    const places = new Map<string | number, number>();
    cells.forEach((cell, index) => {
      const key = equalityKey(cell);
      if (key !== undefined && !places.has(key)) places.set(key, index);
    });
    return { cells, first: (key: string | number) => places.get(key) };
  });
}

const flat = (block: Matrix): Cell[] => (block.length === 1 ? block[0]! : block.map((line) => line[0]!));

const sameKind = (a: Cell, b: Cell): boolean => a !== null && !(a instanceof CellError) && typeof a === typeof b;

/** Place of the first cell that is the sought one; texts may have wildcards. */
function exact(sought: Cell, { cells, first }: Vector, wildcards: boolean): number {
  const wanted = sought ?? 0;
  if (typeof wanted === 'string' && wildcards && hasWildcard(wanted)) {
    const matches = wildcard(wanted);
    return cells.findIndex((cell) => typeof cell === 'string' && matches(cell));
  }
  if (first) return first(equalityKey(wanted) ?? '') ?? -1;
  return cells.findIndex((cell) => sameKind(cell, wanted) && compare(cell, wanted) === 0);
}

/** Place of the last cell not above the sought one, in cells that rise. */
function lastNotAbove(sought: Cell, cells: readonly Cell[]): number {
  const wanted = sought ?? 0;
  let low = 0;
  let high = cells.length - 1;
  let found = -1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    let at = middle;
    // Cells of another kind are passed over.
    while (at <= high && !sameKind(cells[at]!, wanted)) at++;
    if (at > high) high = middle - 1;
    else if (compare(cells[at]!, wanted) <= 0) {
      found = at;
      low = at + 1;
    } else high = middle - 1;
  }
  return found;
}

/** Place of the nearest cell at or below (`side` -1) or at or above (1) the sought one, in any order. */
function nearest(sought: Cell, cells: readonly Cell[], side: number): number {
  let best = -1;
  cells.forEach((cell, index) => {
    if (!sameKind(cell, sought) || compare(cell, sought) * side < 0) return;
    if (best < 0 || compare(cell, cells[best]!) * side < 0) best = index;
  });
  return best;
}

function match([sought, range, type]: Value[]): Value {
  const among = vector(range);
  if (!among) return failure('#N/A');
  const wanted = (sought as Cell | undefined) ?? 0;
  return unlessError([numberOf(type, 1)], (kind) => {
    if (kind === 0) return placed(exact(wanted, among, true));
    return placed((kind > 0 ? lastNotAbove : lastNotBelow)(wanted, among.cells));
  });
}

const placed = (place: number): Cell => (place < 0 ? failure('#N/A') : place + 1);

/** Place of the last cell not below the sought one, in cells that fall. */
function lastNotBelow(sought: Cell, cells: readonly Cell[]): number {
  let found = -1;
  for (let index = 0; index < cells.length; index++) {
    if (!sameKind(cells[index]!, sought)) continue;
    if (compare(cells[index]!, sought) < 0) break;
    found = index;
  }
  return found;
}

/** VLOOKUP and HLOOKUP: `line` gives a column or row of the table, by its number. The first is searched, another has the answer. */
const tableLookup = (line: typeof columnOf, told: string): FunctionSpec =>
  fn('cvcc', 3, ([sought, table, at, near]) =>
    unlessError([integerOf(at), flagOf(near, true)], (index, approximate) => {
      if (index < 1) return failure('#VALUE!');
      const whole = wholeOf(table);
      const among = vector(line(whole, 0));
      const answers = line(whole, index - 1);
      if (!among || answers === undefined) return new CellError('#REF!', `${told} ${index} is not in the table`);
      const place = approximate ? lastNotAbove(sought as Cell, among.cells) : exact(sought as Cell, among, true);
      return place < 0 ? failure('#N/A') : flatAt(answers, place);
    }),
  );

const wholeOf = (value: Value): Reference | Matrix => (value instanceof Reference ? value : toMatrix(value));

function flatAt(value: Value, place: number): Cell {
  if (value instanceof Reference)
    return value.columns === 1
      ? value.grid.get(value.row + place, value.column)
      : value.grid.get(value.row, value.column + place);
  return flat(toMatrix(value))[place] ?? null;
}

/** A column of a table, by its number from 0; undefined beyond the table. */
const columnOf = (table: Reference | Matrix, index: number): Reference | Matrix | undefined =>
  index < sizeOf(table).columns ? partOf(table, 0, index, sizeOf(table).rows, 1) : undefined;

/** A row of a table, in the same way. */
const rowOf: typeof columnOf = (table, index) =>
  index < sizeOf(table).rows ? partOf(table, index, 0, 1, sizeOf(table).columns) : undefined;

/** XLOOKUP's and XMATCH's way: exact, else the nearest below (-1) or above (1), or with wildcards (2). */
const find = (sought: Cell, among: Vector, mode: Value, order: Value): number | CellError =>
  unlessError([numberOf(mode), numberOf(order, 1)], (kind, direction) => {
    if (![-1, 0, 1, 2].includes(kind) || ![-2, -1, 1, 2].includes(direction)) return failure('#VALUE!');
    const backwards = direction === -1;
    const searched = backwards ? { cells: [...among.cells].reverse(), first: undefined } : among;
    let place = sought === null ? searched.cells.indexOf(null) : exact(sought, searched, kind === 2);
    if (place < 0 && (kind === -1 || kind === 1)) place = nearest(sought ?? 0, searched.cells, kind);
    return place < 0 || !backwards ? place : among.cells.length - 1 - place;
  });

function xlookup([sought, range, answers, instead, mode, order]: Value[]): Value {
  const among = vector(range);
  if (!among) return failure('#VALUE!');
  const { rows, columns } = sizeOf(range);
  const size = sizeOf(answers);
  const isColumn = columns === 1 && (rows > 1 || size.rows === 1);
  if (isColumn ? size.rows !== rows : size.columns !== columns) return failure('#VALUE!');
  return unlessError([find(sought as Cell, among, mode, order)], (place) => {
    if (place < 0) return instead === undefined ? failure('#N/A') : instead;
    return (isColumn ? rowOf : columnOf)(wholeOf(answers), place) ?? failure('#VALUE!');
  });
}

/** LOOKUP in a vector or in a table's longer side; the answer stands in another vector or at the table's far side. */
function lookup([sought, range, answers]: Value[]): Value {
  const whole = wholeOf(range);
  const { rows, columns } = sizeOf(range);
  const isAcross = columns > rows;
  const among = vector(isAcross ? rowOf(whole, 0) : columnOf(whole, 0));
  if (!among) return failure('#N/A');
  const place = lastNotAbove(sought as Cell, among.cells);
  if (place < 0) return failure('#N/A');
  if (answers === undefined) return flatAt(isAcross ? rowOf(whole, rows - 1) : columnOf(whole, columns - 1), place);
  const size = sizeOf(answers);
  if ((size.rows !== 1 && size.columns !== 1) || place >= size.rows * size.columns) return failure('#N/A');
  return flatAt(answers, place);
}

/** Row and column of INDEX; a single number goes along a vector, and 0 takes all. */
function indexPlace(row: number, column: number | undefined, { rows, columns }: Size): readonly [number, number] {
  if (column !== undefined) return [row, column];
  return rows === 1 ? [1, row] : [row, columns > 1 ? 0 : 1];
}

/** INDEX gives a reference where it is given one, so that a range can end at it. */
const index = (array: Value, row: Value, column: Value): Value =>
  unlessError([integerOf(row), column === undefined ? undefined : integerOf(column)], (...place) => {
    const whole = wholeOf(array);
    const { rows, columns } = sizeOf(whole);
    const [r, c] = indexPlace(...place, { rows, columns });
    if (r < 0 || c < 0) return failure('#VALUE!');
    if (r > rows || c > columns)
      return new CellError('#REF!', `INDEX: row ${r}, column ${c}; there are ${rows} rows and ${columns} columns`);
    const [fromRow, height] = r === 0 ? [0, rows] : [r - 1, 1];
    const [fromColumn, width] = c === 0 ? [0, columns] : [c - 1, 1];
    const part = partOf(whole, fromRow, fromColumn, height, width);
    return Array.isArray(part) && height === 1 && width === 1 ? part[0]![0]! : part;
  });

export const lookupFunctions: Family = {
  MATCH: fn('cvc', 2, match),
  XMATCH: fn('cvcc', 2, ([sought, range, mode, order]) => {
    const among = vector(range);
    if (!among) return failure('#VALUE!');
    return unlessError([find(sought as Cell, among, mode, order)], placed);
  }),
  LOOKUP: fn('cvv', 2, lookup, { arrays: true }),
  VLOOKUP: tableLookup(columnOf, 'VLOOKUP: column'),
  HLOOKUP: tableLookup(rowOf, 'HLOOKUP: row'),
  XLOOKUP: fn('cvvvcc', 3, xlookup),
  INDEX: fn('vccc', 2, ([array, row, column, area]) =>
    unlessError([integerOf(area, 1)], (number) => {
      const areas = array instanceof Areas ? array.parts : [array];
      return number - 1 in areas ? index(areas[number - 1], row, column) : failure('#REF!');
    }),
  ),
};
