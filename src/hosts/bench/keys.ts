/**
 * Keys of the whole page: F6 walks between bar, sheet, panel, pane and what the status line offers (the grid keeps Tab
 * for itself), Ctrl+S saves, Ctrl+F finds; and keys that the grid is given or has otherwise.
 */
import {
  CommandType,
  FOCUSING_SHEET,
  ICommandService,
  IUniverInstanceService,
  type IAccessor,
  type IContextService,
  type Injector,
} from '@univerjs/core';
import { IEditorService } from '@univerjs/docs-ui';
import { getSheetCommandTarget, SheetsSelectionsService } from '@univerjs/sheets';
import { SheetDataValidationModel } from '@univerjs/sheets-data-validation';
import { IShortcutService, KeyCode, MetaKeys, type IShortcutItem } from '@univerjs/ui';

const AREAS = ['.bar', '.sheet', '.tool', '.pane:not([hidden]) .pane-frame', '.status'] as const;
const FOCUSABLE =
  'button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), a[href], [tabindex="0"]';

export interface KeyActions {
  focusGrid(): void;
  save(): void;
  find(): void;
  filter(): void;
}

export function listenToKeys(actions: KeyActions): void {
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'F6') {
        walk(event.shiftKey ? -1 : 1, actions);
      } else if (!takeLetter(event, actions)) {
        return;
      }
      event.preventDefault();
      event.stopPropagation();
    },
    // Before the grid, which would take them.
    true,
  );
}

/** Ctrl with a letter; false where it means nothing here. In the pane the browser's own search finds. */
function takeLetter(event: KeyboardEvent, actions: KeyActions): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return false;
  const letter = event.key.toLowerCase();
  const isInPane = document.activeElement?.closest('.pane') !== null;
  if (letter === 's' && !event.shiftKey) actions.save();
  else if ((letter === 'f' || letter === 'h') && !event.shiftKey && !isInPane) actions.find();
  else if (letter === 'l' && event.shiftKey && !isInPane) actions.filter();
  else return false;
  return true;
}

function walk(step: 1 | -1, { focusGrid }: KeyActions): void {
  const areas = AREAS.flatMap((selector) => document.querySelector<HTMLElement>(selector) ?? []).filter(
    // The status line mostly has nothing to stop at.
    (area) => !area.matches('.status') || area.querySelector(FOCUSABLE),
  );
  const here = areas.findIndex((area) => area.contains(document.activeElement));
  const next = areas[(here + step + areas.length) % areas.length];
  if (next?.classList.contains('sheet')) focusGrid();
  else
    [...(next?.querySelectorAll<HTMLElement>(FOCUSABLE) ?? [])].find((element) => element.checkVisibility())?.focus();
}

/** The engine's own operation, which its arrow in the cell runs. */
const SHOW = 'sheet.operation.show-data-validation-dropdown';

/**
 * Alt+Down opens the list of choices of the selected cell, or the filter of a heading, as in other spreadsheets.
 * @param openFilter opens the filter of a heading; false where the cell is none
 */
export function openChoicesByKey(
  injector: Injector,
  openFilter: (sheet: string, row: number, column: number) => boolean,
): void {
  const id = 'tarebook.command.open-choices';
  injector.get(ICommandService).registerCommand({
    id,
    type: CommandType.COMMAND,
    handler(accessor: IAccessor): boolean {
      const target = getSheetCommandTarget(accessor.get(IUniverInstanceService));
      const cell = accessor.get(SheetsSelectionsService).getCurrentLastSelection()?.primary;
      if (!target || !cell) return false;
      const { unitId, subUnitId } = target;
      const { actualRow: row, actualColumn: column } = cell;
      if (openFilter(target.worksheet.getName(), row, column)) return true;
      if (!accessor.get(SheetDataValidationModel).getRuleIdByLocation(unitId, subUnitId, row, column)) return false;
      return accessor.get(ICommandService).syncExecuteCommand(SHOW, { unitId, subUnitId, row, column });
    },
  });
  injector.get(IShortcutService).registerShortcut({
    id,
    binding: KeyCode.ARROW_DOWN | MetaKeys.ALT,
    preconditions: (context: IContextService) => context.getContextValue(FOCUSING_SHEET),
  });
}

/** How the engine calls the keys of its list. */
const LIST = 'sheet.formula-embedding-editor.search_function.';

/**
 * Enter and Tab take a function from the list that the editor offers only while the name that the list was made for is
 * still what stands at the cursor. The list follows what is typed a moment later: by then the rest of a formula may
 * have been typed, and Enter means to enter it.
 */
export function takeFromFreshListOnly(injector: Injector): void {
  const shortcuts = injector.get(IShortcutService);
  const register = shortcuts.registerShortcut.bind(shortcuts);
  shortcuts.registerShortcut = (item: IShortcutItem) => register(isTaking(item) ? whileFresh(injector, item) : item);
}

const isTaking = ({ id, binding }: IShortcutItem): boolean =>
  id.startsWith(LIST) && (binding === KeyCode.ENTER || binding === KeyCode.TAB);

/** The engine registers the keys anew with each list that it shows. */
function whileFresh(injector: Injector, item: IShortcutItem): IShortcutItem {
  const shownFor = nameAtCursor(injector);
  return { ...item, preconditions: () => shownFor !== '' && nameAtCursor(injector) === shownFor };
}

/** The letters of a function's name before the cursor of the editor that is in use; '' where it stands behind none. */
function nameAtCursor(injector: Injector): string {
  const editor = injector.get(IEditorService).getFocusEditor();
  const cursor = editor?.getSelectionRanges()[0];
  const text = editor?.getDocumentData().body?.dataStream ?? '';
  return cursor?.collapsed ? (/[\p{L}_][\p{L}\d_.]*$/u.exec(text.slice(0, cursor.startOffset))?.[0] ?? '') : '';
}
