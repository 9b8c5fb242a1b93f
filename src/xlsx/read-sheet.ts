/** One sheet's part → cells and what belongs to them. */
import {
  CellError,
  cellName,
  DAYS_1904,
  isErrorCode,
  parseRange,
  type Cell,
  type CellModel,
  type FilterModel,
  type RangeAddress,
  type Spill,
} from '../sheet';
import { columnOf, rowOf } from './cell-address';
import { XlsxError } from './error';
import { isDynamicUnmarked, LAST_COLUMN, LAST_ROW, moved } from '../sheet/formula';
import { fromFile, type IsName } from './formula-text';
import { isCells } from './elements';
import { readFilter } from './filters';
import { readRuns, unescapeText } from './read-strings';
import { isTrue, XmlScanner } from './xml';

export interface SheetContext {
  readonly name: string;
  readonly strings: readonly string[];
  /** By style index: true where it shows a date and the file counts dates from 1904. */
  readonly shifted: readonly boolean[];
  readonly isName: IsName;
}

/** A drop-down list as the file has it: choices in place, or the range that holds them. */
export interface RawValidation {
  readonly range: RangeAddress;
  readonly source: string;
  readonly open?: true;
}

export interface SheetParts {
  readonly cells: (CellModel | undefined)[][];
  readonly columnWidths: (number | undefined)[];
  frozen: { rows: number; columns: number } | undefined;
  readonly merges: RangeAddress[];
  readonly validations: RawValidation[];
  isProtected: boolean;
  readonly hiddenRows: number[];
  readonly rowHeights: Map<number, number>;
  readonly hiddenColumns: number[];
  tabColor: string | undefined;
  filter: FilterModel | undefined;
}

