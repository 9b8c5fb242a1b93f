/** What one formula reads while it is calculated. */
import { rangeName } from '../sheet';
import type { FormulaCell } from './formula-cell';
import type { Grid, Observer } from './grid';
import type { Marks } from './marks';
import { strictness } from './strictness';
import { Reference } from './values';

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

  private check(seen: Pick<Reference, 'grid' | 'row' | 'column' | 'rows' | 'columns'>): void {
    const isDeclared = this.formula.program.references.some((locate) => {
      const at = locate(this.formula);
      if (!(at instanceof Reference) || at.grid !== seen.grid) return false;
      return contains(withSpill(at), seen);
    });
    if (isDeclared) return;
    const { grid, row, column, cell } = this.formula;
    throw new Error(
      `${grid.sheet.name}!${rangeName({ row, column, rows: 1, columns: 1 })} (=${cell.formula}) reads ` +
        `${seen.grid.sheet.name}!${rangeName(seen)} and does not declare it: a change there would be missed`,
    );
  }
}

type Block = Pick<Reference, 'row' | 'column' | 'rows' | 'columns'>;

const contains = (outer: Block, inner: Block): boolean =>
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
