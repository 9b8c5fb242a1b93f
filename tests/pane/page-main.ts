/** Runs in the browser: the pane over the embedded engine, with handles for the tests. */
import { recalculateCopy } from '../../src/calculation/recalculate-copy';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../src/hosts/univer';
import { mountPane, type Locale, type MountedPane, type ThemeName } from '../../src/pane';
import { WorkbookError, type RangeAddress, type Workbook, type WorkbookModel } from '../../src/sheet';

export interface StartOptions {
  readonly theme?: ThemeName;
  readonly today?: string;
  /** English with the numbers of the United States if left out. */
  readonly locale?: Locale;
  /** True: the pane meets a new workbook as it does the first time; else a line above the view does. */
  readonly firstRun?: boolean;
}

export interface PaneHandles {
  start(model: WorkbookModel, options: StartOptions): Promise<void>;
  workbook: Workbook;
  mounted: MountedPane;
  saved: { name: string; text: string }[];
  /** Edits a cell as a person would in the sheet. */
  type(sheet: string, row: number, column: number, value: number | string): void;
  /** Selects a cell as a person would. */
  select(range: RangeAddress): Promise<void>;
  /** The next apply is refused with this. */
  refuseNext: { code: WorkbookError['code']; message: string } | undefined;
}

const handles = {
  saved: [],
  refuseNext: undefined,
  async start(model, { theme, today, locale, firstRun }) {
    const engine = startEngine({ calculator: calculatorHere });
    loadWorkbook(engine, model, 'book', 'Test');
    await calculate(engine);
    const workbook = new UniverWorkbook(engine, 'book', 'headless', 'Test');
    const apply = workbook.apply.bind(workbook);
    workbook.apply = async (label, edits) => {
      const refused = handles.refuseNext;
      handles.refuseNext = undefined;
      if (refused) throw new WorkbookError(refused.code, refused.message);
      return apply(label, edits);
    };
    handles.workbook = workbook;
    handles.type = (sheet, row, column, value) =>
      void engine.api.getWorkbook('book')!.getSheetByName(sheet)!.getRange(row, column).setValue(value);
    handles.select = (range) => workbook.select(range);
    if (!firstRun) localStorage.setItem('tarebook.pane.start', 'later');
    handles.mounted = mountPane(document.getElementById('pane')!, workbook, {
      ...(theme ? { theme } : {}),
      ...(locale ? { locale } : {}),
      loadRecalculate: () => Promise.resolve(recalculateCopy),
      today: () => today ?? '2026-03-31',
      helpUrl: (name) => `/help/${name}.html`,
      saveFile: (name, text) => handles.saved.push({ name, text }),
    });
  },
} as Partial<PaneHandles> as PaneHandles;

declare global {
  interface Window {
    handles: PaneHandles;
  }
}
window.handles = handles;
