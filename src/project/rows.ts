/**
 * Reading a sheet that has one of the project's forms: the header found by its labels, rows as records.
 * Numbers that measure something come out in inch-pound units, whatever unit the column's label names.
 */
import { fromUnit, plainLabel, type Unit } from '../core/quantity';
import { CellError, cellName, isBlank, type Cell } from '../sheet';
import type { FormColumn, SheetForm } from './forms';
import type { Problem } from './problems';
import { silentUnit, systemOf, unitOfLabel, type OwnSystem } from './units';

export interface FormRow<K extends string> {
  /** Row on the sheet, from 0. */
  readonly row: number;
  /** Numbers of columns with a dimension in inch-pound units. */
  readonly cells: Readonly<Partial<Record<K, Cell>>>;
}

export interface FormHead<K extends string> {
  readonly sheet: string;
  /** Row of the header, from 0. */
  readonly header: number;
  /** Column of each key that is there, from 0. */
  readonly columns: Readonly<Partial<Record<K, number>>>;
  /** What the cells of each column with a dimension are in; missing where that cannot be told. */
  readonly units: Readonly<Partial<Record<K, Unit>>>;
  /** The system of the units that the labels name; undefined where none names one. */
  readonly named: OwnSystem | undefined;
  /** The same, or that of the parts list where no label names one: of what names no unit on the sheet. */
  readonly system: OwnSystem;
  /** Columns whose unit cannot be told: their numbers are left out. */
  readonly refused: readonly K[];
  /** The header cells of those columns, each with what is wrong. */
  readonly problems: readonly Problem[];
}

export interface FormSheet<K extends string> extends FormHead<K> {
  readonly rows: readonly FormRow<K>[];
}

/** How far down a header may stand: titles and notes come above it. */
export const HEADER_WITHIN = 30;

/**
 * The sheet's rows under the form's header; undefined where no row holds every required label.
 * A row counts when any of its typed (not computed) cells is filled; what stands behind an empty gap still counts.
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
  return head && { ...head, rows: readRows(form, values, head) };
}

/** The header alone: where each column stands, and in which unit it is. */
export function readHead<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  sheet = form.sheet,
  system: OwnSystem = 'in-lb',
): FormHead<K> | undefined {
  for (let header = 0; header < Math.min(values.length, HEADER_WITHIN); header++) {
    const labels = values[header]!.map(plainLabel);
    const columns: Partial<Record<K, number>> = {};
    for (const { key, label } of form.columns) {
      const at = labels.indexOf(plainLabel(label));
      if (at >= 0) columns[key] = at;
    }
    if (form.columns.some(({ key, required }) => required && columns[key] === undefined)) continue;
    return { sheet, header, columns, ...readUnits(form, values[header]!, columns, { sheet, header, system }) };
  }
  return undefined;
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
  { header, columns, units, refused }: FormHead<K>,
): FormRow<K>[] {
  const there = form.columns.flatMap(({ key, computed }) => {
    const at = columns[key];
    return at === undefined ? [] : [{ key, at, typed: !computed, unit: units[key], leftOut: refused.includes(key) }];
  });
  const rows: FormRow<K>[] = [];
  for (let row = header + 1; row < values.length; row++) {
    const cells: Partial<Record<K, Cell>> = {};
    let filled = false;
    for (const { key, at, typed, unit, leftOut } of there) {
      const cell = values[row]![at] ?? null;
      if (isBlank(cell)) continue;
      if (typed) filled = true;
      if (!leftOut) cells[key] = typeof cell === 'number' ? fromUnit(cell, unit) : cell;
    }
    if (filled) rows.push({ row, cells });
  }
  return rows;
}

/** The number in a cell; undefined where it is blank, a text or an error. */
export const numberIn = (cell: Cell | undefined): number | undefined => (typeof cell === 'number' ? cell : undefined);

/** The text in a cell; '' where it is blank. */
export const textIn = (cell: Cell | undefined): string =>
  cell === null || cell === undefined || cell instanceof CellError ? '' : String(cell).trim();
