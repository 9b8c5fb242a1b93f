/** A workbook's plain data as the engine's own snapshot, and as it now stands in the engine: what is written into a file. */
import {
  BooleanNumber,
  HorizontalAlign,
  LocaleType,
  WrapStrategy,
  type ICellData,
  type Injector,
  type IStyleData,
  type IWorkbookData,
  type IWorksheetData,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { DATA_VALIDATION_PLUGIN_NAME } from '@univerjs/sheets-data-validation';
import {
  CellError,
  type Cell,
  type CellModel,
  type NameModel,
  type RangeAddress,
  type SheetModel,
  type StyleModel,
  type TableModel,
  type WorkbookModel,
} from '../../sheet';
import type { ErrorMessages } from './answers';
import type { SheetSize } from './calculator-port';
import { fillsCells, formulaTexts, fromCellData, isPlain, spilledCells, spillsOn, toCellData } from './cells';
import { choiceRules, choicesOf } from './choices';
import { filtersIn, rowsLeftOut, type Filters } from './filters';
import { frozenFrom, frozenOn } from './freeze';
import { isProtected, linesOf, namesOf, placeKey, toAddress, toRange } from './places';

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

const fromPixels = (pixels: number): number => Math.round(((pixels - PADDING_PX) / CHARACTER_PX) * 100) / 100;

/** Heights in points of rows whose height is the file's, or was given by a person since. */
function heightsOf(rows: IWorksheetData['rowData']): Map<number, number> {
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

export const countsFrom1904 = (book: EngineWorkbook): boolean => book.getCustomMetadata()?.['dates1904'] === true;

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
        style.wrap && typeof cell.value === 'string'
          ? linesOfText(cell.value, letters * (style.bold ? BOLD : PLAIN))
          : 1;
      height = Math.max(height, lines * size * LINE_PX);
    });
    if (height > USUAL_ROW_PX) heights.set(r, Math.ceil(height));
  });
  return heights;
}

