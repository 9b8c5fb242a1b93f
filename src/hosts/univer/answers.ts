/**
 * What the calculator answers, as the engine takes it: results that it does not show already, and the words of errors,
 * which it does not keep; and what formulas give that stand in no cell: those of drop-downs, of conditions on what may be
 * typed and of looks.
 */
import {
  ICommandService,
  ObjectMatrix,
  type ICellData,
  type IDisposable,
  type Injector,
  type IRange,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  FormulaDataModel,
  RemoveOtherFormulaMutation,
  SetArrayFormulaDataMutation,
  SetFormulaCalculationResultMutation,
  SetOtherFormulaMutation,
  type IRemoveOtherFormulaMutationParams,
  type ISetOtherFormulaMutationParams,
} from '@univerjs/engine-formula';
import {
  eachResult,
  unpackResult,
  type Answer,
  type Asked,
  type PackedResult,
  type PackedValue,
  type Results,
} from '../../calculation/service';
import { entryOf } from '../../core/memoized';
import { CellError, revived, type Result } from '../../sheet';
import { spilledCells, spillRanges, toValueData, type ByCell } from './cells';
import { cellKey, sameCells, toRange } from './places';

type Cells = ObjectMatrix<Nullable<ICellData>>;

/** What is to be done to the cells of a sheet. */
interface SheetUpdate {
  /** Values of the cells that hold formulas. */
  readonly values: Cells;
  /** Values of cells over which formulas spill, with those that hold the formulas. */
  readonly spilled: Cells;
  /** Extents of formulas that begin to spill, or spill otherwise. */
  readonly begun: ObjectMatrix<IRange>;
  /** Formulas that spill no more. */
  readonly ended: Cells;
}

/** Results of rules that stand in no cell, as the engine takes them. */
export type OtherResults = Record<string, Record<string, Record<number, Record<number, ICellData[][]>>>>;

/**
 * As many cells are written into the engine's cells themselves: its command goes through a dozen listeners and has the
 * whole view drawn anew, as often as results come.
 */
const MANY = 300;

