/**
 * Reading a sheet that has one of the project's forms: the header found by its labels, rows as records, cells by what
 * they may hold. Numbers that measure something come out in inch-pound units, whatever unit the column's label names.
 */
import {
  fromUnit,
  hasDecimalComma,
  inUnit,
  plainLabel,
  readUnit,
  typedNumber,
  unitsOf,
  type Dimension,
  type Unit,
} from '../core/quantity';
import { findHeader } from '../core/table';
import { CellError, cellName, isBlank, textIn, type Cell } from '../sheet';
import type { FormColumn, SheetForm } from './forms';
import { isoDate, shown, type Problem } from './reading';
import { silentUnit, systemOf, unitOfLabel, type OwnSystem } from './units';
import { isSumName } from '../core/mass';
import { nameKey } from '../core/names';

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
    if ('unit' in one) units[key] = one.unit;
    else {
      refused.push(key);
      problems.push({ sheet, cell: cellName(header, columns[key]!), message: one.wrong });
    }
  });
  return { units, named, system: own, refused, problems };
}

function readRows<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  { sheet, header, columns, units, refused }: FormHead<K>,
): Pick<FormSheet<K>, 'rows' | 'problems'> {
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
  /** The system of labels on the sheet that name no unit: that of the others, or of the parts list where no label names one. */
  readonly system: OwnSystem;
  /** Columns whose unit cannot be told: their numbers are left out. */
  readonly refused: readonly K[];
  /** The header cells of those columns, each with what is wrong. */
  readonly problems: readonly Problem[];
}

/** Sums that agree to this share of themselves are one: cells may be shown and typed rounded. */
const SAME = 1e-6;

/** What a list knows of its sums beside its rows. */
interface Beside<K extends string> {
  /** Components that no cell of the rows names. */
  readonly components?: readonly string[];
  /** What a row's own cell says, where the amount is that of several pieces. */
  readonly stated?: (row: FormRow<K>) => number | undefined;
}

/** The rows without those that are sums, each of which is named by its cell. */
export function withoutSums<K extends string>(
  { sums, columns }: SheetForm<K>,
  head: FormHead<K>,
  rows: readonly FormRow<K>[],
  beside: Beside<K> = {},
): Pick<FormSheet<K>, 'rows' | 'problems'> {
  if (!sums) return { rows, problems: [] };
  const { names, amount } = sums;
  // In the order of the sheet's own grouping: a total is that of a component.
  const group = columns.find(({ key }) => key === ('component' as K))?.key ?? names[0]!;
  const named = new Set([...rows.map(({ cells }) => textIn(cells[group])), ...(beside.components ?? [])]);
  const components = new Set([...named].map(nameKey));
  components.delete('');
  const isComponent = (name: string): boolean => components.has(nameKey(name));
  const kept: FormRow<K>[] = [];
  const problems: Problem[] = [];
  /** Of the rows above, and of those since the last sum. */
  let [all, since, rowsSince] = [0, 0, 0];
  const isSum = (row: FormRow<K>): boolean =>
    rowsSince > 1 &&
    names.every((key) => isBlank(row.cells[key])) &&
    [row.cells[amount], beside.stated?.(row)].some(
      (value) => typeof value === 'number' && value !== 0 && (isNear(value, since) || isNear(value, all)),
    );
  /** The cell by which a row is taken for a sum, and what is said of it. */
  const sumIn = (row: FormRow<K>): { readonly key: K; readonly message: string } | undefined => {
    const key = names.find((one) => isSumName(textIn(row.cells[one]), isComponent));
    if (key === undefined)
      return isSum(row) ? { key: amount, message: 'is the sum of the rows above: the row is left out' } : undefined;
    const hint = key === group ? '. Give a component another name' : '';
    return { key, message: `says "${textIn(row.cells[key])}": the row is taken for a sum and left out${hint}` };
  };
  for (const row of rows) {
    const sum = sumIn(row);
    const value = row.cells[amount];
    if (sum) {
      const cell = cellName(row.row, head.columns[sum.key] ?? 0);
      problems.push({ sheet: head.sheet, cell, message: sum.message });
      [since, rowsSince] = [0, 0];
      continue;
    }
    kept.push(row);
    if (typeof value !== 'number') continue;
    all += value;
    since += value;
    rowsSince += 1;
  }
  return { rows: kept, problems };
}

const isNear = (one: number, other: number): boolean => Math.abs(one - other) <= SAME * Math.abs(other);

/** The unit of a column in words, and an inch-pound number in it, for a message. */
export interface Said {
  readonly unit: string;
  number(value: number): string;
}

/** What a number may be, inch-pound; `takes` says it in words. */
export interface NumberRule {
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly takes: string | ((said: Said) => string);
}

export const POUNDS: NumberRule = { min: 0, max: 1e6, takes: ({ unit }) => `${unit}, 0 or more` };
export const INCHES: NumberRule = { min: -12_000, max: 12_000, takes: ({ unit }) => `${unit} from the datum` };

/** An inch-pound number in a unit, short enough to be read in a message. */
export const numberText = (value: number, unit: Unit | undefined): string =>
  String(Number(inUnit(value, unit).toPrecision(6)));

/** What a rule takes, in a unit. */
export const takesIn = ({ takes }: NumberRule, unit: Unit | undefined): string =>
  typeof takes === 'string'
    ? takes
    : takes({ unit: unit?.words ?? 'a number', number: (value) => numberText(value, unit) });

