/**
 * A workbook's formulas calculated without the embedded engine: the same catalogue, and the ordinary
 * functions of parts lists, at the speed of a loop. On 100,000 rows of three formulas, one a cell, the engine
 * takes about a minute of computing and this about a second; the engine stays for what is not known here.
 */
import { CellError, type Cell, type CellModel, type Result, type Spill, type WorkbookModel } from '../sheet';
import { isDynamic } from '../xlsx';
import { Book } from './book';
import { Changed } from './changed';
import { compiled, type Program } from './compile';
import type { Place } from './function-spec';
import type { Grid } from './grid';
import { blockOf, evaluated, placed, type Prepared } from './placing';
import { Schedule, type FormulaCell } from './schedule';
import { templateKey } from './template';
import { read, Reference } from './values';

/** What a formula gave. */
export interface Computed {
  /** Index into the model's sheets. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly result: Result;
}

export interface UnknownFormula {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** The function that is not known here; undefined where the formula cannot be read. */
  readonly functionName: string | undefined;
  readonly message: string;
  readonly formula: string;
}

export interface Calculation {
  readonly results: readonly Computed[];
  /** Formulas that refer to themselves by way of one another: they keep their values. */
  readonly circles: readonly (readonly FormulaCell[])[];
  /** Results that found no room, with the extent that they need. */
  readonly blocked: readonly (FormulaCell & Spill)[];
}

export type Progress = (done: number, total: number) => void;

/** Spills reach cells that other formulas read, so that a new extent means another pass; real workbooks need two. */
const MOST_PASSES = 8;

/** What the last calculation found out; it holds until the extent of a spill changes. */
interface Known {
  /** Every formula after those that it looks at. */
  readonly order: readonly Prepared[];
  /** Those of them that spill. */
  readonly spilling: readonly Prepared[];
  readonly spills: ReadonlyMap<string, Spill>;
}