export class Updates {
  private readonly bySheet = new Map<string, SheetUpdate>();
  private hasSpills = false;
  private count = 0;

  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
  ) {}

  /** Results on the sheet of this id; `isLeft` says which cells keep what they hold. */
  add(sheet: string, results: Results, isLeft: (row: number, column: number) => boolean): void {
    const worksheet = this.book.getSheetBySheetId(sheet);
    if (!worksheet) return;
    if (results.spill) return this.addSpilled(worksheet, results, results.spill);
    const ranges = spillRanges(this.injector, worksheet);
    const cells = worksheet.getCellMatrix();
    eachResult(results, (row, column, value) => {
      if (isLeft(row, column)) return;
      const data = resultData(value);
      if (ranges?.[row]?.[column]) {
        this.hasSpills = true;
        this.update(sheet).ended.setValue(row, column, data);
      } else if (isShown(cells.getValue(row, column), data)) return;
      this.update(sheet).values.setValue(row, column, data);
      this.count += 1;
    });
  }

  /** A number format for a cell that holds a formula. */
  format(sheet: string, row: number, column: number, pattern: string): void {
    const { values } = this.update(sheet);
    const { v, t } =
      values.getValue(row, column) ?? this.book.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column) ?? {};
    values.setValue(row, column, { v, t, s: { n: { pattern } } });
  }

  /**
   * Puts them into the cells; they are part of no step that can be taken back. Gives the sheets that were written
   * without a command: those who show them are to be told.
   */
  show(other?: OtherResults): readonly string[] {
    const hasOther = other !== undefined && Object.keys(other).length > 0;
    if (this.bySheet.size === 0 && !hasOther) return [];
    const unit = this.book.getUnitId();
    const commands = this.injector.get(ICommandService);
    if (this.hasSpills) {
      const model = this.injector.get(FormulaDataModel);
      this.merge(model);
      commands.syncExecuteCommand(
        SetArrayFormulaDataMutation.id,
        {
          arrayFormulaRange: model.getArrayFormulaRange(),
          arrayFormulaCellData: model.getArrayFormulaCellData(),
          arrayFormulaEmbedded: {},
        },
        { onlyLocal: true },
      );
    }
    const written = this.count >= MANY ? this.write() : [];
    if (written.length > 0 && !hasOther) return written;
    const values =
      written.length > 0 ? [] : [...this.bySheet].map(([sheet, update]) => [sheet, update.values.getMatrix()]);
    commands.syncExecuteCommand(
      SetFormulaCalculationResultMutation.id,
      {
        unitData: values.length > 0 ? { [unit]: Object.fromEntries(values) } : {},
        unitOtherData: hasOther ? { [unit]: other } : {},
      },
      { onlyLocal: true },
    );
    return written;
  }

  /** Puts spills into the engine's record of them; its own methods copy the whole of it each time, by way of JSON. */
  private merge(model: FormulaDataModel): void {
    const unit = this.book.getUnitId();
    const allRanges = model.getArrayFormulaRange() as Record<string, Record<string, ByCell<IRange>>>;
    const allCells = model.getArrayFormulaCellData() as Record<string, Record<string, ByCell<ICellData>>>;
    for (const [sheet, { spilled, begun, ended }] of this.bySheet) {
      const ownRanges = ((allRanges[unit] ??= {})[sheet] ??= {});
      const ownCells = ((allCells[unit] ??= {})[sheet] ??= {});
      const leave = (row: number, column: number): void => {
        const range = ownRanges[row]?.[column];
        if (!range) return;
        for (let r = range.startRow; r <= range.endRow; r++)
          for (let c = range.startColumn; c <= range.endColumn; c++) delete ownCells[r]?.[c];
        delete ownRanges[row]![column];
      };
      ended.forValue(leave);
      begun.forValue(leave);
      begun.forValue((row, column, range) => {
        (ownRanges[row] ??= {})[column] = range;
      });
      spilled.forValue((row, column, data) => {
        (ownCells[row] ??= {})[column] = data;
      });
    }
  }

  private write(): readonly string[] {
    for (const [sheet, { values }] of this.bySheet) {
      const cells = this.book.getSheetBySheetId(sheet)?.getCellMatrix();
      values.forValue((row, column, data) => {
        const cell = cells?.getValue(row, column);
        if (cell && data) Object.assign(cell, { t: null }, data);
        else if (data) cells?.setValue(row, column, data);
      });
    }
    return [...this.bySheet.keys()];
  }

  /** Some rows of what one formula fills. */
  private addSpilled(worksheet: Worksheet, results: Results, spill: NonNullable<Results['spill']>): void {
    const sheet = worksheet.getSheetId();
    const { row: top, column: left } = spill;
    const range = toRange(spill);
    const shown = spilledCells(this.injector, worksheet);
    let isWhole = false;
    if (results.row === top) {
      const first = resultData(results.values[0]!);
      const cell = worksheet.getCellMatrix().getValue(top, left);
      if (!isShown(cell, first)) this.update(sheet).values.setValue(top, left, first);
      const before = spillRanges(this.injector, worksheet)?.[top]?.[left];
      // The engine empties the whole extent when it is given the first cell.
      isWhole = !before || !sameCells(before, range) || !isShown(shown?.[top]?.[left], first);
      if (isWhole) this.update(sheet).begun.setValue(top, left, range);
    }
    eachResult(results, (row, column, value) => {
      const data = resultData(value);
      if (isWhole || !isShown(shown?.[row]?.[column], data)) {
        this.hasSpills = true;
        this.update(sheet).spilled.setValue(row, column, data);
      }
    });
    this.hasSpills ||= isWhole;
  }

  private update(sheet: string): SheetUpdate {
    return entryOf(this.bySheet, sheet, noUpdate);
  }
}

const noUpdate = (): SheetUpdate => ({
  values: new ObjectMatrix(),
  spilled: new ObjectMatrix(),
  begun: new ObjectMatrix(),
  ended: new ObjectMatrix(),
});