// eslint-disable-next-line complexity -- one kind of element after the other
export function readSheet(xml: string, context: SheetContext): SheetParts {
  const scanner = new XmlScanner(xml);
  const parts: SheetParts = {
    cells: [],
    columnWidths: [],
    frozen: undefined,
    merges: [],
    validations: [],
    isProtected: false,
    hiddenRows: [],
    rowHeights: new Map(),
    hiddenColumns: [],
    tabColor: undefined,
    filter: undefined,
  };
  let found = false;
  for (const token of scanner.knownTags()) {
    if (isCells(scanner, token)) {
      if (found) throw new XlsxError('corrupt', `Sheet ${context.name}: its cells are in two places of the file`);
      found = true;
      if (token === 'open') new CellReader(scanner, context, parts).read();
    }
    if (scanner.name === 'col') readColumn(scanner, parts);
    else if (scanner.name === 'tabColor') parts.tabColor = rgbOf(scanner.attribute('rgb')) ?? parts.tabColor;
    else if (scanner.name === 'pane') parts.frozen = readPane(scanner) ?? parts.frozen;
    else if (scanner.name === 'mergeCell') parts.merges.push(...ranges(scanner.attribute('ref'), context.name));
    else if (scanner.name === 'dataValidation' && token === 'open')
      parts.validations.push(...readValidation(scanner, context.name));
    else if (scanner.name === 'autoFilter') {
      const { start } = scanner;
      scanner.pass(token);
      parts.filter ??= readFilter(xml.slice(start, scanner.end), context.name);
    } else if (scanner.name === 'sheetProtection') parts.isProtected = isTrue(scanner.attribute('sheet'));
  }
  return parts;
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

/** The extent of a spill for a formula that gives one value. */
const ONE_CELL: Spill = { rows: 1, columns: 1 };

/** Reads sheetData, whose rows and cells may be in any order; those without an address follow the one before. */
class CellReader {
  private readonly shared = new Map<string, { formula: string; row: number; column: number }>();
  /** Cells that go by a shared formula which has not been read yet. */
  private readonly early: { index: string; row: number; column: number }[] = [];
  private readonly spills: RangeAddress[] = [];
  /** The cell that is being read: one for all, as there may be millions. */
  private readonly raw: RawCell = { row: 0, column: 0, ...EMPTY };
  private formulaType = '';
  private formulaRef = '';
  private formulaIndex = '';

  private readonly cells: SheetParts['cells'];

  constructor(
    private readonly scanner: XmlScanner,
    private readonly context: SheetContext,
    private readonly parts: SheetParts,
  ) {
    this.cells = parts.cells;
  }

  read(): void {
    const { scanner } = this;
    let row = -1;
    let column = -1;
    let inside = false;
    for (;;) {
      const token = scanner.next();
      if (token === 'text') continue;
      if (token === 'close') {
        if (scanner.name === 'sheetData') break;
        inside = false;
      } else if (scanner.name === 'row' && !inside) {
        row = this.rowNumber(row + 1);
        column = -1;
        inside = token === 'open';
      } else if (scanner.name === 'c' && inside) {
        column = this.readCell(row, column + 1, token === 'open');
      } else if (scanner.name === 'c' || scanner.name === 'row')
        throw this.corrupt(`a ${scanner.name === 'c' ? 'cell is outside of a row' : 'row is inside a row'}`);
      else scanner.pass(token);
    }
    this.takeEarly();
    this.markSpills();
  }

  private corrupt(what: string): XlsxError {
    return new XlsxError('corrupt', `Sheet ${this.context.name}: ${what}`);
  }

  /** Formulas of the cells that were read before the formula which they share. */
  private takeEarly(): void {
    for (const { index, row, column } of this.early) {
      const formula = this.sharedFormula(index, '', { row, column });
      if (formula === undefined) continue;
      const line = (this.cells[row] ??= []);
      line[column] = { value: null, ...line[column], formula, plain: true };
    }
  }

  private rowNumber(next: number): number {
    let row = next;
    let hidden = false;
    let height = 0;
    let isOwn = false;
    this.scanner.attributes((name, value) => {
      if (name === 'r') row = Number(value) - 1;
      else if (name === 'hidden') hidden = isTrue(value);
      else if (name === 'ht') height = Number(value);
      else if (name === 'customHeight') isOwn = isTrue(value);
    });
    if (!(Number.isInteger(row) && row >= 0 && row <= LAST_ROW)) throw this.corrupt('a row number is out of bounds');
    if (hidden) this.parts.hiddenRows.push(row);
    if (isOwn && height > 0) this.parts.rowHeights.set(row, height);
    return row;
  }

  private readCell(row: number, next: number, open: boolean): number {
    const { raw } = this;
    Object.assign(raw, EMPTY);
    raw.row = row;
    raw.column = next;
    this.scanner.attributes(this.takeCellAttribute);
    if (raw.column < 0 || raw.column > LAST_COLUMN) throw this.corrupt('a column is out of bounds');
    if (raw.row !== row) throw this.corrupt(`a cell of row ${raw.row + 1} is in row ${row + 1}`);
    if (open) this.readContent(raw);
    const model = this.toModel(raw);
    if (!model) return raw.column;
    const line = (this.cells[row] ??= []);
    if (line[raw.column] !== undefined)
      throw this.corrupt(`the file holds the cell ${cellName(row, raw.column)} twice`);
    line[raw.column] = model;
    return raw.column;
  }

  private readonly takeCellAttribute = (name: string, value: string): void => {
    const { raw } = this;
    if (name === 'r') {
      raw.column = columnOf(value);
      raw.row = rowOf(value);
    } else if (name === 't') raw.type = value;
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
        else if (scanner.name === 'is') {
          raw.value = readRuns(scanner);
          raw.type = 'inlineStr';
        } else scanner.skip();
      } else if (token === 'empty' && scanner.name === 'f') this.readFormula(raw, false);
    }
  }

  private readFormula(raw: RawCell, open: boolean): void {
    this.formulaType = this.formulaRef = this.formulaIndex = '';
    this.scanner.attributes(this.takeFormulaAttribute);
    const type = this.formulaType;
    const text = open ? apart(fromFile(this.scanner.textContent(), this.context.isName)) : '';
    // Cells of a what-if table are results of a formula that another cell holds.
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
    const fixed = !raw.marked && !isDynamicUnmarked(text);
    if (!fixed && !this.formulaRef.includes(':')) {
      raw.spill = ONE_CELL;
      return;
    }
    const [range] = ranges(this.formulaRef, this.context.name);
    if (!range) return;
    raw.spill = { rows: range.rows, columns: range.columns, ...(fixed ? { fixed } : {}) };
    if (range.rows * range.columns > 1) this.spills.push(range);
  }

  private sharedFormula(
    index: string,
    text: string,
    { row, column }: Pick<RawCell, 'row' | 'column'>,
  ): string | undefined {
    if (text !== '') {
      this.shared.set(index, { formula: text, row, column });
      return text;
    }
    const first = this.shared.get(index);
    if (!first) this.early.push({ index, row, column });
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
        return this.sharedText(value);
      case 'str':
        return apart(unescapeText(value));
      case 'inlineStr':
        return apart(value);
      case 'b':
        return isTrue(value);
      case 'e':
        return new CellError(isErrorCode(value) ? value : '#VALUE!');
      case 'd':
        return serialOfIsoDate(value) ?? value;
      default: {
        if (value.trim() === '') return null;
        const number = Number(value);
        // A text that is not a number, or too large for one, must not be read as a blank.
        if (!Number.isFinite(number)) return new CellError(Number.isNaN(number) ? '#VALUE!' : '#NUM!');
        return this.context.shifted[style] ? number + DAYS_1904 : number;
      }
    }
  }

  private sharedText(index: string): string {
    const text = this.context.strings[Number(index)];
    if (text === undefined) throw this.corrupt('a cell goes by a shared text that the file does not hold');
    return text;
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

/** The engine copies texts up to this length when they are cut out of another text. */
const COPIED = 12;

/** A text of its own: one that is cut out of the part's whole text keeps that in memory, 100 MB for a large sheet. */
const apart = (text: string): string =>
  text.length <= COPIED ? text : [text.slice(0, COPIED), text.slice(COPIED)].join('');

/** "FF112233" → "#112233" */
const rgbOf = (text: string | undefined): string | undefined =>
  text && /^[0-9a-f]{8}$/i.test(text) ? `#${text.slice(2).toLowerCase()}` : undefined;

function readColumn(scanner: XmlScanner, { columnWidths, hiddenColumns }: SheetParts): void {
  const width = Number(scanner.attribute('width'));
  const isHidden = isTrue(scanner.attribute('hidden'));
  const from = Number(scanner.attribute('min')) - 1;
  // A width for all columns to the sheet's edge is a default, and not worth sixteen thousand entries.
  const to = Math.min(Number(scanner.attribute('max')) - 1, from + 255, LAST_COLUMN);
  if (!(from >= 0)) return;
  for (let column = from; column <= to; column++) {
    if (isHidden) hiddenColumns.push(column);
    if (width > 0) columnWidths[column] = width;
  }
}

const readPane = (scanner: XmlScanner): SheetParts['frozen'] =>
  /^frozen/.test(scanner.attribute('state') ?? '')
    ? { rows: Number(scanner.attribute('ySplit') ?? 0), columns: Number(scanner.attribute('xSplit') ?? 0) }
    : undefined;

function readValidation(scanner: XmlScanner, sheet: string): RawValidation[] {
  const type = scanner.attribute('type');
  const ref = scanner.attribute('sqref');
  // ECMA-376 part 1, 18.3.1.32: without showErrorMessage nothing is refused, and by another style it is only warned.
  const isOpen =
    !isTrue(scanner.attribute('showErrorMessage')) ||
    /^(warning|information)$/.test(scanner.attribute('errorStyle') ?? '');
  let source = '';
  for (let token = scanner.next(); !(token === 'close' && scanner.name === 'dataValidation'); token = scanner.next()) {
    if (token === 'open' && scanner.name === 'formula1') source = scanner.textContent();
  }
  return type === 'list'
    ? ranges(ref, sheet).map((range) => ({ range, source, ...(isOpen ? { open: true } : {}) }))
    : [];
}

const ranges = (refs: string | undefined, sheet: string): RangeAddress[] =>
  (refs ?? '').split(/\s+/).flatMap((ref) => parseRange(ref, sheet) ?? []);

/** "2026-03-14" or "2026-03-14T12:00:00" as days since the 1900 epoch; undefined where it is no date. */
function serialOfIsoDate(text: string): number | undefined {
  const time = Date.parse(/T/.test(text) && !/Z$|[+-]\d\d:\d\d$/.test(text) ? `${text}Z` : text);
  return Number.isNaN(time) ? undefined : time / 86_400_000 + 25_569;
}
