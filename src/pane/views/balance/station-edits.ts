/** The edits that rename and remove stations, on the sheet Loading and in the headings of the cases. */
import { type Edit } from '../../../sheet';
import { LOADING, type BalanceModel } from '../../../project';
import { t } from '../../locale';
import { clearRowEdits } from './row-edits';

const place = (model: BalanceModel, row: number): { readonly index: number; readonly column: number | undefined } => {
  const index = model.stations.findIndex((station) => station.row === row);
  return { index, column: index < 0 ? undefined : model.casesSheet?.stationColumns[index] };
};

/** The cases are headed with the stations' names: they follow. */
export function renameInCases(model: BalanceModel, row: number, name: string): Edit[] {
  const { column } = place(model, row);
  const form = model.casesSheet?.form;
  return column === undefined || !form || name === ''
    ? []
    : [{ kind: 'write', range: { sheet: form.sheet, row: form.header, column, rows: 1, columns: 1 }, cells: [[name]] }];
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
  const cells = [header, ...rows.map((one) => one.row)];
  return [
    ...clear,
    ...cells.map((one): Edit => ({
      kind: 'write',
      range: { sheet, row: one, column, rows: 1, columns: 1 },
      cells: [[null]],
    })),
  ];
}
