/** The port's edits as the engine's mutations: checked all before any is made. */
import {
  ICommandService,
  mergeWorksheetSnapshotWithDefault,
  type ICellData,
  type IStyleData,
  type IUndoRedoCommandInfos,
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
import { WorkbookError, type CellInput, type Edit, type EditOf, type RangeAddress } from '../../sheet';
import { toInputData } from './cells';
import { addingChoices } from './choices';
import { frozenFrom, frozenOn } from './freeze';
import { withActiveSheet } from './internals';
import { byCell, linesOf, sheetNamed, targetOf, toRange } from './places';
import { toPixels } from './snapshot';
import type { UndoSteps } from './history';
import type { Tables } from './tables';

/** Makes edits that `checkEdits` has passed; to be called inside a step of undo. */
export class Editor {
  private readonly makers: { readonly [Kind in Edit['kind']]: (edit: EditOf<Kind>) => void | Promise<void> } = {
    write: ({ range, cells }) => this.write(range, cells),
    addSheet: (edit) => this.addSheet(edit),
    removeSheet: (edit) => this.removeSheet(edit),
    addTable: ({ name, range }) => this.placeTable(name, range),
    insertTableRows: (edit) => this.insertTableRows(edit),
    removeTableRows: (edit) => this.removeTableRows(edit),
    format: (edit) => this.format(edit),
    choices: (list) => this.run(addingChoices(this.injector, this.sheet(list.range.sheet), list)),
    freeze: (edit) => this.freeze(edit),
    // The grid draws none: a file that is saved with the sheet is given it (withBudgetChart).
    chart: () => undefined,
  };

  constructor(
    private readonly injector: Injector,
    private readonly workbook: EngineWorkbook,
    private readonly tables: Tables,
    private readonly history: UndoSteps,
  ) {}

  async make<Kind extends Edit['kind']>(edit: EditOf<Kind>): Promise<void> {
    await this.makers[edit.kind](edit);
  }

  /** @param styleOf looks that cells of a column get with their content */
  private write(
    range: RangeAddress,
    cells: readonly (readonly CellInput[])[],
    styleOf?: (column: number) => ICellData['s'],
  ): void {
    if (range.rows === 0 || range.columns === 0) return;
    const sheet = this.sheet(range.sheet);
    this.makeRoom(sheet, range);
    const cellValue = byCell(range, (row, column): ICellData => {
      const data = toInputData(cells[row - range.row]![column - range.column]!);
      const s = styleOf?.(column - range.column);
      return s ? { ...data, s } : data;
    });
    this.setCells(sheet, cellValue);
  }

  private setCells(sheet: Worksheet, cellValue: Record<number, Record<number, ICellData>>, trigger?: string): void {
    const params = { ...targetOf(sheet), cellValue, ...(trigger ? { trigger } : {}) };
    this.set(SetRangeValuesMutation.id, params, SetRangeValuesUndoMutationFactory(this.injector, params));
  }

  private makeRoom(sheet: Worksheet, { row, column, rows, columns }: RangeAddress): void {
    const sizes = [
      [SetWorksheetRowCountMutation.id, 'rowCount', row + rows, sheet.getRowCount()],
      [SetWorksheetColumnCountMutation.id, 'columnCount', column + columns, sheet.getColumnCount()],
    ] as const;
    for (const [id, key, needed, before] of sizes) {
      const sized = (count: number): object => ({ ...targetOf(sheet), [key]: count });
      if (needed > before) this.set(id, sized(needed), sized(before));
    }
  }

  private addSheet({ name }: EditOf<'addSheet'>): void {
    const taken = new Set(this.workbook.getSheets().map((sheet) => sheet.getSheetId()));
    let number = taken.size + 1;
    // Another kind of id than that of loaded sheets: one that was removed must not seem to come back.
    while (taken.has(`added-${number}`)) number += 1;
    const sheet = mergeWorksheetSnapshotWithDefault({ id: `added-${number}`, name, rowCount: 100, columnCount: 20 });
    const params = { unitId: this.workbook.getUnitId(), index: taken.size, sheet };
    this.run({
      redos: [{ id: InsertSheetMutation.id, params }],
      undos: [{ id: RemoveSheetMutation.id, params: InsertSheetUndoMutationFactory(this.injector, params) }],
    });
  }

  private removeSheet({ name }: EditOf<'removeSheet'>): void {
    const sheet = this.sheet(name);
    const params = { ...targetOf(sheet), subUnitName: sheet.getName() };
    this.run({
      redos: [{ id: RemoveSheetMutation.id, params }],
      undos: [{ id: InsertSheetMutation.id, params: RemoveSheetUndoMutationFactory(this.injector, params) }],
    });
  }

  private placeTable(name: string, range: RangeAddress): void {
    this.run(this.tables.place(name, range));
  }

  private async insertTableRows({ table: name, at, cells }: EditOf<'insertTableRows'>): Promise<void> {
    const { range, name: tableName } = this.tables.find(name)!;
    const added: RangeAddress = { ...range, row: range.row + 1 + at, rows: cells.length };
    const looks = this.looksOfRow(range, at);
    if (this.usedBelow(added)) await this.moveCells(InsertRangeMoveDownCommand.id, added);
    const padded = cells.map((line) => Array.from({ length: range.columns }, (_none, column) => line[column] ?? null));
    this.write(added, padded, (column) => looks[column]);
    this.placeTable(tableName, { ...range, rows: range.rows + cells.length });
  }

  private async removeTableRows({ table: name, at, count }: EditOf<'removeTableRows'>): Promise<void> {
    const { range, name: tableName } = this.tables.find(name)!;
    await this.moveCells(DeleteRangeMoveUpCommand.id, { ...range, row: range.row + 1 + at, rows: count });
    this.placeTable(tableName, { ...range, rows: range.rows - count });
  }

  /** New rows look like the row above them, or the first of the table. */
  private looksOfRow(range: RangeAddress, at: number): ICellData['s'][] {
    const cells = this.sheet(range.sheet).getCellMatrix();
    const row = range.row + Math.max(1, at);
    return Array.from({ length: range.columns }, (_none, column) =>
      row < range.row + range.rows ? cells.getValue(row, range.column + column)?.s : undefined,
    );
  }

  private usedBelow({ sheet, row, column, columns }: RangeAddress): boolean {
    const cells = this.sheet(sheet).getCellMatrix();
    return linesOf(row, cells.getLength() - 1).some((r) =>
      linesOf(column, column + columns - 1).some((c) => {
        const cell = cells.getValue(r, c);
        return cell && (cell.v !== undefined || cell.f || cell.si || cell.p);
      }),
    );
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
    if (Object.keys(style).length > 0)
      this.setCells(
        sheet,
        byCell(range, () => ({ s: style })),
        SetStyleCommand.id,
      );
    if (columnWidth === undefined) return;
    const params = { ...targetOf(sheet), ranges: [toRange(range)], colWidth: toPixels(columnWidth) };
    this.set(SetWorksheetColWidthMutation.id, params, SetWorksheetColWidthMutationFactory(params, sheet));
  }

  private freeze({ sheet: name, rows, columns }: EditOf<'freeze'>): void {
    const sheet = this.sheet(name);
    const { xSplit, ySplit } = frozenOn(sheet);
    const frozen = (size: { rows: number; columns: number }): object => ({ ...targetOf(sheet), ...frozenFrom(size) });
    this.set(SetFrozenMutation.id, frozen({ rows, columns }), frozen({ rows: ySplit, columns: xSplit }));
  }

  /** Runs a mutation that the same one takes back, with what was there before. */
  private set(id: string, params: object, before: object): void {
    this.run({ redos: [{ id, params }], undos: [{ id, params: before }] });
  }

  private run(mutations: IUndoRedoCommandInfos): void {
    this.history.run(this.workbook.getUnitId(), mutations);
  }

  private sheet(name: string): Worksheet {
    return sheetNamed(this.workbook, name);
  }
}
