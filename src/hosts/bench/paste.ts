/**
 * What is pasted from elsewhere, before the spreadsheet looks at it: markup with the table and its looks, and nothing
 * that runs or is fetched; and lengths, read as if they were typed.
 */
import { ObjectMatrix, type ICellData, type IMutationInfo, type Injector, type Nullable } from '@univerjs/core';
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory } from '@univerjs/sheets';
import { ISheetClipboardService } from '@univerjs/sheets-ui';
import { numberStyleAt, pastedLength } from '../univer';

const NOTHING: { redos: IMutationInfo[]; undos: IMutationInfo[] } = { redos: [], undos: [] };

/** Lengths are read, cell by cell: 1/8, 3/32", 1 1/4. */
export function pasteLengths(injector: Injector): void {
  const clipboard = injector.get(ISheetClipboardService);
  clipboard.addClipboardHook({
    id: 'tarebook-lengths-in-cells',
    // Before the one that pastes, which reads what stands in the block: it would make dates of fractions.
    priority: -1,
    onPasteCells(from, { unitId, subUnitId, range }, block) {
      // Cells of this workbook are what they are.
      if (from) return NOTHING;
      const pasted = new ObjectMatrix<Nullable<ICellData>>();
      block.forValue((row, column, cell) => {
        const [r, c] = [range.rows[row], range.cols[column]];
        if (r !== undefined && c !== undefined) pasted.setValue(r, c, cell);
      });
      block.forValue((row, column, cell) => {
        const place = { unit: unitId, sheet: subUnitId, row: range.rows[row]!, column: range.cols[column]! };
        const length = pastedLength(injector, place, cell, pasted);
        if (length) block.setValue(row, column, { ...cell, ...length });
      });
      return NOTHING;
    },
  });
  clipboard.addClipboardHook({
    id: 'tarebook-lengths-in-text',
    // Behind the one that pastes: its cell is written over.
    priority: 1000,
    onPastePlainText({ unitId, subUnitId, range }, text) {
      const [row, column] = [range.rows[0]!, range.cols[0]!];
      const place = { unit: unitId, sheet: subUnitId, row, column };
      const length = pastedLength(injector, place, { v: text });
      if (!length) return NOTHING;
      // The paste that it follows may have made a date of the text, with a date's format.
      const cell = { ...length, s: numberStyleAt(injector, place) };
      const params = { unitId, subUnitId, cellValue: { [row]: { [column]: cell } } };
      return {
        redos: [{ id: SetRangeValuesMutation.id, params }],
        undos: [{ id: SetRangeValuesMutation.id, params: SetRangeValuesUndoMutationFactory(injector, params) }],
      };
    },
  });
}

const HTML = 'text/html';

/** What is pasted is cleaned. */
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

/** Elements that bring nothing to a table of cells. */
const DROPPED =
  'script, noscript, template, iframe, frame, object, embed, applet, link, base, meta[http-equiv], img, picture, source, ' +
  'svg, math, video, audio, canvas, form, input, button, textarea, select, portal';

/** Attributes of a table and of what other spreadsheets say of it; the style is cleaned by itself. */
const ATTRIBUTES =
  /^(class|id|style|colspan|rowspan|width|height|align|valign|bgcolor|color|face|size|span|name|content|type|xmlns(:\w+)?|x:\w+|data-[\w-]+)$/i;

const PROPERTIES =
  /^(color|background|background-color|font|font-(family|size|style|weight)|text-(align|decoration|decoration-line|indent)|vertical-align|white-space|border(-(top|right|bottom|left|color|style|width|collapse))*|width|height|mso-number-format|mso-rotate)$/i;

/** What could begin an address, another rule or markup, also written with escapes. */
const REACHES = /url|src|image|import|expression|@|[{}<>]|\/\*|\\/i;
const COLOR_FUNCTION = /\b(rgba?|hsla?)\([\d\s.,%/]*\)/gi;

/**
 * The document that the markup is, cleaned. Nothing in it is run or fetched on the way, either. The spreadsheet puts its
 * style sheet into the page to read it, so that a picture or a style sheet named there would be asked for from wherever
 * it says.
 */
function inertHtml(html: string): string {
  const page = new DOMParser().parseFromString(html, 'text/html');
  for (const element of page.querySelectorAll(DROPPED)) element.remove();
  for (const element of page.querySelectorAll('*'))
    for (const { name, value } of [...element.attributes])
      if (!ATTRIBUTES.test(name)) element.removeAttribute(name);
      else if (name === 'style') element.setAttribute('style', declarations(value));
  for (const style of page.querySelectorAll('style')) style.textContent = rules(style.textContent ?? '');
  return page.documentElement.outerHTML;
}

function rules(css: string): string {
  return [...css.replace(/<!--|-->/g, '').matchAll(/([^{}]+)\{([^{}]*)\}/g)]
    .map(([, selector, body]) => [selector!.trim(), declarations(body!)] as const)
    .filter(([selector, body]) => body !== '' && /^[\w\s.,#-]+$/.test(selector))
    .map(([selector, body]) => `${selector} {${body}}`)
    .join('\n');
}

function declarations(css: string): string {
  // A semicolon of a number format is written with a backslash.
  return css
    .split(/(?<!\\);/)
    .flatMap((declaration) => {
      const [, name, value] = /^\s*([\w-]+)\s*:\s*([^]+?)\s*$/.exec(declaration) ?? [];
      if (name === undefined || !PROPERTIES.test(name)) return [];
      const harmless = /^mso-number-format$/i.test(name) ? numberFormat(value!) : harmlessValue(value!);
      return harmless === undefined ? [] : [`${name}:${harmless}`];
    })
    .join(';');
}

const harmlessValue = (value: string): string | undefined =>
  REACHES.test(value) || /[()\\]/.test(value.replace(COLOR_FUNCTION, '')) ? undefined : value;

/** Formats that desktop spreadsheets give by name, as US English has them. From memory, verify. */
const NAMED_FORMATS: ReadonlyMap<string, string> = new Map([
  ['general', 'General'],
  ['general number', 'General'],
  ['fixed', '0.00'],
  ['standard', '#,##0.00'],
  ['currency', '$#,##0.00'],
  ['percent', '0.00%'],
  ['scientific', '0.00E+00'],
  ['short date', 'm/d/yyyy'],
  ['medium date', 'd-mmm-yy'],
  ['long date', 'dddd, mmmm d, yyyy'],
  ['short time', 'h:mm'],
  ['medium time', 'h:mm AM/PM'],
  ['long time', 'h:mm:ss AM/PM'],
]);

/** Signs that a number format is made of, without what stands in quotes or brackets. */
const FORMAT = /^(General|AM\/PM|[Ee][+-]|[ymdhsYMDHS0#?.,%;:$+\-/()\s_*@€£¥])*$/;

/** The spreadsheet gives up the whole block over a format that it cannot read: such a one is left out. */
function numberFormat(value: string): string | undefined {
  const text = value.replace(/^"([^]*)"$/, '$1');
  const named = NAMED_FORMATS.get(text.toLowerCase());
  if (named !== undefined) return `"${named.replace(/[^\w ]/g, '\\$&')}"`;
  // Signs are written with a backslash, quotes and others by their number.
  const plain = text
    .replace(/\\00([0-9a-f]{2})/gi, (_whole, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    .replaceAll('\\', '');
  const isReadable = FORMAT.test(plain.replace(/"[^"]*"|\[[^[\]]*\]/g, ''));
  return isReadable && !/url|[{}<>]|\/\*|@import/i.test(plain) ? `"${text}"` : undefined;
}
