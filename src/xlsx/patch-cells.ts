/** The cells of one sheet patched: a walk over sheetData that copies what is not changed as it stands. */
import { CellError, cellName, DAYS_1904, rangeName, type Cell, type Spill } from '../sheet';
import { columnOf } from './cell-address';
import { toFile, type IsName } from './formula-text';
import type { CellChange } from './difference';
import { moved, tryFormula } from '../sheet/formula';
import { opened, prefixOf } from './elements';
import { PartBytes } from './part-bytes';
import { SheetCells } from './structure/cells';
import { escapeXml, XmlScanner } from './xml';
import { escapeText } from './read-strings';

export interface CellContext {
  /** Index of the cell format for a style of the changes, made from the format that the cell has. */
  format(style: number, base: number): number;
  /** True for a formula that a spreadsheet program would not compute as meant if it were stored as a plain one. */
  isArray(formula: string): boolean;
  /** The names of the workbook and its tables that the sheet's formulas see. */
  readonly isName: IsName;
  /** Index of the dynamic-array record, for a cell's `cm`. */
  dynamic(): number;
  /** True where a cell format shows a date and the file counts dates from 1904. */
  shifted(format: number): boolean;
}

interface Master {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

/** Thrown where cells or shared formulas are not in the order that a single walk needs. */
class OutOfOrder extends Error {}

/**
 * The text of a sheetData element, in UTF-8, with changes in order of rows and columns; cells that are out of order
 * are put in order. `formulasChanged` is true once a formula was added, replaced or taken away.
 */
export function patchCells(
  xml: string,
  changes: readonly CellChange[],
  context: CellContext,
): { readonly bytes: Uint8Array; readonly formulasChanged: boolean } {
  const walk = (text: string) => {
    const patcher = new CellPatcher(text, changes, context);
    return { bytes: patcher.run(), formulasChanged: patcher.formulasChanged };
  };
  try {
    return walk(opened(xml));
  } catch (error) {
    // Files that other programs wrote by hand are put in order first.
    if (error instanceof OutOfOrder) return walk(new TextDecoder().decode(new SheetCells(xml).bytes()));
    throw error;
  }
}

/** Patches the text of a sheetData element with changes in order of rows and columns. */
class CellPatcher {
  /** True once a formula was added, replaced or taken away. */
  formulasChanged = false;
  private readonly scanner: XmlScanner;
  private readonly out = new PartBytes();
  private copied = 0;
  private next = 0;
  private readonly prefix: string;
  /** Shared formulas whose first cell was changed: the cells that go by them get their own text. */
  private readonly orphans = new Map<string, Master>();
  private early: ReadonlySet<string> | undefined;

  constructor(
    private readonly xml: string,
    private readonly changes: readonly CellChange[],
    private readonly context: CellContext,
  ) {
    this.scanner = new XmlScanner(xml);
    this.prefix = prefixOf(xml);
  }

  /** The patched text, in UTF-8. */
  run(): Uint8Array {
    const { scanner } = this;
    scanner.next();
    let row = -1;
    for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
      if (token === 'close') {
        this.copyTo(scanner.start);
        this.insertRows(Infinity);
      } else if (token === 'open' || token === 'empty') {
        if (scanner.name !== 'row') {
          scanner.pass(token);
          continue;
        }
        const number = scanner.attribute('r');
        const last = row;
        row = number === undefined ? row + 1 : Number(number) - 1;
        if (row <= last) throw new OutOfOrder();
        if ((this.changes[this.next]?.row ?? Infinity) < row) {
          this.copyTo(scanner.start);
          this.insertRows(row);
        }
        this.row(row, token === 'open', number === undefined);
      }
    }
    this.copyTo(this.xml.length);
    return this.out.bytes();
  }

  /** Rows that the sheet does not have yet, up to `before`. */
  private insertRows(before: number): void {
    for (let change = this.changes[this.next]; change && change.row < before; change = this.changes[this.next]) {
      const { row } = change;
      const cells = this.newCells(row, Infinity);
      if (cells) this.out.push(`<${this.prefix}row r="${row + 1}">${cells}</${this.prefix}row>`);
    }
  }

  private newCells(row: number, before: number): string {
    let cells = '';
    for (
      let change = this.changes[this.next];
      change && change.row === row && change.column < before;
      change = this.changes[this.next]
    ) {
      cells += this.cell(change, NOTHING);
      this.next++;
    }
    return cells;
  }

