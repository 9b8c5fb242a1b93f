/** Names for the buttons and boxes of the embedded spreadsheet, whose pictures alone say what they are for. */
import { LocaleService, type Injector } from '@univerjs/core';
import { memoized } from '../../core/memoized';
import { IMenuManagerService, MenuManagerPosition, type IMenuSchema } from '@univerjs/ui';

/** What the engine's menus have no word for, by where it stands. */
const NAMED: readonly (readonly [selector: string, name: string])[] = [
  ['[data-slot^="dropdown-menu"] [data-u-comp="sheet-bar-append-button"]', 'All sheets'],
  ['[data-u-comp="sheet-bar-append-button"]', 'Add a sheet'],
  ['[data-u-comp="defined-name"] input', 'Selected cells, or a name to go to'],
  ['[data-u-comp="defined-name"] a', 'Defined names'],
  ['[role="track"] a', 'Zoom of 100 %'],
  ['[role="handle"]', 'Zoom'],
  ['button:has(+ * [role="track"])', 'Smaller'],
  ['*:has([role="track"]) + button', 'Larger'],
  ['[data-u-command="sheet.command.set-range-fontsize"] input', 'Size of the text'],
];

/** Names what is drawn now and later. */
export function nameControls(injector: Injector, container: HTMLElement): void {
  const locale = injector.get(LocaleService);
  const menus = injector.get(IMenuManagerService);
  // The engine makes all entries of its menus anew when it is asked for them, and the page changes with every key.
  const tooltip = memoized((id: string): string => {
    const entry = flat(menus.getMenuByPositionKey(MenuManagerPosition.RIBBON)).find(({ item }) => item?.id === id);
    return entry?.item?.tooltip ? locale.t(entry.item.tooltip) : '';
  });
  const name = (): void => {
    for (const control of container.querySelectorAll('button, a, input')) {
      if (control.hasAttribute('aria-label') || control.textContent.trim() !== '') continue;
      const command = control.closest('[data-u-command]')?.getAttribute('data-u-command') ?? undefined;
      const called =
        NAMED.find(([selector]) => control.matches(selector))?.[1] ??
        (command === undefined ? undefined : tooltip(command));
      if (called) control.setAttribute('aria-label', called);
    }
  };
  new MutationObserver(name).observe(container, { childList: true, subtree: true });
  name();
}

const flat = (entries: readonly IMenuSchema[]): IMenuSchema[] =>
  entries.flatMap((entry) => [entry, ...flat(entry.children ?? [])]);
