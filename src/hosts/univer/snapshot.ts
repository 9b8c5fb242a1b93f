/** A workbook's plain data as the engine's own snapshot. */
import {
  BooleanNumber,
  HorizontalAlign,
  LocaleType,
  WrapStrategy,
  type ICellData,
  type IStyleData,
  type IWorkbookData,
  type IWorksheetData,
  type Nullable,
  type Workbook,
  type Worksheet,
} from '@univerjs/core';
import { DATA_VALIDATION_PLUGIN_NAME } from '@univerjs/sheets-data-validation';
import type { NameModel, SheetModel, StyleModel, WorkbookModel } from '../../sheet';
import { toCellData } from './cells';
import { choiceRules } from './choices';
import type { SheetSize } from './calculator-port';
import { filtersIn } from './filters';
import { frozenFrom } from './freeze';
import { toRange } from './ranges';

/** Pixels in one character of the default font, and beside it, as file formats count column widths. */
const CHARACTER_PX = 7;
const PADDING_PX = 5;
/** Points, and what they take on the screen. */
const USUAL_SIZE = 11;
const LINE_PX = 1.7;
const USUAL_ROW_PX = 24;
const POINTS_PER_PX = 72 / 96;
/** Letters of a text, plain and bold, that stand in the room of one digit. */
const PLAIN = 1.1;
const BOLD = 0.93;
/** Characters in a column whose width is not given. */
export const USUAL_WIDTH = 9;
const SPARE_ROWS = 60;
const SPARE_COLUMNS = 8;

/** A column's width in characters of the default font as pixels. */
export const toPixels = (characters: number): number => Math.round(characters * CHARACTER_PX + PADDING_PX);

export const fromPixels = (pixels: number): number => Math.round(((pixels - PADDING_PX) / CHARACTER_PX) * 100) / 100;

/** Heights in points of rows whose height is the file's, or was given by a person since. */
export function heightsOf(rows: IWorksheetData['rowData']): Map<number, number> {
  const heights = new Map<number, number>();
  for (const [row, data] of Object.entries(rows ?? {})) {
    const { h, ia, custom } = (data ?? {}) as RowLook;
    // The usual height is that of a row whose height was taken back.
    if (h === undefined || ia === BooleanNumber.TRUE || (h === USUAL_ROW_PX && !custom)) continue;
    const points = custom?.opened.px === h ? custom.opened.points : Math.round(h * POINTS_PER_PX * 100) / 100;
    if (points !== undefined) heights.set(Number(row), points);
  }
  return heights;
}

/** The engine's id of a sheet: by place, so that ids are the same at every load. */
export const sheetId = (index: number): string => `sheet-${index + 1}`;

/** What a workbook in the engine carries where its file counts days from 1904. */
const FROM_1904 = { dates1904: true } as const;

export const countsFrom1904 = (book: Workbook): boolean => book.getCustomMetadata()?.['dates1904'] === true;

/** @param sizes how large the sheets become, where their cells are still to come */
export function toSnapshot(
  model: WorkbookModel,
  id: string,
  title: string,
  sizes?: readonly SheetSize[],
): IWorkbookData {
  const sheets = model.sheets.map((sheet, index) => toSheet(sheet, sheetId(index), model.styles, sizes?.[index]));
  const names = Object.fromEntries(
    model.names.map((name, index) => [
      `name-${index}`,
      { id: `name-${index}`, name: name.name, formulaOrRefString: name.refersTo, ...scopeOf(model, name) },
    ]),
  );
  return {
    id,
    name: title,
    appVersion: '',
    locale: LocaleType.EN_US,
    styles: Object.fromEntries(model.styles.map((style, index) => [index, toStyle(style)])),
    sheetOrder: sheets.map(({ id: own }) => own),
    sheets: Object.fromEntries(sheets.map((sheet) => [sheet.id, sheet])),
    ...(model.dates1904 ? { custom: FROM_1904 } : {}),
    resources: [
      { name: 'SHEET_DEFINED_NAME_PLUGIN', data: JSON.stringify(names) },
      {
        name: DATA_VALIDATION_PLUGIN_NAME,
        data: choiceRules(model.sheets.map((sheet, index) => [sheetId(index), sheet])),
      },
    ],
  };
}

