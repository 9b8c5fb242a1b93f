/** A stand-in for Excel and Office, put in the place of the globals that a script finds in an add-in. */
import { cellName } from '../../../../src/sheet';
import { FakeBook, typedCell } from './book';
import { calculate } from './calculation';
import { FakeContext, type Traffic } from './client-object';
import { EventHandlers, Workbook, type Events } from './workbook';

export interface FakeExcelOptions {
  /** The ExcelApi requirement set that this Excel has. */
  readonly version?: string;
  /** False: formulas keep the values that they were given, so that a test says itself when Excel recalculates. */
  readonly calculates?: boolean;
}

export class FakeExcel {
  readonly traffic: Traffic = { syncs: 0 };
  private readonly events: Events = {
    changed: new EventHandlers(),
    calculated: new EventHandlers(),
    selected: new EventHandlers(),
  };
  private readonly version: number;
  /** What `Excel.run` was given before its batch, call by call. */
  readonly options: unknown[] = [];
  private readonly calculates: boolean;

  constructor(
    readonly book: FakeBook,
    { version = '1.17', calculates = false }: FakeExcelOptions = {},
  ) {
    this.calculates = calculates;
    this.version = Number(version.split('.')[1]);
  }

  /** Takes the place of the global objects; call the result to put them back. */
  install(): () => void {
    const globals = globalThis as Record<string, unknown>;
    const before = { Excel: globals.Excel, Office: globals.Office };
    globals.Excel = { run: this.run };
    globals.Office = {
      context: {
        requirements: {
          isSetSupported: (set: string, version: string) =>
            set === 'ExcelApi' && Number(version.split('.')[1]) <= this.version,
        },
      },
    };
    return () => Object.assign(globals, before);
  }

  private readonly run = async (...args: unknown[]): Promise<unknown> => {
    const batch = args.at(-1) as (context: FakeContext) => Promise<unknown>;
    const [first] = args;
    this.options.push(first);
    const context = first instanceof FakeContext ? first : this.context();
    const result = await batch(context);
    await context.sync();
    return result;
  };

  private context(): FakeContext {
    const context = new FakeContext(this.book, this.traffic, (sheets) => this.tellChanged(sheets, 'ThisLocalAddin'));
    context.workbook = new Workbook(context, this.events);
    context.onSelected = () => this.tell(this.events.selected, {});
    return context;
  }

  /** A person types into a cell. */
  type(sheet: string, row: number, column: number, value: string | number): void {
    this.book.sheet(sheet).set(row, column, typedCell(value));
    this.tellChanged([sheet], 'Unknown', 'RangeEdited', cellName(row, column));
  }

  /** A person inserts a row into a sheet. */
  insertRow(sheet: string, row: number): void {
    this.book.sheet(sheet).shift(row, 0, 100, 1);
    this.tellChanged([sheet], 'Unknown', 'RowInserted');
  }

  /** A person selects nothing that is a range: a chart. */
  selectChart(): void {
    this.book.selection = undefined;
    this.tell(this.events.selected, {});
  }

  /** Excel has recalculated a sheet. */
  recalculated(sheet: string): void {
    this.tell(this.events.calculated, { worksheetId: this.book.sheet(sheet).id });
  }

  get handlers(): number {
    return Object.values(this.events).reduce((sum: number, kind: EventHandlers) => sum + kind.active.size, 0);
  }

  private tellChanged(
    sheets: readonly string[],
    triggerSource: string,
    changeType = 'RangeEdited',
    address = 'A1',
  ): void {
    if (this.calculates) for (const { name } of calculate(this.book)) this.recalculated(name);
    // Before ExcelApi 1.14 an event does not say who made the edit.
    for (const { id, name } of this.book.sheets) {
      if (sheets.includes(name))
        this.tell(this.events.changed, {
          worksheetId: id,
          address,
          changeType,
          ...(this.version >= 14 && { triggerSource }),
        });
    }
  }

  private tell(kind: EventHandlers, event: unknown): void {
    // As in Excel, after the request that caused it.
    setTimeout(() => kind.active.forEach((handler) => void handler(event)), 0);
  }
}
