/** Cells whose value has changed since the last calculation. */
import type { Grid } from './grid';
import type { Reference } from './values';

/** The changed rows of a column, and between which rows they lie. */
interface ColumnChanges {
  readonly rows: Set<number>;
  first: number;
  last: number;
}

export class Changed {
  private readonly byGrid = new Map<Grid, Map<number, ColumnChanges>>();

  get isEmpty(): boolean {
    return this.byGrid.size === 0;
  }

  add(grid: Grid, row: number, column: number): void {
    let columns = this.byGrid.get(grid);
    if (!columns) this.byGrid.set(grid, (columns = new Map<number, ColumnChanges>()));
    const own = columns.get(column);
    if (!own) columns.set(column, { rows: new Set([row]), first: row, last: row });
    else {
      own.rows.add(row);
      own.first = Math.min(own.first, row);
      own.last = Math.max(own.last, row);
    }
  }

  each(take: (grid: Grid, row: number, column: number) => void): void {
    for (const [grid, columns] of this.byGrid)
      for (const [column, { rows }] of columns) for (const row of rows) take(grid, row, column);
  }

  /** Whether one of the cells of a range has changed. */
  touch({ grid, row, column, rows, columns }: Reference): boolean {
    const changes = this.byGrid.get(grid);
    if (!changes) return false;
    if (columns === 1) return isTouched(changes.get(column), row, row + rows - 1);
    for (const [at, own] of changes)
      if (at >= column && at < column + columns && isTouched(own, row, row + rows - 1)) return true;
    return false;
  }

  clear(): void {
    this.byGrid.clear();
  }
}

function isTouched(changes: ColumnChanges | undefined, first: number, last: number): boolean {
  if (!changes || last < changes.first || first > changes.last) return false;
  if (first <= changes.first || last >= changes.last) return true;
  if (last - first < changes.rows.size) {
    for (let row = first; row <= last; row++) if (changes.rows.has(row)) return true;
    return false;
  }
  for (const row of changes.rows) if (row >= first && row <= last) return true;
  return false;
}
