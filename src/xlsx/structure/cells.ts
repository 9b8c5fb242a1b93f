/**
 * A sheet's cells, for edits that give them other places. They are written in the order that the schema asks for, each
 * with its address, and formulas that cells share are written out in each of them.
 */
import { cellName, isInRange, parseRange } from '../../sheet';
import { LAST_COLUMN, LAST_ROW, moved, type LineEdit } from '../../sheet/formula';
import { columnOf } from '../cell-address';
import { prefixOf } from '../elements';
import { XlsxError } from '../error';
import { PartBytes } from '../part-bytes';
import { escapeXml, XmlScanner } from '../xml';
import { areaAfter, isOfWholeLines, refAfter, targetOf, type Area } from './areas';
import { formulaAfter, type FormulaEdit, type FormulaPlace } from './formulas';
import type { CellOperation, RowsOrder } from './operation';

interface Place {
  readonly row: number;
  readonly column: number;
}

export interface StoredFormula {
  text: string;
  /** Attributes but those of sharing; `ref`, `r1` and `r2` are references of this sheet. */
  attributes: [name: string, value: string][];
}

interface StoredCell {
  /** Attributes but the address, as they stand. */
  readonly attributes: string;
  formula: StoredFormula | undefined;
  /** What else stands in it. */
  body: string;
}

interface StoredRow {
  attributes: string;
  cells: Map<number, StoredCell>;
  /** What stands in the row beside cells. */
  rest: string;
}

export class SheetCells {
  private rows = new Map<number, StoredRow>();
  private readonly start: string;
  private readonly prefix: string;
  isChanged = false;

  /** @param data the text of the sheetData element */
  constructor(data: string) {
    const scanner = new XmlScanner(data);
    const token = scanner.next();
    this.start = data.slice(scanner.start, scanner.end).replace(/\s*\/>$/, '>');
    this.prefix = prefixOf(this.start);
    if (token === 'open') this.read(scanner);
  }

  bytes(): Uint8Array {
    const out = new PartBytes();
    const { prefix } = this;
    out.push(this.start);
    for (const number of [...this.rows.keys()].sort((a, b) => a - b)) {
      const row = this.rows.get(number)!;
      const tag = `<${prefix}row r="${number + 1}"${row.attributes}`;
      if (row.cells.size === 0 && row.rest === '') {
        out.push(`${tag}/>`);
        continue;
      }
      out.push(`${tag}>`);
      for (const column of [...row.cells.keys()].sort((a, b) => a - b))
        out.push(this.cellXml(number, column, row.cells.get(column)!));
      out.push(row.rest, `</${prefix}row>`);
    }
    out.push(`</${prefix}sheetData>`);
    return out.bytes();
  }

  /** Formulas that fill several cells, with their extents. */
  extents(sheet: string): { readonly area: Area; readonly type: string; readonly isDynamic: boolean }[] {
    const found: { area: Area; type: string; isDynamic: boolean }[] = [];
    this.each((_row, _column, { formula, attributes }) => {
      const type = formula && attributeOf(formula, 't');
      const ref = formula && attributeOf(formula, 'ref');
      const area = ref === undefined ? undefined : parseRange(ref, sheet);
      if (area && (type === 'array' || type === 'dataTable'))
        found.push({ area, type, isDynamic: /\scm\s*=/.test(attributes) });
    });
    return found;
  }

  /** True where one of the cells holds anything. */
  holds(area: Area): boolean {
    for (const [row, { cells }] of this.rows)
      if (isInRange(area, row, area.column))
        for (const [column, { formula, body }] of cells)
          if ((formula || body) && isInRange(area, row, column)) return true;
    return false;
  }

