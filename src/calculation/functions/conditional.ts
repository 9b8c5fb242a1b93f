/**
 * Sums, counts and means of the cells that meet conditions, and of the rows of a list with headings that are chosen by a
 * range of conditions: those in one row of it hold together, its rows are alternatives. Source: Microsoft, the pages on DSUM
 * and its like; OpenFormula 1.3, 6.9 (Database Functions).
 */
import { entryOf } from '../../core/memoized';
import { CellError, type Cell, type Matrix } from '../../sheet';
import { criterion, criterionKey } from '../criteria';
import { LAST_COLUMN } from '../../sheet/formula';
import { failure, firstCell, Reference, toMatrix, type Value } from '../values';
import { aggregated, usedSize } from './aggregates';
import { fn, sizeOf, textOf, unlessError, type Family, type FunctionSpec, type Size } from './define';

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
function placesOf(range: Reference, condition: Cell): Found {
  const { test, key } = criterion(condition);
  if (key !== undefined && range.rows * range.columns > INDEXED_FROM) {
    const index = range.grid.derived('places', range.used(), () => placesByKey(toMatrix(range)));
    return { places: index.get(key) ?? [], blanks: false };
  }
  const places: number[] = [];
  toMatrix(range).forEach((line, r) => line.forEach((cell, c) => void (test(cell) && places.push(r * STRIDE + c))));
  return { places, blanks: test(null) };
}

const noPlaces = (): number[] => [];

function placesByKey(block: Matrix): Map<string, number[]> {
  const index = new Map<string, number[]>();
  block.forEach((line, r) =>
    line.forEach((cell, c) => {
      const key = criterionKey(cell);
      if (key !== undefined) entryOf(index, key, noPlaces).push(r * STRIDE + c);
    }),
  );
  return index;
}

const sameSize = (a: Size, b: Size): boolean => a.rows === b.rows && a.columns === b.columns;

/** Ranges and conditions in turn: the places where all hold. */
const matching = (pairs: readonly Value[]): Found | CellError =>
  unlessError([referencesIn(rangesIn(pairs))], (ranges) => {
    if (ranges.some((range) => !sameSize(range, ranges[0]!))) return failure('#VALUE!');
    // Where one range is used further down than another, its cells there stand beside blank cells of the other.
    const { rows, columns } = usedSize(ranges);
    return ranges
      .map((range, index): Found => {
        const { places, blanks } = placesOf(range, (pairs[index * 2 + 1] as Cell | undefined) ?? null);
        return { places: blanks ? [...places, ...placesBeyond(range.used(), rows, columns)] : places, blanks };
      })
      .reduce((found, own) => {
        const both = new Set(own.places);
        return { places: found.places.filter((place) => both.has(place)), blanks: found.blanks && own.blanks };
      });
  });

const rangesIn = (pairs: readonly Value[]): Value[] => pairs.filter((_value, index) => index % 2 === 0);

/** Arguments that have to be references; an error where one is none: Excel does not let an array be typed there (from memory, verify). */
function referencesIn(given: Value[]): Reference[] | CellError {
  const others = given.filter((value) => !(value instanceof Reference));
  if (others.length === 0) return given as Reference[];
  return others[0] instanceof CellError ? others[0] : failure('#VALUE!');
}

function placesBeyond(used: Size, rows: number, columns: number): number[] {
  const places: number[] = [];
  for (let r = 0; r < rows; r++)
    for (let c = r < used.rows ? used.columns : 0; c < columns; c++) places.push(r * STRIDE + c);
  return places;
}

const cellsAt = ({ grid, row, column }: Reference, { places }: Found): Cell[] =>
  [...places]
    .sort((a, b) => a - b)
    .map((place) => grid.get(row + Math.floor(place / STRIDE), column + (place % STRIDE)));

/** SUMIF(range, condition, [values]): of the values, as many rows and columns are taken as the first range has, whatever their own shape. */
const single = (name: string): FunctionSpec =>
  fn(
    'vcv',
    2,
    ([range, condition, from]) =>
      unlessError([matching([range, condition])], (found) =>
        unlessError([referencesIn([from === undefined ? range : from])], ([first]) =>
          aggregated(name, [[cellsAt(first!, found)]]),
        ),
      ),
    { reaches: true },
  );

/** SUMIFS(values, range, condition, …) */
const several = (name: string): FunctionSpec => ({
  kind: 'eager',
  min: 3,
  max: 255,
  takes: `v${'vc'.repeat(127)}`,
  apply: ([from, ...pairs]) => {
    if (pairs.length % 2 || !sameSize(sizeOf(from), sizeOf(pairs[0]))) return failure('#VALUE!');
    return unlessError([referencesIn([from])], ([first]) =>
      unlessError([matching(pairs)], (found) => aggregated(name, [[cellsAt(first!, found)]])),
    );
  },
});

