/** Alt+Down opens the list of choices of the selected cell, as in other spreadsheets. */
import {
  CommandType,
  FOCUSING_SHEET,
  ICommandService,
  IUniverInstanceService,
  type IAccessor,
  type IContextService,
  type Injector,
} from '@univerjs/core';
import { getSheetCommandTarget, SheetsSelectionsService } from '@univerjs/sheets';
import { SheetDataValidationModel } from '@univerjs/sheets-data-validation';
import { IShortcutService, KeyCode, MetaKeys } from '@univerjs/ui';

/** The engine's own operation, which its arrow in the cell runs. */
const SHOW = 'sheet.operation.show-data-validation-dropdown';

const OPEN_CHOICES = {
  id: 'tarebook.command.open-choices',
  type: CommandType.COMMAND,
  handler(accessor: IAccessor): boolean {
    const target = getSheetCommandTarget(accessor.get(IUniverInstanceService));
    const cell = accessor.get(SheetsSelectionsService).getCurrentLastSelection()?.primary;
    if (!target || !cell) return false;
    const { unitId, subUnitId } = target;
    const [row, column] = [cell.actualRow, cell.actualColumn];
    if (!accessor.get(SheetDataValidationModel).getRuleIdByLocation(unitId, subUnitId, row, column)) return false;
    return accessor.get(ICommandService).syncExecuteCommand(SHOW, { unitId, subUnitId, row, column });
  },
};

export function openChoicesByKey(injector: Injector): void {
  injector.get(ICommandService).registerCommand(OPEN_CHOICES);
  injector.get(IShortcutService).registerShortcut({
    id: OPEN_CHOICES.id,
    binding: KeyCode.ARROW_DOWN | MetaKeys.ALT,
    preconditions: (context: IContextService) => context.getContextValue(FOCUSING_SHEET),
  });
}
