/**
 * The order of calculation: a formula after all cells that it looks at. What a formula is known to look at is done
 * before it, as a hint that saves a second try; what decides is what it reads. A formula that reads a cell which is
 * not calculated yet (NotYet) waits for it, and those that wait for one another in a ring are a circle. Each formula
 * waits for the first such cell that it reads, so that the circles are the same wherever the calculation starts.
 */
import { LAST_ROW } from '../sheet/formula';
import type { FormulaCell } from './formula-cell';
import { ByColumn, NotYet, type Grid } from './grid';
import type { Reference } from './values';

/** opened: what it is known to look at is being calculated; stopped: it was tried, and read a cell that is not. */
const State = { waiting: 0, opened: 1, stopped: 2, done: 3 } as const;

/** Ranges of so few cells are looked at each time: it is not noted that they are settled. */
const FEW = 8;

/** Formulas of one column by row, with the rows between which there are any. */
class ColumnFormulas {
  readonly byRow: (FormulaCell | undefined)[] = [];
  first = LAST_ROW;
  last = 0;
}

export interface Work {
  /** Calculates a formula; throws NotYet where it reads a cell that is not calculated. */
  calculate(formula: FormulaCell): void;
  /** Is given each formula of a circle. */
  keep(formula: FormulaCell): void;
  /** What a formula read beyond its known references when it was calculated last. */
  alsoRead(formula: FormulaCell): readonly Reference[] | undefined;
}

export class Schedule {
  readonly circles: FormulaCell[][] = [];
  /** Formulas that could not have all that they are known to look at before them, such as one that names its own cell. */
  readonly loose = new Set<FormulaCell>();
  private readonly formulas: FormulaCell[] = [];
  private readonly columns = new ByColumn<ColumnFormulas>();
  private states = new Uint8Array(0);
  private readonly awaits = new Map<FormulaCell, FormulaCell>();
  /** Ranges all of whose formulas are done: many formulas look at the same one. */
  private readonly settled = new Set<string>();

  add(formula: FormulaCell): void {
    formula.index = this.formulas.length;
    this.formulas.push(formula);
    this.cover(formula, formula.row, formula.column);
  }

  /** Says that a cell shows a result of a formula: its own, or one that another spills. */
  cover(formula: FormulaCell, row: number, column: number): void {
    const own = this.columns.of(formula.grid, column, () => new ColumnFormulas());
    own.byRow[row] ??= formula;
    own.first = Math.min(own.first, row);
    own.last = Math.max(own.last, row);
  }

  /** The formula whose result a cell shows. */
  ownerOf(grid: Grid, row: number, column: number): FormulaCell | undefined {
    return this.columns.sheets.get(grid)?.get(column)?.byRow[row];
  }

  /** Has `work` calculate every formula, in an order that holds. */
  run(work: Work): void {
    this.states = new Uint8Array(this.formulas.length);
    for (const formula of this.formulas) if (this.states[formula.index] === State.waiting) this.settle(formula, work);
  }

  /** Whether one of the cells of an extent shows the result of a formula for which a condition holds. */
  some(range: Reference, holds: (formula: FormulaCell) => boolean): boolean {
    const { row, rows } = range;
    for (const { byRow, first, last } of this.columns.within(range))
      for (let r = Math.max(row, first); r <= Math.min(row + rows - 1, last); r++) {
        const formula = byRow[r];
        if (formula && holds(formula)) return true;
      }
    return false;
  }

  /**
   * Calculates a formula after all that it waits for, with a stack of its own: a running total down 100,000 rows is a chain
   * that long.
   */
  private settle(start: FormulaCell, work: Work): void {
    const { states, awaits } = this;
    const stack = [start];
    while (stack.length) {
      const formula = stack.at(-1)!;
      if (states[formula.index] === State.done) {
        stack.pop();
        continue;
      }
      if (states[formula.index] === State.waiting) {
        states[formula.index] = State.opened;
        if (this.pushHints(formula, stack, work)) continue;
      }
      const awaited = attempt(formula, work);
      if (!awaited) {
        states[formula.index] = State.done;
        stack.pop();
        continue;
      }
      states[formula.index] = State.stopped;
      awaits.set(formula, awaited);
      const chain = this.chainFrom(awaited, formula);
      if (chain.at(-1) === formula) this.closeCircle(chain, work);
      else stack.push(chain.at(-1)!);
    }
  }

  /** From a formula along what each waits for, to `start` or to one that can be tried. */
  private chainFrom(first: FormulaCell, start: FormulaCell): FormulaCell[] {
    const chain = [first];
    for (let at = first; at !== start && this.states[at.index] === State.stopped;) {
      const next = this.awaits.get(at)!;
      if (this.states[next.index] === State.done) break;
      chain.push(next);
      at = next;
    }
    return chain;
  }

  private closeCircle(circle: FormulaCell[], work: Work): void {
    this.circles.push(circle.sort((a, b) => (a.isBefore(b) ? -1 : 1)));
    for (const formula of circle) {
      work.keep(formula);
      this.states[formula.index] = State.done;
    }
  }

  /** Puts what a formula is known to look at on the stack; false where all of it is done, or lies below on the stack itself. */
  private pushHints(formula: FormulaCell, stack: FormulaCell[], work: Work): boolean {
    const before = stack.length;
    for (const at of formula.looksAt()) this.pendingIn(at, formula, stack);
    for (const at of work.alsoRead(formula) ?? []) this.pendingIn(at, formula, stack);
    return stack.length > before;
  }

  private pendingIn(range: Reference, by: FormulaCell, stack: FormulaCell[]): void {
    const { grid, row, column, rows, columns } = range;
    const key = rows * columns > FEW ? `${grid.index} ${row} ${column} ${rows} ${columns}` : undefined;
    if (key !== undefined && this.settled.has(key)) return;
    let isSettled = true;
    for (const { byRow, first, last } of this.columns.within(range)) {
      const end = Math.min(row + rows - 1, last);
      for (let r = Math.max(row, first); r <= end; r++) {
        const formula = byRow[r];
        const state = formula && this.states[formula.index];
        if (formula === undefined || state === State.done) continue;
        isSettled = false;
        if (state === State.waiting) stack.push(formula);
        else this.loose.add(by);
      }
    }
    if (key !== undefined && isSettled) this.settled.add(key);
  }
}

/** Calculates a formula; gives the one that it has to wait for. */
function attempt(formula: FormulaCell, work: Work): FormulaCell | undefined {
  try {
    work.calculate(formula);
    return undefined;
  } catch (error) {
    if (error instanceof NotYet) return error.awaited as FormulaCell;
    throw error;
  }
}
