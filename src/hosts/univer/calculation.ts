/**
 * Calculation of the workbooks that the engine holds: by the calculator alone, the same that `tarebook recalc` uses.
 * It holds a mirror of every open workbook, follows its edits, calculates what depends on them, and gives the engine
 * the cells that changed. The engine's own calculation is never made, so no formula and no fault can go there.
 */
import {
  CommandType,
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type ICommandInfo,
  type IDisposable,
  type IExecutionOptions,
  type Injector,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  FormulaDataModel,
  OtherFormulaMarkDirty,
  SetArrayFormulaDataMutation,
  SetFormulaCalculationResultMutation,
} from '@univerjs/engine-formula';
import {
  AddWorksheetMergeMutation,
  RemoveWorksheetMergeMutation,
  SetRangeValuesMutation,
  SetRowHiddenMutation,
  SetRowVisibleMutation,
  SetStyleCommand,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import { CellError, showsDate, type Result, type WorkbookModel } from '../../sheet';
import { SetFiltersMutation } from './filter-store';
import type { ErrorMessages } from './messages';
import { Mirror, type NotRecalculated, type TypedFormula } from './mirror';
import { CELLS_CHANGE } from './mutations';
import { formatOf } from './number-format';
import { CellRules } from './rules';
import { Updates } from './updates';

/** More formulas than this are no one's typing: they are filled down or pasted, with looks of their own. */
const MOST_TYPED = 100;

/** What has something calculated: other cells, other rows for subtotals, other rules of cells. */
const STARTS = new Set<string>([
  ...CELLS_CHANGE,
  AddWorksheetMergeMutation.id,
  RemoveWorksheetMergeMutation.id,
  SetRowHiddenMutation.id,
  SetRowVisibleMutation.id,
  SetFiltersMutation.id,
  OtherFormulaMarkDirty.id,
]);

export class Calculation {
  private readonly mirrors = new Map<string, Mirror>();
  private readonly rules: CellRules;
  private readonly subscription: IDisposable;
  private readonly listeners = new Set<() => void>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private lastFault: unknown;

  constructor(
    private readonly injector: Injector,
    private readonly messages: ErrorMessages,
  ) {
    this.rules = new CellRules(injector);
    this.subscription = injector
      .get(ICommandService)
      .onCommandExecuted((command, options) => this.follow(command, options));
  }

  /** True when everything that was edited is calculated. */
  get isDone(): boolean {
    return this.timer === undefined;
  }

  /** What went wrong in the last calculation; undefined where nothing did. The cells then keep their values. */
  get fault(): unknown {
    return this.lastFault;
  }

  /** Calculates every formula of every workbook. */
  all(): void {
    for (const mirror of this.mirrors.values()) mirror.forget();
    this.run();
  }

  /** The formulas of a workbook that was just read from a file: those that cannot be calculated keep their values. */
  opened(unit: string, model: WorkbookModel): void {
    this.mirrorOf(this.books().find((book) => book.getUnitId() === unit)!).file = model;
  }

  /** The cells of a workbook that are not recalculated. */
  notRecalculated(unit: string): readonly NotRecalculated[] {
    return this.mirrors.get(unit)?.notRecalculated ?? [];
  }

  /** What a formula that stands in no cell gives for each cell of a sheet, when it is written for the one at `row`, `column`. */
  evaluator(
    unit: string,
    ...where: [sheet: string, row: number, column: number, formula: string]
  ): (row: number, column: number) => Result {
    return this.mirrors.get(unit)?.evaluator(...where) ?? (() => null);
  }

  /** Calls back after every calculation. */
  onDone(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.subscription.dispose();
    this.rules.dispose();
    this.listeners.clear();
  }

  private follow(command: ICommandInfo, options: IExecutionOptions | undefined): void {
    for (const mirror of this.mirrors.values()) mirror.note(command, options);
    if (command.type !== undefined && command.type !== CommandType.MUTATION) return;
    if (!STARTS.has(command.id) || options?.['applyFormulaCalculationResult']) return;
    if (
      command.id === SetRangeValuesMutation.id &&
      (command.params as ISetRangeValuesMutationParams).trigger === SetStyleCommand.id &&
      !this.mirrors.get((command.params as ISetRangeValuesMutationParams).unitId)?.countsFrom1904
    )
      return;
    // An edit is many commands in one turn; the calculation follows once they are all done.
    this.timer ??= setTimeout(() => this.run());
  }

  private run(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    try {
      this.calculate();
      this.lastFault = undefined;
    } catch (error) {
      // The cells keep their values; the next edit reads the whole workbook again.
      for (const mirror of this.mirrors.values()) mirror.forget();
      this.lastFault = error;
      console.error('The workbook could not be calculated.', error);
    }
    for (const listener of [...this.listeners]) listener();
  }

  private calculate(): void {
    const books = this.books();
    for (const id of this.mirrors.keys()) if (!books.some((book) => book.getUnitId() === id)) this.mirrors.delete(id);
    const formulas = this.injector.get(FormulaDataModel).getFormulaData();
    const updates = new Updates(this.injector);
    for (const book of books) {
      const unit = book.getUnitId();
      const mirror = this.mirrorOf(book);
      const { results, typed } = mirror.calculate(formulas[unit]);
      const formats = typed.length <= MOST_TYPED ? formatsOf(book, mirror, typed) : [];
      const dated = mirror.dated(formats.filter(({ pattern }) => showsDate(pattern)));
      for (const one of [...results, ...dated]) {
        const sheet = mirror.sheetIds[one.sheet]!;
        updates.add(book, sheet, one);
        this.messages.record(unit, sheet, one.row, one.column, one.result);
      }
      for (const { sheet, row, column, pattern } of formats) updates.format(book, sheet, row, column, pattern);
    }
    this.show(updates);
  }

  private show(updates: Updates): void {
    const unitOtherData = this.rules.results((unit) => this.mirrors.get(unit));
    if (!updates.hasResults && Object.keys(unitOtherData).length === 0) return;
    const model = this.injector.get(FormulaDataModel);
    const commands = this.injector.get(ICommandService);
    const { unitData, spills, spilled, ended } = updates.data;
    model.clearPreviousArrayFormulaCellData(ended);
    model.mergeArrayFormulaCellData(spilled);
    model.mergeArrayFormulaRange(spills);
    const shown = {
      arrayFormulaRange: model.getArrayFormulaRange(),
      arrayFormulaCellData: model.getArrayFormulaCellData(),
      arrayFormulaEmbedded: {},
    };
    commands.syncExecuteCommand(SetArrayFormulaDataMutation.id, shown, { onlyLocal: true });
    commands.syncExecuteCommand(
      SetFormulaCalculationResultMutation.id,
      { unitData, unitOtherData },
      { onlyLocal: true },
    );
  }

  private mirrorOf(book: EngineWorkbook): Mirror {
    const unit = book.getUnitId();
    let mirror = this.mirrors.get(unit);
    if (!mirror) this.mirrors.set(unit, (mirror = new Mirror(this.injector, book)));
    return mirror;
  }

  private books(): EngineWorkbook[] {
    return this.injector
      .get(IUniverInstanceService)
      .getAllUnitsForType<EngineWorkbook>(UniverInstanceType.UNIVER_SHEET);
  }
}

/** A cell without a number format takes that of what its formula hands on: a date stays a date. */
function formatsOf(
  book: EngineWorkbook,
  mirror: Mirror,
  typed: readonly TypedFormula[],
): (TypedFormula & { readonly pattern: string })[] {
  const styleOf = (sheet: string, row: number, column: number): string | undefined => {
    const cells = book.getSheetBySheetId(sheet)?.getCellMatrix();
    return book.getStyles().getStyleByCell(cells?.getValue(row, column))?.n?.pattern;
  };
  return typed.flatMap((one) => {
    const { sheet, row, column, text } = one;
    if (styleOf(sheet, row, column) || mirror.valueAt(sheet, row, column) instanceof CellError) return [];
    const pattern = formatOf(text, (name, at) => {
      const named = name === undefined ? sheet : book.getSheetBySheetName(name)?.getSheetId();
      return named && styleOf(named, at.row, at.column);
    });
    return pattern ? [{ ...one, pattern }] : [];
  });
}
