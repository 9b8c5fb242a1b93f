/**
 * Reading a sheet that has one of the project's forms: the header found by its labels, rows as records.
 * Numbers that measure something come out in inch-pound units, whatever unit the column's label names.
 */
import { fromUnit, plainLabel, readUnit, typedNumber, type Dimension, type Unit } from '../core/quantity';
import { findHeader } from '../core/table';
import { cellName, isBlank, type Cell } from '../sheet';
import type { FormColumn, FormHead, FormRow, SheetForm } from './forms';
import type { Problem } from './problems';
import { withoutSums } from './sum-rows';
import { silentUnit, systemOf, unitOfLabel, type OwnSystem } from './units';

export type { FormHead, FormRow };

export interface FormSheet<K extends string> extends FormHead<K> {
  readonly rows: readonly FormRow<K>[];
  /** Of a list that is on several sheets: the head of each; `placeOfRow` says which is a row's. */
  readonly heads?: readonly FormHead<K>[];
  /** True where a sheet's columns were matched: no formula of it computes what a row lacks. */
  readonly matched?: boolean;
}

/** Rows of a list's second sheet are numbered from here on, of its third from twice as much: no sheet has as many rows. */
const SHEET_ROWS = 2 ** 20;

/** A row of a list that may be on several sheets: the head of its sheet, and its row there, from 0. */
export function placeOfRow<K extends string>(
  form: FormSheet<K>,
  row: number,
): { readonly head: FormHead<K>; readonly row: number } {
  const head = form.heads?.[Math.floor(row / SHEET_ROWS)];
  return head ? { head, row: row % SHEET_ROWS } : { head: form, row };
}

/** Lists of one form as one list, with problems of its own. */
export function joined<K extends string>(
  first: FormSheet<K>,
  others: readonly FormSheet<K>[],
  problems: readonly Problem[],
  matched: boolean,
): FormSheet<K> {
  const all = [first, ...others];
  return {
    ...first,
    heads: all.map(({ rows: _rows, ...head }) => head),
    matched,
    rows: [
      ...first.rows,
      ...others.flatMap(({ rows }, index) => rows.map((one) => ({ ...one, row: one.row + (index + 1) * SHEET_ROWS }))),
    ],
    problems: [...problems, ...all.flatMap((one) => one.problems)],
  };
}

/**
 * The sheet's rows under the form's header; undefined where no row holds every required label.
 * A row counts when any of its typed (not computed) cells is filled; what stands behind an empty gap still counts.
 * The header repeated further down, and rows that are sums of others, are left out and named.
 * A column is in the unit that its label names in brackets; one that names none is in the system of those that do.
 * @param sheet  its name in the workbook, where that is another than the form's
 * @param system of a sheet none of whose labels names a unit
 */
export function readForm<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  sheet = form.sheet,
  system: OwnSystem = 'in-lb',
): FormSheet<K> | undefined {
  const head = readHead(form, values, sheet, system);
  if (!head) return undefined;
  const read = readRows(form, values, head);
  const { rows, problems } = withoutSums(form, head, read.rows);
  return { ...head, rows, problems: [...head.problems, ...read.problems, ...problems] };
}

/** The header alone: where each column stands, and in which unit it is. */
export function readHead<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  sheet = form.sheet,
  system: OwnSystem = 'in-lb',
): FormHead<K> | undefined {
  const needed = form.columns.flatMap(({ key, required }) => (required ? [key] : []));
  const found = findHeader(form.columns, values, needed);
  if (!found) return undefined;
  const { header } = found;
  const columns = Object.fromEntries(found.places) as Partial<Record<K, number>>;
  return { sheet, header, columns, ...readUnits(form, values[header]!, columns, { sheet, header, system }) };
}

function readUnits<K extends string>(
  form: SheetForm<K>,
  labels: readonly Cell[],
  columns: Readonly<Partial<Record<K, number>>>,
  { sheet, header, system }: { readonly sheet: string; readonly header: number; readonly system: OwnSystem },
): Pick<FormHead<K>, 'units' | 'named' | 'system' | 'refused' | 'problems'> {
  const measuring = form.columns.filter(
    (column): column is FormColumn<K> & Required<Pick<FormColumn<K>, 'dimension'>> =>
      column.dimension !== undefined && columns[column.key] !== undefined,
  );
  const read = measuring.map(({ key, dimension }) => unitOfLabel(labels[columns[key]!], dimension));
  const named = systemOf(read.map((one) => (one && 'unit' in one ? one.unit : undefined)));
  const own = named ?? system;
  const units: Partial<Record<K, Unit>> = {};
  const refused: K[] = [];
  const problems: Problem[] = [];
  measuring.forEach(({ key, dimension }, index) => {
    const one = read[index] ?? silentUnit(dimension, own);
    if ('unit' in one) {
      units[key] = one.unit;
      return;
    }
    refused.push(key);
    problems.push({ sheet, cell: cellName(header, columns[key]!), message: one.wrong });
  });
  return { units, named, system: own, refused, problems };
}

function readRows<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  { sheet, header, columns, units, refused }: FormHead<K>,
): { readonly rows: FormRow<K>[]; readonly problems: Problem[] } {
  const there = form.columns.flatMap(({ key, label, computed, dimension }) => {
    const at = columns[key];
    if (at === undefined) return [];
    const read = (cell: Cell): Cell => measured(cell, dimension, units[key]);
    return [{ key, at, typed: !computed, label: plainLabel(label), read, leftOut: refused.includes(key) }];
  });
  const rows: FormRow<K>[] = [];
  const problems: Problem[] = [];
  for (let row = header + 1; row < values.length; row++) {
    const cells: Partial<Record<K, Cell>> = {};
    let filled = false;
    let labels = 0;
    let isHeader = true;
    for (const { key, at, typed, label, read, leftOut } of there) {
      const cell = values[row]![at] ?? null;
      if (isBlank(cell)) continue;
      if (typed) filled = true;
      // As long as it may be the header: a list has thousands of texts, and none of them is asked about twice.
      isHeader &&= typeof cell === 'string' && plainLabel(cell) === label;
      labels += Number(isHeader);
      if (!leftOut) cells[key] = read(cell);
    }
    if (isHeader && labels > 1) {
      const first = there.find(({ at }) => !isBlank(values[row]![at] ?? null));
      problems.push({ sheet, cell: cellName(row, first!.at), message: 'repeats the header: the row is left out' });
    } else if (filled) rows.push({ row, cells });
  }
  return { rows, problems };
}

/**
 * A cell of a column with a dimension, inch-pound: a number in the column's unit, or a text that says one as the
 * functions read it ("3/32", "1 1/4 in"). What is in another unit stays a text, so that its reader refuses it.
 */
function measured(cell: Cell, dimension: Dimension | undefined, unit: Unit | undefined): Cell {
  if (typeof cell === 'number') return fromUnit(cell, unit);
  if (typeof cell !== 'string' || dimension === undefined) return cell;
  const typed = typedNumber(cell);
  if (!typed) return cell;
  const { value, sign } = typed;
  return sign === undefined || readUnit(sign, dimension)?.sign === unit?.sign ? fromUnit(value, unit) : cell;
}

/** The number in a cell; undefined where it is blank, a text or an error. */
export const numberIn = (cell: Cell | undefined): number | undefined => (typeof cell === 'number' ? cell : undefined);
