/** What one formula reads while it is calculated, and the marks that come to it from there. */
import { rangeName } from '../sheet';
import type { FormulaCell } from './formula-cell';
import { ByColumn, type Grid, type Observer } from './grid';
import { Reference } from './values';

/**
 * Where it is on, a formula that reads a cell which it does not declare fails. The tests switch it on: what a formula
 * does not declare is not calculated again when it changes.
 */
export const strictness = { isOn: false };

type Column = Map<number, FormulaCell>;

/** Cells whose values were not calculated, or rest on one that was not. Each is marked with the formula that was not. */
export class Marks {
  private readonly columns = new ByColumn<Column>();

  get isEmpty(): boolean {
    return this.columns.sheets.size === 0;
  }

  set(grid: Grid, row: number, column: number, root: FormulaCell): void {
    this.columns.of(grid, column, (): Column => new Map()).set(row, root);
  }

  delete(grid: Grid, row: number, column: number): void {
    const columns = this.columns.sheets.get(grid);
    const own = columns?.get(column);
    if (!columns || !own?.delete(row)) return;
    if (own.size === 0) columns.delete(column);
    if (columns.size === 0) this.columns.sheets.delete(grid);
  }

  /** What a cell of an extent is marked with; undefined where none is marked. */
  find(grid: Grid, row: number, column: number, rows: number, columns: number): FormulaCell | undefined {
    for (const own of this.columns.within({ grid, column, columns })) {
      const root = findInColumn(own, row, rows);
      if (root) return root;
    }
    return undefined;
  }
}

function findInColumn(own: Column, row: number, rows: number): FormulaCell | undefined {
  if (rows < own.size) {
    for (let r = row; r < row + rows; r++) {
      const root = own.get(r);
      if (root) return root;
    }
    return undefined;
  }
  for (const [r, root] of own) if (r >= row && r < row + rows) return root;
  return undefined;
}

type Seen = Pick<Reference, 'grid' | 'row' | 'column' | 'rows' | 'columns'>;

/** What one formula reads: its ranges, where they are wanted, and what they are marked with. */
export class Sight implements Observer {
  readonly reads: Reference[] = [];
  root: FormulaCell | undefined;

  constructor(
    private readonly formula: FormulaCell,
    private readonly marks: Marks,
    private readonly keepsReads: boolean,
  ) {}

  see(grid: Grid, row: number, column: number, rows: number, columns: number): void {
    this.root ??= this.marks.find(grid, row, column, rows, columns);
    if (this.keepsReads) this.reads.push(new Reference(grid, row, column, rows, columns));
    if (strictness.isOn && !this.formula.program.reaches) this.check({ grid, row, column, rows, columns });
  }

  private check(seen: Seen): void {
    if (this.formula.looksAt().some((at) => contains(withSpill(at), seen))) return;
    const { grid, row, column, cell } = this.formula;
    throw new Error(
      `${grid.sheet.name}!${rangeName({ row, column, rows: 1, columns: 1 })} (=${cell.formula}) reads ` +
        `${seen.grid.sheet.name}!${rangeName(seen)} and does not declare it: a change there would be missed`,
    );
  }
}

const contains = (outer: Seen, inner: Seen): boolean =>
  inner.grid === outer.grid &&
  inner.row >= outer.row &&
  inner.column >= outer.column &&
  inner.row + inner.rows <= outer.row + outer.rows &&
  inner.column + inner.columns <= outer.column + outer.columns;

/** The cells that a reference to a cell may mean: those that it spills, too. */
export function withSpill(at: Reference): Reference {
  if (!at.isCell || !at.grid.hasSpills) return at;
  const { rows, columns } = at.grid.knownSpill(at.row, at.column);
  return rows * columns === 1 ? at : new Reference(at.grid, at.row, at.column, rows, columns);
}
