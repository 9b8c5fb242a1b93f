/**
 * A workbook's formulas calculated: the catalogue, and the ordinary functions of parts lists, at the speed of a loop.
 * A formula that cannot be calculated here keeps its value, and it and what rests on it are marked.
 */
import { entryOf } from '../core/memoized';
import { CellError, isInRange, type Cell, type CellModel, type Result, type Spill, type WorkbookModel } from '../sheet';
import { isDynamicUnmarked, templateKey } from '../sheet/formula';
import { Book } from './book';
import { compiled, type Program } from './compile';
import { FormulaCell } from './formula-cell';
import type { Place } from './functions/define';
import { NotYet, type Grid } from './grid';
import { Marks, Sight, strictness, withSpill } from './observing';
import { evaluated, keptInPlace, placed, type Blocked } from './placing';
import { Affected, Changed, Readers } from './readers';
import { Schedule } from './schedule';
import { unknownFunction } from './unknown-function';
import { read, toMatrix, type Reference } from './values';

/** A cell by the index of its sheet in the model. */
export interface SheetCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** What a formula gave. */
export interface Computed extends SheetCell {
  readonly result: Result;
}

export interface UnknownFormula extends SheetCell {
  /** The function that is not known here; undefined where the formula cannot be read. */
  readonly functionName: string | undefined;
  readonly message: string;
  readonly formula: string;
}

/** A formula whose value was not calculated, or rests on one that was not. */
export interface NotRecalculated extends SheetCell {
  /** The formula that kept its value: the cell itself, or the first one that it rests on. */
  readonly because: SheetCell;
}

export interface Calculation {
  readonly results: readonly Computed[];
  /** False where only what edits bear on was calculated, and every result takes the cells that it took before. */
  readonly isWhole: boolean;
  /** Formulas that refer to themselves by way of one another: they keep their values. */
  readonly circles: readonly (readonly FormulaCell[])[];
  /** Results that found no room, with the extent that they need. */
  readonly blocked: readonly Blocked[];
  /** All such formulas of the workbook, whether they were looked at this time or not. */
  readonly notRecalculated: readonly NotRecalculated[];
}

export type Progress = (done: number, total: number) => void;

/** Spills reach cells that other formulas read, so that a new extent means another pass; real workbooks need two. */
const MOST_PASSES = 8;

/** Formulas that fill several cells. */
type Spills = ReadonlyMap<FormulaCell, Spill>;

/** What the last calculation found out; it holds until the extent of a spill changes. */
interface Known {
  /** Every formula after those that it looks at. */
  readonly order: readonly FormulaCell[];
  readonly schedule: Schedule;
  readonly spills: Spills;
  /** Places of the formulas in the order, made when they are asked for. */
  positions?: Uint32Array;
  /** Made by `prepare`; without it an update looks at every formula. */
  readers?: Readers;
}

interface Pass extends Omit<Calculation, 'notRecalculated' | 'isWhole'> {
  readonly found: Spills;
  readonly order: FormulaCell[];
  readonly schedule: Schedule;
  readonly isSettled: boolean;
}

export class Calculator {
  private readonly book: Book;
  private readonly programs = new Map<string, Program>();
  private formulas: FormulaCell[] = [];
  private unknownOnes: UnknownFormula[] = [];
  private known: Known | undefined;
  private readonly changed = new Changed();
  /** Cells that were not calculated, or rest on one. */
  private marks = new Marks();
  /** Formulas of such cells, with the one that was not calculated. */
  private readonly marked = new Map<FormulaCell, FormulaCell>();
  /** What formulas that reach beyond what they name read last. */
  private readonly reads = new Map<FormulaCell, readonly Reference[]>();
  /** Formulas by their place; made for the first edit. */
  private byPlace: Map<string, FormulaCell> | undefined;
  /** Formulas that edits have put others in the place of. */
  private readonly gone = new Set<FormulaCell>();
  private isOrderOld = false;

