/** The order of calculation: a formula after all cells that it looks at. */
import type { CellError } from '../sheet';
import type { Program } from './compile';
import type { Place } from './function-spec';
import type { Grid } from './grid';
import { Reference } from './values';

export interface FormulaCell extends Place {
  readonly grid: Grid;
  readonly row: number;
  readonly column: number;
  readonly program: Program;
  /** Index of the formula in the list that is scheduled. */
  index: number;
}

/** open: its precedents are being calculated. */
const State = { waiting: 0, open: 1, done: 2 } as const;

/** Ranges of so few cells are looked at each time. */
const FEW = 8;

/** Formulas of one column by row, with the rows between which there are any. */
interface ColumnFormulas {
  readonly byRow: (FormulaCell | undefined)[];
  first: number;
  last: number;
}

export class Schedule {
  readonly circles: FormulaCell[][] = [];
  private readonly formulas: FormulaCell[] = [];
  private readonly columns = new Map<Grid, Map<number, ColumnFormulas>>();
  private states = new Uint8Array(0);
  /** Ranges all of whose formulas are done: many formulas look at the same one. */
  private readonly settled = new Set<string>();

  add(formula: FormulaCell): void {
    this.formulas.push(formula);
    this.cover(formula, formula.row, formula.column);
  }

  /** Says that a cell shows a result of a formula: its own, or one that another spills. */
  cover(formula: FormulaCell, row: number, column: number): void {
    let columns = this.columns.get(formula.grid);
    if (!columns) this.columns.set(formula.grid, (columns = new Map<number, ColumnFormulas>()));
    let own = columns.get(column);
    if (!own) columns.set(column, (own = { byRow: [], first: row, last: row }));
    own.byRow[row] ??= formula;
    own.first = Math.min(own.first, row);
    own.last = Math.max(own.last, row);
  }

  /** Calls `calculate` for every formula in an order that holds; `keep` for those that go round in a circle. */
  run(calculate: (formula: FormulaCell) => void, keep: (formula: FormulaCell) => void): void {
    this.states = new Uint8Array(this.formulas.length);
    for (const formula of this.formulas)
      if (this.states[formula.index] === State.waiting) this.settle(formula, calculate, keep);
  }

  /** Depth first with a stack of its own: a running total down 100,000 rows is a chain that long. */
  private settle(
    start: FormulaCell,
    calculate: (formula: FormulaCell) => void,
    keep: (formula: FormulaCell) => void,
  ): void {
    const { states } = this;
    const stack = [start];
    const path: FormulaCell[] = [];
    while (stack.length) {
      const formula = stack.at(-1)!;
      if (states[formula.index] === State.waiting) {
        states[formula.index] = State.open;
        path.push(formula);
        for (const other of this.pending(formula)) {
          if (states[other.index] === State.open) this.closeCircle(path, other, keep);
          else stack.push(other);
        }
      } else {
        stack.pop();
        if (path.at(-1) === formula) path.pop();
        if (states[formula.index] !== State.open) continue;
        calculate(formula);
        states[formula.index] = State.done;
      }
    }
  }

  /** All formulas on the path from `first` on refer to one another in a circle. */
  private closeCircle(path: readonly FormulaCell[], first: FormulaCell, keep: (formula: FormulaCell) => void): void {
    const circle = path.slice(path.indexOf(first)).filter((formula) => this.states[formula.index] === State.open);
    this.circles.push(circle);
    for (const formula of circle) {
      keep(formula);
      this.states[formula.index] = State.done;
    }
  }

  /** Formulas that have to be done before this one and are not. */
  private pending(formula: FormulaCell): FormulaCell[] {
    const found: FormulaCell[] = [];
    for (const locate of formula.program.references) {
      const at: Reference | CellError = locate(formula);
      if (at instanceof Reference) this.pendingIn(at, found);
    }
    return found;
  }

  private pendingIn({ grid, row, column, rows, columns }: Reference, found: FormulaCell[]): void {
    const own = this.columns.get(grid);
    if (!own) return;
    if (rows * columns <= FEW) {
      for (let c = column; c < column + columns; c++) this.pendingInColumn(own.get(c), row, rows, found);
      return;
    }
    const key = `${grid.index} ${row} ${column} ${rows} ${columns}`;
    if (this.settled.has(key)) return;
    const before = found.length;
    if (columns < own.size)
      for (let c = column; c < column + columns; c++) this.pendingInColumn(own.get(c), row, rows, found);
    else
      for (const [c, formulas] of own)
        if (c >= column && c < column + columns) this.pendingInColumn(formulas, row, rows, found);
    if (found.length === before) this.settled.add(key);
  }

  private pendingInColumn(formulas: ColumnFormulas | undefined, row: number, rows: number, found: FormulaCell[]): void {
    if (!formulas) return;
    const last = Math.min(row + rows - 1, formulas.last);
    for (let r = Math.max(row, formulas.first); r <= last; r++) {
      const formula = formulas.byRow[r];
      if (formula && this.states[formula.index] !== State.done) found.push(formula);
    }
  }
}
