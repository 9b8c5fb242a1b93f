/**
 * References in a formula's text that are changed: they follow their cells when rows, columns and cells come and go or are
 * moved, move as a fill moves them, stand as offsets from the formula's cell, or are seen from another sheet; and what
 * they name has another name, or is gone: that is #REF! then, as in spreadsheets.
 */
import { columnIndex, columnName, quoteSheet } from '../address';
import type { RangeAddress } from '../model';
import { withReferences, type FoundReference } from './found-references';
import { isOtherFile, referenceText, renamedPrefix, sheetPrefix, sheetsOf } from './spelling';
import { LAST_COLUMN, LAST_ROW, type Coordinate, type ReferenceNode } from './syntax';
import { escapedColumn, isBareColumn, partItems, type PartItem } from './table-part';
import { FormulaScanner, rewrite, type Replacement } from './tokens';

/** Rows or columns that come or go on a sheet; rows and columns count from 0. */
export interface LineEdit {
  readonly kind: 'insert' | 'delete';
  readonly sheet: string;
  readonly axis: 'rows' | 'columns';
  /** The first row or column that is inserted or deleted. */
  readonly at: number;
  readonly count: number;
  /**
   * Left out: the whole sheet's. Otherwise only the cells of these columns (of an edit of rows) or rows (of one of
   * columns) shift, the last among them: a partial shift.
   */
  readonly within?: { readonly from: number; readonly to: number };
}

/** Whole rows or columns that are put in another place of their sheet, as dragging their headers does. */
export interface LinesMove {
  readonly kind: 'reorder';
  readonly sheet: string;
  readonly axis: 'rows' | 'columns';
  /** The first that is moved. */
  readonly from: number;
  readonly count: number;
  /** The one before which they are put, as it was numbered before. */
  readonly to: number;
}

/** Cells that are put elsewhere, as cutting and pasting does. */
export interface CellsMove {
  readonly kind: 'move';
  readonly from: RangeAddress;
  readonly to: { readonly sheet: string; readonly row: number; readonly column: number };
}

/**
 * A formula whose references point at the same cells after an edit as before it.
 * As spreadsheets do: fixed references ($A$1) follow too, a range grows with what comes between its ends and
 * shrinks with what goes, and #REF! stands for cells that are gone. References into other workbooks and through
 * several sheets stay. Formulas that cannot be read, or call unknown functions, follow as well.
 * @param onSheet the sheet on which the formula stands (after the edit)
 */
export const moveReferences = (formula: string, onSheet: string, edit: LineEdit | LinesMove | CellsMove): string =>
  withReferences(formula, (reference) => {
    if ((reference.kind !== 'range' && reference.kind !== 'spill') || reference.isElsewhere) return [];
    const text = edit.kind === 'move' ? carried(reference, onSheet, edit) : shifted(reference, onSheet, edit);
    return text === undefined ? [] : [{ start: reference.start, end: reference.end, text }];
  });

type CellsReference = Extract<FoundReference, { kind: 'range' | 'spill' }>;

const textOf = (reference: CellsReference, node: ReferenceNode): string =>
  referenceText(node) + (reference.kind === 'spill' ? '#' : '');

const isOn = (reference: CellsReference, onSheet: string, sheet: string): boolean =>
  (reference.sheet ?? onSheet).toLowerCase() === sheet.toLowerCase();

/** The reference's new text; undefined where it stays. */
function shifted(reference: CellsReference, onSheet: string, edit: LineEdit | LinesMove): string | undefined {
  if (!isOn(reference, onSheet, edit.sheet)) return undefined;
  const { node } = reference;
  const [first, last, most] =
    edit.axis === 'rows' ? [node.top, node.bottom, LAST_ROW] : [node.left, node.right, LAST_COLUMN];
  const [from, to] = edit.axis === 'rows' ? [node.left.at, node.right.at] : [node.top.at, node.bottom.at];
  if (edit.kind !== 'reorder' && edit.within && (from < edit.within.from || to > edit.within.to)) return undefined;
  // A reference to all rows of a sheet still means all rows.
  if (first.at === 0 && last.at === most) return undefined;
  const ends = endsAfter(first.at, last.at, edit, most);
  if (ends === undefined) return goneCells(reference);
  if (ends[0] === first.at && ends[1] === last.at) return undefined;
  const [a, b] = [
    { ...first, at: ends[0] },
    { ...last, at: ends[1] },
  ];
  return textOf(reference, edit.axis === 'rows' ? { ...node, top: a, bottom: b } : { ...node, left: a, right: b });
}

