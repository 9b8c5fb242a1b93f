/**
 * The structure of open workbooks. The log has what was done to each, in order: rows and columns that came and went, cells
 * that were moved, sheets. A file is saved by making the same operations in it. What is taken back leaves the log as if it
 * had not been done, so that nothing of the file is lost over it. Edits that the file cannot take are not made: inserting
 * into what one formula fills, deleting the headers of a table. The reason is told, and the engine's command ends as one
 * that did nothing.
 */
import {
  CustomCommandExecutionError,
  ICommandService,
  type ICommandInfo,
  type IMutationInfo,
  type Injector,
  type IRange,
  type IUndoRedoItem,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { RemoveSuperTableMutation, SetDefinedNameMutation, SetSuperTableMutation } from '@univerjs/engine-formula';
import {
  AddRangeProtectionCommand,
  AddWorksheetProtectionCommand,
  DeleteRangeMoveLeftCommand,
  DeleteRangeMoveUpCommand,
  InsertColByRangeCommand,
  InsertColMutation,
  InsertRangeMoveDownCommand,
  InsertRangeMoveRightCommand,
  InsertRowByRangeCommand,
  InsertRowMutation,
  InsertSheetMutation,
  MoveColsMutation,
  MoveRangeCommand,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColByRangeCommand,
  RemoveColMutation,
  RemoveRowByRangeCommand,
  RemoveRowMutation,
  RemoveSheetMutation,
  ReorderRangeMutation,
  SetBorderBasicCommand,
  SetBorderCommand,
  SetFontFamilyCommand,
  SetGridlinesColorCommand,
  SetRangeValuesMutation,
  SetStrikeThroughCommand,
  SetTextRotationCommand,
  SetUnderlineCommand,
  SetVerticalTextAlignCommand,
  SetWorksheetNameMutation,
  SetWorksheetOrderMutation,
  SetWorksheetRangeThemeStyleCommand,
  SetWorksheetRightToLeftCommand,
  ToggleGridlinesCommand,
} from '@univerjs/sheets';
import { entryOf } from '../../core/memoized';
import {
  asCellOperations,
  obstaclesAfter,
  refusalOf,
  type CellOperation,
  type Obstacle,
  type Operation,
  type RowsOrder,
} from '../../xlsx';
import { bookOf, currentBook, linesIn, sameCells, toAddress } from './places';
import { OrderRowsMutation } from './sort';
import { tablesOf } from './tables';

/** What the parameters of a mutation may say of where it happens. */
export interface MutationPlace {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly sheet?: { readonly id: string };
  readonly from?: { readonly subUnitId: string };
  readonly to?: { readonly subUnitId: string };
}

/** The sheets that the parameters name. */
export const sheetsOf = ({ subUnitId, sheet, from, to }: MutationPlace): string[] =>
  [...new Set([subUnitId, sheet?.id, from?.subUnitId, to?.subUnitId])].filter((id) => id !== undefined);

/** Cells have other places afterwards. */
export const CELLS_MOVE = new Set<string>([
  InsertRowMutation.id,
  RemoveRowMutation.id,
  InsertColMutation.id,
  RemoveColMutation.id,
  MoveRowsMutation.id,
  MoveColsMutation.id,
  MoveRangeMutation.id,
  ReorderRangeMutation.id,
  OrderRowsMutation.id,
]);

/** A cell's value, formula or place, or what formulas refer to, changes. */
export const CELLS_CHANGE = new Set<string>([
  ...CELLS_MOVE,
  SetRangeValuesMutation.id,
  InsertSheetMutation.id,
  RemoveSheetMutation.id,
  SetWorksheetNameMutation.id,
  SetSuperTableMutation.id,
  RemoveSuperTableMutation.id,
  SetDefinedNameMutation.id,
]);

/** What the engine's mutations and commands say of what they do to the structure. */
interface StructureParams extends MutationPlace {
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
type LinesEdit = readonly [kind: 'insert' | 'delete', axis: 'rows' | 'columns'];

/** Commands that shift some cells: they are made of moves, which say too little. */
const SHIFTS: ReadonlyMap<string, LinesEdit> = new Map([
  [InsertRangeMoveDownCommand.id, ['insert', 'rows']],
  [InsertRangeMoveRightCommand.id, ['insert', 'columns']],
  [DeleteRangeMoveUpCommand.id, ['delete', 'rows']],
  [DeleteRangeMoveLeftCommand.id, ['delete', 'columns']],
]);

/**
 * Rows or columns that come or go, as an operation.
 * @param isPart true where cells within the range alone are shifted
 */
function linesOperation([kind, axis]: LinesEdit, sheet: string, range: IRange, isPart: boolean): CellOperation {
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
      if (params.range)
        this.log(unit).recent.push(linesOperation(shift, book.getActiveSheet().getName(), params.range, true));
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

const LINES: ReadonlyMap<string, LinesEdit> = new Map([
  [InsertRowByRangeCommand.id, ['insert', 'rows']],
  [InsertColByRangeCommand.id, ['insert', 'columns']],
  [RemoveRowByRangeCommand.id, ['delete', 'rows']],
  [RemoveColByRangeCommand.id, ['delete', 'columns']],
]);

/** What the engine can do to a sheet and a file is not given, by command: what it would change. It is not offered, and ends as one that did nothing. */
export const NOT_SAVED: ReadonlyMap<string, string> = new Map([
  [SetUnderlineCommand.id, 'Underlining'],
  [SetStrikeThroughCommand.id, 'Striking through'],
  [SetFontFamilyCommand.id, 'Another font'],
  [SetVerticalTextAlignCommand.id, 'Vertical alignment'],
  [SetTextRotationCommand.id, 'Turned text'],
  [SetBorderBasicCommand.id, 'A border'],
  [SetBorderCommand.id, 'A border'],
  [ToggleGridlinesCommand.id, 'Hiding gridlines'],
  [SetGridlinesColorCommand.id, 'The colour of gridlines'],
  [SetWorksheetRightToLeftCommand.id, 'Writing from right to left'],
  [SetWorksheetRangeThemeStyleCommand.id, 'A theme of cells'],
  [AddRangeProtectionCommand.id, 'Protection'],
  [AddWorksheetProtectionCommand.id, 'Protection'],
]);

export class Refusals {
  private readonly subscription: { dispose(): void };

  /**
   * @param fixed what stands in the workbook's file in one piece: array formulas, pivot tables and their sources
   * @param done what was done to the structure since
   * @param tell is told the reason of every edit that is not made
   */
  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
    private readonly fixed: () => readonly Obstacle[],
    private readonly done: () => readonly Operation[],
    private readonly tell: (reason: string) => void,
  ) {
    this.subscription = injector.get(ICommandService).beforeCommandExecuted((command) => this.check(command));
  }

  dispose(): void {
    this.subscription.dispose();
  }

  private check(command: ICommandInfo): void {
    if (currentBook(this.injector) !== this.book) return;
    const what = NOT_SAVED.get(command.id);
    const edit = this.editOf(command);
    const reason = what
      ? `${what} cannot be saved from here. Set it in another spreadsheet program.`
      : edit && refusalOf(edit, this.obstacles());
    if (!reason) return;
    this.tell(reason);
    throw new CustomCommandExecutionError(reason);
  }

  /** What cannot be cut through, where it now stands. */
  obstacles(): Obstacle[] {
    const tables = tablesOf(this.injector, this.book).map(({ name, range: { sheet, ...area } }): Obstacle => ({
      kind: 'table',
      name,
      sheet,
      area,
    }));
    const merges = this.book.getSheets().flatMap((sheet) =>
      sheet.getMergeData().map((range): Obstacle => {
        const { sheet: name, ...area } = toAddress(sheet.getName(), range);
        return { kind: 'merge', sheet: name, area };
      }),
    );
    return [...tables, ...merges, ...followed(this.fixed(), this.done())];
  }

  private editOf({ id, params }: ICommandInfo): CellOperation | undefined {
    const { subUnitId, range, fromRange, toRange } = (params ?? {}) as StructureParams;
    const sheet = (this.book.getSheetBySheetId(subUnitId ?? '') ?? this.book.getActiveSheet()).getName();
    if (id === MoveRangeCommand.id && fromRange && toRange)
      return {
        kind: 'move',
        from: toAddress(sheet, fromRange),
        to: { sheet, row: toRange.startRow, column: toRange.startColumn },
      };
    const lines = LINES.get(id) ?? SHIFTS.get(id);
    return lines && range && linesOperation(lines, sheet, range, SHIFTS.has(id));
  }
}

/** Obstacles of a file where they stand after what was done to its structure. */
function followed(obstacles: readonly Obstacle[], operations: readonly Operation[]): readonly Obstacle[] {
  return operations.reduce<readonly Obstacle[]>((before, operation) => {
    const isSame = (sheet: string, other: string): boolean => sheet.toLowerCase() === other.toLowerCase();
    switch (operation.kind) {
      case 'renameSheet':
        return before.map((one) => (isSame(one.sheet, operation.sheet) ? { ...one, sheet: operation.name } : one));
      case 'removeSheet':
        return before.filter((one) => !isSame(one.sheet, operation.sheet));
      case 'insert':
      case 'delete':
      case 'move':
        return obstaclesAfter(before, operation);
      case 'moveLines':
        return followed(before, asCellOperations(operation));
      default:
        return before;
    }
  }, obstacles);
}
