/** One sheet's part → cells and what belongs to them. */
import { CellError, isErrorCode, parseRange, type Cell, type CellModel, type RangeAddress, type Spill } from '../sheet';
import { columnOf } from './cell-address';
import { XlsxError } from './error';
import { LAST_COLUMN, LAST_ROW, moved } from '../sheet/formula';
import { fromFile, isDynamic } from './formula-text';
import { DAYS_1904, serialOfIsoDate } from './number-formats';
import { readRuns, unescapeText } from './read-strings';
import { XmlScanner } from './xml';

export interface SheetContext {
  readonly name: string;
  readonly strings: readonly string[];
  /** By style index: true where it shows a date and the file counts dates from 1904. */
  readonly shifted: readonly boolean[];
}

/** A drop-down list as the file has it: choices in place, or the range that holds them. */
export interface RawValidation {
  readonly range: RangeAddress;
  readonly source: string;
}

export interface SheetParts {
  readonly cells: (CellModel | undefined)[][];
  readonly columnWidths: (number | undefined)[];
  readonly frozen?: { rows: number; columns: number };
  readonly merges: RangeAddress[];
  readonly validations: RawValidation[];
  readonly isProtected: boolean;
  readonly hiddenRows: number[];
  readonly filtered: boolean;
}

export function readSheet(xml: string, context: SheetContext): SheetParts {
  const scanner = new XmlScanner(xml);
  const cells: (CellModel | undefined)[][] = [];
  const columnWidths: (number | undefined)[] = [];
  const merges: RangeAddress[] = [];
  const validations: RawValidation[] = [];
  let frozen: { rows: number; columns: number } | undefined;
  const hiddenRows: number[] = [];
  let isProtected = false;
  let filtered = false;
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (token !== 'open' && token !== 'empty') continue;
    if (scanner.name === 'sheetData' && token === 'open') new CellReader(scanner, context, cells, hiddenRows).read();
    else if (scanner.name === 'col') readColumn(scanner, columnWidths);
    else if (scanner.name === 'pane') frozen = readPane(scanner) ?? frozen;
    else if (scanner.name === 'mergeCell') merges.push(...ranges(scanner.attribute('ref'), context.name));
    else if (scanner.name === 'dataValidation' && token === 'open')
      validations.push(...readValidation(scanner, context.name));
    else if (scanner.name === 'filterColumn') filtered = true;
    else if (scanner.name === 'sheetProtection') isProtected = isTrue(scanner.attribute('sheet') ?? '');
  }
  return { cells, columnWidths, merges, validations, isProtected, hiddenRows, filtered, ...(frozen ? { frozen } : {}) };
}

interface RawCell {
  row: number;
  column: number;
  type: string;
  style: number;
  value: string | undefined;
  formula: string | undefined;
  spill: Spill | undefined;
  /** True where the cell points at a metadata record, as dynamic arrays do. */
  marked: boolean;
}

const EMPTY = { type: 'n', style: 0, value: undefined, formula: undefined, spill: undefined, marked: false } as const;

/** What a formula spills that gives one value. */
const ONE_CELL: Spill = { rows: 1, columns: 1 };

/** Reads sheetData; rows and cells without an address follow the one before. */
class CellReader {
  private readonly shared = new Map<string, { formula: string; row: number; column: number }>();
  private readonly spills: RangeAddress[] = [];
  /** The cell that is being read: one for all, as there may be millions. */
  private readonly raw: RawCell = { row: 0, column: 0, ...EMPTY };
  private formulaType = '';
  private formulaRef = '';
  private formulaIndex = '';

  constructor(
    private readonly scanner: XmlScanner,
    private readonly context: SheetContext,
    private readonly cells: (CellModel | undefined)[][],
    private readonly hiddenRows: number[],
  ) {}