export class Calculator {
  private readonly book: Book;
  private readonly programs = new Map<string, Program>();
  private formulas: Prepared[] = [];
  private unknownOnes: UnknownFormula[] = [];
  private known: Known | undefined;
  private readonly changed = new Changed();
  /** Formulas by their place; made for the first edit. */
  private byPlace: Map<string, Prepared> | undefined;
  /** Formulas that edits have put others in the place of. */
  private readonly gone = new Set<Prepared>();
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
        line.forEach((cell, column) => {
          if (cell?.formula !== undefined) this.add(grid, row, column, cell, cell.formula);
        }),
      );
    }
  }

  get unknown(): readonly UnknownFormula[] {
    return this.unknownOnes;
  }

  /** Formulas that go round in a circle, found without calculating. */
  circles(): readonly (readonly FormulaCell[])[] {
    return this.ordered(this.spillsOfModel()).circles;
  }

  /** Calculates every formula. */
  run(progress: Progress = () => undefined): Calculation {
    this.dropGone();
    this.changed.clear();
    let spills = this.known?.spills ?? this.spillsOfModel();
    for (let pass = 1; ; pass++) {
      const { found, order, ...calculation } = this.pass(spills, progress);
      if (pass < MOST_PASSES && !sameSpills(spills, found)) {
        spills = found;
        continue;
      }
      // Circles and results without room are rare: what they hang on is not followed, and they are looked at anew each time.
      this.known =
        this.isEdited && calculation.circles.length + calculation.blocked.length === 0
          ? { order, spilling: order.filter(({ last }) => Array.isArray(last)), spills: found }
          : undefined;
      return calculation;
    }
  }

  /** Puts another content into a cell, of the model too; `update` then calculates what depends on it. */
  edit(sheet: number, row: number, column: number, cell: CellModel | undefined): void {
    const grid = this.book.grids[sheet]!;
    (grid.sheet.cells[row] ??= [])[column] = cell;
    this.byPlace ??= new Map(this.formulas.map((formula) => [placeKey(formula), formula]));
    const before = this.byPlace.get(placeKey({ grid, row, column }));
    if (before) this.remove(before);
    if (cell?.formula !== undefined) this.add(grid, row, column, cell, cell.formula);
    if (!this.known) return;
    if (this.isSpilledOver(grid, row, column)) this.known = undefined;
    else {
      grid.set(row, column, cell?.formula === undefined ? (cell?.value ?? null) : null);
      this.changed.add(grid, row, column);
    }
  }

  /** Calculates what the edits since the last calculation bear on, and gives the results of just those formulas. */
  update(progress: Progress = () => undefined): Calculation {
    const known = this.known && this.reordered(this.known);
    if (!known) return this.run(progress);
    for (const grid of this.book.grids) grid.forget();
    const results: Computed[] = [];
    for (const formula of known.order) {
      if (!this.isStale(formula)) continue;
      const result = evaluated(formula);
      if (!this.replace(formula, result)) return this.run(progress);
      results.push(toComputed(formula, result));
    }
    this.changed.clear();
    return { results, circles: [], blocked: [] };
  }

  /** What a formula that stands in no cell gives as seen from other cells, when it is written for the one at `row`, `column`. */
  evaluator(sheet: number, row: number, column: number, formula: string): (row: number, column: number) => Result {
    const grid = this.book.grids[sheet]!;
    const { evaluate } = compiled(formula, { book: this.book, sheet: grid.sheet.name, row, column, arrays: true });
    return (own, ownColumn) => read(evaluate({ grid, row: own, column: ownColumn })) ?? null;
  }

  private add(grid: Grid, row: number, column: number, cell: CellModel, formula: string): void {
    const arrays = !cell.plain || isDynamic(formula);
    const key = `${grid.index} ${arrays ? 'a' : 'c'} ${templateKey(formula, row, column)}`;
    let program = this.programs.get(key);
    if (!program)
      this.programs.set(
        key,
        (program = compiled(formula, { book: this.book, sheet: grid.sheet.name, row, column, arrays })),
      );
    const prepared: Prepared = { grid, row, column, cell, program, arrays, index: this.formulas.length };
    this.formulas.push(prepared);
    this.byPlace?.set(placeKey(prepared), prepared);
    this.isOrderOld = true;
    const { unknown, unreadable } = program;
    if (unreadable !== undefined)
      this.unknownOnes.push({ sheet: grid.index, row, column, functionName: undefined, message: unreadable, formula });
    else if (unknown !== undefined)
      this.unknownOnes.push({
        sheet: grid.index,
        row,
        column,
        functionName: unknown,
        message: `There is no function ${unknown}`,
        formula,
      });
  }

  private remove(formula: Prepared): void {
    this.gone.add(formula);
    this.isOrderOld = true;
    this.byPlace?.delete(placeKey(formula));
    this.unknownOnes = this.unknownOnes.filter(
      ({ sheet, row, column }) => sheet !== formula.grid.index || row !== formula.row || column !== formula.column,
    );
    // Its cells are to be emptied.
    if (Array.isArray(formula.last)) this.known = undefined;
  }

  /** Takes the formulas that have gone out of the list. */
  private dropGone(): void {
    if (this.gone.size > 0) this.formulas = this.formulas.filter((formula) => !this.gone.has(formula));
    this.gone.clear();
    this.isOrderOld = false;
  }

  private spillsOfModel(): Map<string, Spill> {
    return new Map(
      this.formulas.flatMap((formula) =>
        formula.cell.spill && isBlock(formula.cell.spill) ? [[placeKey(formula), formula.cell.spill]] : [],
      ),
    );
  }

  private schedule(spills: ReadonlyMap<string, Spill>): Schedule {
    const schedule = new Schedule();
    this.formulas.forEach((formula, index) => {
      formula.index = index;
      schedule.add(formula);
    });
    if (spills.size > 0)
      for (const formula of this.formulas) coverSpill(schedule, formula, spills.get(placeKey(formula)));
    return schedule;
  }

  private ordered(spills: ReadonlyMap<string, Spill>): {
    order: Prepared[];
    circles: readonly (readonly FormulaCell[])[];
  } {
    const order: Prepared[] = [];
    const schedule = this.schedule(spills);
    schedule.run(
      (formula) => order.push(formula as Prepared),
      () => undefined,
    );
    return { order, circles: schedule.circles };
  }

  /** What is known, in the order that the formulas now have; undefined where they go round in a circle. */
  private reordered(known: Known): Known | undefined {
    if (!this.isOrderOld) return known;
    this.dropGone();
    const { order, circles } = this.ordered(known.spills);
    return (this.known = circles.length === 0 ? { ...known, order } : undefined);
  }

  private pass(
    spills: ReadonlyMap<string, Spill>,
    progress: Progress,
  ): Calculation & { found: Map<string, Spill>; order: Prepared[] } {
    for (const grid of this.book.grids) grid.load();
    const schedule = this.schedule(spills);
    const order: Prepared[] = [];
    const results: Computed[] = [];
    const found = new Map<string, Spill>();
    const blocked: (FormulaCell & Spill)[] = [];
    const calculate = (cell: FormulaCell): void => {
      const formula = cell as Prepared;
      const result = placed(formula, evaluated(formula), blocked);
      if (this.isEdited) {
        formula.last = result;
        order.push(formula);
      }
      if (Array.isArray(result)) found.set(placeKey(formula), { rows: result.length, columns: result[0]!.length });
      if (results.push(toComputed(formula, result)) % PROGRESS_EVERY === 0)
        progress(results.length, this.formulas.length);
    };
    schedule.run(calculate, ({ grid, row, column }) =>
      grid.set(row, column, grid.sheet.cells[row]?.[column]?.value ?? null),
    );
    return { results, circles: schedule.circles, blocked, found, order };
  }

  /** Whether a cell shows part of a result, be it its first. */
  private isSpilledOver(grid: Grid, row: number, column: number): boolean {
    return this.known!.spilling.some(
      ({ grid: own, row: top, column: left, last }) =>
        own === grid &&
        Array.isArray(last) &&
        row >= top &&
        row < top + last.length &&
        column >= left &&
        column < left + last[0]!.length,
    );
  }

  private isStale(formula: Prepared): boolean {
    if (formula.last === undefined || formula.program.isVolatile) return true;
    if (this.changed.isEmpty) return false;
    return formula.program.references.some((locate) => {
      const at = locate(formula);
      return at instanceof Reference && this.changed.touch(at.isCell ? withSpill(at) : at);
    });
  }

  /** Puts a result in the place of the last one, noting the cells that are not what they were; false where it takes other cells. */
  private replace(formula: Prepared, result: Result): boolean {
    const { grid, row, column, last, cell } = formula;
    const [now, before] = [blockOf(result), blockOf(last ?? null)];
    if (
      cell.spill?.fixed ||
      now.length !== before.length ||
      now[0]!.length !== before[0]!.length ||
      (last !== undefined && Array.isArray(last) !== Array.isArray(result))
    )
      return false;
    formula.last = result;
    now.forEach((line, r) =>
      line.forEach((value, c) => {
        if (last !== undefined && isSame(before[r]![c]!, value)) return;
        grid.set(row + r, column + c, value);
        this.changed.add(grid, row + r, column + c);
      }),
    );
    return true;
  }
}

