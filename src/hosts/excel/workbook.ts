/** The Workbook port over Excel, by Office.js. */
import {
  checkEdits,
  inTurn,
  sheetOfEdit,
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
} from '../../sheet';
import { firstTyped, WorkbookEvents, type Touch } from './events';
import { explainCell } from './explain';
import {
  answered,
  askNames,
  askSheetNames,
  askSheets,
  askSmall,
  askUsed,
  CELLS_A_SYNC,
  isExcelError,
  PLACE,
  placeOf,
  rangeOf,
  readRanges,
  readSheets,
  run,
  runAsOne,
  supports,
  tableNamed,
  Tables,
} from './requests';
import { queueStep, stepsOf, weightOf, type Step } from './steps';

/** So that a pane left open for weeks does not keep every edit. */
const MOST_REMEMBERED = 100;

/** What takes an action back, or makes it again, and the sheets that it changes. */
interface Action {
  readonly steps: readonly Step[];
  readonly sheets: readonly string[];
  /** How many edits by the person had been told of when it was made. */
  readonly since: number;
}

/** Over the workbook in which the add-in runs: `ExcelWorkbook.open()`. */
export class ExcelWorkbook implements Workbook {
  readonly host = 'excel';
  private readonly events = new WorkbookEvents(
    () => this.selection(),
    () => this.forget(),
    (touch) => {
      if (this.done.length + this.undone.length > 0) this.typed.push(touch);
    },
  );
  private done: Action[] = [];
  private undone: Action[] = [];
  /** What the person edited, in the order of the telling. */
  private typed: Touch[] = [];
  /** Edits are made one after the other. */
  private readonly inTurn = inTurn();

  private constructor(
    readonly title: string,
    private readonly tableList: Tables,
  ) {}

  /** The open workbook, listened to from now on. */
  static async open(): Promise<ExcelWorkbook> {
    return run(async (context) => {
      context.workbook.load('name');
      const tables = context.workbook.tables.getCount();
      await context.sync();
      const opened = new ExcelWorkbook(context.workbook.name, new Tables(tables.value));
      opened.events.register(context);
      await context.sync();
      return opened;
    });
  }

  dispose(): Promise<void> {
    return this.events.dispose();
  }

  sheets(): Promise<readonly SheetInfo[]> {
    return answered(askSheets);
  }

  outline(small: readonly string[] = []): Promise<WorkbookOutline> {
    return run(async (context) => {
      const { tables, asked } = await this.tableList.list(context, () => ({
        sheets: askSheets(context),
        cells: small.map((sheet) => askSmall(context, sheet)),
      }));
      return { sheets: asked.sheets(), tables, cells: asked.cells.map((read) => read()) };
    });
  }

  readSheets(requests: readonly SheetRequest[]): Promise<readonly (SheetContent | undefined)[]> {
    return run((context) => readSheets(context, requests));
  }

  usedRange(sheet: string): Promise<RangeAddress | undefined> {
    return answered((context) => askUsed(context, sheet));
  }

  async read(range: RangeAddress): Promise<Cell[][]> {
    return (await run((context) => readRanges(context, [{ range }])))[0]!.values;
  }

  async readFormulas(range: RangeAddress): Promise<(string | null)[][]> {
    return (await run((context) => readRanges(context, [{ range, formulas: true }])))[0]!.formulas!;
  }

  tables(): Promise<readonly TableModel[]> {
    return run(async (context) => (await this.tableList.list(context, () => undefined)).tables);
  }

  names(): Promise<readonly NameModel[]> {
    return answered(askNames);
  }

  /** Two syncs: one to see whether every edit can be made, for Excel takes nothing back of a request that fails half way, and one to make them. */
  apply(_label: string, edits: readonly Edit[]): Promise<void> {
    return this.inTurn(() =>
      runAsOne(async (context) => {
        const { tables, checked } = await this.check(context, edits);
        const steps = stepsOf(checked, tables);
        if (steps.length === 0) return;
        const sheets = sheetsOf(checked, tables);
        const undoing = await this.events.whileOwn(() => perform(context, steps));
        this.keep({ steps: undoing, sheets, since: this.typed.length });
        this.undone = [];
        this.events.tell({ sheets, by: 'pane' });
      }),
    );
  }

  undo(): Promise<boolean> {
    return this.inTurn(() => this.makeAgain(this.done, (action) => this.undone.push(action)));
  }

  redo(): Promise<boolean> {
    return this.inTurn(() => this.makeAgain(this.undone, (action) => this.keep(action)));
  }

  selection(): Promise<RangeAddress | undefined> {
    return answered((context) => {
      const selected = context.workbook.getSelectedRange();
      selected.load(`${PLACE},worksheet/name`);
      return () => placeOf(selected.worksheet.name, selected);
    }).catch((error: unknown) => {
      // A chart, or several ranges at once.
      if (error instanceof WorkbookError && isExcelError(error.cause, 'InvalidSelection')) return undefined;
      throw error;
    });
  }

  select(range: RangeAddress): Promise<void> {
    return run(async (context) => {
      context.workbook.worksheets.getItem(range.sheet).activate();
      rangeOf(context, range).select();
      await context.sync();
    });
  }

