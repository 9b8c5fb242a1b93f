/** One workbook of the engine as the calculator sees it: built once, then kept in step with the edits. */
import {
  ObjectMatrix,
  type ICellData,
  type ICommandInfo,
  type IExecutionOptions,
  type Injector,
  type IObjectMatrixPrimitiveType,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { LexerTreeBuilder, type IFormulaDataItem } from '@univerjs/engine-formula';
import {
  AddWorksheetMergeMutation,
  RemoveWorksheetMergeMutation,
  SetRangeValuesMutation,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import {
  CellError,
  showsDate,
  type Cell,
  type CellModel,
  type Matrix,
  type Result,
  type SheetModel,
  type WorkbookModel,
} from '../../sheet';
import { Calculator, reasonOf, type Calculation, type Computed, type SheetCell } from '../../calculation';
import { fromCellData, toValueData } from './cells';
import { bringsBlock, isPlain, keep, keptBlock, keptData } from './file-marks';
import { FilterStore } from './filter-store';
import { namesOf } from './names';
import { CELLS_CHANGE, type MutationPlace } from './mutations';
import { rowsHiddenByHand, toAddress } from './ranges';
import { countsFrom1904 } from './snapshot';
import { tablesOf } from './tables';

/** Formulas of a workbook by sheet, row and column, as the engine lists them. */
export type FormulasBySheet = Nullable<
  Record<string, Nullable<IObjectMatrixPrimitiveType<Nullable<IFormulaDataItem>>>>
>;

/** A formula that was put into a cell since the last calculation. */
export interface TypedFormula {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly text: string;
  readonly cell: CellModel;
}

export interface MirrorCalculation extends Calculation {
  /** Formulas that the edits since the last calculation brought; none where this one read the whole workbook. */
  readonly typed: readonly TypedFormula[];
}

/** A cell by the engine's id of its sheet. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A cell whose value is the one that the file came with, or rests on such a value. */
export interface NotRecalculated extends CellPlace {
  /** The formula that cannot be calculated here: the cell itself, or one that it rests on. */
  readonly because: CellPlace;
  /** "EDATE is not known here" */
  readonly reason: string;
}

/** Styles of a workbook that counts from 1904: what matters is which cells show dates. */
const STYLES_1904 = [{}, { numberFormat: 'yyyy-mm-dd' }];
const DATED = 1;

/** With more edits at once than this, building anew is no slower. */
const MOST_EDITS = 20_000;

const RESHAPES = new Set<string>([...CELLS_CHANGE, AddWorksheetMergeMutation.id, RemoveWorksheetMergeMutation.id]);
RESHAPES.delete(SetRangeValuesMutation.id);

export class Mirror {
  /** The engine's ids of the sheets, in the calculator's order. */
  sheetIds: readonly string[] = [];
  /** A workbook that was read from a file, until its first calculation. */
  file: WorkbookModel | undefined;
  /** Cells that the engine emptied when they moved, with the value that they keep. */
  private emptied: Computed[] = [];
  private uncalculated: readonly NotRecalculated[] = [];
  private calculator: Calculator | undefined;
  private edited = new Map<string, ObjectMatrix<true>>();
  private edits = 0;
  /** True where the file counts days from 1904: cells that show dates then hold other numbers than formulas see. */
  readonly countsFrom1904: boolean;
  /** Where formulas keep results of several cells. */
  private blocks: KeptArea[] = [];

  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
  ) {
    this.countsFrom1904 = countsFrom1904(book);
  }

  /** Notes what a command does to cells; one that does more than give cells other contents has all built anew. */
  note({ id, params }: ICommandInfo, options: IExecutionOptions | undefined): void {
    const place: Partial<MutationPlace> | undefined = params;
    if (!this.calculator || place?.unitId !== this.book.getUnitId()) return;
    if (RESHAPES.has(id)) this.forget();
    if (id !== SetRangeValuesMutation.id || options?.['applyFormulaCalculationResult']) return;
    const { subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
    const cells = this.edited.get(subUnitId) ?? new ObjectMatrix<true>();
    this.edited.set(subUnitId, cells);
    let isOnBlock = false;
    new ObjectMatrix(cellValue).forValue((row, column, data) => {
      cells.setValue(row, column, true);
      this.edits += 1;
      isOnBlock ||= bringsBlock(data) || this.blocks.some((area) => isInside(area, subUnitId, row, column));
    });
    if (isOnBlock || this.edits > MOST_EDITS) this.forget();
  }

  /** Has the next calculation read the whole workbook again. */
  forget(): void {
    this.calculator = undefined;
    this.edited.clear();
    this.edits = 0;
  }

  /** Results of the formulas that depend on the edits since the last time. */
  calculate(formulas: FormulasBySheet): MirrorCalculation {
    let typed: readonly TypedFormula[] = [];
    this.emptied = [];
    if (!this.calculator) this.calculator = this.built(formulas);
    else typed = this.takeEdits(this.calculator, formulas);
    this.edited.clear();
    this.edits = 0;
    const calculation = this.calculator.update();
    this.uncalculated = this.namedCells(this.calculator, calculation);
    return { ...calculation, results: [...calculation.results, ...this.emptied], typed };
  }

  /** Cells that keep the file's value, and those that rest on one, as they now stand. */
  get notRecalculated(): readonly NotRecalculated[] {
    return this.uncalculated;
  }

  /** Takes up that typed formulas now show dates; the results that change by it. */
  dated(typed: readonly TypedFormula[]): readonly Computed[] {
    const { calculator } = this;
    if (!calculator || !this.countsFrom1904 || typed.length === 0) return [];
    for (const { sheet, row, column, cell } of typed)
      calculator.edit(this.sheetIds.indexOf(sheet), row, column, { ...cell, style: DATED });
    return calculator.update().results;
  }

  /** What a formula that stands in no cell gives for each cell, when it is written for the one at `row`, `column`. */
  evaluator(sheet: string, row: number, column: number, formula: string): (row: number, column: number) => Result {
    const index = this.sheetIds.indexOf(sheet);
    return this.calculator && index >= 0
      ? this.calculator.evaluator(index, row, column, formula.replace(/^=/, ''))
      : () => null;
  }

  private built(formulas: FormulasBySheet): Calculator {
    this.sheetIds = this.book.getSheets().map((sheet) => sheet.getSheetId());
    const calculator = new Calculator(this.model(formulas), true);
    const { file } = this;
    if (!file) return calculator;
    // From now on the marks tell these formulas from those that are typed.
    this.file = undefined;
    let haveBlocks = false;
    for (const { sheet, row, column, formula } of calculator.unknown) {
      const data = this.dataAt(this.sheetIds[sheet]!, row, column);
      const block = blockInFile(file.sheets[sheet]!, row, column);
      haveBlocks ||= block !== undefined;
      if (data) keep(data, formula, block);
    }
    return haveBlocks ? new Calculator(this.model(formulas), true) : calculator;
  }

  private namedCells(calculator: Calculator, { notRecalculated }: Calculation): readonly NotRecalculated[] {
    if (notRecalculated.length === 0) return [];
    const reasons = new Map(calculator.unknown.map((one) => [placeKey(one), reasonOf(one)]));
    const placeOf = ({ sheet, row, column }: SheetCell): CellPlace => ({ sheet: this.sheetIds[sheet]!, row, column });
    return notRecalculated.map((one) => ({
      ...placeOf(one),
      because: placeOf(one.because),
      reason: reasons.get(placeKey(one.because)) ?? '',
    }));
  }

  private takeEdits(calculator: Calculator, formulas: FormulasBySheet): TypedFormula[] {
    const typed: TypedFormula[] = [];
    for (const [sheet, cells] of this.edited) {
      const index = this.sheetIds.indexOf(sheet);
      cells.forValue((row, column) => {
        const data = this.dataAt(sheet, row, column);
        const cell = this.cell({ sheet: index, row, column }, data, formulas?.[sheet]?.[row]?.[column]);
        calculator.edit(index, row, column, cell);
        if (cell?.formula !== undefined) typed.push({ sheet, row, column, text: `=${cell.formula}`, cell });
      });
    }
    return typed;
  }

  /** What a cell shows. */
  valueAt(sheet: string, row: number, column: number): Cell {
    return fromCellData(this.dataAt(sheet, row, column));
  }

  private dataAt(sheet: string, row: number, column: number): Nullable<ICellData> {
    return this.book.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column);
  }

  private model(formulas: FormulasBySheet): WorkbookModel {
    const tables = tablesOf(this.injector, this.book);
    this.blocks = [];
    return {
      sheets: this.book.getSheets().map((worksheet, index): SheetModel => {
        const name = worksheet.getName();
        return withRowsLeftOut(this.injector, worksheet, {
          name,
          cells: this.cells(index, worksheet, formulas?.[worksheet.getSheetId()]),
          tables: tables.filter(({ range }) => range.sheet === name),
          merges: worksheet.getMergeData().map((range) => toAddress(name, range)),
        });
      }),
      names: namesOf(this.injector, this.book),
      ...(this.countsFrom1904 ? { dates1904: true, styles: STYLES_1904 } : { styles: [] }),
    };
  }

  private cells(
    sheet: number,
    worksheet: Worksheet,
    formulas: Nullable<IObjectMatrixPrimitiveType<Nullable<IFormulaDataItem>>>,
  ): (CellModel | undefined)[][] {
    const cells: (CellModel | undefined)[][] = [];
    const blocks: { area: KeptArea; cell: CellModel; values: Matrix }[] = [];
    const id = worksheet.getSheetId();
    worksheet.getCellMatrix().forValue((row, column, data) => {
      const cell = this.cell({ sheet, row, column }, data, formulas?.[row]?.[column]);
      if (!cell) return;
      (cells[row] ??= [])[column] = cell;
      const block = cell.formula === undefined ? undefined : keptBlock(data, cell.formula);
      if (!block) return;
      const area = { sheet: id, row, column, rows: block.length, columns: block[0]!.length };
      blocks.push({ area, cell, values: block.map((line) => line.map(fromCellData)) });
    });
    for (const { area, cell, values } of blocks) {
      const { row, column } = area;
      this.blocks.push(area);
      const isFree = spread(cells, area, cell, values);
      // The engine is shown the whole of it, or where something stands in the way its first cell.
      this.emptied.push({ sheet, row, column, result: isFree ? values : cell.value });
    }
    return cells;
  }

  private cell(place: SheetCell, data: Nullable<ICellData>, item: Nullable<IFormulaDataItem>): CellModel | undefined {
    if (!item) {
      const value = fromCellData(data);
      const look = this.look(data);
      return value === null && !look ? undefined : { value, ...look };
    }
    const { f, x = 0, y = 0 } = item;
    // A formula that was filled down is given as the first one, and how far from it this cell is.
    const text = x === 0 && y === 0 ? f : this.injector.get(LexerTreeBuilder).moveFormulaRefOffset(f, x, y);
    const formula = text.replace(/^=/, '');
    const value = this.valueBehind(place, data, formula);
    const look = this.look(data);
    return isPlain(data, formula) ? { value, formula, plain: true, ...look } : { value, formula, ...look };
  }

  /** How a cell's number is to be taken, where that hangs on whether it shows a date. */
  private look(data: Nullable<ICellData>): { readonly style: number } | undefined {
    if (!this.countsFrom1904 || !data?.s) return undefined;
    return showsDate(this.book.getStyles().getStyleByCell(data)?.n?.pattern ?? '') ? { style: DATED } : undefined;
  }

  /** The value that a formula keeps where it cannot be calculated; null for one that was typed, which then is an error. */
  private valueBehind(place: SheetCell, data: Nullable<ICellData>, formula: string): Cell {
    const value = fromCellData(data);
    // A file's empty text is a value, too.
    if (this.file) return value ?? '';
    const kept = data && keptData(data, formula);
    if (!kept) return value instanceof CellError ? null : value;
    const own = fromCellData(kept) ?? '';
    if (value === null && own !== '') this.emptied.push({ ...place, result: own });
    return own;
  }
}

/** A kept result of several cells, by the engine's id of its sheet. */
interface KeptArea extends CellPlace {
  readonly rows: number;
  readonly columns: number;
}

const isInside = (area: KeptArea, sheet: string, row: number, column: number): boolean =>
  area.sheet === sheet &&
  row >= area.row &&
  row < area.row + area.rows &&
  column >= area.column &&
  column < area.column + area.columns;

/** All that a formula of a file spilled; undefined for one that has a single cell. */
function blockInFile({ cells }: SheetModel, row: number, column: number): ICellData[][] | undefined {
  const spill = cells[row]?.[column]?.spill;
  if (!spill || spill.rows * spill.columns === 1) return undefined;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => toValueData(cells[row + r]?.[column + c]?.value ?? null)),
  );
}