function scopeOf(model: WorkbookModel, { scope }: NameModel): { localSheetId?: string } {
  const index = model.sheets.findIndex((sheet) => sheet.name === scope);
  return index < 0 ? {} : { localSheetId: sheetId(index) };
}

function toSheet(
  sheet: SheetModel,
  id: string,
  styles: readonly StyleModel[],
  size: SheetSize | undefined,
): Partial<IWorksheetData> & { readonly id: string } {
  const cellData: Record<number, Record<number, ICellData>> = {};
  let columns = size?.columns ?? 0;
  sheet.cells.forEach((row, r) => {
    const data: Record<number, ICellData> = {};
    row.forEach((cell, c) => {
      if (cell) data[c] = toCellData(cell);
    });
    columns = Math.max(columns, row.length);
    cellData[r] = data;
  });
  return {
    id,
    name: sheet.name,
    ...(sheet.holdsMore ? { custom: { holdsMore: true } } : {}),
    hidden: sheet.hidden ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    rowCount: Math.max((size?.rows ?? sheet.cells.length) + SPARE_ROWS, 100),
    columnCount: Math.max(columns + SPARE_COLUMNS, 20),
    cellData,
    columnData: columnData(sheet),
    rowData: rowData(sheet, styles),
    ...(sheet.tabColor ? { tabColor: sheet.tabColor } : {}),
    mergeData: (sheet.merges ?? []).map(toRange),
    ...(sheet.frozen ? { freeze: frozenFrom(sheet.frozen) } : {}),
  };
}

function columnData({ columnWidths = [], hiddenColumns = [] }: SheetModel): IWorksheetData['columnData'] {
  const data: Record<number, { w?: number; hd?: BooleanNumber }> = {};
  columnWidths.forEach((width, c) => {
    if (width !== undefined) data[c] = { w: toPixels(width) };
  });
  for (const c of hiddenColumns) data[c] = { ...data[c], hd: BooleanNumber.TRUE };
  return data;
}

/** A height that a row is given on opening, by which one that a person gives it later is told. */
interface OpenedHeight {
  readonly px: number;
  /** In points, as the file has it; without, it is worked out from the row's texts, and not the file's. */
  readonly points?: number;
}

export interface RowLook {
  h?: number;
  ia?: BooleanNumber;
  hd?: BooleanNumber;
  custom?: { readonly opened: OpenedHeight };
}

/** How rows look whose height is worked out from their texts. */
export const rowLooks = (sheet: SheetModel, styles: readonly StyleModel[]): readonly (readonly [number, RowLook])[] =>
  [...rowHeights(sheet, styles)].map(([row, px]) => [row, openedLook({ px })]);

const openedLook = (opened: OpenedHeight): RowLook => ({ h: opened.px, ia: BooleanNumber.FALSE, custom: { opened } });

function rowData(sheet: SheetModel, styles: readonly StyleModel[]): IWorksheetData['rowData'] {
  const data: Record<number, RowLook> = Object.fromEntries(rowLooks(sheet, styles));
  for (const [row, points] of sheet.rowHeights ?? [])
    data[row] = openedLook({ px: Math.round(points / POINTS_PER_PX), points });
  // Rows that a filter hides are not hidden by themselves.
  const filtered = new Set(filtersIn(sheet).flatMap(({ hidden }) => hidden));
  for (const r of sheet.hiddenRows ?? []) if (!filtered.has(r)) data[r] = { ...data[r], hd: BooleanNumber.TRUE };
  return data;
}

