/** A project's sheets as cells, written down by their forms' keys. */
import type { Cell } from '../../src/sheet';
import { unitsOfProject, type ProjectSheets, type SheetForm, type SheetValues } from '../../src/project';

export const header = (form: SheetForm): Cell[] => form.columns.map(({ label }) => label);
export const row = (form: SheetForm, cells: Readonly<Record<string, Cell>>): Cell[] =>
  form.columns.map(({ key }) => cells[key] ?? null);
export const sheet = (form: SheetForm, rows: readonly Readonly<Record<string, Cell>>[]): Cell[][] => [
  ['Title'],
  header(form),
  ...rows.map((cells) => row(form, cells)),
];
export const valuesOf =
  (sheets: Readonly<Record<string, Cell[][]>>): SheetValues =>
  (name) =>
    sheets[name];

/** A project that is nothing but the values of sheets. */
export const projectWith = (values: SheetValues, names: readonly string[] = []): ProjectSheets => ({
  sheets: names.map((name) => ({ name, visible: true, protected: false })),
  names,
  tables: [],
  values,
  formulas: () => undefined,
  units: unitsOfProject(values, names),
  prices: undefined,
});
