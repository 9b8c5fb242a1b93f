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
  /** Takes away what an earlier start showed, and what it left. */
  end(): void;
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
  /** What every apply waits for, as a slow sheet would have it wait. */
  holding: Promise<void> | undefined;
}

/** The engine's modules remember formulas by a workbook's id, also where the workbook has gone. */
let opened = 0;

const handles = {
  end: () => undefined,
  async start(model, { theme, today, locale, firstRun }) {
    const engine = startEngine({ calculator: calculatorHere });
    const id = `book ${(opened += 1)}`;
    loadWorkbook(engine, model, id, 'Test');
    await calculate(engine);
    const workbook = new UniverWorkbook(engine, id, 'headless', 'Test');
    handles.saved = [];
    handles.refuseNext = undefined;
    handles.holding = undefined;
    const apply = workbook.apply.bind(workbook);
    workbook.apply = async (label, edits) => {
      const refused = handles.refuseNext;
      handles.refuseNext = undefined;
      await handles.holding;
      if (refused) throw new WorkbookError(refused.code, refused.message);
      return apply(label, edits);
    };
    handles.workbook = workbook;
    handles.type = (sheet, row, column, value) =>
      void engine.api.getWorkbook(id)!.getSheetByName(sheet)!.getRange(row, column).setValue(value);
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
    handles.end = () => {
      handles.end = () => undefined;
      handles.mounted.unmount();
      workbook.dispose();
      engine.univer.dispose();
      localStorage.clear();
      // What a test put beside the pane.
      document.body.replaceChildren(document.getElementById('pane')!);
    };
  },
} as Partial<PaneHandles> as PaneHandles;

declare global {
  interface Window {
    handles: PaneHandles;
  }
}
window.handles = handles;
