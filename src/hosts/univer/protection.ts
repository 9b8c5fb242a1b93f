/** Protected sheets: the grid refuses edits on them, and the port says so. */
import { ICommandService, IPermissionService, type Injector } from '@univerjs/core';
import {
  AddWorksheetProtectionMutation,
  EditStateEnum,
  UnitObject,
  ViewStateEnum,
  WorksheetEditPermission,
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