type Ends = readonly [number, number];

function endsAfter(first: number, last: number, edit: LineEdit | LinesMove, most: number): Ends | undefined {
  if (edit.kind === 'reorder') return reordered(first, last, edit);
  return edit.kind === 'insert' ? grown(first, last, edit, most) : shrunk(first, last, edit);
}

/**
 * A reference moves with the lines if it names moved lines alone. A range that names lines which stay keeps to those
 * that stay, also where one of its ends is moved away; moved lines that are put back between its ends belong to it again.
 */
function reordered(first: number, last: number, { from, count, to }: LinesMove): Ends {
  const end = from + count;
  const place = (at: number): number => {
    if (at >= from && at < end) return at + (to > from ? to - end : to - from);
    if (at >= end && at < to) return at - count;
    return at >= to && at < from ? at + count : at;
  };
  if (first >= from && last < end) return [place(first), place(last)];
  const staying: Ends = [first >= from && first < end ? end : first, last >= from && last < end ? from - 1 : last];
  return [place(staying[0]), place(staying[1])];
}

function grown(first: number, last: number, { at, count }: LineEdit, most: number): Ends | undefined {
  const from = first >= at ? first + count : first;
  const to = last >= at ? last + count : last;
  // A cell that is pushed off the sheet's end is gone; a range that reaches there is cut off at the end.
  return from > most ? undefined : [from, Math.min(to, most)];
}

function shrunk(first: number, last: number, { at, count }: LineEdit): Ends | undefined {
  const end = at + count;
  if (first >= at && last < end) return undefined;
  const after = (place: number): number => (place < at ? place : Math.max(at, place - count));
  return [after(first), last < at ? last : last < end ? at - 1 : last - count];
}

/** What stands for cells that are gone. */
const goneCells = ({ sheet }: CellsReference): string => (sheet === undefined ? '#REF!' : `${quoteSheet(sheet)}!#REF!`);

/** Cells follow where the whole of a reference is moved. */
function carried(reference: CellsReference, onSheet: string, { from, to }: CellsMove): string | undefined {
  const { node } = reference;
  const { top, left, bottom, right } = node;
  const isInside =
    isOn(reference, onSheet, from.sheet) &&
    top.at >= from.row &&
    bottom.at < from.row + from.rows &&
    left.at >= from.column &&
    right.at < from.column + from.columns;
  if (!isInside) return undefined;
  const by = (coordinate: Coordinate, count: number): Coordinate => ({ ...coordinate, at: coordinate.at + count });
  const [down, across] = [to.row - from.row, to.column - from.column];
  const isSameSheet = from.sheet.toLowerCase() === to.sheet.toLowerCase();
  const named =
    reference.sheet === undefined && to.sheet.toLowerCase() === onSheet.toLowerCase() ? undefined : to.sheet;
  return textOf(reference, {
    ...node,
    sheet: isSameSheet ? reference.sheet : named,
    top: by(top, down),
    bottom: by(bottom, down),
    left: by(left, across),
    right: by(right, across),
  });
}

type Spelling = (reference: FormulaScanner, rows: number, columns: number) => string;

/** A formula with other texts for its cells (A1) and for its whole columns and rows (A:$C, 1:3). */
function respelled(formula: string, [cell, lines]: readonly Spelling[], rows: number, columns: number): string {
  const scanner = new FormulaScanner(formula);
  let out = '';
  let from = 0;
  while (scanner.next()) {
    const { kind } = scanner;
    if (kind !== 'cell' && kind !== 'columns' && kind !== 'rows') continue;
    out += formula.slice(from, scanner.start) + (kind === 'cell' ? cell! : lines!)(scanner, rows, columns);
    from = scanner.end;
  }
  return out + formula.slice(from);
}

/** A formula moved by rows and columns: relative references move with it, as those of a shared formula do. */
export const moved = (formula: string, rows: number, columns: number): string =>
  rows === 0 && columns === 0 ? formula : respelled(formula, MOVED, rows, columns);

