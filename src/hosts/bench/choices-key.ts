/** Alt+Down opens the list of choices of the selected cell, or the filter of a heading, as in other spreadsheets. */
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

const openChoices = (openFilter: OpenFilter) => ({
  id: 'tarebook.command.open-choices',
  type: CommandType.COMMAND,
  handler(accessor: IAccessor): boolean {
    const target = getSheetCommandTarget(accessor.get(IUniverInstanceService));
    const cell = accessor.get(SheetsSelectionsService).getCurrentLastSelection()?.primary;
    if (!target || !cell) return false;
    const { unitId, subUnitId } = target;
    const [row, column] = [cell.actualRow, cell.actualColumn];
    if (openFilter(target.worksheet.getName(), row, column)) return true;
    if (!accessor.get(SheetDataValidationModel).getRuleIdByLocation(unitId, subUnitId, row, column)) return false;
    return accessor.get(ICommandService).syncExecuteCommand(SHOW, { unitId, subUnitId, row, column });
  },
});

type OpenFilter = (sheet: string, row: number, column: number) => boolean;

/** @param openFilter opens the filter of a heading; false where the cell is none */
export function openChoicesByKey(injector: Injector, openFilter: OpenFilter): void {
  const command = openChoices(openFilter);
  injector.get(ICommandService).registerCommand(command);
  injector.get(IShortcutService).registerShortcut({
    id: command.id,
    binding: KeyCode.ARROW_DOWN | MetaKeys.ALT,
    preconditions: (context: IContextService) => context.getContextValue(FOCUSING_SHEET),
  });
}
