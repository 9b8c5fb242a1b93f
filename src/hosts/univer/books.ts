/** The engine's workbooks: those that are open, the one that is shown, their names and which of their sheets are protected. */
import {
  ICommandService,
  IPermissionService,
  IUniverInstanceService,
  UniverInstanceType,
  type IAccessor,
  type Injector,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { IDefinedNamesService } from '@univerjs/engine-formula';
import {
  AddWorksheetProtectionMutation,
  EditStateEnum,
  UnitObject,
  ViewStateEnum,
  WorksheetEditPermission,
  WorksheetProtectionRuleModel,
  WorksheetSetCellValuePermission,
} from '@univerjs/sheets';
import type { NameModel } from '../../sheet';

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

/** The defined names of a workbook. */
export const namesOf = (injector: Injector, book: EngineWorkbook): NameModel[] =>
  Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(book.getUnitId()) ?? {}).map(
    ({ name, formulaOrRefString, localSheetId }): NameModel => {
      const scope = localSheetId ? book.getSheetBySheetId(localSheetId)?.getName() : undefined;
      return { name, refersTo: formulaOrRefString.replace(/^=/, ''), ...(scope === undefined ? {} : { scope }) };
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
