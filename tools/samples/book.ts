/** A small language for writing a workbook down: cells by name, styles by word, formulas with their plain twins. */
import {
  columnName,
  parseCell,
  parseRange,
  type Cell,
  type CellModel,
  type ChoiceValidation,
  type NameModel,
  type SheetModel,
  type StyleModel,
  type TableModel,
  type WorkbookModel,
} from '../../src/sheet';

/** A formula, and the ordinary formula that must give the same (by row and column of its spill, where it spills). */
export interface Formula {
  readonly formula: string;
  readonly twin?: string | number | ((row: number, column: number) => string | number);
  /** Extent of the twin, where it is more than one cell. */
  readonly twinRows?: number;
  readonly twinColumns?: number;
}

export type Content = Cell | Formula;

const isFormula = (content: Content): content is Formula =>
  typeof content === 'object' && content !== null && 'formula' in content;

/** A formula (without "="); `twin` is the plain form for a spreadsheet that knows no TARE functions. */
export const f = (formula: string, twin?: Formula['twin'], twinRows = 1, twinColumns = 1): Formula => ({
  formula,
  ...(twin === undefined ? {} : { twin, twinRows, twinColumns }),
});

export type StyleName = keyof typeof STYLES;

/** Typed cells on a light ground, computed ones plain: told by the header's word too, not by colour alone. */
const STYLES = {
  title: { bold: true, size: 16 },
  note: { italic: true, color: '#5a5a5a' },
  wrap: { wrap: true },
  header: { bold: true, fill: '#e8e6df', wrap: true, borderBottom: true },
  headerRight: { bold: true, fill: '#e8e6df', wrap: true, borderBottom: true, align: 'right' },
  text: {},
  input: { fill: '#fffbea' },
  length: { numberFormat: '0.000' },
  lengthInput: { numberFormat: '0.000', fill: '#fffbea' },
  long: { numberFormat: '0.00' },
  longBold: { numberFormat: '0.00', bold: true },
  longInput: { numberFormat: '0.00', fill: '#fffbea' },
  area: { numberFormat: '#,##0.00' },
  weight: { numberFormat: '0.0000' },
  weightBold: { numberFormat: '0.0000', bold: true },
  moment: { numberFormat: '#,##0.00' },
  money: { numberFormat: '#,##0.00' },
  count: { numberFormat: '#,##0' },
  percent: { numberFormat: '0.0' },
  bold: { bold: true },
  date: { numberFormat: 'yyyy-mm-dd', fill: '#fffbea' },
  pounds: { numberFormat: '#,##0.0' },
  poundsInput: { numberFormat: '#,##0.0', fill: '#fffbea' },
  toleranceInput: { numberFormat: '0.0%', fill: '#fffbea' },
  percentInput: { numberFormat: '0%', fill: '#fffbea' },
} as const satisfies Record<string, StyleModel>;

const STYLE_NAMES = Object.keys(STYLES) as StyleName[];

/** The style that has exactly these looks. */
export function styleLike(looks: StyleModel): StyleName {
  const same = (style: StyleModel): boolean =>
    [...new Set([...Object.keys(style), ...Object.keys(looks)])].every(
      (key) => style[key as keyof StyleModel] === looks[key as keyof StyleModel],
    );
  const found = STYLE_NAMES.find((name) => same(STYLES[name]));
  if (!found) throw new Error(`no style of the samples looks like ${JSON.stringify(looks)}`);
  return found;
}

export class SheetBuilder {
  readonly cells: (CellModel | undefined)[][] = [];
  readonly formulas = new Map<string, Formula>();
  readonly tables: TableModel[] = [];
  readonly validations: ChoiceValidation[] = [];
  widths: (number | undefined)[] = [];
  frozen?: { rows: number; columns: number };

  constructor(readonly name: string) {}

