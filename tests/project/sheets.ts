/** A project's sheets as cells, written down by their forms' keys. */
import type { Cell } from '../../src/sheet';
import type { SheetForm, SheetValues } from '../../src/project';

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