  read(): void {
    const { scanner } = this;
    let row = -1;
    let column = -1;
    for (;;) {
      const token = scanner.next();
      if (token === 'text') continue;
      if (token === 'close') {
        if (scanner.name === 'sheetData') break;
      } else if (scanner.name === 'row') {
        row = this.rowNumber(row + 1);
        column = -1;
      } else if (scanner.name === 'c') {
        column = this.readCell(row, column + 1, token === 'open');
      } else if (token === 'open') scanner.skip();
    }
    this.markSpills();
  }

  private rowNumber(next: number): number {
    let row = next;
    let hidden = false;
    this.scanner.attributes((name, value) => {
      if (name === 'r') row = Number(value) - 1;
      else if (name === 'hidden') hidden = isTrue(value);
    });
    if (!(row >= 0 && row <= LAST_ROW))
      throw new XlsxError('corrupt', `Sheet ${this.context.name}: a row number is out of bounds`);
    if (hidden) this.hiddenRows.push(row);
    return row;
  }

  private readCell(row: number, next: number, open: boolean): number {
    const { raw } = this;
    Object.assign(raw, EMPTY);
    raw.row = row;
    raw.column = next;
    this.scanner.attributes(this.takeCellAttribute);
    if (raw.column < 0 || raw.column > LAST_COLUMN)
      throw new XlsxError('corrupt', `Sheet ${this.context.name}: a column is out of bounds`);
    if (open) this.readContent(raw);
    const model = this.toModel(raw);
    if (model) (this.cells[row] ??= [])[raw.column] = model;
    return raw.column;
  }

  private readonly takeCellAttribute = (name: string, value: string): void => {
    const { raw } = this;
    if (name === 'r') raw.column = columnOf(value);
    else if (name === 't') raw.type = value;
    else if (name === 's') raw.style = Number(value);
    else if (name === 'cm') raw.marked = true;
  };

  private readContent(raw: RawCell): void {
    const { scanner } = this;
    for (;;) {
      const token = scanner.next();
      if (token === 'close') return;
      if (token === 'open') {
        if (scanner.name === 'v') raw.value = scanner.textContent();
        else if (scanner.name === 'f') this.readFormula(raw, true);
        else if (scanner.name === 'is') raw.value = readRuns(scanner);
        else scanner.skip();
      } else if (token === 'empty' && scanner.name === 'f') this.readFormula(raw, false);
    }
  }

  private readFormula(raw: RawCell, open: boolean): void {
    this.formulaType = this.formulaRef = this.formulaIndex = '';
    this.scanner.attributes(this.takeFormulaAttribute);
    const type = this.formulaType;
    const text = open ? apart(fromFile(this.scanner.textContent())) : '';
    // A what-if table's cells are results of a formula that stands elsewhere.
    if (type === 'dataTable') return;
    if (type === 'shared') raw.formula = this.sharedFormula(this.formulaIndex, text, raw);
    else if (text !== '') raw.formula = text;
    if (type === 'array' && text !== '') this.readSpill(raw, text);
  }

  private readonly takeFormulaAttribute = (name: string, value: string): void => {
    if (name === 't') this.formulaType = value;
    else if (name === 'ref') this.formulaRef = value;
    else if (name === 'si') this.formulaIndex = value;
  };

  private readSpill(raw: RawCell, text: string): void {
    // Other programs drop the mark: what only makes sense as a dynamic array is taken as one.
    const fixed = !raw.marked && !isDynamic(text);
    if (!fixed && !this.formulaRef.includes(':')) {
      raw.spill = ONE_CELL;
      return;
    }
    const [range] = ranges(this.formulaRef, this.context.name);
    if (!range) return;
    raw.spill = { rows: range.rows, columns: range.columns, ...(fixed ? { fixed } : {}) };
    if (range.rows * range.columns > 1) this.spills.push(range);
  }

