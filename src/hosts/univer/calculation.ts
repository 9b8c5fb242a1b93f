/**
 * Calculation of the workbooks that the engine holds: by the calculator alone, the same that `tarebook recalc` uses.
 * It holds a mirror of every open workbook, follows its edits, calculates what depends on them, and gives the engine
 * the cells that changed. The engine's own calculation is never made, so no formula and no fault can go there.
 */
import {
  CommandType,
  ICommandService,
  type ICommandInfo,
  type IDisposable,
  type IExecutionOptions,
  type Injector,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { OtherFormulaMarkDirty } from '@univerjs/engine-formula';
import {
  AddWorksheetMergeMutation,
  RemoveWorksheetMergeMutation,
  SetRowHiddenMutation,
  SetRowVisibleMutation,
  SetStyleCommand,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import { Listeners } from '../../core/listeners';
import { entryOf } from '../../core/memoized';
import type { Result, WorkbookModel } from '../../sheet';
import type { Answer, Request, UnknownInBook } from '../../calculation/service';
import { bookOf, openBooks } from './places';
import type { CalculatorHost, CalculatorPort } from './calculator-port';
import { SetFiltersMutation } from './filters';
import { CellRules, type ErrorMessages } from './answers';
import { Mirror, type NotRecalculated, type WrittenFormula } from './mirror';
import { CELLS_CHANGE } from './structure';
import type { Turns } from './turns';

/** What has something calculated: other cells, other rows for subtotals, other rules of cells. */
const STARTS = new Set<string>([
  ...CELLS_CHANGE,
  AddWorksheetMergeMutation.id,
  RemoveWorksheetMergeMutation.id,
  SetRowHiddenMutation.id,
  SetRowVisibleMutation.id,
  SetFiltersMutation.id,
  OtherFormulaMarkDirty.id,
]);

/** How far a long calculation has come. */
export interface Progress {
  readonly done: number;
  readonly total: number;
}

/** A calculator that dies as often as this over the same workbook is not started again until something is edited. */
const MOST_DEATHS = 2;

export class Calculation {
  private readonly mirrors = new Map<string, Mirror>();
  private readonly rules: CellRules;
  private readonly subscription: IDisposable;
  private readonly doneListeners = new Listeners<[]>();
  private readonly writtenListeners = new Listeners<[unit: string, sheets: readonly string[]]>();
  private readonly progressListeners = new Listeners<[progress: Progress]>();
  private port: CalculatorPort | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** What went wrong in the last calculation; undefined where nothing did. The cells then keep their values. */
  fault: unknown;
  /** True after `stop`, until `all`: cells that were not calculated keep their values. */
  isStopped = false;
  /** How often in a row the calculator has died before it was done. */
  private deaths = 0;

  constructor(
    private readonly injector: Injector,
    private readonly messages: ErrorMessages,
    private readonly host: CalculatorHost,
    private readonly turns: Turns,
  ) {
    this.rules = new CellRules(injector);
    this.subscription = injector
      .get(ICommandService)
      .onCommandExecuted((command, options) => this.follow(command, options));
  }

  /** True when everything that was edited is calculated. */
  get isDone(): boolean {
    return this.timer === undefined && ![...this.mirrors.values()].some(({ isBusy }) => isBusy);
  }

  /** Calculates every formula of every workbook. */
  all(): void {
    this.isStopped = false;
    for (const mirror of this.mirrors.values()) if (!mirror.isFresh) mirror.forget();
    this.run();
  }

  /** Ends a calculation that takes too long; nothing is calculated then until it is asked for. */
  stop(): void {
    if (this.isDone) return;
    this.isStopped = true;
    this.endPort();
    this.doneListeners.tell();
  }

  /** Resolves when everything that was edited is calculated. */
  whenDone(): Promise<void> {
    if (this.isDone) return Promise.resolve();
    return new Promise((resolve) => {
      const stop = this.onDone(() => {
        if (!this.isDone) return;
        stop();
        resolve();
      });
    });
  }

  /** The formulas of a workbook that was just read from a file: those that cannot be calculated keep their values. */
  opened(unit: string, model: WorkbookModel): void {
    this.mirrorOf(bookOf(this.injector, unit)!).file = model;
  }

  /** The same for one that the calculator has read, with what that gave; `book` is left out where the calculator is to be sent its cells all the same. */
  adopt(unit: string, book: string | undefined, unknown: readonly UnknownInBook[]): void {
    this.mirrorOf(bookOf(this.injector, unit)!).adopt(book, unknown);
  }

  /** The cells of a workbook that are not recalculated. */
  notRecalculated(unit: string): readonly NotRecalculated[] {
    return this.mirrors.get(unit)?.notRecalculated ?? [];
  }

  /**
   * What a formula that stands in no cell gives for a cell, when it is written for the one at `row`, `column`;
   * undefined while that is not known. Where it is being found out `known` is called then; it may also become known
   * with the next calculation.
   */
  given(
    unit: string,
    written: WrittenFormula,
    cell: readonly [row: number, column: number],
    known: () => void,
  ): Result | undefined {
    return this.mirrors.get(unit)?.given(written, cell, known);
  }

  /** Calls back after every calculation. */
  onDone(listener: () => void): () => void {
    return this.doneListeners.add(listener);
  }

  /** Calls back when results were put into cells without a command: the sheets by their ids. */
  onWritten(listener: (unit: string, sheets: readonly string[]) => void): () => void {
    return this.writtenListeners.add(listener);
  }

  /** Calls back while a long calculation goes on. */
  onProgress(listener: (progress: Progress) => void): () => void {
    return this.progressListeners.add(listener);
  }

  dispose(): void {
    this.notDue();
    this.subscription.dispose();
    this.rules.dispose();
    this.endPort();
  }

  private follow(command: ICommandInfo, options: IExecutionOptions | undefined): void {
    for (const mirror of this.mirrors.values()) mirror.note(command, options);
    if (command.type !== undefined && command.type !== CommandType.MUTATION) return;
    if (!STARTS.has(command.id) || options?.['applyFormulaCalculationResult']) return;
    if (this.isStopped) return;
    const { unitId, trigger } = (command.params ?? {}) as Partial<ISetRangeValuesMutationParams>;
    // Looks make no other values, save those that show dates.
    if (trigger === SetStyleCommand.id && !this.mirrors.get(unitId ?? '')?.countsFrom1904) return;
    this.due();
    // A calculator elsewhere is asked before the page draws the edit, and answers while it does.
    if (!this.host.isHere && [...this.mirrors.values()].every(({ isCalculated }) => isCalculated))
      queueMicrotask(() => this.timer !== undefined && this.run());
  }

  /** An edit is many commands in one turn; the calculation follows once they are all done. */
  private due(): void {
    this.timer ??= setTimeout(() => this.run());
  }

  private notDue(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  private run(): void {
    this.notDue();
    const books = openBooks(this.injector);
    for (const [id, mirror] of this.mirrors)
      if (!books.some((book) => book.getUnitId() === id)) {
        mirror.forget();
        this.mirrors.delete(id);
      }
    if (books.length === 0) return this.doneListeners.tell();
    for (const book of books) {
      const mirror = this.mirrorOf(book);
      try {
        mirror.calculate();
      } catch (error) {
        mirror.fail(error);
      }
    }
  }

  private hear(answer: Answer): void {
    if (answer.kind === 'progress') return this.progressListeners.tell(answer);
    for (const mirror of this.mirrors.values())
      try {
        mirror.hear(answer);
      } catch (error) {
        mirror.fail(error);
      }
  }

  private done(fault?: unknown): void {
    if (fault !== undefined) console.error('The workbook could not be calculated.', fault);
    else this.deaths = 0;
    this.fault = fault;
    this.doneListeners.tell();
  }

  /** The calculator, which also reads files; it is started when it is first wanted, and anew where it died. */
  get calculator(): CalculatorPort {
    if (this.port) return this.port;
    const port: CalculatorPort = this.host.start(
      (answer) => {
        // One that was ended may still answer.
        if (this.port === port) this.hear(answer);
      },
      (why) => {
        if (this.port === port) this.died(why);
      },
    );
    this.port = port;
    return port;
  }

  private endPort(): void {
    const { port } = this;
    this.port = undefined;
    port?.close();
    for (const mirror of this.mirrors.values()) mirror.lost();
  }

  /** Nothing is lost but the calculation: it is begun again, unless that is what made an end of the calculator. */
  private died(why: string): void {
    this.endPort();
    this.deaths += 1;
    if (this.deaths <= MOST_DEATHS) return this.due();
    this.deaths = 0;
    this.done(new Error(why));
  }

  private mirrorOf(book: EngineWorkbook): Mirror {
    const unit = book.getUnitId();
    return entryOf(
      this.mirrors,
      unit,
      () =>
        new Mirror(
          {
            injector: this.injector,
            messages: this.messages,
            turns: this.turns,
            post: (request: Request) => this.calculator.post(request),
            isHere: this.host.isHere,
            rulesOf: (id: string) => this.rules.of(id),
            written: (sheets: readonly string[]) => this.writtenListeners.tell(unit, sheets),
            done: (fault?: unknown) => this.done(fault),
          },
          book,
        ),
    );
  }
}
