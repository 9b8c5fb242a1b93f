/**
 * The calculator in the place of the engine's own calculation. The engine goes over every formula of a workbook
 * at each edit: a minute, in a list of 20,000 rows with a formula in each cell. The calculator shares the
 * catalogue, knows the ordinary functions of parts lists, and calculates what the edit bears on. What it does not
 * know is left to the engine: a workbook with such a formula, and rules of cells that are formulas.
 */
import {
  ICommandService,
  IConfigService,
  Injector,
  IUniverInstanceService,
  setDependencies,
  UniverInstanceType,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  AstTreeBuilder,
  type ArrayValueObject,
  type BaseReferenceObject,
  type BaseValueObject,
  CalculateFormulaService,
  FormulaExecuteStageType,
  ICalculateFormulaService,
  IFeatureCalculationManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
  IFormulaRuntimeService,
  IFunctionService,
  Interpreter,
  IOtherFormulaManagerService,
  Lexer,
  UniverFormulaEnginePlugin,
  type FunctionVariantType,
  type IAllRuntimeData,
  type IFormulaDatasetConfig,
} from '@univerjs/engine-formula';
import type { Calculator } from '../../calculation';
import { ErrorMessages } from './messages';
import { Mirror, type TypedFormula } from './mirror';
import { Updates } from './updates';

/** More formulas than this are no one's typing: they are filled down or pasted, with looks of their own. */
const MOST_TYPED = 100;

/** The engine's formulas, with this calculation. */
export class FormulaPlugin extends UniverFormulaEnginePlugin {
  override onStarting(): void {
    super.onStarting();
    this._injector.replace([ICalculateFormulaService, { useClass: CalculatorService }]);
  }
}

class CalculatorService extends CalculateFormulaService {
  private readonly mirrors = new Map<string, Mirror>();
  private readonly messages: ErrorMessages;
  /** The engine has not seen the edits of the meantime. */
  private isEngineBehind = false;

  constructor(
    config: IConfigService,
    lexer: Lexer,
    currentConfig: IFormulaCurrentConfigService,
    runtime: IFormulaRuntimeService,
    generator: IFormulaDependencyGenerator,
    interpreter: Interpreter,
    builder: AstTreeBuilder,
    private readonly injector: Injector,
  ) {
    super(config, lexer, currentConfig, runtime, generator, interpreter, builder);
    this.messages = injector.get(ErrorMessages);
    this.disposeWithMe(
      injector
        .get(ICommandService)
        .onCommandExecuted((command, options) => this.mirrors.forEach((mirror) => mirror.note(command, options))),
    );
  }

  override async execute(config: IFormulaDatasetConfig): Promise<void> {
    // The controllers that follow a calculation hear of its start in this turn.
    await Promise.resolve();
    const data = this.hasOtherFormulas ? undefined : await this.calculatedSafely(config);
    if (!data) return super.execute(this.forEngine(config));
    this.isEngineBehind = true;
    this.tell(FormulaExecuteStageType.START);
    this.tell(FormulaExecuteStageType.CALCULATION_COMPLETED);
    this._executionCompleteListener$.next(data);
  }

  /** A fault of ours costs time and no result: the engine calculates, and the fault is told where faults are looked for. */
  private async calculatedSafely(config: IFormulaDatasetConfig): Promise<IAllRuntimeData | undefined> {
    try {
      return await this.calculated(config);
    } catch (error) {
      this.mirrors.clear();
      console.error('The calculator failed; the engine calculates instead.', error);
      return undefined;
    }
  }

  /** Results for the engine; undefined where a workbook is not for the calculator. */
  private async calculated(config: IFormulaDatasetConfig): Promise<IAllRuntimeData | undefined> {
    const { formulaData, forceCalculate } = config;
    const books = this.injector
      .get(IUniverInstanceService)
      .getAllUnitsForType<EngineWorkbook>(UniverInstanceType.UNIVER_SHEET);
    for (const id of this.mirrors.keys()) if (!books.some((book) => book.getUnitId() === id)) this.mirrors.delete(id);
    const updates = new Updates(this.injector);
    for (const book of books) {
      const unit = book.getUnitId();
      const mirror = this.mirrors.get(unit) ?? new Mirror(this.injector, book);
      this.mirrors.set(unit, mirror);
      if (forceCalculate) mirror.forget();
      const calculation = mirror.calculate(formulaData[unit], (calculator) => this.canCalculate(calculator));
      if (!calculation) return undefined;
      for (const one of calculation.results) {
        const sheet = mirror.sheetIds[one.sheet]!;
        updates.add(book, sheet, one);
        this.messages.record(unit, sheet, one.row, one.column, one.result);
      }
      if (calculation.typed.length <= MOST_TYPED) await this.formatTyped(config, book, calculation.typed, updates);
    }
    return updates.runtimeData;
  }

