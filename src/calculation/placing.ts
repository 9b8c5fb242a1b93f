/** One formula: its value, and its place in the cells. */
import { CellError, overlap, type Cell, type Result, type Spill } from '../sheet';
import { LAST_COLUMN, LAST_ROW } from '../sheet/formula';
import { intersected } from './compile';
import { countDatesFrom1904 } from './dates';
import type { FormulaCell } from './formula-cell';
import type { Grid } from './grid';
import { elementAt } from './operators';
import type { Schedule } from './schedule';
import { failure, finite, read, toMatrix } from './values';

/** A result that found no room, with the extent that it needs. */
export interface Blocked extends Spill {
  readonly grid: Grid;
  readonly row: number;
  readonly column: number;
}

/** A formula's value as a cell or a block; one that refers to a blank cell is 0. */
export function evaluated(formula: FormulaCell): Result {
  const { arrays, evaluate } = formula.program;
  countDatesFrom1904(formula.grid.book.dates1904);
  const value = arrays ? read(evaluate(formula)) : intersected(evaluate(formula), formula);
  if (!Array.isArray(value)) return cellOf(value);
  if (!value.length || !value[0]!.length) return failure('#CALC!');
  if (!arrays || (value.length === 1 && value[0]!.length === 1)) return cellOf(value[0]![0]);
  return value.some((line) => line.some((cell) => cell !== cellOf(cell)))
    ? value.map((line) => line.map(cellOf))
    : value;
}

/** A blank is 0; what is no number, or larger than any, stands in no cell: #NUM!. */
const cellOf = (value: Cell | undefined): Cell => (typeof value === 'number' ? finite(value) : (value ?? 0));

/** Puts a result into the cells; a spill over a cell that holds something is an error instead. */
export function placed(formula: FormulaCell, result: Result, schedule: Schedule, blockedResults: Blocked[]): Result {
  const { grid, row, column, cell } = formula;
  const fixed = cell.spill?.fixed ? cell.spill : undefined;
  const block = toMatrix(result);
  const { rows, columns } = fixed ?? { rows: block.length, columns: block[0]!.length };
  const obstacle = fixed || rows * columns === 1 ? undefined : obstacleTo(formula, rows, columns, schedule);
  if (obstacle !== undefined) {
    const blocked = new CellError(
      '#SPILL!',
      `The result needs ${rows} × ${columns} cells, and some of them ${obstacle}`,
    );
    grid.set(row, column, blocked);
    blockedResults.push({ grid, row, column, rows, columns });
    return blocked;
  }
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) grid.set(row + r, column + c, fixed ? elementAt(block, r, c) : block[r]![c]!);
  if (rows * columns > 1) grid.setSpill(row, column, { rows, columns });
  return result;
}

/** Leaves the values that the model has in the cells of a formula that is not calculated. */
export function keptInPlace({ grid, row, column, cell }: FormulaCell): { row: number; column: number }[] {
  const kept = [{ row, column }];
  grid.set(row, column, grid.counted(row, column, cell.value));
  const { rows, columns } = cell.spill ?? { rows: 1, columns: 1 };
  if (rows * columns === 1) return kept;
  grid.setSpill(row, column, { rows, columns });
  for (let r = row; r < row + rows; r++)
    for (let c = column; c < column + columns; c++) {
      const shown = grid.sheet.cells[r]?.[c];
      if (!shown?.spilled) continue;
      grid.set(r, c, grid.counted(r, c, shown.value));
      kept.push({ row: r, column: c });
    }
  return kept;
}

/** What keeps a result from its cells; undefined where they are free. */
function obstacleTo(formula: FormulaCell, rows: number, columns: number, schedule: Schedule): string | undefined {
  const { grid, row, column } = formula;
  if (row + rows - 1 > LAST_ROW || column + columns - 1 > LAST_COLUMN) return 'lie beyond the sheet';
  if (isMerged(formula, rows, columns)) return 'are merged';
  for (let r = row; r < row + rows; r++) {
    const line = grid.sheet.cells[r];
    for (let c = column; c < column + columns; c++) {
      if (r === row && c === column) continue;
      const cell = line?.[c];
      if (cell && !cell.spilled && (cell.value !== null || cell.formula !== undefined)) return 'hold something else';
      // Of two results that want the same cell, that of the formula which stands first has it.
      if (schedule.ownerOf(grid, r, c)?.isBefore(formula)) return 'are part of another result';
    }
  }
  return undefined;
}

const isMerged = ({ grid, row, column }: FormulaCell, rows: number, columns: number): boolean =>
  grid.sheet.merges?.some((merge) => overlap(merge, { ...merge, row, column, rows, columns })) ?? false;