/** Blank cells count too, where a condition takes them, to the end of the range. */
function count(pairs: readonly Value[]): Cell {
  if (pairs.length % 2) return failure('#VALUE!');
  return unlessError([matching(pairs)], ({ places, blanks }) => {
    if (!blanks) return places.length;
    const ranges = rangesIn(pairs) as Reference[];
    const used = usedSize(ranges);
    return places.length + ranges[0]!.rows * ranges[0]!.columns - used.rows * used.columns;
  });
}

const sameHeading = (a: Cell, b: Cell): boolean => textOf(a).trim().toLowerCase() === textOf(b).trim().toLowerCase();

/** A text alone asks for what begins with it. */
const conditionOf = (cell: Cell): ((value: Cell) => boolean) => {
  const isBare =
    typeof cell === 'string' && cell !== '' && !/^[<>=]/.test(cell) && criterion(cell).key?.startsWith('t');
  return criterion(isBare ? `${cell}*` : cell).test;
};

function chosenRows(list: Matrix, conditions: Matrix): Cell[][] | CellError {
  const [headings = [], ...rows] = list;
  const [asked = [], ...alternatives] = conditions;
  if (!alternatives.length) return failure('#VALUE!');
  const places = asked.map((name) =>
    name === null ? -1 : headings.findIndex((heading) => sameHeading(heading, name)),
  );
  const tests = alternatives.map((line) =>
    line.flatMap((cell, index) =>
      cell === null || places[index]! < 0 ? [] : [{ at: places[index]!, holds: conditionOf(cell) }],
    ),
  );
  return rows.filter((row) => tests.some((all) => all.every(({ at, holds }) => holds(row[at] ?? null))));
}

/** The column by its heading or its number from 1; undefined where no field is named. */
function columnOf(list: Matrix, field: Value): number | undefined | CellError {
  const asked = firstCell(field);
  if (field === undefined || asked === null) return undefined;
  if (asked instanceof CellError) return asked;
  const width = list[0]?.length ?? 0;
  const place =
    typeof asked === 'number'
      ? Math.trunc(asked) - 1
      : (list[0] ?? []).findIndex((heading) => sameHeading(heading, asked));
  return place >= 0 && place < width ? place : failure('#VALUE!');
}

/** A function of a list with headings, a field of it and a range of conditions. */
const ofList = (apply: (cells: Cell[]) => Cell, needsField = true): FunctionSpec =>
  fn('vvv', 3, ([list, field, conditions]) => {
    const block = toMatrix(list);
    return unlessError([columnOf(block, field)], (column) => {
      if (column === undefined && needsField) return failure('#VALUE!');
      return unlessError([chosenRows(block, toMatrix(conditions))], (rows) =>
        apply(column === undefined ? rows.map(() => 1) : rows.map((row) => row[column] ?? null)),
      );
    });
  });

const aggregate = (name: string): FunctionSpec => ofList((cells) => aggregated(name, [[cells]]));

export const conditionalFunctions: Family = {
  SUMIF: single('SUM'),
  AVERAGEIF: single('AVERAGE'),
  COUNTIF: { kind: 'eager', min: 2, max: 2, takes: 'vc', apply: count },
  SUMIFS: several('SUM'),
  AVERAGEIFS: several('AVERAGE'),
  MAXIFS: several('MAX'),
  MINIFS: several('MIN'),
  COUNTIFS: { kind: 'eager', min: 2, max: 254, takes: 'vc'.repeat(127), apply: count },
  DSUM: aggregate('SUM'),
  DAVERAGE: aggregate('AVERAGE'),
  DMAX: aggregate('MAX'),
  DMIN: aggregate('MIN'),
  DPRODUCT: aggregate('PRODUCT'),
  DSTDEV: aggregate('STDEV'),
  DSTDEVP: aggregate('STDEVP'),
  DVAR: aggregate('VAR'),
  DVARP: aggregate('VARP'),
  DCOUNT: ofList((cells) => cells.filter((cell) => typeof cell === 'number').length, false),
  DCOUNTA: ofList((cells) => cells.filter((cell) => cell !== null).length, false),
  DGET: ofList((cells) =>
    cells.length === 0 ? failure('#VALUE!') : cells.length > 1 ? failure('#NUM!') : (cells[0] ?? 0),
  ),
};
