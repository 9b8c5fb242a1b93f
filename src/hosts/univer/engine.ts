/** The embedded spreadsheet engine without a face: what the bench and the headless host have in common. */
import {
  ICommandService,
  IUndoRedoService,
  IUniverInstanceService,
  LocaleType,
  LogLevel,
  Univer,
  type Injector,
  type IWorkbookData,
} from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverDataValidationPlugin } from '@univerjs/data-validation';
import { ISuperTableService } from '@univerjs/engine-formula';
import { MoveRangeMutation, UniverSheetsPlugin } from '@univerjs/sheets';
import { UniverSheetsDataValidationPlugin } from '@univerjs/sheets-data-validation';
import { CalculationMode, UniverSheetsFormulaPlugin } from '@univerjs/sheets-formula';
import '@univerjs/sheets/facade';
import '@univerjs/engine-formula/facade';
import '@univerjs/sheets-formula/facade';
import type { TableModel, WorkbookModel } from '../../sheet';
import { Calculation } from './calculation';
import type { CalculatorHost } from './calculator-port';
import type { SheetSize } from './file-reading';
import { FilterStore, hideFilteredRows, SetFiltersMutation } from './filter-store';
import { filtersIn } from './filters';
import { forgetFilledDown } from './formula-data';
import { functionInfos, offerKnownFunctions } from './functions';
import { historyOverride, type UndoSteps } from './history';
import { checkInternals, FormulaPlugin, injectorOf, NO_CALCULATION } from './internals';
import { markUncalculated } from './marks';
import { ErrorMessages } from './messages';
import { OrderRowsMutation } from './order-rows';
import { protect } from './protection';
import { sheetId, toSnapshot } from './snapshot';
import { StructureLog } from './structure-log';
import { inOneGo, type Turns } from './turns';
import { readTyped } from './typed-cells';

export interface Engine {
  readonly univer: Univer;
  readonly api: FUniver;
  readonly messages: ErrorMessages;
  readonly calculation: Calculation;
  readonly structure: StructureLog;
  /** How long work is done. */
  readonly turns: Turns;
}

export interface EngineOptions {
  readonly calculator: CalculatorHost;
  /** How long work is done; in one go where it is left out. */
  readonly turns?: Turns;
  /** Registers what shows the workbook (rendering, toolbars), after the formula engine and before the sheets. */
  readonly face?: (univer: Univer) => void;
  /** Registers what builds on the sheets. */
  readonly faceOverSheets?: (univer: Univer) => void;
  /** Registers what builds on the formulas of sheets. */
  readonly faceOverFormulas?: (univer: Univer) => void;
  readonly locales?: Record<string, object>;
}

/** Removing a sheet of many cells would clear the history of undo. */
const UNDO_OF_LARGE_SHEETS = { largeSheetOperation: { largeSheetCellCountThreshold: Number.MAX_SAFE_INTEGER } };

/** Starts an engine with every TARE function registered. */
export function startEngine(options: EngineOptions): Engine {
  const messages = new ErrorMessages();
  const univer = new Univer({
    override: [...historyOverride] as never,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: options.locales ?? {} } as never,
    logLevel: LogLevel.ERROR,
  });
  checkInternals(univer);
  options.face?.(univer);
  univer.registerPlugin(FormulaPlugin, NO_CALCULATION);
  univer.registerPlugin(UniverSheetsPlugin, UNDO_OF_LARGE_SHEETS);
  options.faceOverSheets?.(univer);
  // Calculation is started by the host, once the tables are known: before that, table references fail.
  univer.registerPlugin(UniverSheetsFormulaPlugin, {
    description: functionInfos(),
    initialFormulaComputing: CalculationMode.NO_CALCULATION,
  });
  univer.registerPlugin(UniverDataValidationPlugin);
  univer.registerPlugin(UniverSheetsDataValidationPlugin);
  options.faceOverFormulas?.(univer);
  injectorOf(univer).add([FilterStore, { useValue: new FilterStore() }]);
  for (const mutation of [OrderRowsMutation, SetFiltersMutation])
    injectorOf(univer).get(ICommandService).registerCommand(mutation);
  injectorOf(univer)
    .get(ICommandService)
    .onCommandExecuted(({ id }) => {
      if (id === MoveRangeMutation.id) forgetFilledDown();
    });
  const turns = options.turns ?? inOneGo;
  const calculation = new Calculation(injectorOf(univer), messages, options.calculator, turns);
  const structure = new StructureLog(injectorOf(univer));
  (injectorOf(univer).get(IUndoRedoService) as UndoSteps).log = structure;
  univer.onDispose(() => {
    calculation.dispose();
    structure.dispose();
  });
  return { univer, api: FUniver.newAPI(univer), messages, calculation, structure, turns };
}