/** What was typed in a cell that was read in a unit. */
export const typedText = (cell: Cell, unit: Unit | undefined): string =>
  shown(typeof cell === 'number' ? inUnit(cell, unit) : cell);

/** True for a number that the rule takes. */
export const isWithin = (
  cell: Cell,
  { min = -Infinity, above = -Infinity, max = Infinity }: Omit<NumberRule, 'takes'>,
): cell is number => typeof cell === 'number' && Number.isFinite(cell) && cell >= min && cell > above && cell <= max;

/** A text that is a number without a unit, as that number. */
const bareNumber = (cell: Cell): Cell => {
  if (typeof cell !== 'string') return cell;
  const typed = typedNumber(cell);
  return typed && typed.sign === undefined ? typed.value : cell;
};

/** The days of 2000 to 2099 as cells hold them. No part of a light airplane weighs as much, in pounds or kilograms. */
const [FIRST_DAY, LAST_DAY] = [36_526, 73_050];

/** "2026-01-08" where a weight's cell holds a day: a fraction that was typed, say, which the spreadsheet took for one. */
function dateIn(cell: Cell, unit: Unit | undefined): string | undefined {
  const isWeight = unit && (unit.sign === 'lb' || unit.sign === 'kg') && unitsOf('weight').includes(unit);
  if (typeof cell !== 'number' || !isWeight) return undefined;
  const typed = inUnit(cell, unit);
  return typed >= FIRST_DAY && typed < LAST_DAY + 1 ? isoDate(Math.floor(typed)) : undefined;
}

const errorWords = (cell: Cell): string | undefined =>
  cell instanceof CellError
    ? `is ${cell.code} and is left out of the sum${cell.message ? `: ${cell.message}` : ''}`
    : undefined;

/** What is wrong with a number that is typed with a unit other than its column's. */
function otherUnit(cell: Cell, unit: Unit | undefined): string | undefined {
  if (typeof cell !== 'string' || !unit) return undefined;
  if (hasDecimalComma(cell)) return `got ${shown(cell)}: write the decimal point as a dot`;
  const typed = typedNumber(cell);
  if (typed?.sign === undefined) return undefined;
  const dimension = (['length', 'weight', 'area'] as const).find((one) => unitsOf(one).includes(unit));
  const own = dimension && readUnit(typed.sign, dimension);
  return own
    ? `holds ${own.words} (${shown(cell)}), but the column is in ${unit.words}: type ${numberText(fromUnit(typed.value, own), unit)}`
    : undefined;
}

/** Reads the cells of a form's rows; what is wrong goes to the problems. */
export class RowReader<K extends string> {
  constructor(
    readonly sheet: FormSheet<K>,
    /** What is wrong with the cells that were read, behind what is wrong with the sheet. */
    readonly problems: Problem[] = [...sheet.problems],
  ) {}

  problem(row: FormRow<K>, key: K, message: string): void {
    const { head, row: line } = placeOfRow(this.sheet, row.row);
    this.problems.push({ sheet: head.sheet, cell: cellName(line, head.columns[key] ?? 0), message });
  }

  /** What a row's cell of a column is in. */
  unitOf(row: FormRow<K>, key: K): Unit | undefined {
    return placeOfRow(this.sheet, row.row).head.units[key];
  }

  /** The number of a cell as it stands in it, for a message. */
  typed(row: FormRow<K>, key: K): string {
    return typedText(row.cells[key] ?? null, this.unitOf(row, key));
  }

  /** The number of a cell; undefined where the cell is blank or holds what the rule refuses, which is named as a problem. A text that says a number is read as the functions read it. */
  number(row: FormRow<K>, key: K, rule: NumberRule): number | undefined {
    const typed = row.cells[key];
    if (typed === undefined) return undefined;
    const unit = this.unitOf(row, key);
    const cell = unit ? typed : bareNumber(typed);
    const date = dateIn(cell, unit);
    if (date === undefined && isWithin(cell, rule)) return cell;
    this.problem(
      row,
      key,
      date === undefined
        ? (errorWords(cell) ?? otherUnit(cell, unit) ?? `got ${this.typed(row, key)}; takes ${takesIn(rule, unit)}`)
        : `holds a date (${date}); takes ${takesIn(rule, unit)}`,
    );
    return undefined;
  }

  /** True where nothing of a column is read, since its unit cannot be told. */
  isRefused(key: K): boolean {
    return this.sheet.refused.includes(key);
  }

  /** As `number`, but a blank is a problem, too, unless the whole column was refused, which has been said once. */
  needed(row: FormRow<K>, key: K, rule: NumberRule): number | undefined {
    if (row.cells[key] === undefined && !this.isRefused(key))
      this.problem(row, key, `is blank; takes ${takesIn(rule, this.unitOf(row, key))}`);
    return this.number(row, key, rule);
  }

  /** "2026-03-31" from a spreadsheet date or from that text. */
  date(row: FormRow<K>, key: K): string | undefined {
    const cell = row.cells[key];
    const date = isoDate(cell);
    if (date === undefined)
      this.problem(
        row,
        key,
        cell === undefined
          ? 'is blank; takes a date'
          : `got ${shown(cell)}; takes a date, or year-month-day as 2026-03-31`,
      );
    return date;
  }
}
