/** Excel as an add-in finds it: Microsoft's client library, whose requests a workbook of ours answers. */
import { cellName } from '../../../../src/sheet';
import { typedCell, type FakeBook } from '../fake/book';
import { calculate } from '../fake/calculation';
import { answerBy, client, tell, type Client } from './library';
import type { Surroundings } from './objects';
import { Server, type Request } from './requests';
import { workbook } from './workbook';

export interface FakeExcelOptions {
  /** The ExcelApi requirement set that this Excel has. */
  readonly version?: string;
  /** False: formulas keep the values that they were given, so that a test says itself when Excel recalculates. */
  readonly calculates?: boolean;
}

/** Requirement sets of ExcelApi are counted in their second number. */
const numberOf = (version: string): number => Number(version.split('.')[1]);

/** With a request that nothing waits for the library lets go of the ranges that a batch asked about. */
const isCleaning = ({ Actions }: Request): boolean =>
  Actions.some(({ Name }) => Name === '_RemoveReference') &&
  Actions.every(({ Name }) => Name === '_RemoveReference' || Name === '');

export class FakeExcel {
  /** Requests that the add-in waits for. */
  readonly traffic = { syncs: 0 };
  /** What `Excel.run` was given before its batch, call by call. */
  readonly options: unknown[] = [];
  private readonly version: number;
  private readonly calculates: boolean;
  private readonly library: Client;
  private readonly selectionHandlers = new Set<(event: unknown) => void>();
  private readonly writtenTo = new Set<string>();
  private server: Server | undefined;
  private isClosed = false;

  constructor(
    readonly book: FakeBook,
    { version = '1.17', calculates = false }: FakeExcelOptions = {},
  ) {
    this.calculates = calculates;
    this.version = numberOf(version);
    this.library = client(this.supports);
  }

  /** Takes the place of the global objects; call the result to put them back. */
  install(): () => void {
    const globals = globalThis as Record<string, unknown>;
    const before = { Excel: globals.Excel, Office: globals.Office };
    const around: Surroundings = {
      book: this.book,
      written: ({ name }) => void this.writtenTo.add(name),
      selected: () => this.later(() => this.selectionHandlers.forEach((handler) => handler({}))),
    };
    const server = (this.server = new Server(workbook(around)));
    const { Excel } = client(this.supports);
    answerBy(this.library, {
      selectionHandlers: this.selectionHandlers,
      answer: (request: Request) => {
        if (!isCleaning(request)) this.traffic.syncs++;
        const answer = server.answer(request);
        if (this.writtenTo.size > 0) this.tellChanged([...this.writtenTo], 'ThisLocalAddin');
        this.writtenTo.clear();
        return answer;
      },
    });
    const run = (...args: unknown[]): Promise<unknown> => {
      this.options.push(args[0]);
      return Excel.run(...args);
    };
    globals.Excel = { ...Excel, run };
    globals.Office = { context: { requirements: { isSetSupported: this.supports } } };
    return () => {
      this.isClosed = true;
      Object.assign(globals, before);
    };
  }

  private readonly supports = (set: string, version: string): boolean =>
    set.toLowerCase() === 'excelapi' && numberOf(version) <= this.version;

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
    this.later(() => this.selectionHandlers.forEach((handler) => handler({})));
  }

  /** Excel has recalculated a sheet. */
  recalculated(sheet: string): void {
    const { id } = this.book.sheet(sheet);
    this.later(() => tell(this.library, 'calculated', { worksheetId: id }));
  }

  /** How many events Excel tells of. */
  get handlers(): number {
    return this.selectionHandlers.size + (this.server?.listening.size ?? 0);
  }

  private tellChanged(
    sheets: readonly string[],
    triggerSource: string,
    changeType = 'RangeEdited',
    address = 'A1',
  ): void {
    if (this.calculates) for (const { name } of calculate(this.book)) this.recalculated(name);
    for (const { id, name } of this.book.sheets) {
      if (!sheets.includes(name)) continue;
      // Before ExcelApi 1.14 an event does not say who made the edit.
      const source = this.version >= 14 ? { triggerSource } : {};
      this.later(() => tell(this.library, 'changed', { worksheetId: id, address, changeType, ...source }));
    }
  }

  /** As in Excel, after the request that caused it. */
  private later(work: () => void): void {
    setTimeout(() => {
      // The library is one for all workbooks of a test file: one that is closed tells the next one's listeners nothing.
      if (!this.isClosed) work();
    }, 0);
  }
}