const PROGRESS_EVERY = 5000;

const isBlock = ({ rows, columns }: Spill): boolean => rows * columns > 1;
const placeKey = ({ grid, row, column }: Place): string => `${grid.index} ${row} ${column}`;
const toComputed = ({ grid, row, column }: Prepared, result: Result): Computed => ({
  sheet: grid.index,
  row,
  column,
  result,
});
const isSame = (a: Cell, b: Cell): boolean =>
  a === b || (a instanceof CellError && b instanceof CellError && a.code === b.code && a.message === b.message);

/** The cells that a reference to a cell may mean: those that it spills, too. */
function withSpill(at: Reference): Reference {
  if (!at.grid.hasSpills) return at;
  const { rows, columns } = at.grid.spillOf(at.row, at.column);
  return rows * columns === 1 ? at : new Reference(at.grid, at.row, at.column, rows, columns);
}

function coverSpill(schedule: Schedule, formula: Prepared, spill: Spill | undefined): void {
  if (!spill) return;
  for (let r = 0; r < spill.rows; r++)
    for (let c = 0; c < spill.columns; c++) schedule.cover(formula, formula.row + r, formula.column + c);
}

function sameSpills(a: ReadonlyMap<string, Spill>, b: ReadonlyMap<string, Spill>): boolean {
  return (
    a.size === b.size &&
    [...a].every(([key, { rows, columns }]) => b.get(key)?.rows === rows && b.get(key)?.columns === columns)
  );
}
