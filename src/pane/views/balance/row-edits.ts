/** The edits that take a row out of a form's sheet. */
import { cellName, type CellInput, type Edit } from '../../../sheet';
import { formulaIn, type FormSheet, type ProjectSheets, type SheetForm } from '../../../project';
import { t } from '../../locale';

/** Clears what is typed in a row; what the sheet computes stays. */
export function clearRowEdits<K extends string>(
  form: SheetForm<K>,
  { sheet, columns }: FormSheet<K>,
  row: number,
): Edit[] {
  return typedColumns(form, columns).map((column): Edit => ({
    kind: 'write',
    range: { sheet, row, column, rows: 1, columns: 1 },
    cells: [[null]],
  }));
}

/**
 * Takes a row out and moves those below it, up to `last`, up by one. Where any of them holds a formula
 * the row is only cleared: moved, the formula would mean other cells.
 */
export function takeRowEdits<K extends string>(
  form: SheetForm<K>,
  found: FormSheet<K>,
  sheets: ProjectSheets,
  row: number,
  last: number,
): Edit[] {
  const { sheet, columns } = found;
  const typed = typedColumns(form, columns);
  const rows = Array.from({ length: last - row + 1 }, (_, index) => row + index);
  if (rows.some((one) => typed.some((column) => formulaIn(sheets, sheet, one, column) !== undefined)))
    return clearRowEdits(form, found, row);
  const values = sheets.values(sheet) ?? [];
  return typed.map((column): Edit => {
    const cells = rows.map((one): CellInput[] => [
      one === last ? null : ((values[one + 1]?.[column] ?? null) as CellInput),
    ]);
    return { kind: 'write', range: { sheet, row, column, rows: rows.length, columns: 1 }, cells };
  });
}

/** The first row below the form's rows, as long as it is free and above `limit`; else what to do. */
export function nextRow<K extends string>(
  form: SheetForm<K>,
  { sheet, header, columns }: FormSheet<K>,
  rows: readonly number[],
  sheets: ProjectSheets,
  limit = Infinity,
): { readonly row: number } | { readonly full: string } {
  const row = Math.max(header, ...rows) + 1;
  const values = sheets.values(sheet)?.[row] ?? [];
  const taken = typedColumns(form, columns).some(
    (column) => values[column] !== undefined && values[column] !== null && values[column] !== '',
  );
  return row >= limit || taken
    ? {
        full: t('No room below row {row, number} of the sheet {sheet}. Insert a row at {cell}.', {
          row,
          sheet,
          cell: cellName(row, 0),
        }),
      }
    : { row };
}

const typedColumns = <K extends string>(form: SheetForm<K>, columns: FormSheet<K>['columns']): number[] =>
  form.columns.flatMap(({ key, computed }) => (computed || columns[key] === undefined ? [] : [columns[key]]));
