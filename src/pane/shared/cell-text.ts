/** A cell as it is typed, and what was typed as a cell. */
import { serialFromIso } from '../../core/price';
import { CellError, type Cell } from '../../sheet';
import { isoDate } from '../../project';
import { cellNumber, readNumber, t, type FieldUnit } from '../locale';

/** 'yes': a mark that is there or not, typed as the word yes. */
export type CellKind = 'text' | 'number' | 'date' | 'yes';

export function cellText(kind: CellKind, cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof CellError) return cell.code;
  if (kind === 'date') return isoDate(cell) ?? String(cell);
  return typeof cell === 'number' ? cellNumber(cell) : String(cell);
}

export type TypedCell = { readonly cell: Cell } | { readonly wrong: string };

/** Reads what was typed; `unit` is the one that a number of the cell is in, and lets another be typed behind it. */
export function readTypedCell(kind: CellKind, typed: string, unit?: FieldUnit): TypedCell {
  const text = typed.trim();
  if (text === '') return { cell: null };
  if (kind === 'text' || kind === 'yes') return { cell: text };
  if (kind === 'date') {
    const serial = serialFromIso(text);
    return serial === undefined
      ? { wrong: t('“{typed}” is not a date. Type year-month-day, such as 2026-03-31', { typed: text }) }
      : { cell: serial };
  }
  const read = readNumber(text, unit);
  return 'wrong' in read ? read : { cell: read.value };
}
