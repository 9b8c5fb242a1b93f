/** A new sheet written down cell by cell, and turned into the edits that make it. */
import { labelIn, type UnitSystem } from '../../core/quantity';
import { parseRange, type BarChart, type CellInput, type ChoiceValidation, type Edit } from '../../sheet';
import type { SheetForm } from '../forms';

/** Looks by what a cell is for. Typed cells are on a light ground; that a column is computed the heading's note says too. */
export interface Look {
  readonly numberFormat?: string;
  readonly bold?: boolean;
  readonly fill?: string;
}

const TYPED = '#fffbea';
const HEADER = '#e8e6df';

export const LOOKS = {
  title: { bold: true },
  label: {},
  header: { bold: true, fill: HEADER },
  text: { fill: TYPED },
  pounds: { numberFormat: '#,##0.0', fill: TYPED },
  inches: { numberFormat: '0.00', fill: TYPED },
  percent: { numberFormat: '0%', fill: TYPED },
  date: { numberFormat: 'yyyy-mm-dd', fill: TYPED },
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
    this.row(0, [title]).look('A1:A1', 'title');
    notes.forEach((note, index) => this.row(1 + index, [note]));
    return this;
  }

  /** @param row of the header, from 0 */
  header(row: number, labels: readonly string[]): this {
    const range = { sheet: this.sheet, row, column: 0, rows: 1, columns: labels.length };
    this.looks.push({ kind: 'format', range, ...LOOKS.header });
    return this.row(row, labels);
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
