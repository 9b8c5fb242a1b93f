/**
 * Edits of the structure that the file cannot take are not made: inserting into what one formula fills, deleting the
 * headers of a table. The reason is told, and the engine's command ends as one that did nothing.
 */
import {
  CustomCommandExecutionError,
  ICommandService,
  type ICommandInfo,
  type Injector,
  type IRange,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  DeleteRangeMoveLeftCommand,
  DeleteRangeMoveUpCommand,
  InsertColByRangeCommand,
  InsertRangeMoveDownCommand,
  InsertRangeMoveRightCommand,
  InsertRowByRangeCommand,
  MoveRangeCommand,
  RemoveColByRangeCommand,
  RemoveRowByRangeCommand,
} from '@univerjs/sheets';
import {
  asCellOperations,
  obstaclesAfter,
  refusalOf,
  type CellOperation,
  type Obstacle,
  type Operation,
} from '../../xlsx';
import { currentBook } from './current-book';
import { NOT_SAVED } from './not-saved';
import { toAddress } from './ranges';
import { tablesOf } from './tables';

interface Params {
  readonly subUnitId?: string;
  readonly range?: IRange;
  readonly fromRange?: IRange;
  readonly toRange?: IRange;
}

type Lines = readonly [kind: 'insert' | 'delete', axis: 'rows' | 'columns', isPart: boolean];

const COMMANDS: ReadonlyMap<string, Lines> = new Map([
  [InsertRowByRangeCommand.id, ['insert', 'rows', false]],
  [InsertColByRangeCommand.id, ['insert', 'columns', false]],
  [RemoveRowByRangeCommand.id, ['delete', 'rows', false]],
  [RemoveColByRangeCommand.id, ['delete', 'columns', false]],
  [InsertRangeMoveDownCommand.id, ['insert', 'rows', true]],
  [InsertRangeMoveRightCommand.id, ['insert', 'columns', true]],
  [DeleteRangeMoveUpCommand.id, ['delete', 'rows', true]],
  [DeleteRangeMoveLeftCommand.id, ['delete', 'columns', true]],
]);

export class Refusals {
  private readonly listeners = new Set<(reason: string) => void>();
  private readonly subscription: { dispose(): void };

  /**
   * @param fixed what stands in the workbook's file in one piece: array formulas, pivot tables and their sources
   * @param done what was done to the structure since
   */
  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
    private readonly fixed: () => readonly Obstacle[],
    private readonly done: () => readonly Operation[],
  ) {
    this.subscription = injector.get(ICommandService).beforeCommandExecuted((command) => this.check(command));
  }

  /** Calls back with the reason of every edit that is not made. */
  listen(listener: (reason: string) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  dispose(): void {
    this.subscription.dispose();
    this.listeners.clear();
  }

  private check(command: ICommandInfo): void {
    if (!this.isCurrent) return;
    const what = NOT_SAVED.get(command.id);
    const edit = this.editOf(command);
    const reason = what
      ? `${what} cannot be saved from here. Set it in another spreadsheet program.`
      : edit && refusalOf(edit, this.obstacles());
    if (!reason) return;
    for (const listener of [...this.listeners]) listener(reason);
    throw new CustomCommandExecutionError(reason);
  }

  private get isCurrent(): boolean {
    return currentBook(this.injector)?.getUnitId() === this.book.getUnitId();
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
    const { subUnitId, range, fromRange, toRange } = (params ?? {}) as Params;
    const sheet = (this.book.getSheetBySheetId(subUnitId ?? '') ?? this.book.getActiveSheet()).getName();
    if (id === MoveRangeCommand.id && fromRange && toRange)
      return {
        kind: 'move',
        from: toAddress(sheet, fromRange),
        to: { sheet, row: toRange.startRow, column: toRange.startColumn },
      };
    const lines = COMMANDS.get(id);
    return lines && range ? linesEdit(lines, sheet, range) : undefined;
  }
}

function linesEdit([kind, axis, isPart]: Lines, sheet: string, range: IRange): CellOperation {
  const [at, end, from, to] =
    axis === 'rows'
      ? [range.startRow, range.endRow, range.startColumn, range.endColumn]
      : [range.startColumn, range.endColumn, range.startRow, range.endRow];
  return { kind, sheet, axis, at, count: end - at + 1, ...(isPart ? { within: { from, to } } : {}) };
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
        return asCellOperations(operation).reduce<readonly Obstacle[]>(
          (list, one) => obstaclesAfter(list, one),
          before,
        );
      default:
        return before;
    }
  }, obstacles);
}
