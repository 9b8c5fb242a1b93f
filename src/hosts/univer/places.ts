/**
 * Workbooks, sheets, ranges and cells as the engine names them and as the port does: those that are open, the one that is
 * shown, and which sheets are protected.
 */
import {
  ICommandService,
  IPermissionService,
  IUniverInstanceService,
  UniverInstanceType,
  type IAccessor,
  type Injector,
  type IRange,
  type Nullable,
  type ObjectMatrix,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { IDefinedNamesService } from '@univerjs/engine-formula';
import {
  AddWorksheetProtectionMutation,
  EditStateEnum,
  SCOPE_WORKBOOK_VALUE_DEFINED_NAME,
  UnitObject,
  ViewStateEnum,
  WorksheetEditPermission,
  WorksheetProtectionRuleModel,
  WorksheetSetCellValuePermission,
} from '@univerjs/sheets';
import { isInRange, WorkbookError, type NameModel, type RangeAddress } from '../../sheet';
import { LAST_COLUMN } from '../../sheet/formula';

/** The workbook of this id. */
export const bookOf = (injector: IAccessor, unit: string): Nullable<EngineWorkbook> =>
  injector.get(IUniverInstanceService).getUnit<EngineWorkbook>(unit, UniverInstanceType.UNIVER_SHEET);

/** All that are open. */
export const openBooks = (injector: Injector): EngineWorkbook[] =>
  injector.get(IUniverInstanceService).getAllUnitsForType<EngineWorkbook>(UniverInstanceType.UNIVER_SHEET);

/** The one that is shown, and that the engine's commands act on. */
export const currentBook = (injector: Injector): Nullable<EngineWorkbook> =>
  injector.get(IUniverInstanceService).getCurrentUnitOfType<EngineWorkbook>(UniverInstanceType.UNIVER_SHEET);

/** Shows an open workbook, by its id. */
export function showBook(injector: Injector, id: string): void {
  const workbooks = injector.get(IUniverInstanceService);
  workbooks.setCurrentUnitForType(id);
  workbooks.focusUnit(id);
}

/** The defined names of a workbook. One that holds on a single sheet goes with it: the engine keeps it, as the sheet may come back. */
export const namesOf = (injector: Injector, book: EngineWorkbook): NameModel[] =>
  Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(book.getUnitId()) ?? {}).flatMap(
    ({ name, formulaOrRefString, localSheetId }): NameModel[] => {
      const refersTo = formulaOrRefString.replace(/^=/, '');
      if (!localSheetId || localSheetId === SCOPE_WORKBOOK_VALUE_DEFINED_NAME) return [{ name, refersTo }];
      const scope = book.getSheetBySheetId(localSheetId)?.getName();
      return scope === undefined ? [] : [{ name, refersTo, scope }];
    },
  );

/** Has the grid refuse edits on a sheet. */
export function protect(injector: Injector, unitId: string, subUnitId: string): void {
  const rule = {
    unitId,
    subUnitId,
    unitType: UnitObject.Worksheet,
    permissionId: `protected-${subUnitId}`,
    editState: EditStateEnum.OnlyMe,
    viewState: ViewStateEnum.OthersCanView,
  };
  injector.get(ICommandService).syncExecuteCommand(AddWorksheetProtectionMutation.id, { unitId, subUnitId, rule });
  const permissions = injector.get(IPermissionService);
  for (const Point of [WorksheetEditPermission, WorksheetSetCellValuePermission])
    permissions.updatePermissionPoint(new Point(unitId, subUnitId).id, false);
}

/** True where a sheet takes no edits. */
export const isProtected = (injector: Injector, sheet: Worksheet): boolean =>
  injector.get(WorksheetProtectionRuleModel).getRule(sheet.getUnitId(), sheet.getSheetId()) !== undefined;