function movedCell({ row, column, rowFixed, columnFixed }: FormulaScanner, rows: number, columns: number): string {
  const toRow = rowFixed ? row : row + rows;
  const toColumn = columnFixed ? column : column + columns;
  if (toRow < 0 || toColumn < 0 || toRow > LAST_ROW || toColumn > LAST_COLUMN) return '#REF!';
  return `${columnFixed ? '$' : ''}${columnName(toColumn)}${rowFixed ? '$' : ''}${toRow + 1}`;
}

function movedLines({ kind, text, start, end }: FormulaScanner, rows: number, columns: number): string {
  const halves = text
    .slice(start, end)
    .split(':')
    .map((half) => {
      if (half.startsWith('$')) return half;
      const to = kind === 'columns' ? columnIndex(half) + columns : Number(half) - 1 + rows;
      if (to < 0 || to > (kind === 'columns' ? LAST_COLUMN : LAST_ROW)) return undefined;
      return kind === 'columns' ? columnName(to) : String(to + 1);
    });
  return halves.includes(undefined) ? '#REF!' : halves.join(':');
}

function cellKey(scanner: FormulaScanner, row: number, column: number): string {
  const r = scanner.rowFixed ? `$${scanner.row}` : scanner.row - row;
  const c = scanner.columnFixed ? `$${scanner.column}` : scanner.column - column;
  return `\u0001${r}\u0001${c}`;
}

function linesKey({ kind, text, start, end }: FormulaScanner, row: number, column: number): string {
  const half = (name: string): string | number => {
    if (name.startsWith('$')) return name.toUpperCase();
    return kind === 'columns' ? columnIndex(name) - column : Number(name) - 1 - row;
  };
  const [first, last] = text.slice(start, end).split(':') as [string, string];
  return `\u0001${kind}${half(first)}\u0001${half(last)}`;
}

const MOVED = [movedCell, movedLines];
const KEYS = [cellKey, linesKey];

/** The formula with its relative references as offsets from the cell it stands in: formulas that have it in common share what is made of them. */
export const templateKey = (formula: string, row: number, column: number): string =>
  respelled(formula, KEYS, row, column);

/** A formula as another sheet would say it: references that name no sheet name this one. */
export function onSheet(formula: string, sheet: string): string {
  const text = `${quoteSheet(sheet)}!`;
  return withReferences(formula, ({ kind, isElsewhere, sheet: own, start }) => {
    const isBare = (kind === 'range' || kind === 'spill') && own === undefined && !isElsewhere;
    return isBare ? [{ start, end: start, text }] : [];
  });
}

/** Turns A1 into $A$1, A$1, $A1 and A1 again. All cells of the formula get the form that follows that of the first. */
export function relocked(formula: string): string {
  const first = new FormulaScanner(formula);
  while (first.kind !== 'cell') if (!first.next()) return formula;
  const { columnFixed, rowFixed } = first;
  // $A$1 → A$1 → $A1 → A1 → $A$1
  const [column, row] = [!columnFixed, columnFixed === rowFixed];
  return rewrite(formula, ({ kind, text }) =>
    kind === 'cell'
      ? text.replace(
          /^\$?([A-Za-z]+)\$?(\d+)$/,
          (_whole, letters: string, digits: string) => `${column ? '$' : ''}${letters}${row ? '$' : ''}${digits}`,
        )
      : undefined,
  );
}

/** Other names of sheets, tables and their columns, by the old ones in lower case. */
type Names = ReadonlyMap<string, string>;
type TableReference = Extract<FoundReference, { kind: 'table' }>;

const isName = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();
const gone = ({ start, end }: FoundReference): Replacement => ({ start, end, text: '#REF!' });

/** The names from one to another in an order, both included, that are left. */
function leftOf(order: readonly string[], ends: readonly string[], isGone: (name: string) => boolean): string[] {
  const [from, to = from] = ends.map((name) => order.findIndex((one) => isName(one, name)));
  return order.slice(Math.min(from!, to!), Math.max(from!, to!) + 1).filter((name) => !isGone(name));
}

/** A formula in which references name sheets by other names; those of other workbooks stay. */
export const withSheetNames = (formula: string, names: Names): string =>
  formula.includes('!')
    ? rewrite(formula, ({ kind, text }) => (kind === 'sheet' ? renamedPrefix(text, names) : undefined))
    : formula;

/**
 * A formula when a sheet is gone. References through several sheets ("Jan:Mar!A1") end at the next one that is left.
 * @param order the names of all sheets as they stood, the one that goes among them
 */
