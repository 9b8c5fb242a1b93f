/** One sheet's cells while a workbook is calculated. */
import { entryOf } from '../core/memoized';
import {
  DAYS_1904,
  type Cell,
  type Matrix,
  type NameModel,
  type RangeAddress,
  type Result,
  type SheetModel,
  type Spill,
  type TableModel,
} from '../sheet';

/** What stands in a cell until its formula has been calculated. */
export abstract class Awaited {}

/** Thrown by reading a cell that is not calculated yet: the formula that reads is tried again after it. */
export class NotYet extends Error {
  override readonly name = 'NotYet';
  constructor(readonly awaited: Awaited) {
    super('A cell was read before it was calculated');
  }
}

/** A rectangle of the sheet's cells. */
type Extent = Omit<RangeAddress, 'sheet'>;
type Stored = Cell | Awaited | undefined;

/** Hears of every cell that is read, before the reader gets its value. */
export interface Observer {
  see(grid: Grid, row: number, column: number, rows: number, columns: number): void;
}

/** What the sheets of a workbook share while it is calculated: how far they are used, and who looks at their cells. */
export class Shared {
  /** The used extent of all sheets together: cells beyond it are blank. They share one, so that A:A has the same length on each. */
  height = 0;
  width = 0;
  /** True once a formula took a whole column or row as a block, whose size depends on the used extent. */
  isExtentAsked = false;
  observer: Observer | undefined;
}

/** What a sheet asks of the workbook that it is part of. */
interface Owner {
  readonly shared: Shared;
  readonly dates1904: boolean;
  readonly grids: readonly Grid[];
  grid(name: string): Grid | undefined;
  name(name: string, sheet: string): NameModel | undefined;
  table(name: string): TableModel | undefined;
  isShifted(style: number | undefined): boolean;
}

/** Blocks that are kept for the next formula that asks for the same range. */
const KEPT_CELLS = 4_000_000;

/**
 * Every way to a cell's value goes through `get`, `each`, `block` or `derived`: they tell the observer, and throw
 * NotYet where the cell waits for its formula. So no order of calculation can hand out a value that is not final.
 */
export class Grid {
  readonly shared: Shared;
  private lines: (Stored[] | undefined)[] = [];
  private readonly blocks = new Map<string, Matrix>();
  private readonly kept = new Map<string, unknown>();
  private readonly spills = new Map<string, Spill>();
  private keptCells = 0;

  constructor(
    readonly index: number,
    readonly sheet: SheetModel,
    /** The workbook that the sheet is part of. */
    readonly book: Owner,
  ) {
    this.shared = book.shared;
  }

  /** Fills in the sheet's own values. The caller fills in results of formulas and what they spill. */
  load(): void {
    this.lines = [];
    this.forget();
    this.spills.clear();
    this.sheet.cells.forEach((line, row) =>
      line?.forEach((cell, column) => {
        if (cell && cell.formula === undefined && !cell.spilled && cell.value !== null)
          this.set(row, column, this.counted(row, column, cell.value));
      }),
    );
  }

  /** Forgets the blocks and indexes that were made of ranges. It is called before cells change. */
  forget(): void {
    this.blocks.clear();
    this.kept.clear();
    this.keptCells = 0;
  }

  get(row: number, column: number): Cell {
    this.shared.observer?.see(this, row, column, 1, 1);
    return final(this.lines[row]?.[column]);
  }

  /** Every cell of an extent in rows; rows that hold nothing are passed over. */
  each({ row, column, rows, columns }: Extent, take: (cell: Cell) => void): void {
    this.shared.observer?.see(this, row, column, rows, columns);
    const last = Math.min(row + rows, this.lines.length);
    for (let r = row; r < last; r++) {
      const line = this.lines[r];
      if (!line) continue;
      for (let c = column; c < column + columns; c++) take(final(line[c]));
    }
  }

  /** Puts a value into a cell, or has it wait for a formula, whatever it holds. */
  set(row: number, column: number, value: Cell | Awaited): void {
    const { shared } = this;
    (this.lines[row] ??= [])[column] = value;
    if (row >= shared.height) shared.height = row + 1;
    if (column >= shared.width) shared.width = column + 1;
  }

  /** Has a cell wait for a formula, unless it holds something. */
  await(row: number, column: number, formula: Awaited): void {
    if (this.lines[row]?.[column] === undefined) this.set(row, column, formula);
  }

