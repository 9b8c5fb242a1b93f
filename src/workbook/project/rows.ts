/** Reading a sheet that has one of the project's forms: the header found by its labels, rows as records. */
import { CellError, isBlank, type Cell } from '../../functions';
import { plainLabel, type SheetForm } from './forms';

export interface FormRow<K extends string> {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly cells: Readonly<Partial<Record<K, Cell>>>;
}

export interface FormSheet<K extends string> {
  readonly sheet: string;
  /** Row of the header, from 0. */
  readonly header: number;
  /** Column of each key that is there, from 0. */
  readonly columns: Readonly<Partial<Record<K, number>>>;
  readonly rows: readonly FormRow<K>[];
}

/** How far down the header may stand: titles and notes come above it. */
const HEADER_WITHIN = 30;

/**
 * The sheet's rows under the form's header; undefined where no row holds every required label.
 * `sheet` is its name in the workbook, where that is another than the form's.
 * A row counts when any of its typed (not computed) cells is filled; what stands behind an empty gap still counts.
 */
export function readForm<K extends string>(form: SheetForm<K>, values: readonly (readonly Cell[])[], sheet = form.sheet): FormSheet<K> | undefined {
  for (let header = 0; header < Math.min(values.length, HEADER_WITHIN); header++) {
    const labels = values[header]!.map(plainLabel);
    const columns: Partial<Record<K, number>> = {};
    for (const { key, label } of form.columns) {
      const at = labels.indexOf(plainLabel(label));
      if (at >= 0) columns[key] = at;
    }
    if (form.columns.some(({ key, required }) => required && columns[key] === undefined)) continue;
    return { sheet, header, columns, rows: readRows(form, values, header, columns) };
  }
  return undefined;
}

function readRows<K extends string>(
  form: SheetForm<K>,
  values: readonly (readonly Cell[])[],
  header: number,
  columns: Readonly<Partial<Record<K, number>>>,
): FormRow<K>[] {
  const rows: FormRow<K>[] = [];
  for (let row = header + 1; row < values.length; row++) {
    const cells: Partial<Record<K, Cell>> = {};
    let filled = false;
    for (const { key, computed } of form.columns) {
      const at = columns[key];
      if (at === undefined) continue;
      const cell = values[row]![at] ?? null;
      if (isBlank(cell)) continue;
      cells[key] = cell;
      if (!computed) filled = true;
    }
    if (filled) rows.push({ row, cells });
  }
  return rows;
}

/** The number in a cell; undefined where it is blank, a text or an error. */
export const numberIn = (cell: Cell | undefined): number | undefined => (typeof cell === 'number' ? cell : undefined);

/** The text in a cell; '' where it is blank. */
export const textIn = (cell: Cell | undefined): string => (cell === null || cell === undefined || cell instanceof CellError ? '' : String(cell).trim());