/**
 * Puts a workbook into the engine; nothing is calculated yet. The id must be a new one in this process: the
 * engine's modules remember formulas by it, also those of a workbook, or an engine, that has gone.
 */
export function loadWorkbook(engine: Engine, model: WorkbookModel, id: string, title: string): void {
  beginWorkbook(engine, { model }, id, title);
  engine.calculation.opened(id, model);
  finishWorkbook(engine, model, id);
}

/** The first half of it: sheets and looks; `sizes` says how large they become where the cells are still to come. */
export function beginWorkbook(
  engine: Engine,
  { model, sizes }: { readonly model: WorkbookModel; readonly sizes?: readonly SheetSize[] },
  id: string,
  title: string,
): void {
  const filters = model.sheets.map((sheet, index) => [sheetId(index), filtersIn(sheet)] as const);
  injectorOf(engine.univer).get(FilterStore).begin(id, filters);
  createWorkbook(engine, toSnapshot(model, id, title, sizes));
}

/** The second half: tables and protection. */
export function finishWorkbook(engine: Engine, model: WorkbookModel, id: string): void {
  const injector = injectorOf(engine.univer);
  model.sheets.forEach((sheet, index) => {
    sheet.tables.forEach((table) => registerTable(injector, id, sheetId(index), table));
    if (sheet.protected) protect(injector, id, sheetId(index));
  });
}

/** Engines whose sheets are followed: their services are there with their first workbook. */
const followed = new WeakSet<Engine>();

/** Puts the engine's own form of a workbook into it, and makes it the one that commands and menus act on. */
export function createWorkbook(engine: Engine, snapshot: IWorkbookData): void {
  engine.api.createWorkbook(snapshot);
  if (!followed.has(engine)) {
    followed.add(engine);
    readTyped(injectorOf(engine.univer));
    offerKnownFunctions(injectorOf(engine.univer));
    markUncalculated(injectorOf(engine.univer), engine.calculation);
    hideFilteredRows(injectorOf(engine.univer));
  }
  injectorOf(engine.univer).get(IUniverInstanceService).focusUnit(snapshot.id);
}

/** Takes a workbook out of the engine, with what is known of it. */
export function closeWorkbook(engine: Engine, id: string): void {
  const injector = injectorOf(engine.univer);
  const tables = injector.get(ISuperTableService);
  for (const name of [...(tables.getTableMap(id)?.keys() ?? [])]) tables.remove(id, name);
  discardWorkbook(engine, id);
  engine.messages.clear();
  engine.structure.forget(id);
}

/** Takes out no more than what `beginWorkbook` put in: all that there is of a workbook in which nothing was edited or calculated. */
export function discardWorkbook(engine: Engine, id: string): void {
  engine.api.disposeUnit(id);
  injectorOf(engine.univer).get(FilterStore).forget(id);
}

/** Makes a table known to formulas by its name, or its new range. */
function registerTable(injector: Injector, workbook: string, sheet: string, table: TableModel): void {
  const { range } = table;
  injector.get(ISuperTableService).registerTable(workbook, table.name, {
    sheetId: sheet,
    titleMap: new Map(table.columns.map((column, index) => [column, index])),
    range: {
      startRow: range.row,
      endRow: range.row + range.rows - 1,
      startColumn: range.column,
      endColumn: range.column + range.columns - 1,
    },
  });
}

/** Resolves when what was edited is calculated. */
export function settled({ calculation }: Engine): Promise<void> {
  return calculation.whenDone();
}

/** Calculates every formula; the results then stand in the cells. */
export function calculate({ calculation }: Engine): Promise<void> {
  calculation.all();
  return calculation.whenDone();
}
