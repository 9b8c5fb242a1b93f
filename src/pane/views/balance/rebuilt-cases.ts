/** The sheet of cases written anew for other stations, its cases kept. */
import { inUnit, unitIn } from '../../../core/quantity';
import { type CellInput, type Edit } from '../../../sheet';
import {
  CASES,
  LOADING,
  newCasesSheet,
  newLoadingSheet,
  readForm,
  type BalanceModel,
  type CasesSheet,
  type ProjectSheets,
} from '../../../project';
import { t } from '../../locale';
import { sheetNameFor, valuesOf } from './new-sheets';

/**
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
  const note = fresh.columns.note;
  const cells: CellInput[][] = [];
  const put = (row: number, column: number, cell: CellInput): void => {
    while (cells.length <= row) cells.push([]);
    cells[row]![column] = cell;
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
    Math.max(...[...cells, ...old].map((line) => line.length)),
  ];
  const whole = Array.from({ length: rows }, (_row, r) =>
    Array.from({ length: columns }, (_column, c) => cells[r]?.[c] ?? null),
  );
  return [
    { kind: 'write', range: { sheet: form.sheet, row: 0, column: 0, rows, columns }, cells: whole },
    ...edits.filter(({ kind }) => kind !== 'write'),
  ];
}