/** A result of a formula as the engine shows it. */
const resultData = (value: PackedValue): ICellData => (value === null ? { v: null } : toValueData(revived(value)));

const isShown = (shown: Nullable<ICellData>, data: ICellData): boolean => shown?.v === data.v && shown?.t === data.t;

/** The engine keeps only an error's code: the messages behind the codes are kept here, by sheet and cell. */
export class ErrorMessages {
  private readonly bySheet = new Map<string, Map<number, CellError>>();

  /** Remembers the errors of results, in the place of those of the last ones; `isLeft` says which cells are left as they are. */
  record(workbook: string, sheet: string, results: Results, isLeft: (row: number, column: number) => boolean): void {
    const key = sheetKey(workbook, sheet);
    let own = this.bySheet.get(key);
    // Most columns have no error in them, and none before.
    if (!own && results.values instanceof Float64Array) return;
    eachResult(results, (row, column, value) => {
      const error = typeof value === 'object' && value?.message ? value : undefined;
      if ((!error && !own) || isLeft(row, column)) return;
      if (!error) own!.delete(cellKey(row, column));
      else {
        if (!own) this.bySheet.set(key, (own = new Map<number, CellError>()));
        own.set(cellKey(row, column), new CellError(error.code, error.message));
      }
    });
  }

  /** The message for a cell that now shows `code`; undefined where none of ours gave that error. */
  explain(workbook: string, sheet: string, row: number, column: number, code: string): string | undefined {
    const error = this.bySheet.get(sheetKey(workbook, sheet))?.get(cellKey(row, column));
    return error?.code === code ? error.message : undefined;
  }

  /** Forgets them all: after cells have moved they would stand for others. */
  clear(): void {
    this.bySheet.clear();
  }
}

const sheetKey = (workbook: string, sheet: string): string => `${workbook} ${sheet}`;

/** A formula by the calculator's index of its sheet, written for the cell at `row`, `column`. */
type Written = Omit<Asked, 'cells'>;

interface Known {
  readonly written: Written;
  readonly results: Map<string, Result>;
  /** Cells that are to be asked for, and those that have been asked for. */
  readonly wanted: Map<string, readonly [row: number, column: number]>;
  readonly asked: Set<string>;
}

type Taken = (results: readonly (readonly PackedResult[])[]) => void;

/** What formulas give, remembered until the next calculation. */
export class FormulaAnswers {
  private readonly formulas = new Map<string, Known>();
  private readonly questions = new Map<number, Taken>();
  private readonly listeners = new Set<() => void>();
  private count = 0;
  private isGathering = false;

  /** @param isHere true where what is asked is answered at once */
  constructor(
    private readonly post: (question: number, asked: readonly Asked[]) => void,
    private readonly isHere: boolean,
  ) {}

  /** Asks for formulas in cells; answers to what is asked before `clear` are passed over. */
  ask(asked: readonly Asked[], taken: Taken): void {
    const question = (this.count += 1);
    this.questions.set(question, taken);
    this.post(question, asked);
  }

  take({ question, results }: Answer & { readonly kind: 'evaluated' }): void {
    const taken = this.questions.get(question);
    this.questions.delete(question);
    taken?.(results);
  }

  /** What is known of a formula in a cell. Where that is nothing it is asked, with others of the same turn, and `known` called once it is answered. */
  given(written: Written, cell: readonly [row: number, column: number], known: () => void): Result | undefined {
    const key = `${written.sheet} ${written.row} ${written.column} ${written.formula}`;
    const formula = entryOf(this.formulas, key, (): Known => ({
      written,
      results: new Map(),
      wanted: new Map(),
      asked: new Set(),
    }));
    const place = cell.join(' ');
    const result = formula.results.get(place);
    if (result !== undefined) return result;
    if (!formula.asked.has(place)) formula.wanted.set(place, cell);
    if (this.isHere) {
      this.askWanted();
      return formula.results.get(place);
    }
    this.listeners.add(known);
    if (!this.isGathering) {
      this.isGathering = true;
      queueMicrotask(() => this.askWanted());
    }
    return undefined;
  }