  private row(row: number, open: boolean, unnumbered: boolean): void {
    const { scanner } = this;
    const touched = this.changes[this.next]?.row === row;
    if (!touched && this.orphans.size === 0 && !unnumbered) {
      if (open) scanner.skip();
      return;
    }
    this.rowTag(row, open, touched, unnumbered);
    if (open) this.cells(row);
    else if (touched) this.out.push(this.newCells(row, Infinity), `</${this.prefix}row>`);
  }

  /** The row's start tag; its "spans" is a hint that goes where a new cell makes it wrong. */
  private rowTag(row: number, open: boolean, touched: boolean, unnumbered: boolean): void {
    const { scanner } = this;
    let tag = this.xml.slice(scanner.start, scanner.end);
    if (touched)
      tag = tag.replace(/\sspans\s*=\s*(["'])(\d+):(\d+)\1/, (whole, _quote, from, to) =>
        this.spanned(row, Number(from) - 1, Number(to) - 1) ? whole : '',
      );
    if (!open && touched) tag = tag.replace(/\s*\/>$/, '>');
    if (unnumbered) tag = tag.replace(/^<([^\s>/]+)/, `<$1 r="${row + 1}"`);
    this.replace(scanner.start, scanner.end, tag);
  }

  private spanned(row: number, from: number, to: number): boolean {
    for (let index = this.next; this.changes[index]?.row === row; index++) {
      const { column } = this.changes[index]!;
      if (column < from || column > to) return false;
    }
    return true;
  }

  private cells(row: number): void {
    const { scanner } = this;
    let column = -1;
    for (;;) {
      const token = scanner.next();
      if (token === 'close') {
        const added = this.newCells(row, Infinity);
        if (added) this.replace(scanner.start, scanner.start, added);
        return;
      }
      if (token === 'text') continue;
      if (scanner.name !== 'c') {
        scanner.pass(token);
        continue;
      }
      const address = scanner.attribute('r');
      const last = column;
      column = address === undefined ? column + 1 : columnOf(address);
      if (column <= last) throw new OutOfOrder();
      this.oldCell(row, column, token === 'open', address === undefined);
    }
  }

  private oldCell(row: number, column: number, open: boolean, unnamed: boolean): void {
    const { scanner } = this;
    const { start } = scanner;
    const added = this.newCells(row, column);
    if (added) this.replace(start, start, added);
    const change = this.changes[this.next];
    if (change?.row !== row || change.column !== column) {
      if (unnamed)
        this.replace(
          start,
          scanner.end,
          this.xml.slice(start, scanner.end).replace(/^<([^\s>/]+)/, `<$1 r="${cellName(row, column)}"`),
        );
      if (open) this.untouched(row, column);
      return;
    }
    this.next++;
    if (open && this.onlyNumber(change)) return;
    const found = findCell(scanner, open);
    this.replace(start, scanner.end, this.cell(change, found));
  }

  /** The short way for what most changes of a large sheet are: a number in the place of a number. False: nothing was done. */
  // eslint-disable-next-line complexity -- the short way for most cells, kept in one piece; not measured against a split
  private onlyNumber({ value, formula, style, spill }: CellChange): boolean {
    const { scanner } = this;
    if (typeof value !== 'number' || formula !== undefined || style !== undefined || spill || this.orphans.size)
      return false;
    let format = 0;
    let isNumber = true;
    scanner.attributes((name, text) => {
      if (name === 's') format = Number(text);
      else if (name === 'vm' || (name === 't' && text !== 'n')) isNumber = false;
    });
    if (!isNumber || this.context.shifted(format)) return false;
    const back = scanner.end;
    let from = -1;
    let to = -1;
    for (let depth = 1; depth > 0;) {
      const token = scanner.next();
      if (token === 'close') depth--;
      else if (token === 'open') {
        depth++;
        if (scanner.name === 'v' && depth === 2) from = scanner.end;
      } else if (token === 'text' && scanner.start === from) to = scanner.end;
    }
    if (to < 0) {
      scanner.end = back;
      scanner.depth++;
      return false;
    }
    this.replace(from, to, String(value));
    return true;
  }

  /** Passes over a cell that no change is for; one that goes by an orphaned shared formula gets its text. */
  private untouched(row: number, column: number): void {
    const { scanner } = this;
    for (;;) {
      const token = scanner.next();
      if (token === 'close') return;
      if (token !== 'open' && token !== 'empty') continue;
      const master = scanner.name === 'f' ? this.orphans.get(scanner.attribute('si') ?? '') : undefined;
      const { start } = scanner;
      scanner.pass(token);
      if (master) this.replace(start, scanner.end, this.ownFormula(master, row, column));
    }
  }

  private ownFormula(master: Master, row: number, column: number): string {
    return `<${this.prefix}f>${escapeXml(moved(master.text, row - master.row, column - master.column))}</${this.prefix}f>`;
  }

  /** A changed cell; '' where nothing is left of it. */
  private cell(given: CellChange, found: Found): string {
    const change = asReadable(given);
    const { row, column } = change;
    const base = Number(found.attributes.find(([name]) => name === 's')?.[1] ?? 0);
    const format = change.style === undefined ? base : this.context.format(change.style, base);
    // The value's metadata (vm) describes the old value.
    const kept = found.attributes.filter(([name]) => name !== 'vm' && (name !== 'cm' || change.formula === undefined));
    const styled = kept.map(([name, text]) =>
      name === 's' ? (['s', String(format)] as const) : ([name, text] as const),
    );
    const attributes: (readonly [string, string])[] =
      format === base ? styled : [['s', String(format)], ...styled.filter(([name]) => name !== 's')];
    const formula = this.formula(change, found, attributes);
    let { value } = change;
    if (typeof value === 'number' && this.context.shifted(format)) value -= DAYS_1904;
    if (value === null && !formula && format === 0 && !found.rest) return '';
    return cellXml(this.prefix, { row, column, attributes, formula, value, rest: found.rest });
  }

  // eslint-disable-next-line complexity -- each form in which a file keeps a formula
  private formula(change: CellChange, found: Found, attributes: (readonly [string, string])[]): string {
    const { row, column, formula, plain, spill } = change;
    const shared = found.formulaAttributes.find(({ name }) => name === 'si')?.value;
    if (formula === undefined) {
      const orphaned = shared !== undefined && found.formulaText === '' ? this.orphans.get(shared) : undefined;
      if (orphaned) return this.ownFormula(orphaned, row, column);
      return spill && found.formula ? withRef(found, rangeName({ row, column, ...spill })) : found.formula;
    }
    if (shared !== undefined && found.formulaText !== '') {
      if ((this.early ??= earlyShared(this.xml)).has(shared)) throw new OutOfOrder();
      this.orphans.set(shared, { text: found.formulaText, row, column });
    }
    if (formula !== null || found.formula !== '') this.formulasChanged = true;
    if (formula === null) return '';
    const { xml, dynamic } = formulaXml(this.prefix, formula, { row, column }, spill, {
      isArray: !plain && this.context.isArray(formula),
      isName: this.context.isName,
    });
    if (dynamic) attributes.push(['cm', String(this.context.dynamic())]);
    return xml;
  }

  private copyTo(end: number): void {
    if (end > this.copied) this.out.push(this.xml.slice(this.copied, end));
    this.copied = Math.max(this.copied, end);
  }

  /** Replaces an extent of the old text by new text; the text before the extent is copied. */
  private replace(start: number, end: number, text: string): void {
    this.copyTo(start);
    this.out.push(text);
    this.copied = end;
  }
}

/** A typed formula that nobody can read is kept as a text: as a formula it would make programs call the file damaged. */
const asReadable = (change: CellChange): CellChange =>
  typeof change.formula === 'string' && !tryFormula(change.formula)
    ? { ...change, formula: null, value: `=${change.formula}` }
    : change;

interface Found {
  readonly attributes: (readonly [string, string])[];
  formula: string;
  formulaText: string;
  formulaAttributes: { name: string; value: string; from: number; to: number }[];
  rest: string;
}

const NOTHING: Found = { attributes: [], formula: '', formulaText: '', formulaAttributes: [], rest: '' };

/** Reads the cell whose start tag was just read, to its end. */
function findCell(scanner: XmlScanner, open: boolean): Found {
  const { xml } = scanner;
  const found: Found = { attributes: [], formula: '', formulaText: '', formulaAttributes: [], rest: '' };
  scanner.attributes((name, value) => {
    if (name !== 'r') found.attributes.push([name, value]);
  });
  while (open) {
    const token = scanner.next();
    if (token === 'close') return found;
    if (token === 'text') continue;
    const { start, name } = scanner;
    if (name === 'f') {
      scanner.attributes((key, value, from, to) =>
        found.formulaAttributes.push({ name: key, value, from: from - start, to: to - start }),
      );
      if (token === 'open') found.formulaText = scanner.textContent();
      found.formula = xml.slice(start, scanner.end);
    } else {
      scanner.pass(token);
      if (name !== 'v' && name !== 'is') found.rest += xml.slice(start, scanner.end);
    }
  }
  return found;
}

/** The formula's element with another extent. */
function withRef({ formula, formulaAttributes }: Found, ref: string): string {
  const old = formulaAttributes.find(({ name }) => name === 'ref');
  return old ? `${formula.slice(0, old.from)} ref="${ref}"${formula.slice(old.to)}` : formula;
}

interface CellXml {
  readonly row: number;
  readonly column: number;
  /** Attributes beside the address, in order; a type among them is replaced where it stands. */
  readonly attributes: readonly (readonly [string, string])[];
  /** The formula's element, '' without one. */
  readonly formula: string;
  readonly value: Cell;
  /** Elements that follow the value and are kept as they are. */
  readonly rest: string;
}

/** `prefix` is that of the sheet's own elements: mostly ''. */
function cellXml(prefix: string, { row, column, attributes, formula, value, rest }: CellXml): string {
  const { type, xml } = valueXml(prefix, value, formula !== '');
  const typed = attributes.some(([name]) => name === 't');
  const others = attributes
    .map(([name, text]) =>
      name === 't' ? typeXml(type || (text === 'n' && xml ? 'n' : '')) : ` ${name}="${escapeXml(text)}"`,
    )
    .join('');
  const tag = `${prefix}c r="${cellName(row, column)}"${others}${typed ? '' : typeXml(type)}`;
  const inside = formula + xml + rest;
  return inside ? `<${tag}>${inside}</${prefix}c>` : `<${tag}/>`;
}

const typeXml = (type: string): string => type && ` t="${type}"`;

/**
 * Texts are written into the cell itself (inlineStr; str for a formula's result) and not among the shared strings,
 * so that a changed text changes no other part.
 */
function valueXml(prefix: string, value: Cell, isResult: boolean): { type: string; xml: string } {
  const v = (text: string): string => `<${prefix}v>${text}</${prefix}v>`;
  if (typeof value === 'number' && Number.isFinite(value)) return { type: '', xml: v(String(value)) };
  if (typeof value === 'boolean') return { type: 'b', xml: v(value ? '1' : '0') };
  if (value instanceof CellError) return { type: 'e', xml: v(escapeXml(value.code)) };
  if (isResult) return { type: 'str', xml: v(escapeXml(escapeText(typeof value === 'string' ? value : ''))) };
  if (typeof value !== 'string') return { type: '', xml: '' };
  const text = escapeXml(escapeText(value));
  const space = text !== text.trim() || /[\n\t]| {2}/.test(text) ? ' xml:space="preserve"' : '';
  return { type: 'inlineStr', xml: `<${prefix}is><${prefix}t${space}>${text}</${prefix}t></${prefix}is>` };
}

/**
 * A typed formula as a file spells it. One that calls a TARE function, spills or computes over ranges has the
 * form in which a spreadsheet program binds it: an array formula over its spill; any other stays plain.
 * `dynamic` is true where the cell has to point at the dynamic-array record.
 */
function formulaXml(
  prefix: string,
  formula: string,
  { row, column }: { readonly row: number; readonly column: number },
  spill: Spill | undefined,
  { isArray, isName }: { readonly isArray: boolean; readonly isName: IsName },
): { readonly xml: string; readonly dynamic: boolean } {
  const text = escapeXml(toFile(formula, isName));
  if (!spill && !isArray) return { xml: `<${prefix}f>${text}</${prefix}f>`, dynamic: false };
  const ref = rangeName({ row, column, ...(spill ?? { rows: 1, columns: 1 }) });
  return { xml: `<${prefix}f t="array" ref="${ref}">${text}</${prefix}f>`, dynamic: !spill?.fixed };
}

/** Numbers of the shared formulas that a cell goes by before the formula itself. */
function earlyShared(data: string): Set<string> {
  const masters = new Set<string>();
  const early = new Set<string>();
  const scanner = new XmlScanner(data);
  for (const token of scanner.tags()) {
    if (scanner.name !== 'f') continue;
    const index = scanner.attribute('si');
    if (index === undefined || scanner.attribute('t') !== 'shared') continue;
    if (token === 'open' && scanner.textContent() !== '') masters.add(index);
    else if (!masters.has(index)) early.add(index);
  }
  return early;
}
