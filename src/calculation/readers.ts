/** Cells whose value has changed since the last calculation, and which formulas look at them. */
import { entryOf } from '../core/memoized';
import { LAST_ROW } from '../sheet/formula';
import type { FormulaCell } from './formula-cell';
import { ByColumn, type Grid } from './grid';
import { withSpill } from './observing';
import type { Reference } from './values';

/** The changed rows of a column, and between which rows they lie. */
class ColumnChanges {
  readonly rows = new Set<number>();
  first = LAST_ROW;
  last = 0;
}

/** Cells whose value has changed since the last calculation. */
export class Changed {
  private readonly columns = new ByColumn<ColumnChanges>();

  get isEmpty(): boolean {
    return this.columns.sheets.size === 0;
  }

  add(grid: Grid, row: number, column: number): void {
    const own = this.columns.of(grid, column, () => new ColumnChanges());
    own.rows.add(row);
    own.first = Math.min(own.first, row);
    own.last = Math.max(own.last, row);
  }

  each(take: (grid: Grid, row: number, column: number) => void): void {
    for (const [grid, columns] of this.columns.sheets)
      for (const [column, { rows }] of columns) for (const row of rows) take(grid, row, column);
  }

  /** Whether one of the cells of a range has changed. */
  touch(range: Reference): boolean {
    const { row, rows } = range;
    return this.columns.within(range).some((changes) => isTouched(changes, row, row + rows - 1));
  }

  clear(): void {
    this.columns.sheets.clear();
  }
}

function isTouched(changes: ColumnChanges, first: number, last: number): boolean {
  if (last < changes.first || first > changes.last) return false;
  if (first <= changes.first || last >= changes.last) return true;
  if (last - first < changes.rows.size) {
    for (let row = first; row <= last; row++) if (changes.rows.has(row)) return true;
    return false;
  }
  for (const row of changes.rows) if (row >= first && row <= last) return true;
  return false;
}

/** A range of so many rows is kept with each of its cells. */
const FEW_ROWS = 8;
/** A range of so many columns is kept with each of them. */
const FEW_COLUMNS = 64;

/** A range that a formula looks at, too long or too wide to be kept with its cells. */
interface Long {
  readonly place: number;
  readonly row: number;
  readonly rows: number;
  readonly column: number;
  readonly columns: number;
}

/** Who looks at the cells of one column. */
class ColumnReaders {
  readonly long: Long[] = [];
  /** Rows and places in pairs, until they are sorted. */
  private pairs: number[] = [];
  /** The places of row r are those from starts[r] to before starts[r + 1]. */
  private starts = new Uint32Array(1);
  private places = new Uint32Array(0);

  add(row: number, rows: number, place: number): void {
    for (let r = row; r < row + rows; r++) this.pairs.push(r, place);
  }

  sort(): void {
    const { pairs } = this;
    let last = -1;
    for (let at = 0; at < pairs.length; at += 2) last = Math.max(last, pairs[at]!);
    const starts = new Uint32Array(last + 3);
    for (let at = 0; at < pairs.length; at += 2) starts[pairs[at]! + 2]!++;
    for (let row = 2; row < starts.length; row++) starts[row]! += starts[row - 1]!;
    const places = new Uint32Array(pairs.length / 2);
    for (let at = 0; at < pairs.length; at += 2) places[starts[pairs[at]! + 1]!++] = pairs[at + 1]!;
    [this.starts, this.places, this.pairs] = [starts, places, []];
  }

  mark(row: number, column: number, marks: Uint8Array): void {
    const end = this.starts[row + 1] ?? 0;
    for (let at = this.starts[row] ?? 0; at < end; at++) marks[this.places[at]!] = 1;
    markLong(this.long, row, column, marks);
  }
}

function markLong(ranges: readonly Long[], row: number, column: number, marks: Uint8Array): void {
  for (const one of ranges)
    if (row >= one.row && row - one.row < one.rows && column >= one.column && column - one.column < one.columns)
      marks[one.place] = 1;
}

/**
 * Which formulas look at a cell. Formulas are numbers here: their places in the order of calculation. A formula may be
 * given for a cell that it does not look at, but none that looks at it is left out.
 */
export class Readers {
  private readonly columns = new ByColumn<ColumnReaders>();
  private readonly wide = new Map<Grid, Long[]>();
  /** Formulas that may look at any cell, or give another result each time. */
  private readonly always: number[] = [];
  readonly size: number;

  /** Of formulas in the order in which they are calculated; it holds as long as the order and the extents of spills do. */
  constructor(order: readonly FormulaCell[]) {
    this.size = order.length;
    order.forEach((formula, place) => {
      if (formula.program.reaches || formula.program.isVolatile) this.always.push(place);
      for (const at of formula.looksAt()) this.add(withSpill(at), place);
    });
    for (const columns of this.columns.sheets.values()) for (const column of columns.values()) column.sort();
  }

  /** Marks, by their places, the formulas that are to be looked at whatever has changed. */
  markAlways(marks: Uint8Array): void {
    for (const place of this.always) marks[place] = 1;
  }

  /** Marks, by their places, the formulas that look at a cell. */
  mark(grid: Grid, row: number, column: number, marks: Uint8Array): void {
    this.columns.sheets.get(grid)?.get(column)?.mark(row, column, marks);
    const wide = this.wide.get(grid);
    if (wide) markLong(wide, row, column, marks);
  }

  private add({ grid, row, column, rows, columns }: Reference, place: number): void {
    const range = { place, row, rows, column, columns };
    if (columns > FEW_COLUMNS) entryOf(this.wide, grid, (): Long[] => []).push(range);
    else
      for (let c = column; c < column + columns; c++) {
        const readers = this.columns.of(grid, c, () => new ColumnReaders());
        if (rows > FEW_ROWS) readers.long.push(range);
        else readers.add(row, rows, place);
      }
  }
}

/** Where so many cells have changed, each formula is looked at: that takes no longer than asking who looks at them. */
const MANY_CHANGES = 1000;

/** The formulas that the changes of one calculation may bear on, as far as they are known. */
export class Affected {
  private readonly marks: Uint8Array;
  private left = MANY_CHANGES;

  constructor(private readonly readers: Readers) {
    this.marks = new Uint8Array(readers.size);
    readers.markAlways(this.marks);
  }

  change(grid: Grid, row: number, column: number): void {
    if (this.left === 0) return;
    this.left -= 1;
    if (this.left === 0) this.marks.fill(1);
    else this.readers.mark(grid, row, column, this.marks);
  }

  /** Whether the formula at a place of the order is one of them. */
  has(place: number): boolean {
    return this.marks[place] === 1;
  }
}
