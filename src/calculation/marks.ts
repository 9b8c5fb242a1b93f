/** Cells whose values were not calculated, or rest on one that was not. */
import type { FormulaCell } from './formula-cell';
import type { Grid } from './grid';

type Column = Map<number, FormulaCell>;

/** Each cell is marked with the formula that was not calculated. */
export class Marks {
  private readonly byGrid = new Map<Grid, Map<number, Column>>();

  get isEmpty(): boolean {
    return this.byGrid.size === 0;
  }

  set(grid: Grid, row: number, column: number, root: FormulaCell): void {
    let columns = this.byGrid.get(grid);
    if (!columns) this.byGrid.set(grid, (columns = new Map<number, Column>()));
    let own = columns.get(column);
    if (!own) columns.set(column, (own = new Map<number, FormulaCell>()));
    own.set(row, root);
  }

  delete(grid: Grid, row: number, column: number): void {
    const columns = this.byGrid.get(grid);
    const own = columns?.get(column);
    if (!columns || !own?.delete(row)) return;
    if (own.size === 0) columns.delete(column);
    if (columns.size === 0) this.byGrid.delete(grid);
  }

  /** What a cell of an extent is marked with; undefined where none is marked. */
  find(grid: Grid, row: number, column: number, rows: number, columns: number): FormulaCell | undefined {
    const marked = this.byGrid.get(grid);
    if (!marked) return undefined;
    if (columns < marked.size) {
      for (let c = column; c < column + columns; c++) {
        const root = findInColumn(marked.get(c), row, rows);
        if (root) return root;
      }
      return undefined;
    }
    for (const [c, own] of marked) {
      const root = c >= column && c < column + columns ? findInColumn(own, row, rows) : undefined;
      if (root) return root;
    }
    return undefined;
  }
}

function findInColumn(own: Column | undefined, row: number, rows: number): FormulaCell | undefined {
  if (!own) return undefined;
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
