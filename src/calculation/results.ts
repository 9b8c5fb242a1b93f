/** Results of formulas put into a workbook's model, with their spills. */
import {
  CellError,
  sameCell,
  type Cell,
  type CellModel,
  type CellPlace,
  type Matrix,
  type SheetModel,
  type WorkbookModel,
} from '../sheet';
import { isDynamicUnmarked } from '../sheet/formula';
import type { Computed } from './calculate';
import { elementAt } from './operators';
import { toMatrix } from './values';

/** A cell that shows an error. */
export interface CellProblem extends CellPlace {
  readonly error: CellError;
  /** The formula in the cell, or the one whose spill it is part of. */
  readonly formula: string | undefined;
}

export interface Results {
  readonly model: WorkbookModel;
  /** Cells whose value is not what it was. */
  readonly changed: number;
  /** Formulas that a spreadsheet program could not bind as the file had them, and now can. */
  readonly bound: number;
  readonly problems: readonly CellProblem[];
}

/** The model with the results in its cells; cells that are no part of a spill any more are emptied. */
export function withResults(model: WorkbookModel, computed: readonly Computed[]): Results {
  const bySheet = model.sheets.map((): Computed[] => []);
  for (const one of computed) bySheet[one.sheet]!.push(one);
  const problems: CellProblem[] = [];
  let changed = 0;
  let bound = 0;
  const sheets = model.sheets.map((sheet, index) => {
    const results = bySheet[index]!;
    if (!results.length) return sheet;
    const writer = new SheetWriter(sheet, problems);
    // Old spills go before new ones come: a new one may lie where an old one of another formula was.
    for (const one of results) writer.emptySpill(one);
    for (const one of results) writer.put(one);
    changed += writer.countChanges();
    bound += writer.bound;
    return { ...sheet, cells: writer.cells };
  });
  return { model: { ...model, sheets }, changed, bound, problems };
}

/** Written out in both forms: an object with parts spread into it takes twice the memory. */
const spilledCell = (value: Cell, style: number | undefined): CellModel =>
  style === undefined ? { value, spilled: true } : { value, spilled: true, style };

class SheetWriter {
  readonly cells: (CellModel | undefined)[][];
  bound = 0;

  constructor(
    private readonly sheet: SheetModel,
    private readonly problems: CellProblem[],
  ) {
    this.cells = [...sheet.cells];
  }

  emptySpill({ row, column }: Computed): void {
    const spill = this.sheet.cells[row]?.[column]?.spill;
    if (!spill || spill.rows * spill.columns === 1) return;
    for (let r = row; r < row + spill.rows; r++) {
      for (let c = column; c < column + spill.columns; c++) {
        const old = this.sheet.cells[r]?.[c];
        if (old?.spilled) this.set(r, c, old.style === undefined ? undefined : { value: null, style: old.style });
      }
    }
  }

  put({ row, column, result }: Computed): void {
    const there = this.sheet.cells[row]?.[column];
    const formula = there?.formula;
    if (!there || formula === undefined) return;
    const old = this.bind(there, formula);
    if (Array.isArray(result) || old.spill) this.fill(row, column, toMatrix(result), old, formula);
    else {
      this.set(row, column, { ...old, value: result });
      this.note(row, column, result, formula);
    }
  }

  /** A TARE function in a plain formula, as other programs write it, is given the form that binds it. */
  private bind(cell: CellModel, formula: string): CellModel {
    if (!cell.plain || !isDynamicUnmarked(formula)) return cell;
    this.bound++;
    const { plain: _plain, ...rest } = cell;
    return { ...rest, spill: { rows: 1, columns: 1 } };
  }

  private fill(row: number, column: number, result: Matrix, old: CellModel, formula: string): void {
    const spill = old.spill?.fixed ? old.spill : { rows: result.length, columns: result[0]?.length ?? 0 };
    for (let r = 0; r < spill.rows; r++) {
      for (let c = 0; c < spill.columns; c++) {
        const value = elementAt(result, r, c);
        this.note(row + r, column + c, value, formula);
        if (r === 0 && c === 0) {
          const keepsPlain = spill.rows * spill.columns === 1 && !old.spill;
          this.set(row, column, { ...old, value, ...(keepsPlain ? {} : { spill }) });
        } else {
          const style = this.cells[row + r]?.[column + c]?.style;
          this.set(row + r, column + c, spilledCell(value, style));
        }
      }
    }
  }

  countChanges(): number {
    let changed = 0;
    this.cells.forEach((line, row) => {
      // A line into which nothing was put is still the model's own.
      if (!line || line === this.sheet.cells[row]) return;
      const before = this.sheet.cells[row] ?? [];
      for (let column = 0; column < Math.max(line.length, before.length); column++)
        if (!sameCell(before[column]?.value ?? null, line[column]?.value ?? null)) changed++;
    });
    return changed;
  }

  private set(row: number, column: number, cell: CellModel | undefined): void {
    const line = this.cells[row];
    const own = line && line !== this.sheet.cells[row] ? line : (this.cells[row] = [...(line ?? [])]);
    const before = this.sheet.cells[row]?.[column]?.value;
    own[column] = cell && before !== undefined && isSettled(before, cell.value) ? { ...cell, value: before } : cell;
  }

  private note(row: number, column: number, value: Cell, formula: string): void {
    if (value instanceof CellError) this.problems.push({ sheet: this.sheet.name, row, column, error: value, formula });
  }
}

/** Programs differ in the last bits of a number, and none shows them: the value that a file has stays where nothing else changed. */
const LAST_BITS = 4 * Number.EPSILON;

const isSettled = (before: Cell, now: Cell): boolean =>
  typeof before === 'number' &&
  typeof now === 'number' &&
  before !== now &&
  Math.abs(before - now) <= LAST_BITS * Math.abs(now);
