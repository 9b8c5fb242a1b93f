/**
 * What Excel tells of changes and selections, gathered and told on; and what a person typed after a step of ours: taking
 * the step back must not delete it.
 */
import { Listeners } from '../../core/listeners';
import {
  overlap,
  parseRange,
  type RangeAddress,
  type TableModel,
  type Unsubscribe,
  type WorkbookChange,
} from '../../sheet';
import { answered, askSheetNames, supports, tableNamed } from './requests';
import type { Step } from './steps';

/** Excel tells of an edit and of what it recalculated one sheet at a time: what comes within this many ms is one change. */
const GATHERING = 30;
/** An Excel that does not say who made an edit: for this many ms after one of ours, its sheet's events may be ours. */
const ECHO = 1000;

/** Tells the listeners of one workbook what happened in it. */
export class WorkbookEvents {
  private readonly changeListeners = new Listeners<[change: WorkbookChange]>();
  private readonly selectionListeners = new Listeners<[range: RangeAddress]>();
  private readonly edited = new Set<string>();
  private readonly calculated = new Set<string>();
  private handlers: OfficeExtension.EventHandlerResult<unknown>[] = [];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private ownUntil = 0;

  /**
   * @param selection    asks for the selection
   * @param onRestructured called when a person moved cells, so that remembered places no longer hold
   * @param onTyped        called when a person edited cells
   */
  constructor(
    private readonly selection: () => Promise<RangeAddress | undefined>,
    private readonly onRestructured: () => void,
    private readonly onTyped: (touch: Touch) => void,
  ) {}

  /** Registers with Excel; takes effect with the next sync. What this Excel cannot tell of is not told. */
  register(context: Excel.RequestContext): void {
    const { workbook } = context;
    this.handlers = [
      workbook.onSelectionChanged.add(async () => this.tellSelection()),
      ...(supports('1.9') ? [workbook.worksheets.onChanged.add(async (event) => this.onEdited(event))] : []),
      ...(supports('1.8')
        ? [workbook.worksheets.onCalculated.add(async ({ worksheetId }) => this.gather(this.calculated, worksheetId))]
        : []),
    ];
  }

  /** Takes the registrations back. */
  async dispose(): Promise<void> {
    clearTimeout(this.timer);
    const handlers = this.handlers.splice(0);
    const [first] = handlers;
    if (!first) return;
    await Excel.run(first.context as Excel.RequestContext, async (context) => {
      for (const handler of handlers) handler.remove();
      await context.sync();
    });
  }

  onChange(listener: (change: WorkbookChange) => void): Unsubscribe {
    return this.changeListeners.add(listener);
  }

  onSelection(listener: (range: RangeAddress) => void): Unsubscribe {
    return this.selectionListeners.add(listener);
  }

  /** Makes edits of ours: what an Excel that names nobody tells of meanwhile, and for a while after, may be their echo. */
  async whileOwn<T>(work: () => Promise<T>): Promise<T> {
    this.ownUntil = Infinity;
    try {
      return await work();
    } finally {
      this.ownUntil = Date.now() + ECHO;
    }
  }

  private onEdited({ worksheetId, address, changeType, triggerSource }: Excel.WorksheetChangedEventArgs): void {
    if (triggerSource === 'ThisLocalAddin') return;
    const unsure = triggerSource === undefined && Date.now() < this.ownUntil;
    if (!unsure && changeType !== 'RangeEdited') this.onRestructured();
    else if (!unsure) this.onTyped({ worksheetId, address: address ?? '' });
    // Told as results where it may be our own echo: the pane reads again, and nothing is taken for a person's edit.
    this.gather(unsure ? this.calculated : this.edited, worksheetId);
  }

  private gather(into: Set<string>, worksheetId: string): void {
    into.add(worksheetId);
    if (this.changeListeners.isEmpty) return this.forget();
    // A workbook that is closing answers no more: then there is nobody to tell either.
    this.timer ??= setTimeout(() => void this.flush().catch(() => undefined), GATHERING);
  }

  private forget(): void {
    this.edited.clear();
    this.calculated.clear();
  }

  private async flush(): Promise<void> {
    this.timer = undefined;
    const [edited, all] = [[...this.edited], new Set([...this.edited, ...this.calculated])];
    this.forget();
    // Asked anew each time, since a person may rename a sheet.
    const names = await answered(askSheetNames);
    const sheets = [...all].flatMap((id) => names.get(id) ?? []);
    if (sheets.length > 0) this.tell({ sheets, by: edited.length > 0 ? 'user' : 'recalculation' });
  }

  private async tellSelection(): Promise<void> {
    if (this.selectionListeners.isEmpty) return;
    const range = await this.selection();
    if (range) this.selectionListeners.tell(range);
  }

  /** Tells the listeners. */
  tell(change: WorkbookChange): void {
    this.changeListeners.tell(change);
  }
}

/** A place that a person edited, as Excel tells it. */
export interface Touch {
  readonly worksheetId: string;
  /** "B3" or "B3:C9"; several, whole rows and whole columns are told in other forms. */
  readonly address: string;
}

/** A place on a sheet; without a range, somewhere on it. */
interface Place {
  readonly sheet: string;
  readonly range: RangeAddress | undefined;
}

/** The first touch in whose place one of the steps would write or delete; undefined where they keep clear of all. */
export function firstTyped(
  steps: readonly Step[],
  touches: readonly Touch[],
  nameOf: (worksheetId: string) => string | undefined,
  tables: readonly TableModel[],
): { readonly sheet: string; readonly address: string } | undefined {
  const places = placesOf(steps, tables);
  for (const { worksheetId, address } of touches) {
    const sheet = nameOf(worksheetId);
    // A sheet that is gone holds nothing any more.
    if (sheet === undefined) continue;
    const range = parseRange(address, sheet);
    if (places.some((place) => place.sheet === sheet && (!place.range || !range || overlap(place.range, range))))
      return { sheet, address };
  }
  return undefined;
}

function placesOf(steps: readonly Step[], tables: readonly TableModel[]): Place[] {
  /** Sheets on which an earlier step moves rows, so that the places of later ones are not those of now. */
  const moved = new Set<string>();
  return steps.flatMap((step): Place[] => {
    switch (step.kind) {
      case 'cells': {
        const { sheet } = step.range;
        return [{ sheet, range: moved.has(sheet) ? undefined : step.range }];
      }
      case 'removeSheet':
        return [{ sheet: step.name, range: undefined }];
      case 'insertRows':
      case 'removeRows':
      case 'firstRow': {
        const table = tableNamed(tables, step.table)?.range;
        if (!table) return [];
        const { sheet } = table;
        const [at, rows] = step.kind === 'removeRows' ? [step.at, step.count] : [0, 1];
        const range = moved.has(sheet) ? undefined : { ...table, row: table.row + 1 + at, rows };
        if (step.kind !== 'firstRow') moved.add(sheet);
        return step.kind === 'insertRows' ? [] : [{ sheet, range }];
      }
      default:
        return [];
    }
  });
}
