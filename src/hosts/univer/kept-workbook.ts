/**
 * A workbook's whole state as texts, to be kept outside the engine and put back into it: a head, and for each sheet a
 * frame and its cells, some hundred rows a piece, so that an edit has no more written than the rows that it touches.
 */
import {
  CommandType,
  ICommandService,
  IResourceManagerService,
  UniverInstanceType,
  type ICellData,
  type IDisposable,
  type IWorkbookData,
  type IWorksheetData,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { ISuperTableService } from '@univerjs/engine-formula';
import {
  SetRangeValuesMutation,
  SetWorksheetColWidthMutation,
  SetWorksheetRowAutoHeightMutation,
  SetWorksheetRowHeightMutation,
  SetWorksheetRowIsAutoHeightMutation,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import type { Operation } from '../../xlsx';
import { bookOf, linesOf } from './places';
import { keep } from './cells';
import { closeWorkbook, createWorkbook, type Engine } from './engine';
import { FilterStore, type EngineFilter } from './filters';
import { sheetsOf, type MutationPlace } from './structure';
import { refuseEdits } from './open-file';
import { done } from './turns';

/** Raised when the texts change their form: older ones are then not read. */
const FORM = 4;
/** This one had a sheet with its cells in one text. */
const FORM_WHOLE = 3;
/** And this one formulas that were not known beside their values only. */
const FORM_BEFORE = 2;

const ROWS_A_PIECE = 250;
/** Stands between a sheet's id and the number of its piece. */
const PIECE = '#';

interface Head {
  readonly form: number;
  readonly snapshot: Omit<IWorkbookData, 'sheets'>;
  readonly tables: readonly {
    readonly name: string;
    readonly reference: unknown;
    readonly titles: readonly string[];
  }[];
  /** What was done to the structure since the file was read; left out by an older version. */
  readonly operations?: readonly Operation[];
  /** Filters by the sheets' ids; left out by an older version. */
  readonly filters?: readonly (readonly [sheet: string, filters: readonly EngineFilter[]])[];
}

/** Everything but the sheets: their order, styles, names, drop-down lists, tables. */
export function headText({ injector, structure }: Engine, unit: string): string {
  const filters = injector.get(FilterStore).all(unit);
  const { sheets: _sheets, ...snapshot } = bookOf(injector, unit)!.getSnapshot();
  const resources = injector.get(IResourceManagerService).getResources(unit, UniverInstanceType.UNIVER_SHEET);
  const tables = [...(injector.get(ISuperTableService).getTableMap(unit) ?? [])].map(([name, table]) => ({
    name,
    reference: { ...table, titleMap: undefined },
    titles: [...table.titleMap.keys()],
  }));
  return JSON.stringify({
    form: FORM,
    snapshot: { ...snapshot, resources },
    tables,
    operations: structure.of(unit),
    ...(filters ? { filters } : {}),
  } satisfies Head);
}

/** Names of all texts beside the head, in the order of the sheets. */
export function pieceKeys({ injector }: Engine, unit: string): string[] {
  const { sheetOrder, sheets } = bookOf(injector, unit)!.getSnapshot();
  return sheetOrder.flatMap((id) => [id, ...rowKeys(id, sheets[id]?.cellData)]);
}

/** Names of the pieces in which cells of a sheet stand. */
const rowKeys = (sheet: string, cells: IWorksheetData['cellData'] | undefined): string[] => {
  const pieces = new Set(Object.keys(cells ?? {}).map((row) => Math.floor(Number(row) / ROWS_A_PIECE)));
  return [...pieces].map((piece) => `${sheet}${PIECE}${piece}`);
};

/** The id of the sheet that a text is of. */
export const sheetOfPiece = (key: string): string => key.split(PIECE)[0]!;

/** One of the texts; undefined where there is none of this name. */
export function pieceText({ injector }: Engine, unit: string, key: string): string | undefined {
  const [sheet, piece] = key.split(PIECE);
  const data = bookOf(injector, unit)!.getSnapshot().sheets[sheet!];
  if (!data) return undefined;
  if (piece === undefined) return JSON.stringify({ ...data, cellData: {} });
  const first = Number(piece) * ROWS_A_PIECE;
  const rows = linesOf(first, first + ROWS_A_PIECE - 1).map((row) => [row, data.cellData?.[row]]);
  // Rows without cells are left out.
  return JSON.stringify(Object.fromEntries(rows));
}

/**
 * Puts a kept workbook back under the id `unit`, its rows in turns; nothing is calculated yet, and until it resolves the
 * workbook takes no edits. Rejects where the texts are of another form, and then nothing of it stays. False where they
 * are of an older one, and all are to be kept anew.
 * @param shown is called when the rows that are in view have come, and at the end
 */
export async function loadKept(
  engine: Engine,
  { unit, title }: { readonly unit: string; readonly title: string },
  head: string,
  pieces: ReadonlyMap<string, string>,
  shown: () => void = () => undefined,
): Promise<boolean> {
  const { form, snapshot, tables, operations, filters } = JSON.parse(head) as Head;
  if (![FORM, FORM_WHOLE, FORM_BEFORE].includes(form))
    throw new Error(`Kept in form ${form}; this version reads form ${FORM}`);
  const sheets = Object.fromEntries<IWorkbookData['sheets'][string]>(
    [...pieces].filter(([key]) => !key.includes(PIECE)).map(([key, text]) => [key, JSON.parse(text)]),
  );
  const missing = snapshot.sheetOrder.find((id) => !sheets[id]);
  if (missing) throw new Error(`The kept workbook has no sheet ${missing}`);
  if (form === FORM_BEFORE) for (const sheet of Object.values(sheets)) takeFormulasIn(sheet);
  engine.structure.begin(unit, operations ?? []);
  if (filters) engine.injector.get(FilterStore).begin(unit, filters);
  createWorkbook(engine, { ...snapshot, id: unit, name: title, sheets });
  const refusing = refuseEdits(engine, unit);
  try {
    await done(engine.turns, filling(bookOf(engine.injector, unit)!, pieces, shown));
  } catch (error) {
    closeWorkbook(engine, unit);
    throw error;
  } finally {
    refusing.dispose();
  }
  for (const { name, reference, titles } of tables)
    engine.injector.get(ISuperTableService).registerTable(unit, name, {
      ...(reference as object),
      titleMap: new Map(titles.map((one, index) => [one, index])),
    } as never);
  shown();
  return form === FORM;
}

function* filling(book: EngineWorkbook, pieces: ReadonlyMap<string, string>, shown: () => void): Generator<void> {
  const inView = `${book.getActiveSheet().getSheetId()}${PIECE}0`;
  const keys = [...pieces.keys()].sort((a, b) => Number(b === inView) - Number(a === inView));
  for (const key of keys) {
    const [sheet, piece] = key.split(PIECE);
    const matrix = piece === undefined ? undefined : book.getSheetBySheetId(sheet!)?.getCellMatrix();
    if (!matrix) continue;
    for (const [row, line] of Object.entries(JSON.parse(pieces.get(key)!) as Record<string, Record<number, ICellData>>))
      matrix.setRow(Number(row), line);
    if (key === inView) shown();
    yield;
  }
}

/** Gives cells of the former form the formula that stands beside their value. */
function takeFormulasIn({ cellData }: IWorkbookData['sheets'][string]): void {
  for (const line of Object.values(cellData ?? {}))
    for (const cell of Object.values(line as Record<number, ICellData | null>)) {
      const { formula, value } = (cell?.custom ?? {}) as { formula?: string; value?: unknown };
      if (!cell || formula === undefined || cell.f || (cell.v ?? null) !== value) continue;
      cell.f = `=${formula}`;
      keep(cell, formula);
    }
}

/** Mutations of a sheet that leave its cells as they are. */
const OF_THE_FRAME = new Set<string>([
  SetWorksheetRowAutoHeightMutation.id,
  SetWorksheetRowIsAutoHeightMutation.id,
  SetWorksheetRowHeightMutation.id,
  SetWorksheetColWidthMutation.id,
]);

/** What an edit touches: the texts to be kept, by their names, or `all` of a sheet. */
export interface Touched {
  readonly keys: readonly string[];
  /** Sheets whose cells may all have other places. */
  readonly all: readonly string[];
}

/** Tells of every edit, results of calculation apart. */
export function watchEdits(engine: Engine, unit: string, listener: (touched: Touched) => void): IDisposable {
  return engine.injector.get(ICommandService).onCommandExecuted((command, options) => {
    const params = (command.params ?? {}) as MutationPlace;
    if (
      command.type !== CommandType.MUTATION ||
      params.unitId !== unit ||
      options?.onlyLocal ||
      options?.['fromFormula']
    )
      return;
    if (command.id === SetRangeValuesMutation.id) {
      const { subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
      return listener({ keys: rowKeys(subUnitId, cellValue as IWorksheetData['cellData']), all: [] });
    }
    const touched = sheetsOf(params);
    listener(OF_THE_FRAME.has(command.id) ? { keys: touched, all: [] } : { keys: [], all: touched });
  });
}
