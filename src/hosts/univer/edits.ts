/** The port's edits as the engine's mutations: checked all before any is made. */
import {
  ICommandService,
  mergeWorksheetSnapshotWithDefault,
  sequenceExecute,
  type ICellData,
  type IMutationInfo,
  type IStyleData,
  type Injector,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  DeleteRangeMoveUpCommand,
  InsertRangeMoveDownCommand,
  InsertSheetMutation,
  InsertSheetUndoMutationFactory,
  RemoveSheetMutation,
  RemoveSheetUndoMutationFactory,
  SetFrozenMutation,
  SetRangeValuesMutation,
  SetRangeValuesUndoMutationFactory,
  SetStyleCommand,
  SetWorksheetColumnCountMutation,
  SetWorksheetColWidthMutation,
  SetWorksheetColWidthMutationFactory,
  SetWorksheetRowCountMutation,
} from '@univerjs/sheets';
import {
  WorkbookError,
  type CellInput,
  type ChoiceValidation,
  type Edit,
  type RangeAddress,
  type TableModel,
} from '../../sheet';
import { toInputData } from './cells';
import { addingChoices } from './choices';
import { frozenOn } from './freeze';
import { withActiveSheet } from './internals';
import { sheetNamed, toRange } from './ranges';
import { toPixels } from './snapshot';
import type { UndoSteps } from './history';
import type { Tables } from './tables';

type EditOf<Kind extends Edit['kind']> = Extract<Edit, { kind: Kind }>;

/** Makes edits that `checkEdits` has passed; to be called inside a step of undo. */
export class Editor {
  constructor(
    private readonly injector: Injector,
    private readonly workbook: EngineWorkbook,
    private readonly tables: Tables,
    private readonly history: UndoSteps,
  ) {}

  async make(edit: Edit): Promise<void> {
    switch (edit.kind) {
      case 'write':
        return this.write(edit.range, edit.cells);
      case 'addSheet':
        return this.addSheet(edit.name);
      case 'removeSheet':
        return this.removeSheet(edit.name);
      case 'addTable':
        return this.placeTable(edit.name, edit.range);
      case 'insertTableRows':
        return this.insertTableRows(edit);
      case 'removeTableRows':
        return this.removeTableRows(edit);
      case 'format':
        return this.format(edit);
      case 'choices':
        return this.addChoices(edit);
      case 'freeze':
        return this.freeze(edit);
      case 'chart':
        // The grid draws none: a file that is saved with the sheet is given it (withBudgetChart).
        return;
    }
  }

  private write(
    range: RangeAddress,
    cells: readonly (readonly CellInput[])[],
    style?: (column: number) => ICellData['s'],
  ): void {
    if (range.rows === 0 || range.columns === 0) return;
    const sheet = this.sheet(range.sheet);
    this.makeRoom(sheet, range);
    const cellValue: Record<number, Record<number, ICellData>> = {};
    cells.forEach((line, r) => {
      const row: Record<number, ICellData> = (cellValue[range.row + r] = {});
      line.forEach((input, c) => {
        const looks = style?.(c);
        row[range.column + c] = looks ? { ...toInputData(input), s: looks } : toInputData(input);
      });
    });
    this.setCells(sheet, cellValue);
  }

  private setCells(sheet: Worksheet, cellValue: Record<number, Record<number, ICellData>>, trigger?: string): void {
    const params = { ...this.target(sheet), cellValue, ...(trigger ? { trigger } : {}) };
    const undo = SetRangeValuesUndoMutationFactory(this.injector, params);
    this.run([{ id: SetRangeValuesMutation.id, params }], [{ id: SetRangeValuesMutation.id, params: undo }]);
  }

  private makeRoom(sheet: Worksheet, range: RangeAddress): void {
    const { unitId, subUnitId } = this.target(sheet);
    const rows = range.row + range.rows;
    const columns = range.column + range.columns;
    const rowCount = (count: number): IMutationInfo => ({
      id: SetWorksheetRowCountMutation.id,
      params: { unitId, subUnitId, rowCount: count },
    });
    const columnCount = (count: number): IMutationInfo => ({
      id: SetWorksheetColumnCountMutation.id,
      params: { unitId, subUnitId, columnCount: count },
    });
    if (rows > sheet.getRowCount()) this.run([rowCount(rows)], [rowCount(sheet.getRowCount())]);
    if (columns > sheet.getColumnCount()) this.run([columnCount(columns)], [columnCount(sheet.getColumnCount())]);
  }

  private addSheet(name: string): void {
    const taken = new Set(this.workbook.getSheets().map((sheet) => sheet.getSheetId()));
    let number = taken.size + 1;
    // Another kind of id than that of loaded sheets: one that was removed must not seem to come back.
    while (taken.has(`added-${number}`)) number += 1;
    const sheet = mergeWorksheetSnapshotWithDefault({ id: `added-${number}`, name, rowCount: 100, columnCount: 20 });
    const params = { unitId: this.workbook.getUnitId(), index: taken.size, sheet };
    const undo = InsertSheetUndoMutationFactory(this.injector, params);
    this.run([{ id: InsertSheetMutation.id, params }], [{ id: RemoveSheetMutation.id, params: undo }]);
  }

  private removeSheet(name: string): void {
    const sheet = this.sheet(name);
    const params = { ...this.target(sheet), subUnitName: sheet.getName() };
    const undo = RemoveSheetUndoMutationFactory(this.injector, params);
    this.run([{ id: RemoveSheetMutation.id, params }], [{ id: InsertSheetMutation.id, params: undo }]);
  }

