/**
 * What is typed into a cell. Marks that its former content brought from a file go. A length is read as the shop says
 * it: 1/8, 3/32", 1 1/4. A spreadsheet reads 1/8 as a date; in a cell that takes a length it is the length, stored as a
 * number, and a date's format that the cell has goes. And the number format that a typed formula hands on from what it is
 * made of, as spreadsheets do.
 */
import {
  CellValueType,
  type ICellData,
  type Injector,
  type IStyleData,
  type Nullable,
  type ObjectMatrix,
} from '@univerjs/core';
import { AFTER_CELL_EDIT, SheetInterceptorService } from '@univerjs/sheets';
import type { Unit } from '../../core/quantity';
import { plainNumber } from '../../functions';
import { lengthUnitAt } from '../../project';
import type { Cell } from '../../sheet';
import { tryFormula, type FormulaNode } from '../../sheet/formula';
import { bookOf, type CellPlace } from './places';
import { fromCellData } from './cells';

/** Before what makes dates of typed texts. */
const FIRST = 1000;

export function readTyped(injector: Injector): void {
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    priority: FIRST,
    handler: (data, place, next) => {
      if (!data) return next(data);
      const typed = data.custom ? { ...data, custom: null } : data;
      const { worksheet, workbook, row, col } = place;
      const cells = worksheet.getCellMatrix();
      const unit = (): Unit | undefined => lengthUnitAt((r, c) => fromCellData(cells.getValue(r, c)), row, col);
      const length = lengthIn(typed, workbook.getStyles().getStyleByCell(typed) ?? {}, unit);
      return length === undefined ? next(typed) : { ...typed, ...length };
    },
  });
}

const BARE = /^[-+]?[\d.]*$/;

/** A cell of the engine by the ids of its workbook and sheet. */
type EngineCell = CellPlace & { readonly unit: string };

/**
 * What a cell gets for a length that is pasted into it; undefined where it is none, or the cell takes something else.
 * @param pasted what is pasted with it, by its place: a label may be among that
 */
export function pastedLength(
  injector: Injector,
  { unit, sheet, row, column }: EngineCell,
  data: Nullable<ICellData>,
  pasted?: ObjectMatrix<Nullable<ICellData>>,
): ICellData | undefined {
  const workbook = bookOf(injector, unit);
  const worksheet = workbook?.getSheetBySheetId(sheet);
  // A bare number is one already; a block has many, and the label above each is far.
  if (!workbook || !worksheet || !data || BARE.test(typedText(data) ?? '')) return undefined;
  const cells = worksheet.getCellMatrix();
  const cellAt = (r: number, c: number): Cell => fromCellData(pasted?.getValue(r, c) ?? cells.getValue(r, c));
  const style = workbook.getStyles().getStyleByCell(cells.getValue(row, column)) ?? {};
  return lengthIn(data, style, () => lengthUnitAt(cellAt, row, column));
}

/** What a cell gets for a typed length; undefined where it is none, or the cell takes something else. */
function lengthIn(data: ICellData, style: IStyleData, unitOf: () => Unit | undefined): ICellData | undefined {
  const text = typedText(data);
  if (text === undefined || !/\d/.test(text)) return undefined;
  const unit = unitOf();
  const value = unit && plainNumber(withoutSign(text, unit.sign));
  if (value === undefined) return undefined;
  return {
    v: value,
    t: CellValueType.NUMBER,
    p: null,
    f: null,
    si: null,
    ...(isForNumbers(style.n?.pattern) ? {} : { s: asNumber(style) }),
  };
}

/** The style that a cell has now, its number format one that shows a length as a number. */
export function numberStyleAt(injector: Injector, { unit, sheet, row, column }: EngineCell): IStyleData {
  const workbook = bookOf(injector, unit);
  const cell = workbook?.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column);
  return asNumber(workbook?.getStyles().getStyleByCell(cell) ?? {});
}

