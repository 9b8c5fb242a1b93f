/** A cell as it is typed, what was typed as a cell, and the unit that the numbers of both are in. */
import { serialFromIso } from '../../core/price';
import { labelDimension } from '../../core/quantity';
import { isoDate, type Fact, type FormSheet, type SheetForm } from '../../project';
import { CellError, type Cell } from '../../sheet';
import { cellNumber, readNumber, t, type FieldUnit } from '../locale';

/** 'yes': a mark that is there or not, typed as the word yes. */
export type CellKind = 'text' | 'number' | 'date' | 'yes';

export function cellText(kind: CellKind, cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof CellError) return cell.code;
  if (kind === 'date') return isoDate(cell) ?? String(cell);
  return typeof cell === 'number' ? cellNumber(cell) : String(cell);
}

/** Reads what was typed; `unit` is the one that a number of the cell is in, and lets another be typed behind it. */
export function readTypedCell(
  kind: CellKind,
  typed: string,
  unit?: FieldUnit,
): { readonly cell: Cell } | { readonly wrong: string } {
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

/** The unit of a column's field; undefined where the column has no dimension, or its unit cannot be told. */
export function columnUnit<K extends string>(
  form: SheetForm<K>,
  { units }: Pick<FormSheet<K>, 'units'>,
  key: K,
): FieldUnit | undefined {
  const dimension = form.columns.find((column) => column.key === key)?.dimension;
  const unit = units[key];
  return dimension && unit && { dimension, unit };
}

/** The unit of a fact's field. */
export function factUnit(label: string, { unit }: Fact): FieldUnit | undefined {
  const dimension = labelDimension(label);
  return dimension && unit && { dimension, unit };
}

/** A form's label with the unit that the sheet names: "Hinge line (mm)"; without any where that cannot be told. */
export function ownLabel(label: string, unit: FieldUnit | undefined): string {
  if (labelDimension(label) === undefined) return label;
  return label.replace(/\s*\([^)]*\)\s*$/, () => (unit ? ` (${unit.unit.sign})` : ''));
}
