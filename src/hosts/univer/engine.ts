/** The embedded spreadsheet engine without a face: what the bench and the headless host have in common. */
import {
  ICommandService,
  InterceptorEffectEnum,
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
import { FunctionType, ISuperTableService, type IFunctionInfo } from '@univerjs/engine-formula';
import { INTERCEPTOR_POINT, MoveRangeMutation, SheetInterceptorService, UniverSheetsPlugin } from '@univerjs/sheets';
import { UniverSheetsDataValidationPlugin } from '@univerjs/sheets-data-validation';
import { CalculationMode, IDescriptionService, UniverSheetsFormulaPlugin } from '@univerjs/sheets-formula';
import '@univerjs/sheets/facade';
import '@univerjs/engine-formula/facade';
import '@univerjs/sheets-formula/facade';
import { knowsFunction } from '../../calculation';
import { entryOf } from '../../core/memoized';
import { catalogue, exampleFormula, NAMESPACE, type Definition } from '../../functions';
import type { WorkbookModel } from '../../sheet';
import { placeKey, protect, toRange } from './places';
import { Calculation } from './calculation';
import type { CalculatorHost, SheetSize } from './calculator-port';
import { filtersIn, FilterStore, hideFilteredRows, SetFiltersMutation } from './filters';
import { forgetFilledDown } from './follow-edits';
import { historyOverride, type UndoSteps } from './history';
import { checkInternals, FormulaPlugin, injectorOf, NO_CALCULATION } from './internals';
import { sheetId, toSnapshot } from './snapshot';
import { OrderRowsMutation } from './sort';
import { StructureLog } from './structure';
import { inOneGo, type Turns } from './turns';
import { readTyped } from './typed-cells';
import { ErrorMessages } from './answers';

export interface Engine {
  readonly univer: Univer;
  /** What the engine's services are registered in. */
  readonly injector: Injector;
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
  const injector = injectorOf(univer);
  injector.add([FilterStore, { useValue: new FilterStore() }]);
  const commands = injector.get(ICommandService);
  for (const mutation of [OrderRowsMutation, SetFiltersMutation]) commands.registerCommand(mutation);
  commands.onCommandExecuted(({ id }) => {
    if (id === MoveRangeMutation.id) forgetFilledDown();
  });
  const turns = options.turns ?? inOneGo;
  const calculation = new Calculation(injector, messages, options.calculator, turns);
  const structure = new StructureLog(injector);
  (injector.get(IUndoRedoService) as UndoSteps).log = structure;
  univer.onDispose(() => {
    calculation.dispose();
    structure.dispose();
  });
  return { univer, injector, api: FUniver.newAPI(univer), messages, calculation, structure, turns };
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
  engine.injector.get(FilterStore).begin(
    id,
    model.sheets.map((sheet, index) => [sheetId(index), filtersIn(sheet)]),
  );
  createWorkbook(engine, toSnapshot(model, id, title, sizes));
}

/** The second half: tables and protection. */
export function finishWorkbook({ injector }: Engine, model: WorkbookModel, id: string): void {
  model.sheets.forEach((sheet, index) => {
    for (const { name, columns, range } of sheet.tables)
      injector.get(ISuperTableService).registerTable(id, name, {
        sheetId: sheetId(index),
        titleMap: new Map(columns.map((column, place) => [column, place])),
        range: toRange(range),
      });
    if (sheet.protected) protect(injector, id, sheetId(index));
  });
}

/** Engines whose sheets are followed: their services are there with their first workbook. */
const followed = new WeakSet<Engine>();

/** Puts the engine's own form of a workbook into it, and makes it the one that commands and menus act on. */
export function createWorkbook(engine: Engine, snapshot: IWorkbookData): void {
  const { injector } = engine;
  engine.api.createWorkbook(snapshot);
  if (!followed.has(engine)) {
    followed.add(engine);
    readTyped(injector);
    offerKnownFunctions(injector);
    markUncalculated(injector, engine.calculation);
    hideFilteredRows(injector);
  }
  injector.get(IUniverInstanceService).focusUnit(snapshot.id);
}

/** Takes a workbook out of the engine, with what is known of it. */
export function closeWorkbook(engine: Engine, id: string): void {
  const tables = engine.injector.get(ISuperTableService);
  for (const name of [...(tables.getTableMap(id)?.keys() ?? [])]) tables.remove(id, name);
  discardWorkbook(engine, id);
  engine.messages.clear();
  engine.structure.forget(id);
}

/** Takes out no more than what `beginWorkbook` put in: all that there is of a workbook in which nothing was edited or calculated. */
export function discardWorkbook(engine: Engine, id: string): void {
  engine.api.disposeUnit(id);
  engine.injector.get(FilterStore).forget(id);
}

/** Calculates every formula; the results then stand in the cells. */
export function calculate({ calculation }: Engine): Promise<void> {
  calculation.all();
  return calculation.whenDone();
}

/** What the formula bar's autocomplete and argument help show of each function. */
function functionInfos(): IFunctionInfo[] {
  return catalogue.map((definition) => ({
    functionName: `${NAMESPACE}.${definition.name}`,
    functionType: FunctionType.User,
    description: [definition.summary, definition.formula ?? '', `Source: ${definition.source}`]
      .filter(Boolean)
      .join(' · '),
    abstract: definition.summary,
    functionParameter: definition.parameters.map((parameter, index) => ({
      name: parameter.name,
      detail: `${parameter.help} · takes ${parameter.takes('in-lb')}`,
      example: exampleArgument(definition, index),
      require: parameter.optional ? 0 : 1,
      repeat: 0,
    })),
  }));
}

/** Takes from the engine's list what would be an error in its cell here. */
function offerKnownFunctions(injector: Injector): void {
  const offered = injector.get(IDescriptionService);
  const unknown = [...offered.getDescriptions().values()].flatMap(({ functionName, functionType }) =>
    functionType === FunctionType.User || knowsFunction(functionName) ? [] : [functionName],
  );
  offered.unregisterDescriptions(unknown);
}

/** One argument of the first example, as it would be typed; '' where it is left out there. */
function exampleArgument(definition: Definition, index: number): string {
  const [example] = definition.examples;
  const argument = example?.args[index];
  if (argument === undefined || argument === null) return '';
  const whole = exampleFormula(definition, { args: [argument], gives: null });
  return whole.slice(whole.indexOf('(') + 1, -1);
}

const CORNER = { size: 8, color: '#b45309' };

/** Cells that were not recalculated have a corner marked in the sheet; what there is to say stands in the status line. */
function markUncalculated(injector: Injector, calculation: Calculation): void {
  const units = new Map<string, Set<string>>();
  calculation.onDone(() => units.clear());
  injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    effect: InterceptorEffectEnum.Style,
    handler: (cell, { unitId, subUnitId, row, col }, next) => {
      const own = entryOf(units, unitId, () => new Set(calculation.notRecalculated(unitId).map(placeKey)));
      return next(own.size > 0 && own.has(placeKey({ sheet: subUnitId, row, column: col })) ? withCorner(cell) : cell);
    },
  });
}

const withCorner = <T>(cell: T): T => ({ ...cell, markers: { ...(cell as { markers?: object }).markers, tr: CORNER } });