  /**
   * Reads all formulas; what cannot be calculated here is listed in `unknown`.
   *
   * @param isEdited true keeps the last results, for `edit` and `update` to go on from: a fifth more memory
   */
  constructor(
    model: WorkbookModel,
    private readonly isEdited = false,
  ) {
    this.book = new Book(model);
    for (const grid of this.book.grids) {
      grid.sheet.cells.forEach((line, row) =>
        line?.forEach((cell, column) => {
          if (cell?.formula !== undefined) this.add(grid, row, column, cell, cell.formula);
        }),
      );
    }
  }

  get unknown(): readonly UnknownFormula[] {
    return this.unknownOnes;
  }

  /** Calculates every formula. */
  run(progress: Progress = () => undefined): Calculation {
    this.dropGone();
    this.changed.clear();
    const ofModel = this.spillsOfModel();
    let pass = this.settled(this.known?.spills ?? ofModel, progress);
    // Where spills hang on what they themselves bring about, it counts where one starts: always from the model.
    if (this.known && (pass.circles.length > 0 || !pass.isSettled)) pass = this.settled(ofModel, progress);
    const { results, circles, blocked, order, schedule, found, isSettled } = pass;
    // Circles and results without room are rare: what they hang on is not followed, and they are looked at anew each time.
    this.known =
      this.isEdited && isSettled && circles.length + blocked.length === 0
        ? { order, schedule, spills: found }
        : undefined;
    return { results, isWhole: true, circles, blocked, notRecalculated: this.notRecalculated() };
  }

  /** Puts another content into a cell, of the model too; `update` then calculates what depends on it. */
  edit(sheet: number, row: number, column: number, cell: CellModel | undefined): void {
    const grid = this.book.grids[sheet]!;
    const isEdge = this.isEdge(row, column);
    (grid.sheet.cells[row] ??= [])[column] = cell;
    const before = this.formulasByPlace().get(placeKey({ grid, row, column }));
    if (before) this.remove(before);
    const formula = cell?.formula === undefined ? undefined : this.add(grid, row, column, cell, cell.formula);
    if (!this.known) return;
    this.marks.delete(grid, row, column);
    if (this.isSpilledOver(grid, row, column) || (isEdge && this.book.shared.isExtentAsked)) {
      this.known = undefined;
      return;
    }
    this.changed.add(grid, row, column);
    if (!formula) grid.set(row, column, grid.counted(row, column, cell?.value ?? null));
    else if (formula.isKept) this.keep(formula);
    else grid.set(row, column, formula);
  }

  /** Makes ready for the next edit what would keep it waiting; to be called where nobody waits. */
  prepare(): void {
    if (!this.known || this.isOrderOld) return;
    this.known.readers ??= new Readers(this.known.order);
    this.formulasByPlace();
  }

  /** Calculates what the edits since the last calculation bear on, and gives the results of just those formulas. */
  update(progress: Progress = () => undefined): Calculation {
    const known = this.known && this.reordered(this.known);
    if (!known) return this.run(progress);
    for (const grid of this.book.grids) grid.forget();
    const results: Computed[] = [];
    const affected = known.readers && new Affected(known.readers);
    if (affected) this.changed.each((grid, row, column) => affected.change(grid, row, column));
    for (const [place, formula] of known.order.entries()) {
      if ((affected && !affected.has(place)) || !this.isStale(formula)) continue;
      const result = this.evaluatedInOrder(formula, known);
      if (result === undefined || !this.replace(formula, result, affected)) return this.run(progress);
      results.push(toComputed(formula, result));
    }
    this.changed.clear();
    return { results, isWhole: false, circles: [], blocked: [], notRecalculated: this.notRecalculated() };
  }

  /** What a formula that stands in no cell gives as seen from other cells, when it is written for the one at `row`, `column`. */
  evaluator(sheet: number, row: number, column: number, formula: string): (row: number, column: number) => Result {
    const grid = this.book.grids[sheet]!;
    const { evaluate } = compiled(formula, { book: this.book, sheet: grid.sheet.name, row, column, arrays: true });
    return (own, ownColumn) => read(evaluate({ grid, row: own, column: ownColumn })) ?? null;
  }

