/**
 * Enter and Tab take a function from the list that the editor offers only while the name that the list was made for is
 * still what stands at the cursor. The list follows what is typed a moment later: by then the rest of a formula may
 * have been typed, and Enter means to enter it.
 */
import type { Injector } from '@univerjs/core';
import { IEditorService } from '@univerjs/docs-ui';
import { IShortcutService, KeyCode, type IShortcutItem } from '@univerjs/ui';

/** How the engine calls the keys of its list. */
const LIST = 'sheet.formula-embedding-editor.search_function.';

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