  /** Excel says it by the number of a day; its cells are read as the file counts, whatever they show. */
  dates1904(): Promise<Dates1904 | undefined> {
    return answered((context) => {
      const day = context.workbook.functions.date(1904, 1, 2);
      day.load('value');
      return () => (day.value === 1 ? { shown: [] } : undefined);
    });
  }

  /** Excel calculates everything. */
  notRecalculated(): Promise<readonly MarkedPlace[]> {
    return Promise.resolve([]);
  }

  explain(sheet: string, row: number, column: number): Promise<string | undefined> {
    return run((context) => explainCell(context, { sheet, row, column, rows: 1, columns: 1 }));
  }

  onChange(listener: (change: WorkbookChange) => void): Unsubscribe {
    return this.events.onChange(listener);
  }

  onSelection(listener: (range: RangeAddress) => void): Unsubscribe {
    return this.events.onSelection(listener);
  }

  /** Throws what stands against the edits; gives those that are to be made, and the tables as they stand before them. */
  private async check(
    context: Excel.RequestContext,
    edits: readonly Edit[],
  ): Promise<{ readonly tables: readonly TableModel[]; readonly checked: readonly Edit[] }> {
    const { tables, asked } = await this.tableList.list(context, () => ({
      sheets: askSheets(context),
      names: askNames(context),
    }));
    const sheets = asked.sheets();
    const empty = await emptySheets(context, edits, sheets);
    const shape = {
      sheets,
      isEmpty: (sheet: string): boolean => empty.has(sheet.toLowerCase()),
      tables,
      names: asked.names().map(({ name }) => name),
      refersTo: asked.names().map(({ refersTo }) => refersTo),
    };
    return { tables, checked: checkEdits(shape, edits) };
  }

  private async makeAgain(from: Action[], keep: (action: Action) => void): Promise<boolean> {
    const action = from.at(-1);
    if (!action) return false;
    await runAsOne(async (context) => {
      await this.refuseTyped(context, action);
      from.pop();
      const steps = await this.events.whileOwn(() => perform(context, action.steps));
      keep({ ...action, steps, since: this.typed.length });
    });
    this.events.tell({ sheets: action.sheets, by: 'pane' });
    return true;
  }

  /** Throws where the person typed after the action into what it would write or delete now. */
  private async refuseTyped(context: Excel.RequestContext, { steps, since }: Action): Promise<void> {
    const touches = this.typed.slice(since);
    if (touches.length === 0) return;
    const { tables, asked } = await this.tableList.list(context, () => askSheetNames(context));
    const names = asked();
    const found = firstTyped(steps, touches, (id) => names.get(id), tables);
    if (found)
      throw new WorkbookError(
        'typed-since',
        `${found.sheet}!${found.address} was changed in the sheet after this step, and that would be lost. Nothing is taken back`,
      );
  }

  private keep(action: Action): void {
    this.done = [...this.done, action].slice(-MOST_REMEMBERED);
  }

  private forget(): void {
    this.done = [];
    this.undone = [];
    this.typed = [];
  }
}

/** Which of the sheets that are to be removed are empty: no value or format in any cell, no chart or picture. Syncs where there are some. */
async function emptySheets(
  context: Excel.RequestContext,
  edits: readonly Edit[],
  sheets: readonly SheetInfo[],
): Promise<ReadonlySet<string>> {
  const named = edits.flatMap((edit) => (edit.kind === 'removeSheet' ? [edit.name.toLowerCase()] : []));
  const asked = sheets.flatMap(({ name }) => {
    if (!named.includes(name.toLowerCase())) return [];
    const sheet = context.workbook.worksheets.getItem(name);
    const used = sheet.getUsedRangeOrNullObject(false);
    used.load(PLACE);
    const drawn = [sheet.charts.getCount(), ...(supports('1.9') ? [sheet.shapes.getCount()] : [])];
    return [{ name: name.toLowerCase(), used, drawn }];
  });
  if (asked.length === 0) return new Set();
  await context.sync();
  return new Set(
    asked.flatMap(({ name, used, drawn }) =>
      used.isNullObject && drawn.every(({ value }) => value === 0) ? [name] : [],
    ),
  );
}

/** The sheets that edits change. */
function sheetsOf(edits: readonly Edit[], tables: readonly TableModel[]): string[] {
  const all = [...tables, ...edits.filter((edit) => edit.kind === 'addTable')];
  const ofTable = (name: string): string | undefined => tableNamed(all, name)?.range.sheet;
  return [...new Set(edits.map((edit) => sheetOfEdit(edit, ofTable)).filter((sheet) => sheet !== undefined))];
}

/** Makes steps in as few syncs as their cells allow; gives the steps that take them back, in their order. */
async function perform(context: Excel.RequestContext, steps: readonly Step[]): Promise<Step[]> {
  const undoing: (() => Step)[] = [];
  let weight = 0;
  for (const step of steps) {
    if (weight > 0 && weight + weightOf(step) > CELLS_A_SYNC) {
      await context.sync();
      weight = 0;
    }
    undoing.push(queueStep(context, step));
    weight += weightOf(step);
  }
  await context.sync();
  return undoing.map((step) => step()).reverse();
}