/** Why nothing is changed on a sheet; undefined where it is not protected. */
export const protectedText = (injector: Injector, sheet: Worksheet): string | undefined =>
  isProtected(injector, sheet)
    ? `The sheet ${sheet.getName()} is protected. Take the protection off in another spreadsheet program first.`
    : undefined;

/** A cell by the engine's id of its sheet. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** One text for each cell of a workbook, by its sheet's id or index. */
export const placeKey = ({
  sheet,
  row,
  column,
}: Omit<CellPlace, 'sheet'> & { readonly sheet: string | number }): string => `${sheet} ${row} ${column}`;

/** One number for each cell of a sheet. */
export const cellKey = (row: number, column: number): number => row * (LAST_COLUMN + 1) + column;

type Area = Omit<RangeAddress, 'sheet'>;

/** True where a cell of the area was edited. */
export function isEditedIn(edited: ObjectMatrix<true>, area: Area): boolean {
  let isIn = false;
  edited.forValue((row, column) => {
    isIn ||= isInRange(area, row, column);
  });
  return isIn;
}

/** The port's range as the engine's. */
export const toRange = ({ row, column, rows, columns }: Area): IRange => ({
  startRow: row,
  endRow: row + rows - 1,
  startColumn: column,
  endColumn: column + columns - 1,
});

/** The engine's range as the port's. */
export const toAddress = (sheet: string, range: IRange): RangeAddress => ({
  sheet,
  row: range.startRow,
  column: range.startColumn,
  rows: range.endRow - range.startRow + 1,
  columns: range.endColumn - range.startColumn + 1,
});

/** The same cells, whatever the engine says of them beside. */
export const sameCells = (a: IRange, b: IRange): boolean =>
  a.startRow === b.startRow && a.endRow === b.endRow && a.startColumn === b.startColumn && a.endColumn === b.endColumn;

/** The rows or columns of a range, and which part of each is in it. */
export const linesIn = (
  axis: 'rows' | 'columns',
  { startRow, endRow, startColumn, endColumn }: IRange,
): { readonly at: number; readonly count: number; readonly within: { readonly from: number; readonly to: number } } =>
  axis === 'rows'
    ? { at: startRow, count: endRow - startRow + 1, within: { from: startColumn, to: endColumn } }
    : { at: startColumn, count: endColumn - startColumn + 1, within: { from: startRow, to: endRow } };

/** Something for each cell of a range, by row and column. */
export const byCell = <T>(
  { row, column, rows, columns }: Area,
  of: (row: number, column: number) => T,
): Record<number, Record<number, T>> =>
  Object.fromEntries(
    linesOf(row, row + rows - 1).map((r) => [
      r,
      Object.fromEntries(linesOf(column, column + columns - 1).map((c) => [c, of(r, c)])),
    ]),
  );

/** Rows or columns from a first to a last one. */
export const linesOf = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_none, index) => first + index);

/** Numbers in runs of neighbours: the first and the last of each. */
export function runsOf(numbers: readonly number[]): (readonly [first: number, last: number])[] {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number <= last[1] + 1) last[1] = Math.max(last[1], number);
    else runs.push([number, number]);
  }
  return runs;
}

/** Rows of a sheet that are hidden by hand. */
export const rowsHiddenByHand = (sheet: Worksheet): number[] =>
  sheet.getHiddenRows().flatMap(({ startRow, endRow }) => linesOf(startRow, endRow));

/** The sheet of this name in any case. Throws WorkbookError where there is none. */
export function sheetNamed(workbook: EngineWorkbook, name: string): Worksheet {
  const found = workbook.getSheets().find((sheet) => sheet.getName().toLowerCase() === name.toLowerCase());
  if (!found) throw new WorkbookError('no-sheet', `There is no sheet "${name}"`);
  return found;
}

/** A sheet as the engine's mutations name it. */
export const targetOf = (sheet: Worksheet): { readonly unitId: string; readonly subUnitId: string } => ({
  unitId: sheet.getUnitId(),
  subUnitId: sheet.getSheetId(),
});
