/** The edits that take rows out of a form's sheet, rename and remove stations, and write the cases anew for other stations. */
import { inUnit, unitIn } from '../../../core/quantity';
import {
  CASES,
  formulaIn,
  LOADING,
  newCasesSheet,
  newLoadingSheet,
  readForm,
  type BalanceModel,
  type CasesSheet,
  type FormSheet,
  type ProjectSheets,
  type SheetForm,
} from '../../../project';
import { cellName, isBlank, type CellInput, type Edit } from '../../../sheet';
import { t } from '../../locale';
import { writeCell } from '../../shared/edits';
import { sheetNameFor, valuesOf } from './new-sheets';

/** Clears what is typed in a row; what the sheet computes stays. */
export const clearRowEdits = <K extends string>(
  form: SheetForm<K>,
  { sheet, columns }: FormSheet<K>,
  row: number,
): Edit[] => typedColumns(form, columns).map((column) => writeCell(sheet, row, column, null));

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
  const taken = typedColumns(form, columns).some((column) => !isBlank(sheets.values(sheet)?.[row]?.[column]));
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

const place = (model: BalanceModel, row: number): { readonly index: number; readonly column: number | undefined } => {
  const index = model.stations.findIndex((station) => station.row === row);
  return { index, column: index < 0 ? undefined : model.casesSheet?.stationColumns[index] };
};

/** The cases are headed with the stations' names: they follow. */
export function renameInCases(model: BalanceModel, row: number, name: string): Edit[] {
  const { column } = place(model, row);
  const form = model.casesSheet?.form;
  return column === undefined || !form || name === '' ? [] : [writeCell(form.sheet, form.header, column, name)];
}

/** Takes a station out; words where a saved case loads it. Its row stays blank, since the cases' formulas look at the rows of the others. */
export function removeStation(model: BalanceModel, row: number): Edit[] | string {
  const { loading, casesSheet } = model;
  if (!loading) return [];
  const clear = clearRowEdits(LOADING, loading.form, row);
  const { index, column } = place(model, row);
  if (!casesSheet || column === undefined) return clear;
  const loaded = casesSheet.cases.find(({ loads }) => (loads[index] ?? 0) > 0);
  if (loaded)
    return t('{station} is loaded in the case {name}: unload or remove the case first.', {
      station: model.stations[index]!.name,
      name: loaded.name,
    });
  const { sheet, header, rows } = casesSheet.form;
  return [...clear, ...[header, ...rows.map((one) => one.row)].map((one) => writeCell(sheet, one, column, null))];
}

/**
 * The sheet of cases written anew for other stations, its cases kept.
 * The edits, as one step; or words that say why the columns have to be added by hand: the formulas of a new
 * sheet look at the stations by their rows, and whatever somebody has added to the old one would be lost.
 */
export function rebuiltCases(
  model: BalanceModel,
  { form, cases }: CasesSheet,
  sheets: ProjectSheets,
): readonly Edit[] | string {
  const { stations, loading, sheets: own, sheetUnits: units } = model;
  const byHand = (why: string): string =>
    `${why} ${t('Add the columns between the case’s name and its results on the sheet {sheet}, headed with the stations’ names, and the stations to its formulas.', { sheet: form.sheet })}`;
  if (
    !loading ||
    form.sheet !== sheetNameFor('cases', own.name) ||
    loading.form.sheet !== sheetNameFor('loading', own.name)
  )
    return byHand(t('The names of the sheets do not match.'));
  if (units === 'both') return byHand(t('The sheets of this airplane mix inch-pound and metric units.'));
  const plan = { name: own.name, stations, units };
  const planned = readForm(LOADING, valuesOf(newLoadingSheet(plan), loading.form.sheet), loading.form.sheet)!;
  if (
    loading.form.header !== planned.header ||
    stations.some(({ row }, index) => row !== planned.header + 1 + index) ||
    Object.entries(planned.columns).some(
      ([key, column]) => loading.form.columns[key as keyof typeof planned.columns] !== column,
    )
  ) {
    return byHand(t('The stations are not in rows one below the other, which a new sheet needs.'));
  }
  const edits = newCasesSheet(plan, false);
  const fresh = readForm(CASES, valuesOf(edits, form.sheet), form.sheet)!;
  const old = sheets.values(form.sheet) ?? [];
  const first = (fresh.columns.case ?? 0) + 1;
  const { note } = fresh.columns;
  const cells: (CellInput[] | undefined)[] = [];
  const put = (row: number, column: number, cell: CellInput): void => {
    (cells[row] ??= [])[column] = cell;
  };
  for (const edit of edits)
    if (edit.kind === 'write')
      edit.cells.forEach((line, r) => line.forEach((cell, c) => put(edit.range.row + r, edit.range.column + c, cell)));
  cases.forEach(({ row, name, loads }, index) => {
    const at = fresh.header + 1 + index;
    put(at, first - 1, name);
    loads.forEach((load, place) => put(at, first + place, inUnit(load, unitIn('weight', units))));
    if (note !== undefined && form.columns.note !== undefined) put(at, note, old[row]?.[form.columns.note] ?? null);
  });
  // One write over all that was there, so that nothing of the old sheet is left between the new cells.
  const [rows, columns] = [
    Math.max(cells.length, old.length),
    Math.max(...[...cells, ...old].map((line) => line?.length ?? 0)),
  ];
  return [
    {
      kind: 'write',
      range: { sheet: form.sheet, row: 0, column: 0, rows, columns },
      cells: Array.from({ length: rows }, (_row, r) =>
        Array.from({ length: columns }, (_column, c) => cells[r]?.[c] ?? null),
      ),
    },
    ...edits.filter(({ kind }) => kind !== 'write'),
  ];
}
