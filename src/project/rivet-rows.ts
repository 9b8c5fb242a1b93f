/**
 * The rows that bring the joints' rivets and the hardware into the parts list, one for each component and kind. Rivets
 * and hardware count as weight only by such a row; without it a component has their cost and not their weight.
 */
import { ByName, nameKey } from '../core/names';
import { cellName, columnName, quoteSheet, textIn, type Edit } from '../sheet';
import { HARDWARE_FORM, JOINTS, type HardwareKey, type JointKey, type PartKey, type SheetForm } from './forms';
import { NO_COMPONENT, type PartsList } from './parts';
import type { Problem, SheetValues } from './reading';
import { readSheet } from './project-units';
import { columnRange } from './new/formula-terms';
import { type FormSheet } from './rows';

/** A list beside the parts, and the row that brings it in. */
interface Counted {
  readonly of: 'rivets' | 'hardware';
  readonly form: SheetForm<JointKey | HardwareKey>;
  /** What the row's part is called: its first word tells it. */
  readonly part: string;
  readonly told: RegExp;
}

/** What the rows that bring a component's rivets and hardware in are called. */
export const RIVETS_PART = 'Rivets, from the sheet Joints';
export const HARDWARE_PART = 'Hardware, from the sheet Hardware';

const COUNTED: readonly Counted[] = [
  { of: 'rivets', form: JOINTS, part: RIVETS_PART, told: /^rivets\b/i },
  { of: 'hardware', form: HARDWARE_FORM, part: HARDWARE_PART, told: /^hardware\b/i },
];

export interface MissingRows {
  readonly of: Counted['of'];
  readonly component: string;
  /** Of its joints, lb. */
  readonly weight: number;
  readonly problem: Problem;
}

/** Components whose rivets or hardware have weight on their own sheet and none in the parts list. */
export const missingRows = (values: SheetValues, parts: PartsList): MissingRows[] =>
  COUNTED.flatMap((counted) => missingOf(counted, values, parts));

function missingOf({ of, form, told }: Counted, values: SheetValues, parts: PartsList): MissingRows[] {
  const joints = readSheet(values, form);
  if (!joints || joints.columns.weight === undefined) return [];
  const components = new Set(parts.rows.map(({ component }) => nameKey(component)));
  const there = new Set(
    parts.rows.flatMap(({ component, part, weight }) => (told.test(part) && weight ? [nameKey(component)] : [])),
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
      of,
      component,
      weight,
      problem: {
        sheet: joints.sheet,
        cell: cellName(row, joints.columns.weight!),
        message: `weighs the ${of} of ${component}, which no row ${title(of)} of the parts list brings in: their cost counts and their weight does not${components.has(nameKey(component)) ? '' : '. No part has a component of that name'}`,
      },
    }));
}

/** The sheet row, from 0, in which the next part of a list is written. */
export const nextPartRow = ({ form }: PartsList): number =>
  Math.max(form.header, ...form.rows.map(({ row }) => row)) + 1;

const title = (of: string): string => of[0]!.toUpperCase() + of.slice(1);

/**
 * The edits that add those rows below the parts; undefined where the sheets measure in different units.
 * @param unwritten keys of columns whose formulas a new row lacks: they are written with it
 */
export function missingRowEdits(
  values: SheetValues,
  parts: PartsList,
  missing: readonly MissingRows[],
  unwritten: Unwritten = [],
): Edit[] | undefined {
  let free = nextPartRow(parts);
  const edits: Edit[] = [];
  for (const counted of COUNTED) {
    const own = missing.filter(({ of }) => of === counted.of);
    if (own.length === 0) continue;
    const added = editsOf(counted, values, parts, { missing: own, free, unwritten });
    if (!added) return undefined;
    edits.push(...added);
    free += own.length;
  }
  return edits;
}

type Unwritten = readonly ('weight' | 'moment')[];

function editsOf(
  { form: list, part }: Counted,
  values: SheetValues,
  { form }: PartsList,
  {
    missing,
    free,
    unwritten,
  }: { readonly missing: readonly MissingRows[]; readonly free: number; readonly unwritten: Unwritten },
): Edit[] | undefined {
  const joints = readSheet(values, list);
  if (!joints || !isAlike(form, joints)) return undefined;
  const last = Math.max(joints.header + 1, ...joints.rows.map(({ row }) => row)) + ROOM;
  const at = (key: 'component' | 'weight' | 'moment'): string | undefined => {
    const column = joints.columns[key];
    return column === undefined
      ? undefined
      : columnRange(quoteSheet(joints.sheet), columnName(column), joints.header + 2, last);
  };
  return missing.flatMap(({ component }, index): Edit[] => {
    const row = free + index;
    const name = `${columnName(form.columns.component ?? 0)}${row + 1}`;
    const cellAt = (key: PartKey, otherwise = '0'): string =>
      form.columns[key] === undefined ? otherwise : cellName(row, form.columns[key]);
    const sum = (key: 'weight' | 'moment'): string => `SUMIFS(${at(key)!},${at('component')!},${name})`;
    const cells = {
      component,
      part,
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
