/**
 * Frozen rows and columns that leave room in a small window. A sheet keeps what is frozen, and a file is saved with it;
 * the grid is only shown as much of it as fits: in a narrow window frozen columns would hide all others for good.
 */
import {
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type IFreeze,
  type Injector,
  type Worksheet,
} from '@univerjs/core';
import {
  InsertColMutation,
  InsertRowMutation,
  InsertSheetMutation,
  RemoveColMutation,
  RemoveRowMutation,
  SetFrozenMutation,
  SetWorksheetActiveOperation,
  SetWorksheetColWidthMutation,
  SetWorksheetRowHeightMutation,
  type IInsertRowMutationParams,
} from '@univerjs/sheets';
import { bookOf, currentBook, linesIn, openBooks, targetOf } from './places';

/** The part of the window's width or height that frozen cells may take. */
const MOST = 0.6;

/** What is frozen on a sheet whose grid is shown less. */
const whole = new WeakMap<Worksheet, IFreeze>();

/** What is frozen on a sheet, however much of it the grid is shown. */
export const frozenOn = (worksheet: Worksheet): IFreeze => whole.get(worksheet) ?? worksheet.getFreeze();

/** So many rows and columns frozen from the first on. */
export const frozenFrom = ({ rows, columns }: { readonly rows: number; readonly columns: number }): IFreeze => ({
  xSplit: columns,
  ySplit: rows,
  startRow: rows || -1,
  startColumn: columns || -1,
});

/** Pixels that cells have in the window, without the headers of rows and columns. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** What is shown as frozen: rows or columns that would take more than their part of the room scroll as all others do. */
function fittedFreeze(freeze: IFreeze, worksheet: Worksheet, room: Room): IFreeze {
  const { xSplit, ySplit, startColumn, startRow } = freeze;
  const zoom = worksheet.getZoomRatio();
  const width = zoom * sum(startColumn - xSplit, xSplit, (column) => worksheet.getColumnWidth(column));
  const height = zoom * sum(startRow - ySplit, ySplit, (row) => worksheet.getRowHeight(row));
  return {
    ...(width > MOST * room.width ? { xSplit: 0, startColumn: -1 } : { xSplit, startColumn }),
    ...(height > MOST * room.height ? { ySplit: 0, startRow: -1 } : { ySplit, startRow }),
  };
}

const sum = (first: number, count: number, of: (index: number) => number): number =>
  Array.from({ length: count }, (_, index) => of(first + index)).reduce((total, size) => total + size, 0);

/** Fits every open workbook's frozen cells into the room. Returns what is to be called when the room is another. */
export function fitFrozen(injector: Injector, room: () => Room): () => void {
  const commands = injector.get(ICommandService);
  const fitAll = (): void => {
    for (const sheet of openBooks(injector).flatMap((book) => book.getSheets())) fitSheet(sheet, room);
  };
  injector.get(IUniverInstanceService).getTypeOfUnitAdded$(UniverInstanceType.UNIVER_SHEET).subscribe(fitAll);
  fitAll();
  let shown = '';
  const show = (): void => {
    const sheet = currentBook(injector)?.getActiveSheet();
    if (!sheet) return;
    const now = JSON.stringify([targetOf(sheet), sheet.getFreeze()]);
    if (now === shown) return;
    shown = now;
    // The grid asks for what is frozen when something is frozen; frozen as it is, nothing is changed by that.
    commands.syncExecuteCommand(SetFrozenMutation.id, { ...targetOf(sheet), ...frozenOn(sheet) }, { onlyLocal: true });
  };
  commands.onCommandExecuted(({ id, params }) => {
    if (id === InsertSheetMutation.id) fitAll();
    if (LINES.has(id)) follow(injector, id, params as IInsertRowMutationParams);
    if (SHOWN_ANEW.has(id)) show();
  });
  return show;
}

const SHOWN_ANEW: ReadonlySet<string> = new Set([
  SetWorksheetActiveOperation.id,
  SetWorksheetColWidthMutation.id,
  SetWorksheetRowHeightMutation.id,
]);

/** Mutations by which lines come and go, and what of the frozen ones they change. */
const LINES: ReadonlyMap<
  string,
  readonly [sign: 1 | -1, axis: 'rows' | 'columns', start: 'startRow' | 'startColumn', split: 'ySplit' | 'xSplit']
> = new Map([
  [InsertRowMutation.id, [1, 'rows', 'startRow', 'ySplit']],
  [RemoveRowMutation.id, [-1, 'rows', 'startRow', 'ySplit']],
  [InsertColMutation.id, [1, 'columns', 'startColumn', 'xSplit']],
  [RemoveColMutation.id, [-1, 'columns', 'startColumn', 'xSplit']],
]);

/** The grid moves the border of what it shows as frozen; that of what it does not show is moved here. */
function follow(injector: Injector, id: string, { unitId, subUnitId, range }: IInsertRowMutationParams): void {
  const sheet = bookOf(injector, unitId)?.getSheetBySheetId(subUnitId);
  const freeze = sheet && whole.get(sheet);
  if (!freeze) return;
  const [sign, axis, start, split] = LINES.get(id)!;
  const { at, count: all } = linesIn(axis, range);
  if (sheet.getFreeze()[split] > 0 || freeze[split] === 0 || at >= freeze[start]) return;
  const count = sign > 0 ? all : at - Math.min(freeze[start], at + all);
  whole.set(sheet, {
    ...freeze,
    [start]: Math.max(1, freeze[start] + count),
    [split]: Math.max(1, freeze[split] + count),
  });
}

/** The grid reads what is frozen from the sheet's own data: there it finds what fits. */
function fitSheet(worksheet: Worksheet, room: () => Room): void {
  if (whole.has(worksheet)) return;
  whole.set(worksheet, worksheet.getFreeze());
  Object.defineProperty(worksheet.getConfig(), 'freeze', {
    enumerable: true,
    configurable: true,
    get: () => fittedFreeze(whole.get(worksheet)!, worksheet, room()),
    set: (freeze: IFreeze) => whole.set(worksheet, freeze),
  });
}
