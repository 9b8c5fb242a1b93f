/**
 * What was done to the structure of each open workbook, in order: rows and columns that came and went, cells that were
 * moved, sheets. A file is saved by making the same operations in it. What is taken back leaves the log as if it had
 * not been done, so that nothing of the file is lost over it.
 */
import {
  ICommandService,
  type ICommandInfo,
  type IMutationInfo,
  type Injector,
  type IRange,
  type IUndoRedoItem,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  DeleteRangeMoveLeftCommand,
  DeleteRangeMoveUpCommand,
  InsertColMutation,
  InsertRangeMoveDownCommand,
  InsertRangeMoveRightCommand,
  InsertRowMutation,
  InsertSheetMutation,
  MoveColsMutation,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
  RemoveSheetMutation,
  SetWorksheetNameMutation,
  SetWorksheetOrderMutation,
} from '@univerjs/sheets';
import { entryOf } from '../../core/memoized';
import type { CellOperation, Operation, RowsOrder } from '../../xlsx';
import { bookOf, currentBook, linesIn, sameCells, toAddress } from './places';
import type { MutationPlace } from './mutations';
import { OrderRowsMutation } from './sort';

/** What the engine's mutations and commands say of what they do to the structure. */
export interface StructureParams extends MutationPlace {
  readonly range?: IRange;
  readonly fromRange?: IRange;
  readonly toRange?: IRange;
  readonly sourceRange?: IRange;
  readonly targetRange?: IRange;
  readonly index?: number;
  readonly sheet?: { readonly id: string; readonly name: string };
  readonly name?: string;
  readonly toOrder?: number;
  readonly order?: RowsOrder;
}

/** Rows or columns that come or go. */
export type LinesEdit = readonly [kind: 'insert' | 'delete', axis: 'rows' | 'columns'];

/** Commands that shift some cells: they are made of moves, which say too little. */
export const SHIFTS: ReadonlyMap<string, LinesEdit> = new Map([
  [InsertRangeMoveDownCommand.id, ['insert', 'rows']],
  [InsertRangeMoveRightCommand.id, ['insert', 'columns']],
  [DeleteRangeMoveUpCommand.id, ['delete', 'rows']],
  [DeleteRangeMoveLeftCommand.id, ['delete', 'columns']],
]);

/**
 * Rows or columns that come or go, as an operation.
 * @param isPart true where cells within the range alone are shifted
 */
export function linesOperation([kind, axis]: LinesEdit, sheet: string, range: IRange, isPart: boolean): CellOperation {
  const { within, ...lines } = linesIn(axis, range);
  return { kind, sheet, axis, ...lines, ...(isPart ? { within } : {}) };
}

type NameOf = (sheet: string | undefined) => string;

const linesMade =
  (...edit: LinesEdit) =>
  ({ subUnitId, range }: StructureParams, nameOf: NameOf): Operation | undefined =>
    range && linesOperation(edit, nameOf(subUnitId), range, false);

const linesMoved =
  (axis: LinesEdit[1]) =>
  ({ subUnitId, sourceRange, targetRange }: StructureParams, nameOf: NameOf): Operation => {
    const { at: from, count } = linesIn(axis, sourceRange!);
    return { kind: 'moveLines', sheet: nameOf(subUnitId), axis, from, count, to: linesIn(axis, targetRange!).at };
  };

/** Mutations as operations, before they are made. */
const OPERATIONS: ReadonlyMap<string, (params: StructureParams, nameOf: NameOf) => Operation | undefined> = new Map([
  [InsertRowMutation.id, linesMade('insert', 'rows')],
  [RemoveRowMutation.id, linesMade('delete', 'rows')],
  [InsertColMutation.id, linesMade('insert', 'columns')],
  [RemoveColMutation.id, linesMade('delete', 'columns')],
  [
    MoveRangeMutation.id,
    ({ fromRange, toRange, from, to }, nameOf) => ({
      kind: 'move',
      from: toAddress(nameOf(from!.subUnitId), fromRange!),
      to: { sheet: nameOf(to!.subUnitId), row: toRange!.startRow, column: toRange!.startColumn },
    }),
  ],
  [MoveRowsMutation.id, linesMoved('rows')],
  [MoveColsMutation.id, linesMoved('columns')],
  [OrderRowsMutation.id, ({ order }) => order],
  [InsertSheetMutation.id, ({ sheet, index }) => ({ kind: 'addSheet', name: sheet!.name, at: index! })],
  [RemoveSheetMutation.id, ({ subUnitId }, nameOf) => ({ kind: 'removeSheet', sheet: nameOf(subUnitId) })],
  [
    SetWorksheetNameMutation.id,
    ({ subUnitId, name }, nameOf) => ({ kind: 'renameSheet', sheet: nameOf(subUnitId), name: name! }),
  ],
  [
    SetWorksheetOrderMutation.id,
    ({ subUnitId, toOrder }, nameOf) => ({ kind: 'placeSheet', sheet: nameOf(subUnitId), at: toOrder! }),
  ],
]);

/** One workbook's operations: those of finished steps, and those since. */
class Log {
  readonly done: Operation[] = [];
  recent: Operation[] = [];
  /** Heights, widths and hiding of the lines that went since the last step. */
  readonly gone: GoneLines[] = [];
}

