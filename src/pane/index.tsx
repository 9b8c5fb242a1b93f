/** The task pane: put into a page beside a workbook, whatever hosts it. */
import { createRoot } from 'react-dom/client';
import type { Workbook } from '../sheet';
import { HandOverStore } from './handover';
import { setLocale, type Locale } from './locale';
import { download } from './shared/paper';
import { browserSettings, saying, type PaneContext, type Recalculate, type Settings } from './shared/view';
import { Shell } from './shell/shell';
import type { ThemeName } from './shell/theme';

export { loadLocale, type Locale } from './locale';
export type { ThemeName } from './shell/theme';
export type { Recalculate, Settings } from './shared/view';

export interface PaneOptions {
  readonly theme?: ThemeName;
  /** Language of the texts and way of writing numbers, for all panes of the page; English if left out. */
  readonly locale?: Locale;
  /** Address of a worksheet function's help page; without it the pane shows no help links. */
  readonly helpUrl?: (functionName: string) => string;
  /** Fetches what computes a formula before it is in the workbook: a part of its own, for it is large. Without it none is. */
  readonly loadRecalculate?: () => Promise<Recalculate>;
  /** Where a person's preferences are kept; the browser's local storage if left out. */
  readonly settings?: Settings;
  /** Today as "year-month-day"; the computer's date if left out. */
  readonly today?: () => string;
  /** False where the host lets a pane neither save a file nor print, and says nothing of it. */
  readonly savesFiles?: boolean;
  /** Hands a text file to the user; a download if left out. */
  readonly saveFile?: (name: string, text: string) => void;
}

export interface MountedPane {
  unmount(): void;
  setTheme(theme: ThemeName): void;
}

/** Shows the pane in `root`, which gives it its size. */
export function mountPane(root: HTMLElement, workbook: Workbook, options: PaneOptions = {}): MountedPane {
  setLocale(options.locale);
  const pane: PaneContext = {
    workbook,
    settings: options.settings ?? browserSettings(),
    today: options.today ?? localDate,
    ...output(workbook, options),
    ...(options.helpUrl ? { helpUrl: options.helpUrl } : {}),
    ...(options.loadRecalculate ? { loadRecalculate: saying(options.loadRecalculate) } : {}),
  };
  const reactRoot = createRoot(root);
  const show = (theme: ThemeName): void => reactRoot.render(<Shell pane={pane} theme={theme} />);
  show(options.theme ?? 'light');
  return { unmount: () => reactRoot.unmount(), setTheme: show };
}

/** How files leave the pane. */
function output(
  workbook: Workbook,
  { savesFiles = true, saveFile = downloadText }: PaneOptions,
): Pick<PaneContext, 'saveFile' | 'handOver'> {
  if (savesFiles) return { saveFile: (name, text) => void saveFile(name, text) };
  const handOver = new HandOverStore(workbook);
  return {
    handOver,
    saveFile(name, text) {
      void handOver.take(name, text);
      return false;
    },
  };
}

function localDate(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}

const TYPES: Readonly<Record<string, string>> = { csv: 'text/csv', html: 'text/html', dxf: 'image/vnd.dxf' };

function downloadText(name: string, text: string): void {
  const ending = name.slice(name.lastIndexOf('.') + 1);
  // The mark at the start tells spreadsheets that the text is UTF-8; programs that read drawings stumble over it.
  const parts = ending === 'csv' ? ['\uFEFF', text] : [text];
  download(name, new Blob(parts, { type: `${TYPES[ending] ?? 'text/plain'};charset=utf-8` }));
}
