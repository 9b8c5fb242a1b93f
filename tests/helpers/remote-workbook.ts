/** The Workbook of a page in the browser, from the test's side: every call crosses over, with errors as they were. */
import type { Page } from 'playwright-core';
import {
  CellError,
  WorkbookError,
  type Cell,
  type Edit,
  type Dates1904,
  type MarkedPlace,
  type NameModel,
  type WorkbookOutline,
  type RangeAddress,
  type SheetContent,
  type SheetInfo,
  type SheetRequest,
  type TableModel,
  type Unsubscribe,
  type Workbook,
  type WorkbookChange,
} from '../../src/sheet';

type Crossed = { readonly crossedError: string; readonly message: string };
type Answer =
  | { readonly value: unknown }
  | { readonly thrown: { readonly name: string; readonly code: string; readonly message: string } };

const EVENTS = 'tarebookEvent';

/** The last one over each page. */
const latest = new WeakMap<Page, RemoteWorkbook>();

export class RemoteWorkbook implements Workbook {
  readonly host = 'bench';
  private readonly onChangeListeners = new Set<(change: WorkbookChange) => void>();
  private readonly onSelectionListeners = new Set<(range: RangeAddress) => void>();

  private constructor(
    private readonly page: Page,
    readonly title: string,
  ) {}

  /** Over the workbook that is now open in the page; one that was open before hears nothing any more. */
  static async over(page: Page): Promise<RemoteWorkbook> {
    const remote = new RemoteWorkbook(page, await page.evaluate(() => window.tarebook!.workbook!.title));
    if (!latest.has(page)) {
      await page.exposeFunction(EVENTS, (kind: 'change' | 'selection', detail: never) => {
        const { onChangeListeners, onSelectionListeners } = latest.get(page)!;
        if (kind === 'change') onChangeListeners.forEach((listener) => listener(detail));
        else onSelectionListeners.forEach((listener) => listener(detail));
      });
    }
    latest.set(page, remote);
    await page.evaluate((name) => {
      const tell = (window as unknown as Record<string, (kind: string, detail: unknown) => void>)[name]!;
      window.tarebook!.workbook!.onChange((change) => tell('change', change));
      window.tarebook!.workbook!.onSelection((range) => tell('selection', range));
    }, EVENTS);
    return remote;
  }

  sheets = (): Promise<readonly SheetInfo[]> => this.call('sheets');
  outline = (small?: readonly string[]): Promise<WorkbookOutline> => this.call('outline', small);
  readSheets = (requests: readonly SheetRequest[]): Promise<readonly (SheetContent | undefined)[]> =>
    this.call('readSheets', requests);
  usedRange = (sheet: string): Promise<RangeAddress | undefined> => this.call('usedRange', sheet);
  read = (range: RangeAddress): Promise<Cell[][]> => this.call('read', range);
  readFormulas = (range: RangeAddress): Promise<(string | null)[][]> => this.call('readFormulas', range);
  tables = (): Promise<readonly TableModel[]> => this.call('tables');
  names = (): Promise<readonly NameModel[]> => this.call('names');
  apply = (label: string, edits: readonly Edit[]): Promise<void> => this.call('apply', label, edits);
  undo = (): Promise<boolean> => this.call('undo');
  redo = (): Promise<boolean> => this.call('redo');
  selection = (): Promise<RangeAddress | undefined> => this.call('selection');
  select = (range: RangeAddress): Promise<void> => this.call('select', range);
  dates1904 = (): Promise<Dates1904 | undefined> => this.call('dates1904');
  notRecalculated = (): Promise<readonly MarkedPlace[]> => this.call('notRecalculated');
  explain = (sheet: string, row: number, column: number): Promise<string | undefined> =>
    this.call('explain', sheet, row, column);

  onChange(listener: (change: WorkbookChange) => void): Unsubscribe {
    this.onChangeListeners.add(listener);
    return () => this.onChangeListeners.delete(listener);
  }

  onSelection(listener: (range: RangeAddress) => void): Unsubscribe {
    this.onSelectionListeners.add(listener);
    return () => this.onSelectionListeners.delete(listener);
  }

  private async call<T>(method: string, ...args: unknown[]): Promise<T> {
    const answer = await this.page.evaluate<Answer, [string, unknown[]]>(
      async ([name, given]) => {
        const isError = (value: unknown): value is { code: string; message: string } =>
          typeof value === 'object' && value !== null && 'code' in value && 'message' in value;
        const cross = (value: unknown): unknown =>
          Array.isArray(value)
            ? value.map(cross)
            : isError(value)
              ? ({ crossedError: value.code, message: value.message } satisfies Crossed)
              : value;
        try {
          const workbook = window.tarebook!.workbook! as unknown as Record<
            string,
            (...rest: unknown[]) => Promise<unknown>
          >;
          return { value: cross(await workbook[name]!(...given)) };
        } catch (error) {
          const { name: kind, code, message } = error as { name: string; code: string; message: string };
          return { thrown: { name: kind, code, message } };
        }
      },
      [method, args],
    );
    if (!('thrown' in answer)) return uncross(answer.value) as T;
    const { name, code, message } = answer.thrown;
    throw name === 'WorkbookError'
      ? new WorkbookError(code as WorkbookError['code'], message)
      : new Error(`${name}: ${message}`);
  }
}

function uncross(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(uncross);
  if (typeof value === 'object' && value !== null && 'crossedError' in value) {
    const { crossedError, message } = value as Crossed;
    return new CellError(crossedError as CellError['code'], message);
  }
  return value;
}
