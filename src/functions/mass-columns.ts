/** Parts lists as columns: the parameters that the mass functions share, and the loop over their rows. */
import { InputError, refuse } from '../core/input-error';
import { memoized } from '../core/memoized';
import { isSumName } from '../core/mass';
import { numbers, optional, rows, texts } from './define';

/** Farther than this an arm is in another unit: 1,000 ft. */
const FARTHEST = 12_000;
const HEAVIEST = 1e6;

/** A weight a row. */
export const rowWeights = (name: string, help: string) =>
  numbers(name, { help, dimension: 'weight', limits: { min: -HEAVIEST, max: HEAVIEST } });

export const weights = rowWeights(
  'weights',
  'weight of one piece a row; negative for what is taken off; a blank row is skipped',
);
export const groups = texts('groups', {
  help: 'component that each row belongs to; a blank one goes under "(no group)"',
  of: 'component names',
});
export const quantities = optional(
  numbers('quantities', {
    help: 'pieces in each row; one cell for all rows; 1 if left out',
    of: 'pieces',
    limits: { min: 0, max: 1e7 },
  }),
);

/** One arm a row, or three: x aft, y to the right, z up. */
export const arms = rows('arms', {
  help: 'arm from the datum a row, or three columns: x aft, y to the right, z up',
  dimension: 'length',
  limits: { min: -FARTHEST, max: FARTHEST },
  widths: [1, 3],
});

export const positions = (name: string, help: string) =>
  rows(name, { help, dimension: 'length', limits: { min: -FARTHEST, max: FARTHEST }, widths: [3] });

export type Column<T> = readonly (T | null)[];

/**
 * The rows that columns have in common; a single cell stands for every row.
 * @param own columns of which a single cell stands for no other row: all wheels at one arm cannot be meant
 */
export function rowCount(
  columns: Readonly<Record<string, Column<unknown> | undefined>>,
  own: readonly string[] = [],
): number {
  let count = 1;
  let longest = '';
  for (const [name, column] of Object.entries(columns)) {
    if (!column || column.length === 1) continue;
    if (count === 1) [count, longest] = [column.length, name];
    else if (column.length !== count)
      throw new InputError(name, column, `one cell, or as many rows as ${longest}, which has ${count}`);
  }
  for (const name of count > 1 ? own : []) {
    const column = columns[name];
    if (column?.length === 1)
      throw new InputError(name, shownCell(column[0]), `a column of ${count} cells, one for each row of ${longest}`);
  }
  return count;
}

/** One cell, or three arms in a row, as a message shows them. */
const shownCell = (cell: unknown): unknown => (Array.isArray(cell) ? (cell as unknown[]).join(', ') : cell);

/** The cell of a row; a column of one stands for every row. */
export const at = <T>(column: Column<T>, row: number): T | null =>
  column.length === 1 ? column[0]! : (column[row] ?? null);

/** A name in a row; a host that passes 0 for a blank cell makes it "0". */
export const nameAt = (column: Column<string>, row: number): string => {
  const name = at(column, row);
  return name === null || name === '0' ? '' : name;
};

const isSum = memoized((name: string) => isSumName(name));

/** A component's name in a row. That of a sum is refused: its weight would count twice. */
export function groupAt(column: Column<string>, row: number, parameter = 'groups'): string {
  const name = nameAt(column, row);
  if (isSum(name))
    throw new InputError(
      `${parameter}, row ${row + 1}`,
      name,
      'the name of a component',
      'That row is a sum of others and would count twice: leave it out, or call the component something else',
    );
  return name;
}

export interface PartColumns {
  readonly weights: Column<number>;
  readonly arms: Column<readonly number[]>;
  readonly quantities?: Column<number> | undefined;
  readonly groups?: Column<string>;
}

/**
 * Calls `visit` for every row that has a weight, with the weight of all its pieces. A row without a weight is
 * skipped, one with a weight and no arm is an error that names it. Gives the number of axes, 1 or 3.
 */
export function eachPart(
  columns: PartColumns,
  visit: (row: number, weight: number, x: number, y: number, z: number) => void,
): 1 | 3 {
  const places = standing(columns.arms, columns.weights.length);
  const count = rowCount(
    { weights: columns.weights, arms: places, quantities: columns.quantities, groups: columns.groups },
    ['arms'],
  );
  const oneWeight = columns.weights.length === 1 && count > 1;
  for (let row = 0; row < count; row++) {
    const each = at(columns.weights, row);
    const place = at(places, row);
    if (each === null || (oneWeight && place === null)) continue;
    if (place === null) {
      // 0 is what some hosts pass for a blank cell: without weight no arm is missed.
      if (each === 0) continue;
      throw new InputError(`arms, row ${row + 1}`, null, 'an arm wherever there is a weight');
    }
    visit(row, each * quantityAt(columns.quantities, row), place[0]!, place[1] ?? 0, place[2] ?? 0);
  }
  return places.some((place) => place?.length === 3) ? 3 : 1;
}

/** Three weights with one row of three arms: the row is a list of arms, not a place in three axes. */
function standing(places: Column<readonly number[]>, weightCount: number): Column<readonly number[]> {
  const [only] = places;
  return places.length === 1 && only?.length === 3 && weightCount === 3 ? only.map((arm) => [arm]) : places;
}

export const quantityAt = (column: Column<number> | undefined, row: number): number =>
  column
    ? (at(column, row) ?? refuse(`quantities, row ${row + 1}`, null, 'a number of pieces wherever there is a weight'))
    : 1;
