/** A cell as it is typed, and what was typed as a cell. */
import { serialFromIso } from '../core/price';
import { CellError, type Cell } from '../functions';
import { isoDate } from '../workbook';

/** 'yes': a mark that is there or not, typed as the word yes. */
export type CellKind = 'text' | 'number' | 'date' | 'yes';

/** Digits beyond these are rounding of the machine, not of anybody's scale. */
const DIGITS = 10;

export function cellText(kind: CellKind, cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof CellError) return cell.code;
  if (kind === 'date') return isoDate(cell) ?? String(cell);
  return typeof cell === 'number' ? String(Number(cell.toPrecision(DIGITS))) : String(cell);
}

export type Typed = { readonly cell: Cell } | { readonly wrong: string };

/** Reads what was typed; a number may have commas between its thousands. */
export function readTyped(kind: CellKind, typed: string): Typed {
  const text = typed.trim();
  if (text === '') return { cell: null };
  if (kind === 'text' || kind === 'yes') return { cell: text };
  if (kind === 'date') {
    const serial = serialFromIso(text);
    return serial === undefined ? { wrong: `got "${text}"; takes a date as year-month-day, 2026-03-31` } : { cell: serial };
  }
  const plain = /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?$/.test(text) ? text.replaceAll(',', '') : text.replace('−', '-');
  const number = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(plain) ? Number(plain) : NaN;
  return Number.isFinite(number) ? { cell: number } : { wrong: `got "${text}"; takes a number` };
}
