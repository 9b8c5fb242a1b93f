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
  type Nullable,
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
import { IUniverInstanceService, UniverInstanceType, type Workbook as EngineWorkbook } from '@univerjs/core';
import type { Operation, RowsOrder } from '../../xlsx';
import { currentBook } from './current-book';
import { OrderRowsMutation } from './order-rows';
import { toAddress } from './ranges';

interface Params {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly range?: IRange;
  readonly fromRange?: IRange;
  readonly toRange?: IRange;
  readonly from?: { readonly subUnitId: string };
  readonly to?: { readonly subUnitId: string };
  readonly sourceRange?: IRange;
  readonly targetRange?: IRange;
  readonly index?: number;
  readonly sheet?: { readonly id: string; readonly name: string };
  readonly name?: string;
  readonly toOrder?: number;
  readonly order?: RowsOrder;
}

type Axis = 'rows' | 'columns';

const LINES: ReadonlyMap<string, readonly [kind: 'insert' | 'delete', axis: Axis]> = new Map([
  [InsertRowMutation.id, ['insert', 'rows']],
  [RemoveRowMutation.id, ['delete', 'rows']],
  [InsertColMutation.id, ['insert', 'columns']],
  [RemoveColMutation.id, ['delete', 'columns']],
]);

/** Commands that shift some cells: they are made of moves, which say too little. */
const SHIFTS: ReadonlyMap<string, readonly [kind: 'insert' | 'delete', axis: Axis]> = new Map([
  [InsertRangeMoveDownCommand.id, ['insert', 'rows']],
  [InsertRangeMoveRightCommand.id, ['insert', 'columns']],
  [DeleteRangeMoveUpCommand.id, ['delete', 'rows']],
  [DeleteRangeMoveLeftCommand.id, ['delete', 'columns']],
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
    const log = new Log();
    log.done.push(...operations);
    this.logs.set(unit, log);
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
    const known = this.logs.get(unit);
    if (known) return known;
    const made = new Log();
    this.logs.set(unit, made);
    return made;
  }

  private note(command: ICommandInfo): void {
    if (SHIFTS.has(command.id)) return this.noteShift(command);
    const params = (command.params ?? {}) as Params;
    const book = params.unitId === undefined ? undefined : this.book(params.unitId);
    if (!book) return;
    const gone = goneLines(command.id, params, book);
    if (gone) this.log(book.getUnitId()).gone.push(gone);
    const operation = operationOf(command.id, params, book);
    if (operation && !this.shifting) this.log(book.getUnitId()).recent.push(operation);
  }

  private noteShift(command: ICommandInfo): void {
    this.shifting = command;
    const book = currentBook(this.injector);
    const { range } = (command.params ?? {}) as Params;
    const [kind, axis] = SHIFTS.get(command.id)!;
    if (book && range)
      this.log(book.getUnitId()).recent.push(shiftOf(kind, axis, book.getActiveSheet().getName(), range));
  }

  private book(unit: string): Nullable<EngineWorkbook> {
    return this.injector.get(IUniverInstanceService).getUnit<EngineWorkbook>(unit, UniverInstanceType.UNIVER_SHEET);
  }
}

/** What the engine knows of rows or columns that are about to go. */
function goneLines(id: string, { subUnitId, range }: Params, book: EngineWorkbook): GoneLines | undefined {
  const isRows = id === RemoveRowMutation.id;
  const sheet = book.getSheetBySheetId(subUnitId ?? '');
  if (!range || !sheet || !(isRows || id === RemoveColMutation.id)) return undefined;
  const lines = isRows ? sheet.getRowManager().getRowData() : sheet.getColumnManager().getColumnData();
  const [first, last] = isRows ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
  const info: Record<number, unknown> = {};
  for (let line = first; line <= last; line++) {
    const own = (lines as Record<number, unknown>)[line];
    if (own) info[line - first] = own;
  }
  return { id: isRows ? InsertRowMutation.id : InsertColMutation.id, sheet: subUnitId, range, info };
}

/** The engine closes up what it knows of lines that go, so that a hidden row would come back as the first of them. */
function giveBack(mutation: IMutationInfo, gone: readonly GoneLines[]): void {
  const params = mutation.params as Params & { rowInfo?: unknown; colInfo?: unknown };
  const own = gone.find(
    ({ id, sheet, range }) =>
      id === mutation.id &&
      sheet === params.subUnitId &&
      range.startRow === params.range?.startRow &&
      range.endRow === params.range.endRow &&
      range.startColumn === params.range.startColumn &&
      range.endColumn === params.range.endColumn,
  );
  if (own) params[own.id === InsertRowMutation.id ? 'rowInfo' : 'colInfo'] = own.info;
}

function shiftOf(kind: 'insert' | 'delete', axis: Axis, sheet: string, range: IRange): Operation {
  const [at, end, from, to] =
    axis === 'rows'
      ? [range.startRow, range.endRow, range.startColumn, range.endColumn]
      : [range.startColumn, range.endColumn, range.startRow, range.endRow];
  return { kind, sheet, axis, at, count: end - at + 1, within: { from, to } };
}

/** A mutation that is about to be made as an operation; undefined for those that are none. */
function operationOf(id: string, params: Params, book: EngineWorkbook): Operation | undefined {
  const nameOf = (sheet: string | undefined): string => book.getSheetBySheetId(sheet ?? '')?.getName() ?? '';
  const lines = LINES.get(id);
  const { range, subUnitId } = params;
  if (lines && range) {
    const [kind, axis] = lines;
    const [at, end] = axis === 'rows' ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
    return { kind, sheet: nameOf(subUnitId), axis, at, count: end - at + 1 };
  }
  switch (id) {
    case MoveRangeMutation.id:
      return moveOf(params, nameOf);
    case MoveRowsMutation.id:
    case MoveColsMutation.id:
      return linesMoveOf(id === MoveRowsMutation.id ? 'rows' : 'columns', params, nameOf(subUnitId));
    case OrderRowsMutation.id:
      return params.order;
    case InsertSheetMutation.id:
      return { kind: 'addSheet', name: params.sheet!.name, at: params.index! };
    case RemoveSheetMutation.id:
      return { kind: 'removeSheet', sheet: nameOf(subUnitId) };
    case SetWorksheetNameMutation.id:
      return { kind: 'renameSheet', sheet: nameOf(subUnitId), name: params.name! };
    case SetWorksheetOrderMutation.id:
      return { kind: 'placeSheet', sheet: nameOf(subUnitId), at: params.toOrder! };
    default:
      return undefined;
  }
}

function moveOf({ fromRange, toRange, from, to }: Params, nameOf: (id: string) => string): Operation {
  return {
    kind: 'move',
    from: toAddress(nameOf(from!.subUnitId), fromRange!),
    to: { sheet: nameOf(to!.subUnitId), row: toRange!.startRow, column: toRange!.startColumn },
  };
}

function linesMoveOf(axis: Axis, { sourceRange, targetRange }: Params, sheet: string): Operation {
  const [from, end, to] =
    axis === 'rows'
      ? [sourceRange!.startRow, sourceRange!.endRow, targetRange!.startRow]
      : [sourceRange!.startColumn, sourceRange!.endColumn, targetRange!.startColumn];
  return { kind: 'moveLines', sheet, axis, from, count: end - from + 1, to };
}