  private formulasByPlace(): Map<string, FormulaCell> {
    return (this.byPlace ??= new Map(this.formulas.map((formula) => [placeKey(formula), formula])));
  }

  private add(grid: Grid, row: number, column: number, cell: CellModel, formula: string): FormulaCell {
    const arrays = !cell.plain || isDynamicUnmarked(formula);
    const key = `${grid.index} ${arrays ? 'a' : 'c'} ${templateKey(formula, row, column)}`;
    const program = entryOf(this.programs, key, () =>
      compiled(formula, { book: this.book, sheet: grid.sheet.name, row, column, arrays }),
    );
    const prepared = new FormulaCell(grid, row, column, cell, program);
    this.formulas.push(prepared);
    this.byPlace?.set(placeKey(prepared), prepared);
    this.isOrderOld = true;
    const { unknown, unreadable } = program;
    const message = unreadable ?? (unknown === undefined ? undefined : unknownFunction(unknown));
    if (message !== undefined)
      this.unknownOnes.push({ sheet: grid.index, row, column, functionName: unknown, message, formula });
    return prepared;
  }

  private remove(formula: FormulaCell): void {
    this.gone.add(formula);
    this.isOrderOld = true;
    this.byPlace?.delete(placeKey(formula));
    this.marked.delete(formula);
    this.reads.delete(formula);
    this.unknownOnes = this.unknownOnes.filter(
      ({ sheet, row, column }) => sheet !== formula.grid.index || row !== formula.row || column !== formula.column,
    );
    // Its cells are to be emptied.
    if (Array.isArray(formula.last) || isBlock(formula.cell.spill)) this.known = undefined;
  }

  /** Takes the formulas that have gone out of the list. */
  private dropGone(): void {
    if (this.gone.size > 0) this.formulas = this.formulas.filter((formula) => !this.gone.has(formula));
    this.gone.clear();
    this.isOrderOld = false;
  }

  private spillsOfModel(): Spills {
    return new Map(
      this.formulas.flatMap((formula) =>
        !formula.isKept && isBlock(formula.cell.spill) ? [[formula, formula.cell.spill!]] : [],
      ),
    );
  }

  private schedule(spills: Spills): Schedule {
    const schedule = new Schedule();
    const calculated = this.unknownOnes.length ? this.formulas.filter(({ isKept }) => !isKept) : this.formulas;
    for (const formula of calculated) schedule.add(formula);
    if (spills.size > 0)
      for (const formula of calculated)
        eachCell(formula, spills.get(formula), (row, column) => schedule.cover(formula, row, column));
    return schedule;
  }

  /** What is known, in the order that the formulas now have. */
  private reordered(known: Known): Known {
    if (!this.isOrderOld) return known;
    this.dropGone();
    const schedule = this.schedule(known.spills);
    const order: FormulaCell[] = [];
    schedule.run({
      calculate: (formula) => order.push(formula),
      keep: () => undefined,
      alsoRead: (formula) => this.reads.get(formula),
    });
    return (this.known = { ...known, order, schedule, positions: undefined, readers: undefined });
  }

  /** Passes until the spills are those that the pass before found. */
  private settled(start: Spills, progress: Progress): Pass {
    let spills = start;
    for (let count = 1; ; count++) {
      const pass = this.pass(spills, progress);
      if (pass.isSettled || count === MOST_PASSES) return pass;
      spills = pass.found;
    }
  }