interface GoneLines {
  /** The mutation that brings them back. */
  readonly id: string;
  readonly sheet: string | undefined;
  readonly range: IRange;
  /** By their places in the range. */
  readonly info: Readonly<Record<number, unknown>>;
}

export class StructureLog {
  private readonly logs = new Map<string, Log>();
  /** Operations by the step of undo that they belong to. */
  private readonly bySteps = new WeakMap<object, readonly Operation[]>();
  /** The command under way whose moves are not noted. */
  private shifting: ICommandInfo | undefined;
  private readonly subscriptions: readonly { dispose(): void }[];

  constructor(private readonly injector: Injector) {
    const commands = injector.get(ICommandService);
    this.subscriptions = [
      commands.beforeCommandExecuted((command) => this.note(command)),
      commands.onCommandExecuted((command) => {
        if (SHIFTS.has(command.id)) this.shifting = undefined;
      }),
    ];
  }

  dispose(): void {
    for (const one of this.subscriptions) one.dispose();
  }

  /** What was done to a workbook since it came from its file. */
  of(unit: string): readonly Operation[] {
    const { done, recent } = this.log(unit);
    return [...done, ...recent];
  }

  /** Goes on from what was done before, for a workbook that was kept. */
  begin(unit: string, operations: readonly Operation[]): void {
    this.forget(unit);
    this.log(unit).done.push(...operations);
  }

  forget(unit: string): void {
    this.logs.delete(unit);
  }

  /** A step of undo is complete: what was done since the last one belongs to it. */
  stepDone(unit: string, step: IUndoRedoItem): void {
    const log = this.log(unit);
    for (const mutation of step.undoMutations) giveBack(mutation, log.gone);
    log.gone.length = 0;
    this.bySteps.set(step, log.recent);
    log.done.push(...log.recent);
    log.recent = [];
  }

  /** A step was taken back. */
  stepUndone(unit: string, step: object): void {
    const log = this.log(unit);
    const operations = this.bySteps.get(step) ?? [];
    const tail = log.done.slice(log.done.length - operations.length);
    // Only what stands at the end can leave the log; else what took it back is an operation like others.
    if (tail.every((one, index) => one === operations[index])) log.done.length -= operations.length;
    else log.done.push(...log.recent);
    log.recent = [];
  }

  /** A step that was taken back is made again. */
  stepRedone(unit: string, step: object): void {
    const log = this.log(unit);
    log.done.push(...(this.bySteps.get(step) ?? log.recent));
    log.recent = [];
  }

  /** Where a step begins that may be given up; the function gives it up. */
  mark(unit: string): () => void {
    const log = this.log(unit);
    const { length } = log.recent;
    return () => void (log.recent.length = length);
  }

  private log(unit: string): Log {
    return entryOf(this.logs, unit, () => new Log());
  }

  private note(command: ICommandInfo): void {
    const { id } = command;
    const params = (command.params ?? {}) as StructureParams;
    const shift = SHIFTS.get(id);
    if (shift) this.shifting = command;
    const book = shift ? currentBook(this.injector) : bookOf(this.injector, params.unitId ?? '');
    if (!book) return;
    const unit = book.getUnitId();
    if (shift) {
      const sheet = book.getActiveSheet().getName();
      if (params.range) this.log(unit).recent.push(linesOperation(shift, sheet, params.range, true));
      return;
    }
    const gone = goneLines(id, params, book);
    if (gone) this.log(unit).gone.push(gone);
    const operation = OPERATIONS.get(id)?.(params, (sheet) => book.getSheetBySheetId(sheet ?? '')?.getName() ?? '');
    if (operation && !this.shifting) this.log(unit).recent.push(operation);
  }
}

/** What the engine knows of rows or columns that are about to go. */
function goneLines(id: string, { subUnitId, range }: StructureParams, book: EngineWorkbook): GoneLines | undefined {
  const isRows = id === RemoveRowMutation.id;
  const sheet = book.getSheetBySheetId(subUnitId ?? '');
  if (!range || !sheet || !(isRows || id === RemoveColMutation.id)) return undefined;
  const lines = isRows ? sheet.getRowManager().getRowData() : sheet.getColumnManager().getColumnData();
  const { at, count } = linesIn(isRows ? 'rows' : 'columns', range);
  const info: Record<number, unknown> = {};
  for (let line = 0; line < count; line++) {
    const own = (lines as Record<number, unknown>)[at + line];
    if (own) info[line] = own;
  }
  return { id: isRows ? InsertRowMutation.id : InsertColMutation.id, sheet: subUnitId, range, info };
}

/** The engine closes up what it knows of lines that go, so that a hidden row would come back as the first of them. */
function giveBack(mutation: IMutationInfo, gone: readonly GoneLines[]): void {
  const params = mutation.params as StructureParams & { rowInfo?: unknown; colInfo?: unknown };
  const own = gone.find(
    ({ id, sheet, range }) =>
      id === mutation.id && sheet === params.subUnitId && params.range && sameCells(range, params.range),
  );
  if (own) params[own.id === InsertRowMutation.id ? 'rowInfo' : 'colInfo'] = own.info;
}
