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
import type { CellModel, SheetModel, WorkbookModel } from '../../sheet';
import { Calculator, type Calculation } from '../../calculation';
import { fromCellData } from './cells';
import { namesOf } from './names';
import { CELLS_CHANGE, type MutationPlace } from './mutations';
import { toAddress } from './ranges';
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
}

export interface MirrorCalculation extends Calculation {
  /** Formulas that the edits since the last calculation brought; none where this one read the whole workbook. */
  readonly typed: readonly TypedFormula[];
}

/** With more edits at once than this, building anew is no slower. */
const MOST_EDITS = 20_000;

const RESHAPES = new Set<string>([...CELLS_CHANGE, AddWorksheetMergeMutation.id, RemoveWorksheetMergeMutation.id]);
RESHAPES.delete(SetRangeValuesMutation.id);

export class Mirror {
  /** The engine's ids of the sheets, in the calculator's order. */
  sheetIds: readonly string[] = [];
  private calculator: Calculator | undefined;
  private edited = new Map<string, ObjectMatrix<true>>();
  private edits = 0;

  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
  ) {}

  /** Notes what a command does to cells; one that does more than give cells other contents has all built anew. */
  note({ id, params }: ICommandInfo, options: IExecutionOptions | undefined): void {
    if (!this.calculator || (params as MutationPlace | undefined)?.unitId !== this.book.getUnitId()) return;
    if (RESHAPES.has(id)) this.forget();
    if (id !== SetRangeValuesMutation.id || options?.['applyFormulaCalculationResult']) return;
    const { subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
    const cells = this.edited.get(subUnitId) ?? new ObjectMatrix<true>();
    this.edited.set(subUnitId, cells);
    new ObjectMatrix(cellValue).forValue((row, column) => {
      cells.setValue(row, column, true);
      this.edits += 1;
    });
    if (this.edits > MOST_EDITS) this.forget();
  }

  /** Has the next calculation read the whole workbook again. */
  forget(): void {
    this.calculator = undefined;
    this.edited.clear();
    this.edits = 0;
  }

  /** Results of the formulas that the edits since the last time bear on; undefined where `canCalculate` says that a formula is not for the calculator. */
  calculate(
    formulas: FormulasBySheet,
    canCalculate: (calculator: Calculator) => boolean,
  ): MirrorCalculation | undefined {
    let typed: readonly TypedFormula[] = [];
    if (!this.calculator) {
      this.sheetIds = this.book.getSheets().map((sheet) => sheet.getSheetId());
      this.calculator = new Calculator(this.model(formulas), true);
    } else typed = this.takeEdits(this.calculator, formulas);
    this.edited.clear();
    this.edits = 0;
    return canCalculate(this.calculator) ? { ...this.calculator.update(), typed } : undefined;
  }

  private takeEdits(calculator: Calculator, formulas: FormulasBySheet): TypedFormula[] {
    const typed: TypedFormula[] = [];
    for (const [sheet, cells] of this.edited) {
      const matrix = this.book.getSheetBySheetId(sheet)!.getCellMatrix();
      const index = this.sheetIds.indexOf(sheet);
      cells.forValue((row, column) => {
        const cell = this.cell(matrix.getValue(row, column), formulas?.[sheet]?.[row]?.[column]);
        calculator.edit(index, row, column, cell);
        if (cell?.formula !== undefined) typed.push({ sheet, row, column, text: `=${cell.formula}` });
      });
    }
    return typed;
  }

  private model(formulas: FormulasBySheet): WorkbookModel {
    const tables = tablesOf(this.injector, this.book);
    return {
      sheets: this.book.getSheets().map((worksheet): SheetModel => {
        const name = worksheet.getName();
        return {
          name,
          cells: this.cells(worksheet, formulas?.[worksheet.getSheetId()]),
          tables: tables.filter(({ range }) => range.sheet === name),
          merges: worksheet.getMergeData().map((range) => toAddress(name, range)),
          ...hiddenRows(worksheet),
        };
      }),
      names: namesOf(this.injector, this.book),
      styles: [],
    };
  }

  private cells(
    worksheet: Worksheet,
    formulas: Nullable<IObjectMatrixPrimitiveType<Nullable<IFormulaDataItem>>>,
  ): (CellModel | undefined)[][] {
    const cells: (CellModel | undefined)[][] = [];
    worksheet.getCellMatrix().forValue((row, column, data) => {
      const cell = this.cell(data, formulas?.[row]?.[column]);
      if (cell) (cells[row] ??= [])[column] = cell;
    });
    return cells;
  }

  private cell(data: Nullable<ICellData>, item: Nullable<IFormulaDataItem>): CellModel | undefined {
    const value = fromCellData(data);
    if (!item) return value === null ? undefined : { value };
    const { f, x = 0, y = 0 } = item;
    // A formula that was filled down is given as the first one, and how far from it this cell is.
    const text = x === 0 && y === 0 ? f : this.injector.get(LexerTreeBuilder).moveFormulaRefOffset(f, x, y);
    return { value, formula: text.replace(/^=/, '') };
  }
}

/** Read when they are asked for: rows are hidden and shown without an edit. */
const hiddenRows = (worksheet: Worksheet): object => ({
  get hiddenRows(): number[] {
    return worksheet
      .getHiddenRows()
      .flatMap(({ startRow, endRow }) =>
        Array.from({ length: endRow - startRow + 1 }, (_row, index) => startRow + index),
      );
  },
});
