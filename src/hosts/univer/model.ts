/** The workbook as it now stands in the engine, as plain data: what is written into a file. */
import {
  BooleanNumber,
  type ICellData,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  CellError,
  type Cell,
  type CellModel,
  type RangeAddress,
  type SheetModel,
  type StyleModel,
  type TableModel,
  type WorkbookModel,
} from '../../sheet';
import { fromCellData, isPlain } from './cells';
import { choicesOf } from './choices';
import type { Engine } from './engine';
import { rowsLeftOut, type Filters } from './filters';
import { frozenOn } from './freeze';
import { linesOf, placeKey, toAddress } from './ranges';
import { isProtected, namesOf } from './books';
import { fillsCells, formulaTexts, spilledCells, spillsOn } from './cell-reading';
import { countsFrom1904, fromPixels, fromStyle, heightsOf, sheetId, toPixels } from './snapshot';

export interface CurrentModel extends WorkbookModel {
  /** For each sheet its place in the model that was loaded; undefined for a sheet that was added since. */
  readonly loadedAs: readonly (number | undefined)[];
}

/** `loaded` is the model that the engine was given: column widths that were not touched are taken from it. */
export function currentModel(
  { injector, messages }: Engine,
  book: EngineWorkbook,
  { tables, filters }: { readonly tables: readonly TableModel[]; readonly filters: Filters },
  loaded?: WorkbookModel,
): CurrentModel {
  const unit = book.getUnitId();
  const styles = new Styles(book);
  const placeOf = placesIn(loaded, book);

  // eslint-disable-next-line complexity -- one kind of edit, cell or node after the other
  const toSheet = (worksheet: Worksheet): SheetModel => {
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
    sheets: book.getSheets().map(toSheet),
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
