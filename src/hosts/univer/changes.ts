/** Tells a workbook's changes apart: a person's edit in the grid, an edit through the port, results of calculation. */
import {
  ICommandService,
  type IExecutionOptions,
  type Injector,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { SetArrayFormulaDataMutation } from '@univerjs/engine-formula';
import { SetStyleCommand } from '@univerjs/sheets';
import { Listeners } from '../../core/listeners';
import type { Unsubscribe, WorkbookChange } from '../../sheet';
import type { Calculation } from './calculation';
import { SetFiltersMutation } from './filters';
import { CELLS_CHANGE, CELLS_MOVE, sheetsOf, type MutationPlace } from './structure';

export class Changes {
  private readonly listeners = new Listeners<[change: WorkbookChange]>();
  private readonly waiting = new Map<WorkbookChange['by'], Set<string>>();
  private readonly stops: readonly (() => void)[];
  /** Names seen, for sheets that have gone. */
  private readonly names = new Map<string, string>();
  private isQueued = false;
  private throughPort = 0;
  /** True once anything was edited, also where it was taken back. */
  edited = false;
  /** How often a cell has changed. */
  count = 0;

  constructor(
    injector: Injector,
    private readonly workbook: EngineWorkbook,
    private readonly calculation: Pick<Calculation, 'isDone' | 'onDone' | 'onWritten'>,
    private readonly onMove: () => void,
  ) {
    const commands = injector
      .get(ICommandService)
      .onCommandExecuted((command, options) => this.note(command.id, command.params ?? {}, options));
    this.stops = [
      () => commands.dispose(),
      calculation.onDone(() => this.flush()),
      calculation.onWritten((unit, sheets) => {
        if (unit === workbook.getUnitId()) this.add('recalculation', sheets);
      }),
    ];
  }

  dispose(): void {
    for (const stop of this.stops) stop();
    this.listeners.clear();
  }

  listen(listener: (change: WorkbookChange) => void): Unsubscribe {
    return this.listeners.add(listener);
  }

  /** Changes made by `work` count as the pane's. */
  async asPane<T>(work: () => T | Promise<T>): Promise<T> {
    this.flush();
    this.throughPort += 1;
    try {
      return await work();
    } finally {
      this.flush();
      this.throughPort -= 1;
    }
  }

  // eslint-disable-next-line complexity -- one kind of the engine's mutation after the other
  private note(
    id: string,
    params: MutationPlace & {
      readonly reference?: { readonly sheetId: string };
      readonly trigger?: string;
      readonly arrayFormulaRange?: Record<string, Record<string, unknown> | undefined>;
    },
    options: IExecutionOptions | undefined,
  ): void {
    if (id === SetArrayFormulaDataMutation.id) {
      // Also sent, marked so, when an edit removes a spill: that edit is told of anyway.
      if (!options?.['remove'])
        this.add('recalculation', Object.keys(params.arrayFormulaRange?.[this.workbook.getUnitId()] ?? {}));
      return;
    }
    if (
      !(CELLS_CHANGE.has(id) || id === SetFiltersMutation.id) ||
      params.unitId !== this.workbook.getUnitId() ||
      params.trigger === SetStyleCommand.id
    )
      return;
    if (CELLS_MOVE.has(id)) this.onMove();
    const ids = [...sheetsOf(params), ...(params.reference ? [params.reference.sheetId] : [])];
    if (options?.['applyFormulaCalculationResult']) this.add('recalculation', ids);
    else if (!options?.['fromFormula']) this.add(this.throughPort > 0 ? 'pane' : 'user', ids);
  }

  private add(by: WorkbookChange['by'], sheetIds: readonly string[]): void {
    this.count += 1;
    if (by !== 'recalculation') this.edited = true;
    if (!this.isQueued) {
      this.isQueued = true;
      queueMicrotask(() => this.flush());
    }
    const sheets = this.waiting.get(by) ?? new Set();
    for (const id of sheetIds) {
      const name = this.workbook.getSheetBySheetId(id)?.getName() ?? this.names.get(id);
      if (name === undefined) continue;
      this.names.set(id, name);
      sheets.add(name);
    }
    this.waiting.set(by, sheets);
  }

  private flush(): void {
    this.isQueued = false;
    const changes = [...this.waiting];
    this.waiting.clear();
    for (const [by, sheets] of changes) {
      // Results come in pieces: they are told of when all of them are there.
      if (by === 'recalculation' && !this.calculation.isDone) this.waiting.set(by, sheets);
      else this.listeners.tell({ by, sheets: [...sheets] });
    }
  }
}