  private placeTable(name: string, range: RangeAddress): void {
    const { redo, undo } = this.tables.place(name, range);
    this.run([redo], [undo]);
  }

  private async insertTableRows({ table: name, at, cells }: EditOf<'insertTableRows'>): Promise<void> {
    const table = this.tables.find(name)!;
    const { range } = table;
    const added: RangeAddress = { ...range, row: range.row + 1 + at, rows: cells.length };
    const looks = this.looksOfRow(table, at);
    if (this.usedBelow(added)) await this.moveCells(InsertRangeMoveDownCommand.id, added);
    const padded = cells.map((line) => Array.from({ length: range.columns }, (_none, column) => line[column] ?? null));
    this.write(added, padded, (column) => looks[column]);
    this.placeTable(table.name, { ...range, rows: range.rows + cells.length });
  }

  private async removeTableRows({ table: name, at, count }: EditOf<'removeTableRows'>): Promise<void> {
    const table = this.tables.find(name)!;
    const { range } = table;
    const removed: RangeAddress = { ...range, row: range.row + 1 + at, rows: count };
    await this.moveCells(DeleteRangeMoveUpCommand.id, removed);
    this.placeTable(table.name, { ...range, rows: range.rows - count });
  }

  /** New rows look like the row above them, or the first of the table. */
  private looksOfRow({ range }: TableModel, at: number): ICellData['s'][] {
    const cells = this.sheet(range.sheet).getCellMatrix();
    const row = range.row + Math.max(1, at);
    return Array.from({ length: range.columns }, (_none, column) =>
      row < range.row + range.rows ? cells.getValue(row, range.column + column)?.s : undefined,
    );
  }

  private usedBelow(range: RangeAddress): boolean {
    const cells = this.sheet(range.sheet).getCellMatrix();
    for (let row = range.row; row < cells.getLength(); row++) {
      for (let column = range.column; column < range.column + range.columns; column++) {
        const cell = cells.getValue(row, column);
        if (cell && (cell.v !== undefined || cell.f || cell.si || cell.p)) return true;
      }
    }
    return false;
  }

  /**
   * Inserts or deletes a range, and shifts the references of every formula. The engine's commands act on the
   * active sheet alone, so they are shown this one for as long as they run, with nothing changed on the screen.
   */
  private async moveCells(command: string, range: RangeAddress): Promise<void> {
    const sheet = this.sheet(range.sheet);
    const done = withActiveSheet(this.workbook, sheet, () =>
      this.injector.get(ICommandService).executeCommand(command, { range: toRange(range) }),
    );
    if (!(await done))
      throw new WorkbookError(
        'host',
        `The spreadsheet could not move the cells at ${range.sheet} row ${range.row + 1}`,
      );
  }

  private format({ range, numberFormat, bold, fill, columnWidth }: EditOf<'format'>): void {
    const sheet = this.sheet(range.sheet);
    this.makeRoom(sheet, range);
    const style: IStyleData = {
      ...(numberFormat === undefined ? {} : { n: { pattern: numberFormat } }),
      ...(bold === undefined ? {} : { bl: bold ? 1 : 0 }),
      ...(fill === undefined ? {} : { bg: { rgb: fill } }),
    };
    if (Object.keys(style).length > 0) {
      const cellValue: Record<number, Record<number, ICellData>> = {};
      for (let row = range.row; row < range.row + range.rows; row++) {
        const line: Record<number, ICellData> = (cellValue[row] = {});
        for (let column = range.column; column < range.column + range.columns; column++) line[column] = { s: style };
      }
      this.setCells(sheet, cellValue, SetStyleCommand.id);
    }
    if (columnWidth !== undefined) {
      const params = { ...this.target(sheet), ranges: [toRange(range)], colWidth: toPixels(columnWidth) };
      const undo = SetWorksheetColWidthMutationFactory(params, sheet);
      this.run(
        [{ id: SetWorksheetColWidthMutation.id, params }],
        [{ id: SetWorksheetColWidthMutation.id, params: undo }],
      );
    }
  }

  private freeze({ sheet: name, rows, columns }: EditOf<'freeze'>): void {
    const sheet = this.sheet(name);
    const mutation = (ySplit: number, xSplit: number): IMutationInfo => ({
      id: SetFrozenMutation.id,
      params: { ...this.target(sheet), ySplit, xSplit, startRow: ySplit || -1, startColumn: xSplit || -1 },
    });
    const before = frozenOn(sheet);
    this.run([mutation(rows, columns)], [mutation(before.ySplit, before.xSplit)]);
  }

  private addChoices(list: ChoiceValidation): void {
    const { unitId, subUnitId } = this.target(this.sheet(list.range.sheet));
    const { redo, undo } = addingChoices(this.injector, unitId, subUnitId, list);
    this.run(redo, undo);
  }

  private run(redo: IMutationInfo[], undo: IMutationInfo[]): void {
    const { result, error } = sequenceExecute(redo, this.injector.get(ICommandService));
    if (!result) throw new WorkbookError('host', 'The spreadsheet refused the edit', { cause: error });
    this.history.pushUndoRedo({ unitID: this.workbook.getUnitId(), redoMutations: redo, undoMutations: undo });
  }

  private sheet(name: string): Worksheet {
    return sheetNamed(this.workbook, name)!;
  }

  private target(sheet: Worksheet): { unitId: string; subUnitId: string } {
    return { unitId: this.workbook.getUnitId(), subUnitId: sheet.getSheetId() };
  }
}
