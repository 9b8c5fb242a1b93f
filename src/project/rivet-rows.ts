/**
 * The rows that bring the joints' rivets into the parts list, one a component: rivets weigh only where a cell says
 * so, and a component whose joints have weight and whose parts have no such row would have their cost alone.
 */
import { ByName, nameKey } from '../core/names';
import { cellName, columnName, quoteSheet, type Edit } from '../sheet';
import { JOINTS } from './forms';
import { NO_COMPONENT, type PartKey, type PartsList } from './parts';
import type { Problem, SheetValues } from './problems';
import { readSheet } from './project-units';
import { columnOf } from './new/formula-text';
import { textIn, type FormSheet } from './rows';

export interface MissingRivets {
  readonly component: string;
  /** Of its joints, lb. */
  readonly weight: number;
  readonly problem: Problem;
}

const RIVETS = /^rivets\b/i;
/** What the row that brings a component's rivets in is called. */
export const RIVETS_PART = 'Rivets, from the sheet Joints';

/** Components whose rivets have weight on the sheet Joints and none in the parts list. */
export function missingRivets(values: SheetValues, parts: PartsList): MissingRivets[] {
  const joints = readSheet(values, JOINTS);
  if (!joints || joints.columns.weight === undefined) return [];
  const there = new Set(
    parts.rows.flatMap(({ component, part, weight }) => (RIVETS.test(part) && weight ? [nameKey(component)] : [])),
  );
  const sums = new ByName((component) => ({ component, weight: 0, row: -1 }), NO_COMPONENT);
  for (const { row, cells } of joints.rows) {
    if (typeof cells.weight !== 'number' || cells.weight === 0) continue;
    const sum = sums.get(textIn(cells.component));
    sum.weight += cells.weight;
    if (sum.row < 0) sum.row = row;
  }
  return sums
    .entries()
    .filter(({ name, value }) => value.weight !== 0 && !there.has(nameKey(name)))
    .map(({ name: component, value: { weight, row } }) => ({
      component,
      weight,
      problem: {
        sheet: joints.sheet,
        cell: cellName(row, joints.columns.weight!),
        message: `weighs the rivets of ${component}, which no row Rivets of the parts list brings in: their cost counts and their weight does not`,
      },
    }));
}

/** The sheet row, from 0, in which the next part of a list is written. */
export const nextPartRow = ({ form }: PartsList): number =>
  Math.max(form.header, ...form.rows.map(({ row }) => row)) + 1;

/**
 * The edits that add those rows below the parts; undefined where the two sheets measure in different units.
 * @param unwritten keys of columns whose formulas a new row lacks: they are written with it
 */
export function rivetRowEdits(
  values: SheetValues,
  parts: PartsList,
  missing: readonly MissingRivets[],
  unwritten: readonly ('weight' | 'moment')[] = [],
): Edit[] | undefined {
  const { form } = parts;
  const joints = readSheet(values, JOINTS);
  if (!joints || !isAlike(form, joints)) return undefined;
  const last = Math.max(joints.header + 1, ...joints.rows.map(({ row }) => row)) + ROOM;
  const at = (key: 'component' | 'weight' | 'moment'): string | undefined => {
    const column = joints.columns[key];
    return column === undefined
      ? undefined
      : columnOf(quoteSheet(joints.sheet), columnName(column), joints.header + 2, last);
  };
  const free = nextPartRow(parts);
  return missing.flatMap(({ component }, index): Edit[] => {
    const row = free + index;
    const name = `${columnName(form.columns.component ?? 0)}${row + 1}`;
    const cellAt = (key: PartKey, otherwise = '0'): string =>
      form.columns[key] === undefined ? otherwise : cellName(row, form.columns[key]);
    const sum = (key: 'weight' | 'moment'): string => `SUMIFS(${at(key)!},${at('component')!},${name})`;
    const cells = {
      component,
      part: RIVETS_PART,
      quantity: 1,
      each: { formula: `=${sum('weight')}` },
      ...(at('moment') === undefined
        ? {}
        : { arm: { formula: `=IF(${sum('weight')}=0,"",${sum('moment')}/${sum('weight')})` } }),
      status: 'laid out',
      ...(unwritten.includes('weight') ? { weight: { formula: `=${cellAt('each')}*${cellAt('quantity', '1')}` } } : {}),
      ...(unwritten.includes('moment') ? { moment: { formula: `=${cellAt('weight')}*${cellAt('arm', '0')}` } } : {}),
    };
    return Object.entries(cells).flatMap(([key, cell]): Edit[] => {
      const column = form.columns[key as keyof typeof cells];
      if (column === undefined) return [];
      return [{ kind: 'write', range: { sheet: form.sheet, row, column, rows: 1, columns: 1 }, cells: [[cell]] }];
    });
  });
}

/** Rows below the last joint that the sums reach: room for more. */
const ROOM = 100;

type Measured<K extends string> = Pick<FormSheet<K>, 'columns' | 'units'>;

/** True where weights and arms of both sheets are in the same units, so that a sum is one number in either. */
const isAlike = (parts: Measured<'each' | 'arm'>, joints: Measured<'weight' | 'moment'>): boolean =>
  parts.columns.each !== undefined &&
  parts.units.each?.sign === joints.units.weight?.sign &&
  parts.units.arm?.system === joints.units.moment?.system;
