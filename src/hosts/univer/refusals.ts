/**
 * Edits of the structure that the file cannot take are not made: inserting into what one formula fills, deleting the
 * headers of a table. The reason is told, and the engine's command ends as one that did nothing.
 */
import {
  CustomCommandExecutionError,
  ICommandService,
  type ICommandInfo,
  type Injector,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  AddRangeProtectionCommand,
  AddWorksheetProtectionCommand,
  InsertColByRangeCommand,
  InsertRowByRangeCommand,
  MoveRangeCommand,
  RemoveColByRangeCommand,
  RemoveRowByRangeCommand,
  SetBorderBasicCommand,
  SetBorderCommand,
  SetFontFamilyCommand,
  SetGridlinesColorCommand,
  SetStrikeThroughCommand,
  SetTextRotationCommand,
  SetUnderlineCommand,
  SetVerticalTextAlignCommand,
  SetWorksheetRangeThemeStyleCommand,
  SetWorksheetRightToLeftCommand,
  ToggleGridlinesCommand,
} from '@univerjs/sheets';
import {
  asCellOperations,
  obstaclesAfter,
  refusalOf,
  type CellOperation,
  type Obstacle,
  type Operation,
} from '../../xlsx';
import { currentBook, toAddress } from './places';
import { linesOperation, SHIFTS, type LinesEdit, type StructureParams } from './structure-log';
import { tablesOf } from './tables';

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
