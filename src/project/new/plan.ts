/** A new sheet written down cell by cell, freely or by one of the project's forms, and turned into the edits that make it. */
import {
  columnName,
  parseRange,
  type BarChart,
  type CellInput,
  type ChoiceValidation,
  type Edit,
  type RangeAddress,
} from '../../sheet';
import { inUnit, labelIn, unitIn, type Dimension, type UnitSystem } from '../../core/quantity';
import type { FormColumn, SheetForm } from '../forms';
import { columnCharacters, textWidth } from '../../core/text-width';

/** What fills one of the project's sheets, and what is to be said of it. */
export interface FilledSheet {
  readonly edits: readonly Edit[];
  readonly exampleRows: number;
  /** The cells to type in, "A6:L205". */
  readonly typed: string;
  /** The first of them. */
  readonly first: RangeAddress;
}

/** Where a list has what other sheets sum: letters of its columns, rows from 1. */
export interface SummedColumns {
  readonly sheet: string;
  readonly first: number;
  readonly last: number;
  readonly component: string;
  readonly weight: string;
  readonly moment: string;
  readonly cost?: string | undefined;
  readonly status?: string | undefined;
}

/** Looks by what a cell is for. Typed cells are on a light ground; that a column is computed the heading's note says too. */
export interface Look {
  readonly numberFormat?: string;
  readonly bold?: boolean;
  readonly fill?: string;
}

const TYPED_FILL = '#fffbea';
const HEADER_FILL = '#e8e6df';

export const LOOKS = {
  title: { bold: true },
  label: {},
  header: { bold: true, fill: HEADER_FILL },
  text: { fill: TYPED_FILL },
  pounds: { numberFormat: '#,##0.0', fill: TYPED_FILL },
  inches: { numberFormat: '0.00', fill: TYPED_FILL },
  percent: { numberFormat: '0%', fill: TYPED_FILL },
  date: { numberFormat: 'yyyy-mm-dd', fill: TYPED_FILL },
  poundsComputed: { numberFormat: '#,##0.0' },
  inchesComputed: { numberFormat: '0.00' },
  momentComputed: { numberFormat: '#,##0.0' },
  percentComputed: { numberFormat: '0.0' },
} as const satisfies Record<string, Look>;
export type LookName = keyof typeof LOOKS;

export const CAUTION = 'An estimate is not a weighing. Loading limits come from the aircraft’s own documents.';

export class SheetPlan {
  private readonly cells: (CellInput | undefined)[][] = [];
  private readonly looks: Edit[] = [];

  constructor(readonly sheet: string) {}

  /** Contents from a cell rightwards; undefined leaves one blank. */
  row(row: number, contents: readonly (CellInput | undefined)[], column = 0): this {
    const line = (this.cells[row] ??= []);
    contents.forEach((content, index) => {
      if (content !== undefined) line[column + index] = content;
    });
    return this;
  }

  /** Several rows, the first of them at `first`. */
  rows(first: number, lines: readonly (readonly (CellInput | undefined)[])[], column = 0): this {
    lines.forEach((line, index) => this.row(first + index, line, column));
    return this;
  }

  /** A formula without "=". */
  formula(row: number, column: number, formula: string): this {
    return this.row(row, [{ formula: `=${formula}` }], column);
  }

  look(range: string, name: LookName): this {
    return this.as(range, LOOKS[name]);
  }

  /** Looks that have no name of their own. */
  as(range: string, look: Look): this {
    this.looks.push({ kind: 'format', range: parseRange(range, this.sheet)!, ...look });
    return this;
  }

  /** Keeps the rows down to a header, and columns, in view. */
  freeze(rows: number, columns = 0): this {
    this.looks.push({ kind: 'freeze', sheet: this.sheet, rows, columns });
    return this;
  }

  choices(range: string, choices: readonly string[], kind: Pick<ChoiceValidation, 'from' | 'open'> = {}): this {
    this.looks.push({ kind: 'choices', range: parseRange(range, this.sheet)!, choices, ...kind });
    return this;
  }

  /** The choices of a form's columns in rows that are counted from 1, the first of them in `column`. */
  formChoices({ columns }: SheetForm, first: number, last: number, column = 0): this {
    columns.forEach(({ choices }, index) => {
      const letter = columnName(column + index);
      if (choices) this.choices(`${letter}${first}:${letter}${last}`, choices);
    });
    return this;
  }

  /** Widths in characters, from column A on. */
  widths(widths: readonly number[]): this {
    widths.forEach((columnWidth, column) =>
      this.looks.push({
        kind: 'format',
        range: { sheet: this.sheet, row: 0, column, rows: 1, columns: 1 },
        columnWidth,
      }),
    );
    return this;
  }

  chart(chart: BarChart): this {
    this.looks.push({ kind: 'chart', chart });
    return this;
  }