export function withoutSheet(formula: string, sheet: string, order: readonly string[]): string {
  const isGone = (name: string | undefined): boolean => name !== undefined && isName(name, sheet);
  const through = rewrite(formula, ({ kind, text }) => {
    if (kind !== 'sheet' || text.startsWith('#') || isOtherFile(text)) return undefined;
    const ends = sheetsOf(text);
    if (ends.length < 2 || !ends.some(isGone)) return undefined;
    const left = leftOf(order, ends, isGone);
    return sheetPrefix([...new Set([left[0] ?? '', left.at(-1) ?? ''])]);
  });
  return withReferences(through, (reference) => (isGone(reference.sheet) ? [gone(reference)] : []));
}

/**
 * A formula in which cells that are gone are #REF! alone: "Parts!#REF!" is a name that is not known to some programs.
 */
export const withPlainGone = (formula: string): string =>
  formula.includes('!#REF!')
    ? rewrite(formula, ({ kind }, index, all) =>
        kind === 'sheet' && all[index + 1]?.text.toUpperCase() === '#REF!' ? '' : undefined,
      )
    : formula;

/** The table that a reference names, or may name; '' where it names none of this workbook. */
function tableOf(reference: FoundReference): string {
  if (reference.isElsewhere || reference.sheet !== undefined) return '';
  if (reference.kind === 'table') return reference.table;
  return reference.kind === 'name' ? reference.name : '';
}

/** A formula in which tables have other names; one of another workbook stays. */
export const withTableNames = (formula: string, names: Names): string =>
  withReferences(formula, (reference) => {
    const old = tableOf(reference);
    const text = old === '' ? undefined : names.get(old.toLowerCase());
    return text === undefined ? [] : [{ start: reference.start, end: reference.start + old.length, text }];
  });

/** A formula when a table is gone. */
export const withoutTable = (formula: string, table: string): string =>
  withReferences(formula, (reference) => (isName(tableOf(reference), table) ? [gone(reference)] : []));

/** A formula whose references to a table are changed. */
const inTable = (
  formula: string,
  table: string,
  isInTable: boolean,
  change: (reference: TableReference) => readonly Replacement[],
): string =>
  withReferences(formula, (reference) => {
    if (reference.kind !== 'table' || reference.isElsewhere) return [];
    const isOfTable = reference.table === '' ? isInTable : isName(reference.table, table);
    return isOfTable ? change(reference) : [];
  });

/** Another column in the place of one that a reference names. */
function columnNamed({ end, part }: TableReference, item: PartItem, name: string): Replacement {
  const offset = end - 1 - part.length;
  const text = item.isBracketed || isBareColumn(name) ? escapedColumn(name) : `[${escapedColumn(name)}]`;
  return { start: offset + item.start, end: offset + item.end, text };
}

/**
 * A formula in which columns of a table have other titles.
 * @param isInTable true where the formula stands in the table, so that [width] is of it
 */
export const withColumnNames = (formula: string, table: string, names: Names, isInTable: boolean): string =>
  formula.includes('[')
    ? inTable(formula, table, isInTable, (reference) =>
        partItems(reference.part).items.flatMap((item) => {
          const now = item.isArea ? undefined : names.get(item.name.toLowerCase());
          return now === undefined ? [] : [columnNamed(reference, item, now)];
        }),
      )
    : formula;

export interface GoneColumns {
  readonly table: string;
  /** The columns that are deleted. */
  readonly columns: readonly string[];
  /** All columns of the table before the edit, in order. */
  readonly order: readonly string[];
}

/**
 * A formula when columns of a table are gone.
 * @param isInTable true where the formula stands in the table, so that [width] is of it
 */
export const withoutColumns = (formula: string, { table, columns, order }: GoneColumns, isInTable: boolean): string =>
  inTable(formula, table, isInTable, (reference) => {
    const items = partItems(reference.part).items.filter(({ isArea }) => !isArea);
    const names = items.map(({ name }) => name);
    const isGone = (name: string): boolean => columns.some((one) => isName(one, name));
    if (!names.some(isGone)) return [];
    const left = leftOf(order, names, isGone);
    if (left.length === 0) return [gone(reference)];
    return items.map((item, index) => columnNamed(reference, item, index === 0 ? left[0]! : left.at(-1)!));
  });
