/** Entry of the task pane in Excel: waits for Office, opens the workbook and shows the pane; says plainly where it cannot. */
import { loadLocale, mountPane, type Locale } from '../../pane';
import { REFERENCE } from './reference-folder';
import { onThemeLook, themeFor } from './theme';
import { ExcelWorkbook } from './workbook';

/** Office answers within this many ms, or is not there. */
const PATIENCE = 10_000;

const forcedColors = matchMedia('(forced-colors: active)');

/** Larger than all of ours that only Excel needs: fetched beside the pane, while Office gets ready. */
const helpers = import('./office-helpers');
// Where it cannot be fetched, that is said when it is needed.
helpers.catch(() => undefined);

void start(document.getElementById('root')!);

async function start(root: HTMLElement): Promise<void> {
  try {
    if (typeof Office === 'undefined') return showOutside(root);
    const { excelSettings, isInExcel, savesFiles } = await helpers;
    if (!(await officeIsReady(isInExcel))) return showOutside(root);
    const [workbook, locale] = await Promise.all([ExcelWorkbook.open(), hostLocale()]);
    const pane = mountPane(root, workbook, {
      theme: currentTheme(),
      locale,
      loadRecalculate: async () => (await import('../../calculation/recalculate-copy')).recalculateCopy,
      savesFiles: savesFiles(),
      settings: excelSettings((Office.context as { partitionKey?: string }).partitionKey),
      helpUrl: (name) => `../functions/${REFERENCE}/${name}.html`,
    });
    let shown = currentTheme();
    onThemeLook(window, forcedColors, () => {
      const theme = currentTheme();
      if (theme !== shown) pane.setTheme((shown = theme));
    });
  } catch (error) {
    const { logFault, platformName } = await helpers.catch(() => WITHOUT_HELPERS);
    logFault(error);
    showNotice(root, 'Tarebook could not open the workbook', [
      error instanceof Error ? error.message : String(error),
      `Close the pane and open it again. If that does not help, report this text; Excel runs on ${platformName()}.`,
    ]);
  }
}

const WITHOUT_HELPERS = {
  logFault: (fault: unknown) => console.error(fault),
  platformName: () => 'an unknown platform',
};

/** True in Excel, false in a page of its own. */
const officeIsReady = (isInExcel: () => boolean): Promise<boolean> =>
  Promise.race([
    Office.onReady().then(isInExcel),
    new Promise<boolean>((resolve) => setTimeout(() => resolve(false), PATIENCE)),
  ]);

/** The language of Excel's own menus, and the one that is edited in, by which numbers are written. */
function hostLocale(): Promise<Locale> {
  const { displayLanguage, contentLanguage } = Office.context as Partial<Office.Context>;
  return loadLocale(displayLanguage ?? navigator.language, contentLanguage ?? navigator.language);
}

const currentTheme = () => themeFor(Office.context.officeTheme?.bodyBackgroundColor, forcedColors.matches);

function showOutside(root: HTMLElement): void {
  showNotice(root, 'This page belongs beside a workbook in Excel', [
    'Excel shows it as a pane when the add-in is installed. Without Excel, the bench has the same spreadsheet, functions and pane in the browser.',
  ]);
  root.firstElementChild!.append(element('a', { href: '../bench/index.html', textContent: 'Open the bench' }));
}

/** A page of plain text, with no help of what failed. */
function showNotice(root: HTMLElement, title: string, lines: readonly string[]): void {
  const notice = element('div', { className: 'notice' });
  notice.append(element('h1', { textContent: title }), ...lines.map((line) => element('p', { textContent: line })));
  root.replaceChildren(notice);
}

const element = <K extends keyof HTMLElementTagNameMap>(
  tag: K,
  properties: Partial<HTMLElementTagNameMap[K]>,
): HTMLElementTagNameMap[K] => Object.assign(document.createElement(tag), properties);