  /** The cells' texts in the form of a text in place. */
  putText(row: number, column: number, text: string): void {
    const line = this.line(row);
    const attributes = (line.cells.get(column)?.attributes ?? '').replace(/\s(?:t|cm|vm)\s*=\s*("[^"]*"|'[^']*')/g, '');
    const space = /^\s|\s$/.test(text) ? ' xml:space="preserve"' : '';
    const { prefix } = this;
    line.cells.set(column, {
      attributes: `${attributes} t="inlineStr"`,
      formula: undefined,
      body: `<${prefix}is><${prefix}t${space}>${escapeXml(text)}</${prefix}t></${prefix}is>`,
    });
    this.isChanged = true;
  }

  /** Has every formula follow an edit that gives no cell of this sheet another place. */
  followFormulas(edit: FormulaEdit, placeOf: (row: number, column: number) => FormulaPlace): void {
    this.each((row, column, { formula }) => {
      if (!formula || formula.text === '') return;
      const after = formulaAfter(formula.text, placeOf(row, column), edit);
      if (after === formula.text) return;
      formula.text = after;
      this.isChanged = true;
    });
  }

  /** Gives the cells their places after an edit; formulas follow for themselves before. */
  shift(sheet: string, edit: CellOperation): void {
    this.isChanged = true;
    const orphans = this.followExtents(sheet, edit);
    if (edit.kind === 'move') this.move(edit);
    else if (edit.within) this.shiftPart(edit);
    else if (edit.axis === 'rows') this.rows = shifted(this.rows, edit, LAST_ROW);
    else
      for (const row of this.rows.values()) {
        row.cells = shifted(row.cells, edit, LAST_COLUMN);
        row.attributes = withoutSpans(row.attributes);
      }
    for (const area of orphans) this.empty(area);
  }

  /** Puts rows of a range into another order. */
  order({ row, column, columns, order, staying, heights }: RowsOrder): void {
    this.isChanged = true;
    const stays = new Set(staying);
    const before = order.map((_from, index) => {
      const line = this.rows.get(row + index);
      return { attributes: line?.attributes ?? '', cells: new Map(line?.cells) };
    });
    order.forEach((from, to) => {
      if (from === to) return;
      const source = before[from]!;
      const line = this.line(row + to);
      line.attributes = withoutSpans(heights ? withHeightOf(source.attributes, line.attributes) : line.attributes);
      for (let place = column; place < column + columns; place++) {
        const given = source.cells.get(place);
        const cell = stays.has(place) ? withLookOf(given, line.cells.get(place)) : given && carried(given, to - from);
        if (cell) line.cells.set(place, cell);
        else line.cells.delete(place);
      }
    });
  }

  /** Takes cells out, to be put on another sheet. */
  take(area: Area): Map<number, Map<number, StoredCell>> {
    const taken = new Map<number, Map<number, StoredCell>>();
    this.each((row, column, cell) => {
      if (!isInRange(area, row, column)) return;
      const line = taken.get(row - area.row) ?? new Map<number, StoredCell>();
      taken.set(row - area.row, line.set(column - area.column, cell));
      this.rows.get(row)!.cells.delete(column);
    });
    this.isChanged = true;
    return taken;
  }

  put(taken: ReadonlyMap<number, ReadonlyMap<number, StoredCell>>, area: Area): void {
    this.take(area);
    for (const [row, cells] of taken) {
      const line = this.line(area.row + row);
      line.attributes = withoutSpans(line.attributes);
      for (const [column, cell] of cells) line.cells.set(area.column + column, cell);
    }
  }

  /** A row that is there, or that comes. */
  private line(row: number, attributes = ''): StoredRow {
    const line = this.rows.get(row) ?? { attributes, cells: new Map<number, StoredCell>(), rest: '' };
    this.rows.set(row, line);
    return line;
  }

  private each(take: (row: number, column: number, cell: StoredCell) => void): void {
    for (const [row, { cells }] of this.rows) for (const [column, cell] of cells) take(row, column, cell);
  }

  /** Extents of formulas follow; those whose first cell goes, while others stay, are given back to be emptied. */
  private followExtents(sheet: string, edit: CellOperation): Area[] {
    const orphans: Area[] = [];
    this.each((row, column, { formula }) => {
      if (!formula) return;
      const ref = attributeOf(formula, 'ref');
      const area = ref === undefined ? undefined : parseRange(ref, sheet);
      const after = area && areaAfter(area, sheet, edit);
      if (after && !refAfter(cellName(row, column), sheet, edit)) orphans.push(after);
      for (const attribute of formula.attributes)
        if (/^(ref|r1|r2)$/.test(attribute[0])) attribute[1] = refAfter(attribute[1], sheet, edit) ?? attribute[1];
    });
    return orphans;
  }

  private empty(area: Area): void {
    this.each((row, column, cell) => {
      if (!cell.formula && isInRange(area, row, column)) cell.body = '';
    });
  }

  private shiftPart(edit: LineEdit): void {
    const { at, axis } = edit;
    const { from, to } = edit.within!;
    const isRows = axis === 'rows';
    const moving: { row: number; column: number; cell: StoredCell }[] = [];
    for (const [row, { cells }] of this.rows)
      for (const [column, cell] of cells) {
        const [line, across] = isRows ? [row, column] : [column, row];
        if (across < from || across > to || line < at) continue;
        cells.delete(column);
        const now = lineAfter(line, edit);
        if (now !== undefined) moving.push(isRows ? { row: now, column, cell } : { row, column: now, cell });
      }
    for (const { row, column, cell } of moving) {
      const line = this.line(row);
      line.attributes = withoutSpans(line.attributes);
      line.cells.set(column, cell);
    }
  }

  /** Moves cells within the sheet. Whole rows take their height and other attributes along. */
  private move(edit: Extract<CellOperation, { kind: 'move' }>): void {
    const { from, to } = edit;
    const attributes = isOfWholeLines(edit, 'rows')
      ? Array.from({ length: from.rows }, (_row, index) => this.rows.get(from.row + index)?.attributes)
      : [];
    this.put(this.take(from), targetOf(edit));
    attributes.forEach((text, index) => {
      const old = this.rows.get(from.row + index);
      if (old) old.attributes = '';
      if (text !== undefined) this.line(to.row + index).attributes = text;
    });
  }

  private cellXml(row: number, column: number, { attributes, formula, body }: StoredCell): string {
    const { prefix } = this;
    const tag = `<${prefix}c r="${cellName(row, column)}"${attributes}`;
    if (!formula && body === '') return `${tag}/>`;
    return `${tag}>${formula ? this.formulaXml(formula) : ''}${body}</${prefix}c>`;
  }

  private formulaXml({ text, attributes }: StoredFormula): string {
    const own = attributes.map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('');
    const tag = `<${this.prefix}f${own}`;
    return text === '' ? `${tag}/>` : `${tag}>${escapeXml(text)}</${this.prefix}f>`;
  }

  private read(scanner: XmlScanner): void {
    const sharing: Sharing = { first: new Map(), early: [] };
    let number = -1;
    for (let token = scanner.next(); token !== 'close' && token !== 'end'; token = scanner.next()) {
      if (token === 'text') continue;
      if (scanner.name !== 'row') {
        scanner.pass(token);
        continue;
      }
      const [address, attributes] = attributesOf(scanner);
      number = address === undefined ? number + 1 : Number(address) - 1;
      const row = this.line(number, attributes);
      if (token === 'open') this.readRow(scanner, row, number, sharing);
    }
    for (const { formula, place } of sharing.early) takeShared(formula, place, sharing);
  }

  private readRow(scanner: XmlScanner, row: StoredRow, number: number, sharing: Sharing): void {
    let column = -1;
    for (let token = scanner.next(); token !== 'close'; token = scanner.next()) {
      if (token === 'text') continue;
      const { start } = scanner;
      if (scanner.name !== 'c') {
        scanner.pass(token);
        row.rest += scanner.xml.slice(start, scanner.end);
        continue;
      }
      const [address, attributes] = attributesOf(scanner);
      column = address === undefined ? column + 1 : columnOf(address);
      const cell = readCell(scanner, token === 'open', attributes);
      const twin = row.cells.get(column);
      // Of two cells with one address a blank one is none.
      if (twin && !isBlankCell(twin) && !isBlankCell(cell))
        throw new XlsxError('corrupt', `The file holds the cell ${cellName(number, column)} of a sheet twice`);
      if (!twin || isBlankCell(twin)) row.cells.set(column, cell);
      if (cell.formula && !takeShared(cell.formula, { row: number, column }, sharing))
        sharing.early.push({ formula: cell.formula, place: { row: number, column } });
    }
  }
}

const isBlankCell = ({ formula, body }: StoredCell): boolean => !formula && body === '';

/** A cell's content as it is many rows further down: its formula moves along. */
const carried = ({ attributes, formula, body }: StoredCell, down: number): StoredCell => ({
  attributes,
  formula: formula && {
    text: moved(formula.text, down, 0),
    attributes: formula.attributes.map(([name, value]) => [
      name,
      /^(ref|r1|r2)$/.test(name) ? moved(value, down, 0) : value,
    ]),
  },
  body,
});

const LOOK = /\ss\s*=\s*("[^"]*"|'[^']*')/;

/** The contents of one cell in the looks of another. */
function withLookOf(look: StoredCell | undefined, contents: StoredCell | undefined): StoredCell | undefined {
  const own = LOOK.exec(look?.attributes ?? '')?.[0] ?? '';
  if (!contents && own === '') return undefined;
  const { attributes, formula, body } = contents ?? { attributes: '', formula: undefined, body: '' };
  return { attributes: own + attributes.replace(LOOK, ''), formula, body };
}

const HEIGHT = /\s(?:ht|customHeight)\s*=\s*("[^"]*"|'[^']*')/g;

const withHeightOf = (from: string, attributes: string): string =>
  attributes.replace(HEIGHT, '') + (from.match(HEIGHT) ?? []).join('');

/** Formulas that cells share, by their numbers, and formulas of cells that go by one which stands further down. */
interface Sharing {
  readonly first: Map<string, { readonly text: string } & Place>;
  readonly early: { readonly formula: StoredFormula; readonly place: Place }[];
}

/** Notes a formula that others share, or gives one that goes by it its text; false where it has not been read yet. */
function takeShared(formula: StoredFormula, place: Place, { first }: Sharing): boolean {
  if (attributeOf(formula, 't') !== 'shared') return true;
  const index = attributeOf(formula, 'si') ?? '';
  const shared = first.get(index);
  if (formula.text !== '') first.set(index, { text: formula.text, ...place });
  else if (shared) formula.text = moved(shared.text, place.row - shared.row, place.column - shared.column);
  else return false;
  formula.attributes = formula.attributes.filter(([name]) => name !== 't' && name !== 'si' && name !== 'ref');
  return true;
}

const attributeOf = ({ attributes }: StoredFormula, name: string): string | undefined =>
  attributes.find(([one]) => one === name)?.[1];

/** The address of a row or cell, and its other attributes as they stand. */
function attributesOf(scanner: XmlScanner): [address: string | undefined, rest: string] {
  let address: string | undefined;
  let rest = '';
  scanner.attributes((name, value, from, to) => {
    if (name === 'r') address = value;
    else rest += scanner.xml.slice(from, to);
  });
  return [address, rest];
}

function readCell(scanner: XmlScanner, open: boolean, attributes: string): StoredCell {
  const cell: StoredCell = { attributes, formula: undefined, body: '' };
  while (open) {
    const token = scanner.next();
    if (token === 'close') break;
    if (token === 'text') continue;
    const { start, name } = scanner;
    if (name !== 'f') {
      scanner.pass(token);
      cell.body += scanner.xml.slice(start, scanner.end);
      continue;
    }
    const formula: StoredFormula = { text: '', attributes: [] };
    scanner.attributes((key, value) => formula.attributes.push([key, value]));
    if (token === 'open') formula.text = scanner.textContent();
    cell.formula = formula;
  }
  return cell;
}

/** The hint about which columns a row uses. It may be left out. */
const withoutSpans = (attributes: string): string => attributes.replace(/\sspans\s*=\s*("[^"]*"|'[^']*')/, '');

function lineAfter(line: number, { kind, at, count }: LineEdit): number | undefined {
  if (line < at) return line;
  if (kind === 'insert') return line + count;
  return line < at + count ? undefined : line - count;
}

/** Rows, or the cells of one, under the numbers that they have after an edit. */
function shifted<T>(lines: ReadonlyMap<number, T>, edit: LineEdit, last: number): Map<number, T> {
  const after = new Map<number, T>();
  for (const [line, one] of lines) {
    const now = lineAfter(line, edit);
    if (now !== undefined && now <= last) after.set(now, one);
  }
  return after;
}
