/** The embedded spreadsheet engine without a face: what the bench and the headless host have in common. */
import {
  IUniverInstanceService,
  LocaleType,
  LogLevel,
  Univer,
  type Injector,
  type IWorkbookData,
} from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverDataValidationPlugin } from '@univerjs/data-validation';
import { ISuperTableService, UniverFormulaEnginePlugin } from '@univerjs/engine-formula';
import { UniverSheetsPlugin } from '@univerjs/sheets';
import { UniverSheetsDataValidationPlugin } from '@univerjs/sheets-data-validation';
import {
  CalculationMode,
  FormulaCalculationSessionController,
  UniverSheetsFormulaPlugin,
} from '@univerjs/sheets-formula';
import '@univerjs/sheets/facade';
import '@univerjs/engine-formula/facade';
import '@univerjs/sheets-formula/facade';
import type { TableModel, WorkbookModel } from '../../sheet';
import { FormulaPlugin } from './calculation';
import { engineFunctions, functionInfos } from './functions';
import { historyOverride } from './history';
import { ErrorMessages } from './messages';
import { calculatePromptly } from './prompt-calculation';
import { protect } from './protection';
import { sheetId, toSnapshot } from './snapshot';
import { whyUnknown } from './unknown-formulas';
import { speedUpValueIndex } from './value-index';

export interface Engine {
  readonly univer: Univer;
  readonly api: FUniver;
  readonly messages: ErrorMessages;
}

export interface EngineOptions {
  /** Registers what shows the workbook (rendering, toolbars), after the formula engine and before the sheets. */
  readonly face?: (univer: Univer) => void;
  /** Registers what builds on the sheets. */
  readonly faceOverSheets?: (univer: Univer) => void;
  /** Registers what builds on the formulas of sheets. */
  readonly faceOverFormulas?: (univer: Univer) => void;
  readonly locales?: Record<string, object>;
  /** 'engine': its own calculation of every formula. */
  readonly calculation?: 'engine';
}

/** Starts an engine with every TARE function registered. */
export function startEngine(options: EngineOptions = {}): Engine {
  speedUpValueIndex();
  const messages = new ErrorMessages();
  const univer = new Univer({
    override: [...historyOverride] as never,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: options.locales ?? {} } as never,
    logLevel: LogLevel.ERROR,
  });
  options.face?.(univer);
  univer.__getInjector().add([ErrorMessages, { useValue: messages }]);
  univer.registerPlugin(options.calculation === 'engine' ? UniverFormulaEnginePlugin : FormulaPlugin, {
    function: engineFunctions(messages),
  });
  univer.registerPlugin(UniverSheetsPlugin);
  options.faceOverSheets?.(univer);
  // Calculation is started by the host, once the tables are known: before that, table references fail.
  univer.registerPlugin(UniverSheetsFormulaPlugin, {
    description: functionInfos(),
    initialFormulaComputing: CalculationMode.NO_CALCULATION,
  });
  univer.registerPlugin(UniverDataValidationPlugin);
  univer.registerPlugin(UniverSheetsDataValidationPlugin);
  options.faceOverFormulas?.(univer);
  return { univer, api: FUniver.newAPI(univer), messages };
}

/**
 * Puts a workbook into the engine; nothing is calculated yet. The id must be a new one in this process: the
 * engine's modules remember formulas by it, also those of a workbook, or an engine, that has gone.
 */
export function loadWorkbook(engine: Engine, model: WorkbookModel, id: string, title: string): void {
  createWorkbook(
    engine,
    toSnapshot(model, id, title, (formula) => whyUnknown(formula) !== undefined),
  );
  const injector = engine.univer.__getInjector();
  model.sheets.forEach((sheet, index) => {
    sheet.tables.forEach((table) => registerTable(injector, id, sheetId(index), table));
    if (sheet.protected) protect(injector, id, sheetId(index));
  });
}

/** Engines whose calculation starts at once, and whether it is done: seen to with their first workbook, when their controllers are there. */
const calculated = new WeakMap<Engine, () => boolean>();

/** Puts the engine's own form of a workbook into it, and makes it the one that commands and menus act on. */
export function createWorkbook(engine: Engine, snapshot: IWorkbookData): void {
  engine.api.createWorkbook(snapshot);
  if (!calculated.has(engine)) calculated.set(engine, calculatePromptly(engine.univer));
  engine.univer.__getInjector().get(IUniverInstanceService).focusUnit(snapshot.id);
}

/** Takes a workbook out of the engine, with what is known of it. */
export function closeWorkbook(engine: Engine, id: string): void {
  const injector = engine.univer.__getInjector();
  const tables = injector.get(ISuperTableService);
  for (const name of [...(tables.getTableMap(id)?.keys() ?? [])]) tables.remove(id, name);
  engine.api.disposeUnit(id);
  engine.messages.clear();
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
  } as never);
}

/** Resolves when what was edited is calculated. */
export async function settled(engine: Engine): Promise<void> {
  while (calculated.get(engine)?.() === false) await new Promise((resolve) => setTimeout(resolve, 5));
}

/** Calculates every formula; resolves when the results stand in the cells. */
export async function calculate(engine: Engine): Promise<void> {
  // In a browser the engine makes this only after its first drawing: the first drawing is to show results.
  engine.univer.__getInjector().get(FormulaCalculationSessionController);
  const formula = engine.api.getFormula();
  const applied = formula.onCalculationResultApplied(600_000);
  formula.executeCalculation();
  await applied;
}
