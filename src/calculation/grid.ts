/** One sheet's cells while a workbook is calculated. */
import type { Cell, Matrix, RangeAddress, SheetModel, Spill } from '../sheet';
import type { Book } from './book';

/** A rectangle of the sheet's cells. */
type Extent = Omit<RangeAddress, 'sheet'>;

/** Blocks that are kept for the next formula that asks for the same range. */
const KEPT_CELLS = 4_000_000;

export class Grid {
  /** Extent of what is used: cells beyond it are blank. */
  height = 0;
  width = 0;
  private lines: (Cell[] | undefined)[] = [];
  private readonly blocks = new Map<string, Matrix>();
  private readonly kept = new Map<string, unknown>();
  private readonly spills = new Map<string, Spill>();
  private keptCells = 0;

  constructor(
    readonly index: number,
    readonly sheet: SheetModel,
    /** The workbook that the sheet is part of. */
    readonly book: Book,
  ) {}

  /** Takes the sheet's own values; results of formulas, and what they spilled, are blank until they are calculated. */
  load(): void {
    this.lines = [];
    this.forget();
    this.spills.clear();
    this.sheet.cells.forEach((line, row) =>
      line.forEach((cell, column) => {
        if (cell && cell.formula === undefined && !cell.spilled && cell.value !== null)
          this.set(row, column, cell.value);
      }),
    );
  }

  /** Drops what was made of ranges, before some of their cells change. */
  forget(): void {
    this.blocks.clear();
    this.kept.clear();
    this.keptCells = 0;
  }

  get(row: number, column: number): Cell {
    return this.lines[row]?.[column] ?? null;
  }

  line(row: number): readonly (Cell | undefined)[] | undefined {
    return this.lines[row];
  }

  set(row: number, column: number, value: Cell): void {
    (this.lines[row] ??= [])[column] = value;
    if (row >= this.height) this.height = row + 1;
    if (column >= this.width) this.width = column + 1;
  }

  /** What the formula in a cell spilled; one cell where it did not. */
  spillOf(row: number, column: number): Spill {
    return this.spills.get(`${row} ${column}`) ?? { rows: 1, columns: 1 };
  }

  get hasSpills(): boolean {
    return this.spills.size > 0;
  }

  setSpill(row: number, column: number, spill: Spill): void {
    this.spills.set(`${row} ${column}`, spill);
  }

  /** A range's values. They are final when a formula asks for them, so that equal ranges share one block. */
  block({ row, column, rows, columns }: Extent): Matrix {
    if (rows * columns > KEPT_CELLS) return this.readBlock(row, column, rows, columns);
    const key = `${row} ${column} ${rows} ${columns}`;
    let block = this.blocks.get(key);
    if (!block) {
      this.keptCells += rows * columns;
      if (this.keptCells > KEPT_CELLS) {
        this.blocks.clear();
        this.keptCells = rows * columns;
      }
      this.blocks.set(key, (block = this.readBlock(row, column, rows, columns)));
    }
    return block;
  }

  /** Something derived from a range, made once. */
  derived<T>(purpose: string, { row, column, rows, columns }: Extent, make: () => T): T {
    const key = `${purpose} ${row} ${column} ${rows} ${columns}`;
    if (!this.kept.has(key)) this.kept.set(key, make());
    return this.kept.get(key) as T;
  }

  private readBlock(row: number, column: number, rows: number, columns: number): Matrix {
    const block: Matrix = new Array<Cell[]>(rows);
    for (let r = 0; r < rows; r++) {
      const line = this.lines[row + r];
      if (columns === 1) block[r] = [line?.[column] ?? null];
      else {
        const cells = new Array<Cell>(columns);
        for (let c = 0; c < columns; c++) cells[c] = line?.[column + c] ?? null;
        block[r] = cells;
      }
    }
    return block;
  }
}
