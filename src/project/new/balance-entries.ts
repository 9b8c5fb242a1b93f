/** The edits that save a loading case and that put one onto the loading sheet. */
import { sameName } from '../../core/names';
import { inUnit } from '../../core/quantity';
import type { Edit } from '../../sheet';
import type { CasesSheet, Loading } from '../loading';

/** Writes a case over the one of that name, else below the last one. `loads` in lb; the cells get them in their columns' units. */
export function caseEdits(
  { form, stationColumns, stationUnits, cases }: CasesSheet,
  name: string,
  loads: readonly number[],
): Edit[] {
  const { sheet } = form;
  const known = cases.find((one) => sameName(one.name, name));
  const row = known?.row ?? Math.max(form.header, ...form.rows.map((one) => one.row)) + 1;
  const write = (column: number, cell: string | number): Edit => ({
    kind: 'write',
    range: { sheet, row, column, rows: 1, columns: 1 },
    cells: [[cell]],
  });
  return [
    write(form.columns.case ?? 0, name.trim()),
    ...stationColumns.flatMap((column, index) =>
      column === undefined || !stationUnits[index]
        ? []
        : [write(column, inUnit(loads[index] ?? 0, stationUnits[index]))],
    ),
  ];
}

/** Clears a saved case; the row stays, since results stand beside it. */
export function clearCaseEdits({ form, stationColumns }: CasesSheet, row: number): Edit[] {
  const columns = [
    form.columns.case ?? 0,
    ...stationColumns.flatMap((column) => column ?? []),
    ...(form.columns.note === undefined ? [] : [form.columns.note]),
  ];
  return columns.map((column) => ({
    kind: 'write',
    range: { sheet: form.sheet, row, column, rows: 1, columns: 1 },
    cells: [[null]],
  }));
}

/** Puts loads (lb), in the order of the stations, into the loading sheet's column Load; nothing where it has none. */
export function loadEdits({ form, stations }: Loading, loads: readonly number[]): Edit[] {
  const column = form.columns.load;
  if (column === undefined || form.refused.includes('load')) return [];
  return stations.map(({ row }, index) => ({
    kind: 'write',
    range: { sheet: form.sheet, row, column, rows: 1, columns: 1 },
    cells: [[inUnit(loads[index] ?? 0, form.units.load)]],
  }));
}