const asNumber = (style: IStyleData): IStyleData => ({
  ...style,
  n: style.n && isForNumbers(style.n.pattern) ? style.n : { pattern: 'General' },
});

function typedText({ v, f, p, t }: ICellData): string | undefined {
  if (f || t === CellValueType.FORCE_STRING) return undefined;
  const text = p?.body ? p.body.dataStream.replace(/\r\n$/, '') : v;
  return typeof text === 'string' || typeof text === 'number' ? String(text).trim() : undefined;
}

/** 3/32", 3/32 in, 2.5 mm: the column's own unit may stand behind the number. */
function withoutSign(text: string, sign: string): string {
  const own = sign === 'in' ? /\s*(?:"|″|''|in\.?|inch|inches)$/i : new RegExp(`\\s*${sign}$`, 'i');
  return text.replace(own, '');
}

/** False for formats of dates, times and fractions, in which a length reads as something else. */
const isForNumbers = (pattern: Nullable<string>): boolean =>
  !pattern || !/[ymdhs]|\?\s*\//i.test(pattern.replace(/"[^"]*"|\\.|\[[^\]]*\]|general/gi, ''));

/** The format of a cell, on the formula's own sheet where none is named. */
type FormatAt = (
  sheet: string | undefined,
  place: { readonly row: number; readonly column: number },
) => string | undefined;

const DATE = 'yyyy-mm-dd';
const TIME = 'hh:mm:ss';

/** What these give is a date or a time, whatever they are given. */
const OWN: ReadonlyMap<string, string> = new Map([
  ...['DATE', 'TODAY', 'EDATE', 'EOMONTH', 'WORKDAY', 'DATEVALUE'].map((name) => [name, DATE] as const),
  ['NOW', `${DATE} hh:mm`],
  ['TIME', TIME],
  ['TIMEVALUE', TIME],
]);

/** These give one of the values that they are given, or a sum or mean of them; the number says from which argument on. */
const HANDING_ON: ReadonlyMap<string, number> = new Map([
  ...[
    'SUM',
    'MIN',
    'MAX',
    'AVERAGE',
    'MEDIAN',
    'ABS',
    'ROUND',
    'ROUNDUP',
    'ROUNDDOWN',
    'INDEX',
    'IFERROR',
    'IFNA',
    'SORT',
    'UNIQUE',
    'FILTER',
  ].map((name) => [name, 0] as const),
  ['IF', 1],
  ['CHOOSE', 1],
]);

/** The number format of a typed formula; undefined: none, as for a number that was typed. */
export function formatOf(formula: string, at: FormatAt): string | undefined {
  const node = tryFormula(formula.replace(/^=/, ''));
  return node && ofNode(node, at);
}

function ofNode(node: FormulaNode, at: FormatAt): string | undefined {
  switch (node.kind) {
    case 'reference':
      return at(node.sheet, { row: node.top.at, column: node.left.at });
    case 'spill':
    case 'sign':
      return ofNode(node.of, at);
    case 'binary':
      return ofBinary(node, at);
    case 'call':
      return ofCall(node, at);
    default:
      return undefined;
  }
}

function ofBinary({ operator, left, right }: FormulaNode & { kind: 'binary' }, at: FormatAt): string | undefined {
  if (operator !== '+' && operator !== '-') return undefined;
  const [first, second] = [ofNode(left, at), ofNode(right, at)];
  // From date to date is a number of days.
  return operator === '-' && isDate(first) && isDate(second) ? undefined : (first ?? second);
}

function ofCall({ name, args }: FormulaNode & { kind: 'call' }, at: FormatAt): string | undefined {
  const own = OWN.get(name);
  const from = HANDING_ON.get(name);
  if (own !== undefined || from === undefined) return own;
  return args
    .slice(from)
    .map((arg) => arg && ofNode(arg, at))
    .find(Boolean);
}

const isDate = (format: string | undefined): boolean =>
  format !== undefined && /[ymdhs]/i.test(format.replace(/"[^"]*"|\[[^\]]*\]/g, ''));
