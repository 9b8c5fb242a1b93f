/** A new sheet with one of the project's forms: notes, header, rows that wait with their formulas, and example rows. */
import type { UnitSystem } from '../../core/quantity';
import { columnName, type CellInput, type ChoiceValidation } from '../../sheet';
import type { FormColumn, SheetForm } from '../forms';
import { choicesWidth, labelWidth, lettersOf, lookOf } from './columns';
import type { FilledSheet } from './filled-sheet';
import { labelsOf, SheetPlan } from './plan';

/** Row of the header of a new form, from 1; the rows below it are typed in. */
export const HEADER = 5;
export const FIRST = HEADER + 1;

/** What a row is stays in view beside its figures: its component and its name. */
const FROZEN_COLUMNS = 2;

export type ExampleRow<K extends string> = Readonly<Partial<Record<K, CellInput>>>;

export interface FormPlan<K extends string> {
  readonly form: SheetForm<K>;
  readonly units: UnitSystem;
  readonly title: string;
  /** At most three lines. */
  readonly notes: readonly string[];
  /** Rows below the header that are made ready. */
  readonly rows: number;
  /** Formulas without "=" of a row, by its number. */
  readonly formulas: Readonly<Partial<Record<K, (row: number) => string>>>;
  /** Number formats other than their dimension's. */
  readonly formats?: Readonly<Partial<Record<K, string>>>;
  /** Least widths in characters, where the label is not the longest. */
  readonly widths: Readonly<Partial<Record<K, number>>>;
  readonly examples: readonly ExampleRow<K>[];
  /** Lists of choices that the form does not know itself. */
  readonly lists?: Readonly<Partial<Record<K, ChoiceList>>>;
}

export type ChoiceList = Omit<ChoiceValidation, 'range'>;

const listOf = ({ choices, open }: FormColumn): Partial<ChoiceList> => ({
  ...(choices ? { choices } : {}),
  ...(open ? { open } : {}),
});

/** Fills an empty sheet with a form. */
export function formSheet<K extends string>({
  form,
  units,
  title,
  notes,
  rows,
  formulas,
  formats,
  widths,
  examples,
  lists,
}: FormPlan<K>): FilledSheet {
  const letters = lettersOf(form);
  const last = HEADER + rows;
  const labels = labelsOf(form, units);
  const plan = new SheetPlan(form.sheet).heading(title, notes).header(HEADER - 1, labels);
  for (let row = FIRST; row <= last; row++) {
    const example = examples[row - FIRST];
    plan.row(
      row - 1,
      form.columns.map(({ key }) => example?.[key] ?? (formulas[key] && { formula: `=${formulas[key](row)}` })),
    );
  }
  for (const column of form.columns) {
    const range = `${letters[column.key]}${FIRST}:${letters[column.key]}${last}`;
    // A column with a formula that is typed over where that does not fit, such as Use, is shaded with the typed ones.
    const look = lookOf(column, units, formats?.[column.key]);
    if (look.fill ?? look.numberFormat) plan.as(range, look);
    const { choices, ...kind } = lists?.[column.key] ?? listOf(column);
    if (choices) plan.choices(range, choices, kind);
  }
  plan.freeze(HEADER, FROZEN_COLUMNS);
  plan.widths(
    form.columns.map(({ key, choices }, index) =>
      Math.max(widths[key] ?? 0, labelWidth(labels[index]!), choicesWidth(lists?.[key]?.choices ?? choices)),
    ),
  );
  // Typed columns stand first; others may follow behind the computed ones.
  const typed = form.columns.findIndex(({ computed }) => computed) - 1;
  return {
    edits: plan.edits(false),
    exampleRows: examples.length,
    typed: `A${FIRST}:${columnName(typed)}${last}`,
    first: { sheet: form.sheet, row: FIRST - 1, column: 0, rows: 1, columns: 1 },
  };
}
