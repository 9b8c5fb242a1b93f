/** Reads the cells of a form's rows by what they may hold, and names what they may not. */
import { fromUnit, hasDecimalComma, inUnit, readUnit, typedNumber, unitsOf, type Unit } from '../core/quantity';
import { CellError, cellName, type Cell } from '../sheet';
import { isoDate, shown, type Problem } from './problems';
import { placeOfRow, type FormRow, type FormSheet } from './rows';

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
export function isWithin(
  cell: Cell,
  { min = -Infinity, above = -Infinity, max = Infinity }: NumberRule,
): cell is number {
  return typeof cell === 'number' && Number.isFinite(cell) && cell >= min && cell > above && cell <= max;
}

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
  if (typeof cell !== 'number' || !unit || (unit.sign !== 'lb' && unit.sign !== 'kg')) return undefined;
  if (!unitsOf('weight').includes(unit)) return undefined;
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
    readonly problems: Problem[],
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