  private pass(spills: Spills, progress: Progress): Pass {
    const schedule = this.schedule(spills);
    this.loadGrids(spills);
    const order: FormulaCell[] = [];
    const results: Computed[] = [];
    const found = new Map<FormulaCell, Spill>();
    const blocked: Blocked[] = [];
    const leaveCells = (formula: FormulaCell, expected: Spill | undefined): void => {
      const { grid, row, column } = formula;
      if (expected) grid.release({ row, column, ...expected }, formula);
    };
    const calculate = (formula: FormulaCell): void => {
      const value = this.evaluate(formula, this.isEdited && formula.program.reaches);
      leaveCells(formula, spills.get(formula));
      const result = placed(formula, value, schedule, blocked);
      const root = this.marked.get(formula);
      if (root) this.markCells(formula, result, root);
      if (this.isEdited) {
        formula.last = result;
        order.push(formula);
      }
      const extent = extentOf(formula, result);
      if (extent) found.set(formula, extent);
      if (results.push(toComputed(formula, result)) % PROGRESS_EVERY === 0)
        progress(results.length, this.formulas.length);
    };
    const keep = (formula: FormulaCell): void => {
      const expected = spills.get(formula);
      leaveCells(formula, expected);
      this.keep(formula);
      // The next pass would find it in the circle again, and the one after it would not.
      if (expected) found.set(formula, expected);
    };
    schedule.run({ calculate, keep, alsoRead: (formula) => this.reads.get(formula) });
    const isSettled = sameSpills(spills, found);
    return { results, circles: schedule.circles, blocked, found, order, schedule, isSettled };
  }

  /** Values in their cells, formulas in theirs and in those that they are known to spill over. */
  private loadGrids(spills: Spills): void {
    const { shared, grids } = this.book;
    shared.height = 0;
    shared.width = 0;
    for (const grid of grids) grid.load();
    this.marks = new Marks();
    this.marked.clear();
    for (const formula of this.formulas)
      if (formula.isKept) this.keep(formula);
      else formula.grid.await(formula.row, formula.column, formula);
    if (spills.size > 0)
      for (const formula of this.formulas)
        if (!formula.isKept)
          eachCell(formula, spills.get(formula), (row, column) => formula.grid.await(row, column, formula));
  }

  /** Leaves a formula's cells as the model has them, and marks them. */
  private keep(formula: FormulaCell): void {
    this.marked.set(formula, formula);
    for (const { row, column } of keptInPlace(formula)) this.marks.set(formula.grid, row, column, formula);
  }

  /** A formula's result; what it rests on is noted. */
  private evaluate(formula: FormulaCell, keepsReads: boolean): Result {
    if (!keepsReads && this.marks.isEmpty && !strictness.isOn) {
      if (this.marked.size > 0) this.marked.delete(formula);
      return evaluated(formula);
    }
    const { shared } = this.book;
    const sight = new Sight(formula, this.marks, keepsReads);
    shared.observer = sight;
    try {
      const result = evaluated(formula);
      if (sight.root) this.marked.set(formula, sight.root);
      else this.marked.delete(formula);
      return result;
    } finally {
      shared.observer = undefined;
      if (keepsReads) this.reads.set(formula, sight.reads);
    }
  }

  /** The same where the order may be wrong: undefined where the formula read one that comes after it. */
  private evaluatedInOrder(formula: FormulaCell, known: Known): Result | undefined {
    const mayReadLater = formula.program.reaches || known.schedule.loose.has(formula);
    try {
      const result = this.evaluate(formula, mayReadLater);
      return mayReadLater && this.readLater(formula, known) ? undefined : result;
    } catch (error) {
      if (error instanceof NotYet) return undefined;
      throw error;
    }
  }

  private readLater(formula: FormulaCell, known: Known): boolean {
    const positions = (known.positions ??= positionsIn(known.order));
    const own = positions[formula.index]!;
    return (
      this.reads.get(formula)?.some((at) => known.schedule.some(at, (other) => positions[other.index]! >= own)) ?? false
    );
  }

  private notRecalculated(): NotRecalculated[] {
    return [...this.marked].map(([formula, root]) => ({ ...sheetCell(formula), because: sheetCell(root) }));
  }

  private markCells({ grid, row, column }: FormulaCell, result: Result, root: FormulaCell | undefined): void {
    toMatrix(result).forEach((line, r) =>
      line.forEach((_cell, c) =>
        root ? this.marks.set(grid, row + r, column + c, root) : this.marks.delete(grid, row + r, column + c),
      ),
    );
  }

