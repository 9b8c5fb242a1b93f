/** What is pasted from elsewhere is cleaned before the spreadsheet looks at it. */
import type { Injector } from '@univerjs/core';
import { ISheetClipboardService } from '@univerjs/sheets-ui';
import { inertHtml } from './inert-html';

const HTML = 'text/html';

export function pasteInert(injector: Injector): void {
  const clipboard = injector.get(ISheetClipboardService);
  const byEvent = clipboard.legacyPaste.bind(clipboard);
  const fromMenu = clipboard.paste.bind(clipboard);
  clipboard.legacyPaste = (html, ...others) => byEvent(html ? inertHtml(html) : html, ...others);
  clipboard.paste = async (item, ...others) => fromMenu(await inertItem(item), ...others);
}

async function inertItem(item: ClipboardItem): Promise<ClipboardItem> {
  if (!item.types.includes(HTML)) return item;
  const html = inertHtml(await (await item.getType(HTML)).text());
  const parts = await Promise.all(item.types.map(async (type) => [type, await item.getType(type)] as const));
  return new ClipboardItem({ ...Object.fromEntries(parts), [HTML]: new Blob([html], { type: HTML }) });
}
