/**
 * What is typed into a cell. Marks that its former content brought from a file go. A length is read as the shop says
 * it: 1/8, 3/32", 1 1/4. A spreadsheet reads 1/8 as a date; in a cell that takes a length it is the length, stored as a
 * number, and a date's format that the cell has goes.
 */
import { CellValueType, type ICellData, type Injector, type Nullable } from '@univerjs/core';
import { AFTER_CELL_EDIT, SheetInterceptorService, type ISheetLocation } from '@univerjs/sheets';
import { plainNumber } from '../../functions';
import { lengthUnitAt } from '../../project';
import { fromCellData } from './cells';

/** Before what makes dates of typed texts. */
const FIRST = 1000;

export function readTyped(injector: Injector): void {
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    priority: FIRST,
    handler: (data, place, next) => {
      if (!data) return next(data);
      const typed = data.custom ? { ...data, custom: null } : data;
      const length = lengthIn(typed, place);
      return length === undefined ? next(typed) : { ...typed, ...length };
    },
  });
}

/** What a cell gets for a typed length; undefined where it is none, or the cell takes something else. */
function lengthIn(data: ICellData, { worksheet, workbook, row, col }: ISheetLocation): ICellData | undefined {
  const text = typedText(data);
  if (text === undefined || !/\d/.test(text)) return undefined;
  const cells = worksheet.getCellMatrix();
  const unit = lengthUnitAt((r, c) => fromCellData(cells.getValue(r, c)), row, col);
  const value = unit && plainNumber(withoutSign(text, unit.sign));
  if (value === undefined) return undefined;
  const style = workbook.getStyles().getStyleByCell(data) ?? {};
  return {
    v: value,
    t: CellValueType.NUMBER,
    p: null,
    f: null,
    si: null,
    ...(isForNumbers(style.n?.pattern) ? {} : { s: { ...style, n: { pattern: 'General' } } }),
  };
}

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
