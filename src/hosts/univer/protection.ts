/** Protected sheets: the grid refuses edits on them, and the port says so. */
import {
  ICommandService,
  IPermissionService,
  type Injector,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  AddWorksheetProtectionMutation,
  EditStateEnum,
  UnitObject,
  ViewStateEnum,
  WorksheetEditPermission,
  WorksheetProtectionRuleModel,
  WorksheetSetCellValuePermission,
} from '@univerjs/sheets';

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

export const isProtected = (injector: Injector, book: EngineWorkbook, sheet: Worksheet): boolean =>
  injector.get(WorksheetProtectionRuleModel).getRule(book.getUnitId(), sheet.getSheetId()) !== undefined;

/** Why nothing is changed on a sheet; undefined where it is not protected. */
export const protectedText = (injector: Injector, book: EngineWorkbook, sheet: Worksheet): string | undefined =>
  isProtected(injector, book, sheet)
    ? `The sheet ${sheet.getName()} is protected. Take the protection off in another spreadsheet program first.`
    : undefined;