  /** Empties the cells of an extent that still wait for a formula. */
  release({ row, column, rows, columns }: Extent, formula: Awaited): void {
    for (let r = row; r < row + rows; r++) {
      const line = this.lines[r];
      for (let c = column; line && c < column + columns; c++) if (line[c] === formula) line[c] = undefined;
    }
  }

  /** A value of the model as formulas see it: days as the workbook counts them. */
  counted(row: number, column: number, value: Cell): Cell {
    return typeof value === 'number' && this.isShifted(row, column) ? value - DAYS_1904 : value;
  }

  /** What a formula gave as the model has it. */
  shown(row: number, column: number, result: Result): Result {
    if (!this.book.dates1904) return result;
    const one = (r: number, c: number, value: Cell): Cell =>
      typeof value === 'number' && this.isShifted(r, c) ? value + DAYS_1904 : value;
    if (!Array.isArray(result)) return one(row, column, result);
    return result.map((line, r) => line.map((value, c) => one(row + r, column + c, value)));
  }

  private isShifted(row: number, column: number): boolean {
    return this.book.dates1904 && this.book.isShifted(this.sheet.cells[row]?.[column]?.style);
  }

  /** What the formula in a cell spilled; one cell where it did not. */
  spillOf(row: number, column: number): Spill {
    this.get(row, column);
    return this.knownSpill(row, column);
  }

  /** The same for a caller that is no formula: nobody is told of what is read. */
  knownSpill(row: number, column: number): Spill {
    return this.spills.get(`${row} ${column}`) ?? { rows: 1, columns: 1 };
  }

  get hasSpills(): boolean {
    return this.spills.size > 0;
  }

  setSpill(row: number, column: number, spill: Spill): void {
    this.spills.set(`${row} ${column}`, spill);
  }

  /** A range's values. They are final when a formula is given them, so that equal ranges share one block. */
  block(extent: Extent): Matrix {
    const { row, column, rows, columns } = extent;
    this.shared.observer?.see(this, row, column, rows, columns);
    if (rows * columns > KEPT_CELLS) return this.readBlock(extent);
    const key = `${row} ${column} ${rows} ${columns}`;
    let block = this.blocks.get(key);
    if (!block) {
      block = this.readBlock(extent);
      this.keptCells += rows * columns;
      if (this.keptCells > KEPT_CELLS) {
        this.blocks.clear();
        this.keptCells = rows * columns;
      }
      this.blocks.set(key, block);
    }
    return block;
  }

  /** Something derived from a range, made once. */
  derived<T>(purpose: string, { row, column, rows, columns }: Extent, make: () => T): T {
    this.shared.observer?.see(this, row, column, rows, columns);
    const key = `${purpose} ${row} ${column} ${rows} ${columns}`;
    return entryOf<string, unknown>(this.kept, key, make) as T;
  }

  private readBlock({ row, column, rows, columns }: Extent): Matrix {
    const block: Matrix = new Array<Cell[]>(rows);
    for (let r = 0; r < rows; r++) {
      const line = this.lines[row + r];
      if (columns === 1) block[r] = [final(line?.[column])];
      else {
        const cells = new Array<Cell>(columns);
        for (let c = 0; c < columns; c++) cells[c] = final(line?.[column + c]);
        block[r] = cells;
      }
    }
    return block;
  }
}

function final(stored: Stored): Cell {
  if (typeof stored !== 'object') return stored ?? null;
  if (stored instanceof Awaited) throw new NotYet(stored);
  return stored;
}

/** What is kept of single columns of the sheets. */
export class ByColumn<T> {
  readonly sheets = new Map<Grid, Map<number, T>>();

  /** What is kept of a column; it is made where there is nothing yet. */
  of(grid: Grid, column: number, make: () => T): T {
    return entryOf(entryOf(this.sheets, grid, newMap<T>), column, make);
  }

  /** What is kept of the columns of an extent. */
  within({ grid, column, columns }: Pick<Extent, 'column' | 'columns'> & { readonly grid: Grid }): T[] {
    const own = this.sheets.get(grid);
    if (!own) return [];
    const found: T[] = [];
    if (columns < own.size)
      for (let c = column; c < column + columns; c++) {
        const kept = own.get(c);
        if (kept !== undefined) found.push(kept);
      }
    else for (const [c, kept] of own) if (c >= column && c < column + columns) found.push(kept);
    return found;
  }
}

const newMap = <T>(): Map<number, T> => new Map();