  /** Values are others now. */
  clear(): void {
    this.formulas.clear();
    this.questions.clear();
    this.listeners.clear();
  }

  private askWanted(): void {
    this.isGathering = false;
    const wanted = [...this.formulas.values()].filter((formula) => formula.wanted.size > 0);
    if (wanted.length === 0) return;
    const listeners = [...this.listeners];
    this.listeners.clear();
    const places = wanted.map((formula) => [...formula.wanted]);
    for (const formula of wanted) {
      for (const place of formula.wanted.keys()) formula.asked.add(place);
      formula.wanted.clear();
    }
    this.ask(
      wanted.map(({ written }, index) => ({ ...written, cells: places[index]!.map(([, cell]) => cell) })),
      (results) => {
        results.forEach((own, index) =>
          own.forEach((result, at) => wanted[index]!.results.set(places[index]![at]![0], unpackResult(result))),
        );
        for (const listener of listeners) listener();
      },
    );
  }
}

interface Rule {
  readonly unit: string;
  readonly sheet: string;
  readonly formula: string;
  /** The first cell of the first is the one that the formula is written for. */
  readonly ranges: readonly IRange[];
}

/** A rule's formula with the cells for which it is asked: it is written for the one at `row`, `column`. */
export interface RuleAsked {
  readonly id: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  readonly cells: readonly (readonly [row: number, column: number])[];
}

/** Cells that one rule is asked about: below a list's end nobody types. */
const MOST_CELLS = 20_000;

export class CellRules {
  private readonly rules = new Map<string, Rule>();
  private readonly subscription: IDisposable;

  constructor(injector: Injector) {
    this.subscription = injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
      if (id === SetOtherFormulaMutation.id) this.add(params as ISetOtherFormulaMutationParams);
      if (id === RemoveOtherFormulaMutation.id)
        for (const rule of (params as IRemoveOtherFormulaMutationParams).formulaIdList) this.rules.delete(rule);
    });
  }

  /** The rules of a workbook. */
  of(unit: string): RuleAsked[] {
    return [...this.rules].flatMap(([id, rule]) => (rule.unit === unit ? askedFor(id, rule) : []));
  }

  dispose(): void {
    this.subscription.dispose();
  }

  private add({ unitId, subUnitId, formulaMap }: ISetOtherFormulaMutationParams): void {
    for (const [id, { f, ranges }] of Object.entries(formulaMap))
      this.rules.set(id, { unit: unitId, sheet: subUnitId, formula: f, ranges });
  }
}

function askedFor(id: string, { sheet, formula, ranges }: Rule): RuleAsked {
  const { startRow: row = 0, startColumn: column = 0 } = ranges[0] ?? {};
  const cells: (readonly [number, number])[] = [];
  for (const range of ranges)
    for (let r = range.startRow; r <= range.endRow && cells.length < MOST_CELLS; r++)
      for (let c = range.startColumn; c <= range.endColumn && cells.length < MOST_CELLS; c++) cells.push([r, c]);
  return { id, sheet, row, column, formula: formula.replace(/^=/, ''), cells };
}

/** What the rules give, as the engine takes it: by the place of a cell from the rule's first one. */
export function otherResults(rules: readonly RuleAsked[], results: readonly (readonly PackedResult[])[]): OtherResults {
  const other: OtherResults = {};
  rules.forEach(({ id, sheet, row, column, cells }, index) => {
    const own: Record<number, Record<number, ICellData[][]>> = {};
    cells.forEach(([r, c], at) => {
      const result = results[index]![at]!;
      const block = Array.isArray(result) ? (result as readonly (readonly PackedValue[])[]) : [[result as PackedValue]];
      (own[r - row] ??= {})[c - column] = block.map((line) => line.map(resultData));
    });
    (other[sheet] ??= {})[id] = own;
  });
  return other;
}