  /** Title, notes, and the form's labels as the header row. */
  heading(title: string, notes: readonly string[]): this {
    return this.rows(
      0,
      [title, ...notes].map((line) => [line]),
    ).look('A1:A1', 'title');
  }

  /** @param row of the header, from 0 */
  header(row: number, labels: readonly string[]): this {
    const range = { sheet: this.sheet, row, column: 0, rows: 1, columns: labels.length };
    this.looks.push({ kind: 'format', range, ...LOOKS.header });
    return this.row(row, labels);
  }

  /** One of several typed lists side by side, its header in `column`; `header` and `last` are rows from 1. */
  list(form: SheetForm, column: number, header: number, last: number, units?: UnitSystem): this {
    const labels = labelsOf(form, units);
    const [from, to] = [columnName(column), columnName(column + labels.length - 1)];
    return this.row(header - 1, labels, column)
      .look(`${from}${header}:${to}${header}`, 'header')
      .look(`${from}${header + 1}:${to}${last}`, 'text')
      .formChoices(form, header + 1, last, column);
  }

  /** @param add false where the sheet is there already and empty */
  edits(add: boolean): Edit[] {
    const rows = this.cells.length;
    const columns = Math.max(0, ...Array.from(this.cells, (line) => line?.length ?? 0));
    const cells = Array.from({ length: rows }, (_row, r) =>
      Array.from({ length: columns }, (_column, c): CellInput => this.cells[r]?.[c] ?? null),
    );
    return [
      ...(add ? [{ kind: 'addSheet', name: this.sheet } as const] : []),
      { kind: 'write', range: { sheet: this.sheet, row: 0, column: 0, rows, columns }, cells },
      ...this.looks,
    ];
  }
}

/** The form's labels, with the units of a system. */
export const labelsOf = (form: SheetForm, units: UnitSystem = 'in-lb'): string[] =>
  form.columns.map(({ label, dimension }) => labelIn(label, units, dimension));

/** Inch-pound numbers as the cells of a new sheet hold them. */
export const cellsIn =
  (units: UnitSystem) =>
  (value: number | undefined, dimension: Dimension): number | undefined =>
    value === undefined ? undefined : inUnit(value, unitIn(dimension, units));

/** Letters of a sheet's columns by the form's keys. */
export type Letters<K extends string = string> = Readonly<Record<K, string>>;

/** Letters where the columns stand in the form's own order. */
export const lettersOf = <K extends string>(form: SheetForm<K>): Letters<K> =>
  Object.fromEntries(form.columns.map(({ key }, index) => [key, columnName(index)])) as Record<K, string>;

/** Where a sheet that is made in its form's own order, with so many rows, has what others sum. */
export const newColumns = <K extends string>(
  { sheet }: SheetForm<K>,
  letters: Letters<K> & Pick<SummedColumns, 'component' | 'weight' | 'moment'>,
  rows: number,
): SummedColumns => ({ sheet, first: FIRST, last: HEADER + rows, ...letters });

/** How the numbers of a dimension are shown: as many decimals as the figure deserves in either system. */
const FORMATS: Readonly<Record<UnitSystem, Readonly<Partial<Record<Dimension, string>>>>> = {
  'in-lb': { length: '0.00', area: '#,##0.00', weight: '0.0000', moment: '#,##0.00' },
  'mm-kg': { length: '#,##0.0', area: '#,##0', weight: '0.0000', moment: '#,##0.0' },
};

export const formatIn = (dimension: Dimension | undefined, units: UnitSystem): string | undefined =>
  dimension && FORMATS[units][dimension];

/** Typed cells stand on the light ground, computed ones do not. */
export const lookOf = (
  { computed, dimension }: Pick<FormColumn, 'computed' | 'dimension'>,
  units: UnitSystem,
  numberFormat = formatIn(dimension, units),
): Look => ({
  ...(computed ? {} : LOOKS.text),
  ...(numberFormat === undefined ? {} : { numberFormat }),
});

/** Pixels of the size in which a sheet's cells stand. */
const TEXT_PX = (11 * 96) / 72;

/** Characters that a label in bold takes, with room at its sides, in the widest of the common fonts. */
export const labelWidth = (label: string): number => Math.ceil(columnCharacters(textWidth(label, TEXT_PX, true)));

/** Characters that the longest of a cell's choices takes, beside the arrow that opens them; 0 without choices. */
export const choicesWidth = (choices: readonly string[] = []): number =>
  Math.max(0, ...choices.map((choice) => Math.ceil(columnCharacters(textWidth(choice, TEXT_PX), true))));

/** Names of a row's cells by the form's keys: "M6". */
export const rowCells = <K extends string>(letters: Letters<K>, row: number): Letters<K> =>
  Object.fromEntries(Object.entries<string>(letters).map(([key, letter]) => [key, `${letter}${row}`])) as Record<
    K,
    string
  >;

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
  plan
    .freeze(HEADER, FROZEN_COLUMNS)
    .widths(
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