  /** What the engine cannot calculate either gives an error there, too. */
  private canCalculate(calculator: Calculator): boolean {
    const functions = this.injector.get(IFunctionService);
    return calculator.unknown.every(({ functionName, formula }) =>
      functionName === undefined ? isUnreadable(this._lexer, formula) : !functions.hasExecutor(functionName),
    );
  }

  /** A cell without a number format takes that of what its formula hands on: a date stays a date. */
  private async formatTyped(
    config: IFormulaDatasetConfig,
    book: EngineWorkbook,
    typed: readonly TypedFormula[],
    updates: Updates,
  ): Promise<void> {
    const isOpen = ({ sheet, row, column, text }: TypedFormula): boolean => {
      const style = book
        .getStyles()
        .getStyleByCell(book.getSheetBySheetId(sheet)!.getCellMatrix().getValue(row, column));
      // The results of our functions have no format.
      return !style?.n && !/\bTARE\./i.test(text);
    };
    const open = typed.filter(isOpen);
    if (open.length === 0) return;
    this._currentConfigService.load(config);
    this._runtimeService.reset();
    for (const { sheet, row, column, text } of open) {
      const worksheet = book.getSheetBySheetId(sheet)!;
      this._runtimeService.setCurrent(
        row,
        column,
        worksheet.getRowCount(),
        worksheet.getColumnCount(),
        sheet,
        book.getUnitId(),
      );
      const pattern = patternOf(await this.calculate(text));
      if (pattern) updates.format(book, sheet, row, column, pattern);
    }
  }

  private get hasOtherFormulas(): boolean {
    const others = Object.values(this.injector.get(IOtherFormulaManagerService).getOtherFormulaData()).flatMap(
      (bySheet) => Object.values(bySheet ?? {}),
    );
    const features = [
      ...this.injector.get(IFeatureCalculationManagerService).getReferenceExecutorMap().values(),
    ].flatMap((bySheet) => [...bySheet.values()]);
    return others.some((one) => Object.keys(one ?? {}).length > 0) || features.some(({ size }) => size > 0);
  }

  private forEngine(config: IFormulaDatasetConfig): IFormulaDatasetConfig {
    if (!this.isEngineBehind) return config;
    this.isEngineBehind = false;
    const sheets = Object.fromEntries(
      Object.entries(config.formulaData).map(([unit, bySheet]) => [
        unit,
        Object.fromEntries(Object.keys(bySheet ?? {}).map((sheet) => [sheet, '1'])),
      ]),
    );
    return { ...config, forceCalculate: true, clearDependencyTreeCache: sheets };
  }

  private tell(stage: FormulaExecuteStageType): void {
    this._executionInProgressListener$.next({
      totalFormulasToCalculate: 0,
      completedFormulasCount: 0,
      totalArrayFormulasToCalculate: 0,
      completedArrayFormulasCount: 0,
      formulaCycleIndex: 0,
      stage,
    });
  }
}

setDependencies(CalculatorService, [
  IConfigService,
  Lexer,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  IFormulaDependencyGenerator,
  Interpreter,
  AstTreeBuilder,
  Injector,
]);

const isUnreadable = (lexer: Lexer, formula: string): boolean => typeof lexer.treeBuilder(`=${formula}`) === 'string';

function patternOf(variant: FunctionVariantType | undefined): string | undefined {
  const value = variant?.isReferenceObject()
    ? (variant as BaseReferenceObject).toArrayValueObject()
    : (variant as BaseValueObject | undefined);
  return (value?.isArray() ? (value as ArrayValueObject).getFirstCell() : value)?.getPattern();
}