/** Puts a kept result into the cells around its formula; false, and nothing, where one of them holds something else. */
function spread(cells: (CellModel | undefined)[][], area: KeptArea, cell: CellModel, values: Matrix): boolean {
  const around = values.flatMap((line, r) =>
    line.flatMap((value, c) => (r + c === 0 ? [] : [{ row: area.row + r, column: area.column + c, value }])),
  );
  if (around.some(({ row, column }) => cells[row]?.[column] !== undefined)) return false;
  for (const { row, column, value } of around) (cells[row] ??= [])[column] = { value, spilled: true };
  cells[area.row]![area.column] = { ...cell, spill: { rows: area.rows, columns: area.columns } };
  return true;
}

const placeKey = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;

/** Read when they are asked for: rows are hidden and shown without an edit. */
const withRowsLeftOut = (injector: Injector, worksheet: Worksheet, sheet: SheetModel): SheetModel =>
  Object.defineProperties(sheet, {
    hiddenRows: {
      get: (): number[] => [...rowsHiddenByHand(worksheet), ...filtered(injector, worksheet)],
    },
    filtered: { get: () => filtered(injector, worksheet).length > 0 },
  });

const filtered = (injector: Injector, worksheet: Worksheet): number[] =>
  injector.get(FilterStore).hiddenRows(worksheet.getUnitId(), worksheet.getSheetId());
