/** What is wrong with a sheet's cells, named by sheet and cell, and the readers that find it. */
import { isoFromSerial, serialFromIso } from '../../core/price';
import { CellError, isBlank, type Cell } from '../../functions';
import { cellName } from '../address';
import type { FormRow, FormSheet } from './rows';

export interface Problem {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
}

/** Values of a sheet by its name, rows × columns; undefined where there is no such sheet. */
export type SheetValues = (sheet: string) => readonly (readonly Cell[])[] | undefined;

/** What a number may be; `takes` says it in words, with its unit. */
export interface NumberRule {
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly takes: string;
}

export const POUNDS: NumberRule = { min: 0, max: 1e6, takes: 'pounds, 0 or more' };
export const INCHES: NumberRule = { min: -12_000, max: 12_000, takes: 'inches from the datum' };

const shown = (cell: Cell): string => (cell instanceof CellError ? cell.toString() : typeof cell === 'string' ? `"${cell}"` : String(cell));

/** Reads the cells of a form's rows; what is wrong goes to the problems. */
export class RowReader<K extends string> {
  constructor(
    readonly sheet: FormSheet<K>,
    readonly problems: Problem[],
  ) {}

  problem(row: FormRow<K>, key: K, message: string): void {
    this.problems.push({ sheet: this.sheet.sheet, cell: cellName(row.row, this.sheet.columns[key] ?? 0), message });
  }

  /** Undefined where the cell is blank, or holds what the rule refuses: that is named. */
  number(row: FormRow<K>, key: K, rule: NumberRule): number | undefined {
    const cell = row.cells[key];
    if (cell === undefined) return undefined;
    if (isWithin(cell, rule)) return cell;
    this.problem(row, key, `got ${shown(cell)}; takes ${rule.takes}`);
    return undefined;
  }

  /** As `number`; a blank is a problem too. */
  needed(row: FormRow<K>, key: K, rule: NumberRule): number | undefined {
    if (row.cells[key] === undefined) this.problem(row, key, `is blank; takes ${rule.takes}`);
    return this.number(row, key, rule);
  }

  /** "2026-03-31" from a spreadsheet date or from that text. */
  date(row: FormRow<K>, key: K): string | undefined {
    const cell = row.cells[key];
    const date = isoDate(cell);
    if (date === undefined) this.problem(row, key, cell === undefined ? 'is blank; takes a date' : `got ${shown(cell)}; takes a date, or year-month-day as 2026-03-31`);
    return date;
  }
}

function isWithin(cell: Cell, { min = -Infinity, above = -Infinity, max = Infinity }: NumberRule): cell is number {
  return typeof cell === 'number' && Number.isFinite(cell) && cell >= min && cell > above && cell <= max;
}

/** "2026-03-31" for a spreadsheet's date or that text; undefined for anything else. */
export function isoDate(cell: Cell | undefined): string | undefined {
  if (typeof cell === 'number') return isoFromSerial(cell);
  if (typeof cell !== 'string') return undefined;
  const serial = serialFromIso(cell);
  return serial === undefined ? undefined : isoFromSerial(serial);
}

/** A share as a fraction: 0.15, which a cell may show as 15%, or the text "15%". Undefined where it is none. */
export function fractionIn(cell: Cell | undefined): number | undefined {
  if (isBlank(cell)) return undefined;
  const fraction = typeof cell === 'string' ? Number(cell.replace('%', '').trim()) / (cell.includes('%') ? 100 : 1) : cell;
  return typeof fraction === 'number' && Number.isFinite(fraction) ? fraction : undefined;
}