/** Heights for rows whose text is large, or wraps in its column; the others have the usual one. */
function rowHeights({ cells, columnWidths }: SheetModel, styles: readonly StyleModel[]): Map<number, number> {
  const heights = new Map<number, number>();
  cells.forEach((row, r) => {
    let height = 0;
    row.forEach((cell, c) => {
      const style = cell?.style === undefined ? undefined : styles[cell.style];
      if (!cell || !style) return;
      const size = style.size ?? USUAL_SIZE;
      const letters = ((columnWidths?.[c] ?? USUAL_WIDTH) * USUAL_SIZE) / size;
      const lines =
        style.wrap && typeof cell.value === 'string' ? linesOf(cell.value, letters * (style.bold ? BOLD : PLAIN)) : 1;
      height = Math.max(height, lines * size * LINE_PX);
    });
    if (height > USUAL_ROW_PX) heights.set(r, Math.ceil(height));
  });
  return heights;
}

/** Lines that a text takes where so many letters stand side by side, broken between words. */
function linesOf(text: string, letters: number): number {
  let lines = 0;
  for (const paragraph of text.split('\n')) {
    let room = 0;
    for (const { length } of paragraph.split(' ')) {
      if (length <= room) room -= length + 1;
      else {
        lines += Math.max(1, Math.ceil(length / letters));
        room = letters - (length % letters) - 1;
      }
    }
  }
  return lines;
}

/** True for a sheet of a file that holds what is not shown here: charts, pictures, comments. */
export const holdsMore = (worksheet: Worksheet): boolean => worksheet.getConfig().custom?.['holdsMore'] === true;

const LINE = { s: 1, cl: { rgb: '#808080' } } as const;
const ALIGN = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT } as const;

/** The looks that the model carries as the engine's style. */
function toStyle(style: StyleModel): IStyleData {
  return {
    ...(style.numberFormat ? { n: { pattern: style.numberFormat } } : {}),
    ...(style.bold ? { bl: BooleanNumber.TRUE } : {}),
    ...(style.italic ? { it: BooleanNumber.TRUE } : {}),
    ...(style.size ? { fs: style.size } : {}),
    ...(style.color ? { cl: { rgb: style.color } } : {}),
    ...(style.fill ? { bg: { rgb: style.fill } } : {}),
    ...(style.align ? { ht: ALIGN[style.align] } : {}),
    ...(style.wrap ? { tb: WrapStrategy.WRAP } : {}),
    ...(style.borderBottom ? { bd: { b: LINE } } : {}),
  };
}

/** The engine's style as the looks that the model carries. */
export function fromStyle(style: IStyleData): StyleModel {
  const align = (Object.keys(ALIGN) as (keyof typeof ALIGN)[]).find((name) => ALIGN[name] === style.ht);
  const color = hex(style.cl?.rgb);
  const fill = hex(style.bg?.rgb);
  return {
    ...(style.n?.pattern ? { numberFormat: style.n.pattern } : {}),
    ...(style.bl ? { bold: true } : {}),
    ...(style.it ? { italic: true } : {}),
    ...(style.fs ? { size: style.fs } : {}),
    ...(color ? { color } : {}),
    ...(fill ? { fill } : {}),
    ...(align ? { align } : {}),
    ...(style.tb === WrapStrategy.WRAP ? { wrap: true } : {}),
    ...(style.bd?.b ? { borderBottom: true } : {}),
  };
}

/** "#rrggbb" of what the engine's toolbar writes ("#RRGGBB" or "rgb(r, g, b)"). */
function hex(color: Nullable<string>): string | undefined {
  if (!color) return undefined;
  const parts = /^rgba?\((\d+),\s*(\d+),\s*(\d+)/.exec(color)?.slice(1, 4);
  if (parts) return `#${parts.map((part) => Number(part).toString(16).padStart(2, '0')).join('')}`;
  return /^#[0-9a-f]{6}$/i.test(color) ? color.toLowerCase() : undefined;
}