/** Lines that a text takes where so many letters stand side by side, broken between words. */
function linesOfText(text: string, letters: number): number {
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
function fromStyle(style: IStyleData): StyleModel {
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

export interface CurrentModel extends WorkbookModel {
  /** For each sheet its place in the model that was loaded; undefined for a sheet that was added since. */
  readonly loadedAs: readonly (number | undefined)[];
}

/** `loaded` is the model that the engine was given: column widths that were not touched are taken from it. */
export function currentModel(
  { injector, messages }: { readonly injector: Injector; readonly messages: ErrorMessages },
  book: EngineWorkbook,
  { tables, filters }: { readonly tables: readonly TableModel[]; readonly filters: Filters },
  loaded?: WorkbookModel,
): CurrentModel {
  const unit = book.getUnitId();
  const styles = new Styles(book);
  const placeOf = placesIn(loaded, book);

  // eslint-disable-next-line complexity -- one kind of edit, cell or node after the other
  const modelOf = (worksheet: Worksheet): SheetModel => {
    const id = worksheet.getSheetId();
    const name = worksheet.getName();
    const before = loaded?.sheets[placeOf(worksheet) ?? -1];
    const spilled = spilledCells(injector, worksheet) ?? {};
    const spills = spillsOn(injector, worksheet).filter((range) => fillsCells(range, spilled));
    const spillAt = new Map(spills.map((range) => toAddress(id, range)).map((area) => [placeKey(area), area]));
    const textAt = formulaTexts(worksheet);
    const cells: (CellModel | undefined)[][] = [];
    const put = (row: number, column: number, cell: CellModel): void => void ((cells[row] ??= [])[column] = cell);
    const valueOf = (row: number, column: number, data: Nullable<ICellData>): Cell => {
      const value = fromCellData(spilled[row]?.[column] ?? data);
      return value instanceof CellError
        ? new CellError(value.code, messages.explain(unit, id, row, column, value.code) ?? '')
        : value;
    };
    worksheet.getCellMatrix().forValue((row, column, data) => {
      if (!data) return;
      const formula = textAt(row, column, data);
      const value = valueOf(row, column, data);
      const spill = formula ? spillAt.get(placeKey({ sheet: id, row, column })) : undefined;
      const style = styles.indexOf(data);
      if (value === null && !formula && style === undefined) return;
      put(row, column, {
        value,
        ...(formula ? { formula: formula.replace(/^=/, '') } : {}),
        ...(formula && !spill && isPlain(data, formula) ? { plain: true } : {}),
        ...(spill ? { spill: { rows: spill.rows, columns: spill.columns } } : {}),
        ...(style === undefined ? {} : { style }),
      });
    });
    for (const spill of spillAt.values()) markSpilled(cells, spill, valueOf);
    // Holes read as undefined, also by index.
    for (let row = 0; row < cells.length; row++) cells[row] ??= [];
    const freeze = frozenOn(worksheet);
    const merges = worksheet.getMergeData().map((range) => toAddress(name, range));
    const validations = choicesOf(injector, worksheet);
    const filtersOfSheet = filters.models(worksheet);
    const rowHeights = heightsOf(worksheet.getConfig().rowData);
    return {
      name,
      ...(worksheet.isSheetHidden() === BooleanNumber.TRUE ? { hidden: true } : {}),
      ...hiddenLines(worksheet, rowsLeftOut(injector, worksheet).hiddenRows),
      ...(worksheet.getConfig().tabColor ? { tabColor: worksheet.getConfig().tabColor.toLowerCase() } : {}),
      ...(isProtected(injector, worksheet) ? { protected: true } : {}),
      cells,
      columnWidths: widths(worksheet, before?.columnWidths),
      ...(rowHeights.size ? { rowHeights } : {}),
      ...(freeze.xSplit > 0 || freeze.ySplit > 0 ? { frozen: { rows: freeze.ySplit, columns: freeze.xSplit } } : {}),
      ...(merges.length ? { merges } : {}),
      tables: tables.filter((table) => table.range.sheet === name),
      // Filters that are no more are told, too.
      ...(filtersOfSheet?.length || (filtersOfSheet && before?.filters) ? { filters: filtersOfSheet } : {}),
      ...(validations.length ? { validations } : {}),
    };
  };

  return {
    sheets: book.getSheets().map(modelOf),
    names: namesOf(injector, book),
    styles: styles.list,
    ...(countsFrom1904(book) ? { dates1904: true } : {}),
    loadedAs: book.getSheets().map(placeOf),
  };
}

/** Gives the cells that show part of a spill their value and their mark. */
function markSpilled(
  cells: (CellModel | undefined)[][],
  { row, column, rows, columns }: RangeAddress,
  valueOf: (row: number, column: number, data: null) => Cell,
): void {
  for (const r of linesOf(row, row + rows - 1)) {
    for (const c of linesOf(column, column + columns - 1)) {
      if (r === row && c === column) continue;
      const style = cells[r]?.[c]?.style;
      (cells[r] ??= [])[c] = { value: valueOf(r, c, null), spilled: true, ...(style === undefined ? {} : { style }) };
    }
  }
}

/** The place of a sheet in a model: by its name, or, where what was done to the sheets is not known, by the place from which it came. */
function placesIn(loaded: WorkbookModel | undefined, book: EngineWorkbook): (sheet: Worksheet) => number | undefined {
  const sheets = loaded?.sheets ?? [];
  const byName = new Map(sheets.map(({ name }, index) => [name, index]));
  const byId = new Map(sheets.map((_sheet, index) => [sheetId(index), index]));
  const named = new Set(book.getSheets().flatMap((sheet) => byName.get(sheet.getName()) ?? []));
  return (sheet) => {
    const place = byName.get(sheet.getName()) ?? byId.get(sheet.getSheetId());
    return place !== undefined && (byName.has(sheet.getName()) || !named.has(place)) ? place : undefined;
  };
}

/** Rows and columns that are not shown. */
function hiddenLines(
  worksheet: Worksheet,
  hidden: readonly number[],
): Pick<SheetModel, 'hiddenRows' | 'hiddenColumns'> {
  const hiddenRows = [...new Set(hidden)].sort((a, b) => a - b);
  const hiddenColumns = worksheet
    .getHiddenCols()
    .flatMap(({ startColumn, endColumn }) => linesOf(startColumn, endColumn));
  return { ...(hiddenRows.length ? { hiddenRows } : {}), ...(hiddenColumns.length ? { hiddenColumns } : {}) };
}

function widths(worksheet: Worksheet, loaded: SheetModel['columnWidths']): (number | undefined)[] {
  const result: (number | undefined)[] = [];
  for (const [column, data] of Object.entries(worksheet.getConfig().columnData ?? {})) {
    const pixels = (data as { w?: number } | undefined)?.w;
    if (pixels === undefined) continue;
    const before = loaded?.[Number(column)];
    result[Number(column)] = before !== undefined && toPixels(before) === pixels ? before : fromPixels(pixels);
  }
  return Array.from(result);
}

/** The styles in use, each once. */
class Styles {
  readonly list: StyleModel[] = [];
  private readonly byText = new Map<string, number | undefined>();

  constructor(private readonly book: EngineWorkbook) {}

  indexOf(cell: ICellData): number | undefined {
    if (cell.s === undefined || cell.s === null) return undefined;
    const key = typeof cell.s === 'string' ? cell.s : JSON.stringify(cell.s);
    if (!this.byText.has(key))
      this.byText.set(key, this.add(fromStyle(this.book.getStyles().getStyleByCell(cell) ?? {})));
    return this.byText.get(key);
  }

  private add(style: StyleModel): number | undefined {
    const text = JSON.stringify(style);
    if (text === '{}') return undefined;
    const found = this.list.findIndex((one) => JSON.stringify(one) === text);
    return found >= 0 ? found : this.list.push(style) - 1;
  }
}