  /** Whether an edit there may change how far the sheets are used. */
  private isEdge(row: number, column: number): boolean {
    const { height, width } = this.book.shared;
    return row >= height - 1 || column >= width - 1;
  }

  /** Whether a cell shows part of a result, be it its first. */
  private isSpilledOver(grid: Grid, row: number, column: number): boolean {
    return [...this.known!.spills].some(
      ([own, { rows, columns }]) =>
        own.grid === grid && isInRange({ row: own.row, column: own.column, rows, columns }, row, column),
    );
  }

  private isStale(formula: FormulaCell): boolean {
    if (formula.last === undefined || formula.program.isVolatile) return true;
    if (this.changed.isEmpty) return false;
    return (
      formula.looksAt().some((at) => this.changed.touch(withSpill(at))) ||
      (this.reads.get(formula)?.some((at) => this.changed.touch(at)) ?? false)
    );
  }

  /** Puts a result in the place of the last one, noting the cells that are not what they were; false where it takes other cells. */
  private replace(formula: FormulaCell, result: Result, affected: Affected | undefined): boolean {
    const { grid, row, column, last, cell } = formula;
    const [now, before] = [toMatrix(result), toMatrix(last)];
    if (
      cell.spill?.fixed ||
      now.length !== before.length ||
      now[0]!.length !== before[0]!.length ||
      (last !== undefined && Array.isArray(last) !== Array.isArray(result))
    )
      return false;
    formula.last = result;
    const root = this.marked.get(formula);
    const isMarkNew = root !== this.marks.find(grid, row, column, 1, 1);
    if (isMarkNew) this.markCells(formula, result, root);
    now.forEach((line, r) =>
      line.forEach((value, c) => {
        if (!isMarkNew && last !== undefined && isSame(before[r]![c]!, value)) return;
        grid.set(row + r, column + c, value);
        this.changed.add(grid, row + r, column + c);
        affected?.change(grid, row + r, column + c);
      }),
    );
    return true;
  }
}

const PROGRESS_EVERY = 5000;

const isBlock = (spill: Spill | undefined): boolean => spill !== undefined && spill.rows * spill.columns > 1;
const placeKey = ({ grid, row, column }: Place): string => `${grid.index} ${row} ${column}`;
const sheetCell = ({ grid, row, column }: FormulaCell): SheetCell => ({ sheet: grid.index, row, column });
/** Written out: an object that is spread into another one takes twice the memory, and there are as many as formulas. */
const toComputed = ({ grid, row, column }: FormulaCell, result: Result): Computed => ({
  sheet: grid.index,
  row,
  column,
  result: grid.shown(row, column, result),
});
const isSame = (a: Cell, b: Cell): boolean =>
  a === b || (a instanceof CellError && b instanceof CellError && a.code === b.code && a.message === b.message);

/** The cells that a result fills; undefined where that is one. */
function extentOf({ cell }: FormulaCell, result: Result): Spill | undefined {
  if (cell.spill?.fixed) return isBlock(cell.spill) ? cell.spill : undefined;
  return Array.isArray(result) ? { rows: result.length, columns: result[0]!.length } : undefined;
}

function eachCell(
  { row, column }: FormulaCell,
  spill: Spill | undefined,
  take: (row: number, column: number) => void,
): void {
  if (!spill) return;
  for (let r = 0; r < spill.rows; r++) for (let c = 0; c < spill.columns; c++) take(row + r, column + c);
}

function positionsIn(order: readonly FormulaCell[]): Uint32Array {
  const positions = new Uint32Array(order.length);
  order.forEach((formula, position) => (positions[formula.index] = position));
  return positions;
}

const sameSpills = (a: Spills, b: Spills): boolean =>
  a.size === b.size &&
  [...a].every(([key, { rows, columns }]) => b.get(key)?.rows === rows && b.get(key)?.columns === columns);
