/** A formula in its cell. */
import type { CellModel, Result } from '../sheet';
import type { Program } from './compile';
import { Awaited, type Grid } from './grid';
import { Reference } from './values';

export class FormulaCell extends Awaited {
  /** Index in the list that is scheduled. */
  index = 0;
  /** What it gave last; undefined before its first calculation. */
  last: Result | undefined = undefined;

  constructor(
    readonly grid: Grid,
    readonly row: number,
    readonly column: number,
    readonly cell: CellModel,
    readonly program: Program,
  ) {
    super();
  }

  /** True for a formula that cannot be calculated here and has a value to keep. */
  get isKept(): boolean {
    const { unknown, unreadable } = this.program;
    return (unknown !== undefined || unreadable !== undefined) && this.cell.value !== null;
  }

  /** The ranges that it names: where it is known to look. */
  looksAt(): Reference[] {
    return this.program.references.map((locate) => locate(this)).filter((at) => at instanceof Reference);
  }

  /** In reading order of the workbook. */
  isBefore(other: FormulaCell): boolean {
    const { grid, row, column } = this;
    if (grid !== other.grid) return grid.index < other.grid.index;
    return row === other.row ? column < other.column : row < other.row;
  }
}