  private sharedFormula(index: string, text: string, { row, column }: RawCell): string | undefined {
    if (text !== '') {
      this.shared.set(index, { formula: text, row, column });
      return text;
    }
    const first = this.shared.get(index);
    return first && moved(first.formula, row - first.row, column - first.column);
  }

  private toModel(raw: RawCell): CellModel | undefined {
    const value = this.toValue(raw);
    if (value === null && raw.formula === undefined && raw.style === 0) return undefined;
    const { formula, spill } = raw;
    const style = raw.style === 0 ? undefined : raw.style;
    // Written out, so that none of a million cells carries room for what it does not have.
    if (formula === undefined) return style === undefined ? { value } : { value, style };
    if (spill) return style === undefined ? { value, formula, spill } : { value, formula, spill, style };
    return style === undefined ? { value, formula, plain: true } : { value, formula, plain: true, style };
  }

  private toValue({ type, value, style }: RawCell): Cell {
    if (value === undefined) return null;
    switch (type) {
      case 's':
        return this.context.strings[Number(value)] ?? '';
      case 'str':
        return apart(unescapeText(value));
      case 'inlineStr':
        return apart(value);
      case 'b':
        return value === '1' || value === 'true';
      case 'e':
        return new CellError(isErrorCode(value) ? value : '#VALUE!');
      case 'd':
        return serialOfIsoDate(value) ?? value;
      default: {
        if (value.trim() === '') return null;
        const number = Number(value);
        // What is no number, or larger than any, must not count as a blank.
        if (!Number.isFinite(number)) return new CellError(Number.isNaN(number) ? '#VALUE!' : '#NUM!');
        return this.context.shifted[style] ? number + DAYS_1904 : number;
      }
    }
  }

  private markSpills(): void {
    for (const spill of this.spills) {
      for (let row = spill.row; row < spill.row + spill.rows; row++) {
        const line = this.cells[row];
        for (let column = spill.column; line && column < spill.column + spill.columns; column++) {
          const cell = line[column];
          if (cell && cell.formula === undefined) line[column] = { ...cell, spilled: true };
        }
      }
    }
  }
}

/** Texts up to this length are copied anyhow when they are cut out of another. */
const COPIED = 12;

/** A text of its own: one that is cut out of the part's whole text keeps that in memory, 100 MB for a large sheet. */
const apart = (text: string): string =>
  text.length <= COPIED ? text : [text.slice(0, COPIED), text.slice(COPIED)].join('');

const isTrue = (text: string): boolean => text === '1' || text === 'true';

function readColumn(scanner: XmlScanner, widths: (number | undefined)[]): void {
  const width = Number(scanner.attribute('width'));
  const from = Number(scanner.attribute('min')) - 1;
  const to = Number(scanner.attribute('max')) - 1;
  // A width for all columns to the sheet's edge is a default, and not worth sixteen thousand entries.
  if (width > 0 && from >= 0)
    for (let column = from; column <= Math.min(to, from + 255, LAST_COLUMN); column++) widths[column] = width;
}

function readPane(scanner: XmlScanner): { rows: number; columns: number } | undefined {
  if (!/^frozen/.test(scanner.attribute('state') ?? '')) return undefined;
  return { rows: Number(scanner.attribute('ySplit') ?? 0), columns: Number(scanner.attribute('xSplit') ?? 0) };
}

function readValidation(scanner: XmlScanner, sheet: string): RawValidation[] {
  const type = scanner.attribute('type');
  const ref = scanner.attribute('sqref');
  let source = '';
  for (let token = scanner.next(); !(token === 'close' && scanner.name === 'dataValidation'); token = scanner.next()) {
    if (token === 'open' && scanner.name === 'formula1') source = scanner.textContent();
  }
  return type === 'list' ? ranges(ref, sheet).map((range) => ({ range, source })) : [];
}

const ranges = (refs: string | undefined, sheet: string): RangeAddress[] =>
  (refs ?? '').split(/\s+/).flatMap((ref) => parseRange(ref, sheet) ?? []);