  put(name: string, content: Content, style: StyleName = 'text'): this {
    const place = parseCell(name);
    if (!place) throw new Error(`${name} is no cell`);
    const row = (this.cells[place.row] ??= []);
    const index = STYLE_NAMES.indexOf(style);
    if (isFormula(content)) {
      this.formulas.set(name, content);
      row[place.column] = { value: null, formula: content.formula, style: index };
    } else {
      row[place.column] = { value: content, style: index };
    }
    return this;
  }

  /** A row of contents from a cell rightwards; undefined leaves a cell as it is. */
  row(
    name: string,
    contents: readonly (Content | undefined)[],
    styles: StyleName | readonly StyleName[] = 'text',
  ): this {
    const place = parseCell(name)!;
    contents.forEach((content, index) => {
      if (content === undefined) return;
      const style = typeof styles === 'string' ? styles : (styles[Math.min(index, styles.length - 1)] ?? 'text');
      this.put(`${columnName(place.column + index)}${place.row + 1}`, content, style);
    });
    return this;
  }

  /** Gives a style to cells that a spill will fill. */
  styleColumn(column: string, from: number, to: number, style: StyleName): this {
    for (let row = from; row <= to; row++) {
      const cells = (this.cells[row - 1] ??= []);
      const at = parseCell(`${column}${row}`)!.column;
      cells[at] = { ...(cells[at] ?? { value: null }), style: STYLE_NAMES.indexOf(style) };
    }
    return this;
  }

  table(name: string, range: string, columns: readonly string[]): this {
    this.tables.push({ name, range: parseRange(range, this.name)!, columns });
    return this;
  }

  choices(range: string, choices: readonly string[], kind: Pick<ChoiceValidation, 'from' | 'open'> = {}): this {
    this.validations.push({ range: parseRange(range, this.name)!, choices, ...kind });
    return this;
  }

  model(): SheetModel {
    return {
      name: this.name,
      cells: Array.from(this.cells, (row) => row ?? []),
      columnWidths: this.widths,
      ...(this.frozen ? { frozen: this.frozen } : {}),
      tables: this.tables,
      validations: this.validations,
    };
  }

  /** The sheet with every formula that has a plain twin replaced by it. */
  twin(): SheetModel {
    const model = this.model();
    const cells = model.cells.map((row) => [...row]);
    for (const [name, { twin, twinRows = 1, twinColumns = 1 }] of this.formulas) {
      if (twin === undefined) continue;
      const place = parseCell(name)!;
      for (let r = 0; r < twinRows; r++) {
        for (let c = 0; c < twinColumns; c++) {
          const content = typeof twin === 'function' ? twin(place.row + 1 + r, place.column + c) : twin;
          const row = (cells[place.row + r] ??= []);
          row[place.column + c] =
            typeof content === 'number'
              ? { value: content }
              : content.startsWith('=')
                ? { value: null, formula: content.slice(1) }
                : { value: content };
        }
      }
    }
    return { ...model, cells: Array.from(cells, (row) => row ?? []) };
  }
}

export class BookBuilder {
  private readonly sheets: SheetBuilder[] = [];
  private readonly names: NameModel[] = [];

  sheet(name: string): SheetBuilder {
    const sheet = new SheetBuilder(name);
    this.sheets.push(sheet);
    return sheet;
  }

  name(name: string, refersTo: string): this {
    this.names.push({ name, refersTo });
    return this;
  }

  model(): WorkbookModel {
    return {
      sheets: this.sheets.map((sheet) => sheet.model()),
      names: this.names,
      styles: STYLE_NAMES.map((name) => STYLES[name]),
    };
  }

  /** The workbook in plain formulas, with the sheets that only the plain form needs. */
  twin(extra: readonly SheetBuilder[]): WorkbookModel {
    return {
      sheets: [...this.sheets.map((sheet) => sheet.twin()), ...extra.map((sheet) => sheet.model())],
      names: this.names,
      styles: STYLE_NAMES.map((name) => STYLES[name]),
    };
  }
}
