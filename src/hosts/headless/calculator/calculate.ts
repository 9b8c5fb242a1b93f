/**
 * A workbook's formulas calculated without the embedded engine: the same catalogue, and the ordinary
 * functions of parts lists, at the speed of a loop. On 100,000 rows of three formulas, one a cell, the engine
 * takes about a minute of computing and this about a second; the engine stays for what is not known here.
 */
import { CellError, type Matrix, type Result } from '../../../functions';
import type { CellModel, Spill, WorkbookModel } from '../../../workbook';
import { isDynamic } from '../../../xlsx';
import type { Computed } from '../results';
import { Book } from './book';
import { compile, intersected, type Program } from './compile';
import type { Place } from './function-spec';
import type { Grid } from './grid';
import { Schedule, type FormulaCell } from './schedule';
import { elementAt } from './lift';
import { FormulaError, LAST_COLUMN, LAST_ROW } from '../../../workbook/formula';
import { templateKey } from './template';
import { failure, read } from './values';

export interface UnknownFormula {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** The function that is not known here; undefined where the formula cannot be read. */
  readonly functionName: string | undefined;
  readonly message: string;
}

export interface Calculation {
  readonly results: readonly Computed[];
  /** Formulas that refer to themselves by way of one another: they keep their values. */
  readonly circles: readonly (readonly FormulaCell[])[];
  /** Results that found no room, with the extent that they need. */
  readonly blocked: readonly (FormulaCell & Spill)[];
}

export type Progress = (done: number, total: number) => void;

/** Spills reach cells that other formulas read, so that a new extent means another pass; real workbooks need two. */
const MOST_PASSES = 8;

export class Calculator {
  readonly unknown: UnknownFormula[] = [];
  private readonly book: Book;
  private readonly programs = new Map<string, Program>();
  private readonly formulas: Prepared[] = [];

  /** Reads all formulas; what cannot be calculated here is listed in `unknown`. */
  constructor(model: WorkbookModel) {
    this.book = new Book(model);
    for (const grid of this.book.grids) {
      grid.sheet.cells.forEach((line, row) =>
        line.forEach((cell, column) => {
          if (cell?.formula !== undefined) this.add(grid, row, column, cell, cell.formula);
        }),
      );
    }
  }

  /** Formulas that go round in a circle, found without calculating. */
  circles(): readonly (readonly FormulaCell[])[] {
    const schedule = new Schedule();
    for (const formula of this.formulas) schedule.add(formula);
    for (const formula of this.formulas) this.coverSpill(schedule, formula, formula.cell.spill);
    schedule.run(
      () => undefined,
      () => undefined,
    );
    return schedule.circles;
  }

  run(progress: Progress = () => undefined): Calculation {
    let spills = new Map<string, Spill>(this.formulas.flatMap(({ cell, ...place }) => (cell.spill && isBlock(cell.spill) ? [[placeKey(place), cell.spill]] : [])));
    for (let pass = 1; ; pass++) {
      const { results, circles, blocked, found } = this.pass(spills, progress);
      if (pass === MOST_PASSES || sameSpills(spills, found)) return { results, circles, blocked };
      spills = found;
    }
  }

  private add(grid: Grid, row: number, column: number, cell: CellModel, formula: string): void {
    const arrays = !cell.plain || isDynamic(formula);
    const key = `${grid.index} ${arrays ? 'a' : 'c'} ${templateKey(formula, row, column)}`;
    try {
      let program = this.programs.get(key);
      if (!program) this.programs.set(key, (program = compile(formula, { book: this.book, sheet: grid.sheet.name, row, column, arrays })));
      this.formulas.push({ grid, row, column, cell, program, arrays, index: this.formulas.length });
      if (program.unknown !== undefined) this.unknown.push({ sheet: grid.index, row, column, functionName: program.unknown, message: `There is no function ${program.unknown}` });
    } catch (error) {
      if (!(error instanceof FormulaError)) throw error;
      this.unknown.push({ sheet: grid.index, row, column, functionName: undefined, message: error.message });
    }
  }

  private pass(spills: ReadonlyMap<string, Spill>, progress: Progress): Calculation & { found: Map<string, Spill> } {
    for (const grid of this.book.grids) grid.load();
    const schedule = new Schedule();
    for (const formula of this.formulas) schedule.add(formula);
    for (const formula of this.formulas) this.coverSpill(schedule, formula, spills.get(placeKey(formula)));
    const results: Computed[] = [];
    const found = new Map<string, Spill>();
    const blocked: (FormulaCell & Spill)[] = [];
    let done = 0;
    const calculate = (cell: FormulaCell): void => {
      const formula = cell as Prepared;
      const result = this.place(formula, evaluated(formula), blocked);
      results.push({ sheet: formula.grid.index, row: formula.row, column: formula.column, result });
      if (Array.isArray(result)) found.set(placeKey(formula), { rows: result.length, columns: result[0]!.length });
      if (++done % PROGRESS_EVERY === 0) progress(done, this.formulas.length);
    };
    schedule.run(calculate, ({ grid, row, column }) => grid.set(row, column, grid.sheet.cells[row]?.[column]?.value ?? null));
    return { results, circles: schedule.circles, blocked, found };
  }

  private coverSpill(schedule: Schedule, formula: Prepared, spill: Spill | undefined): void {
    if (!spill) return;
    for (let r = 0; r < spill.rows; r++) for (let c = 0; c < spill.columns; c++) schedule.cover(formula, formula.row + r, formula.column + c);
  }

  /** Puts a result into the cells; a spill over a cell that holds something is an error instead. */
  private place(formula: Prepared, result: Result, blockedResults: (FormulaCell & Spill)[]): Result {
    const { grid, row, column, cell } = formula;
    const fixed = cell.spill?.fixed ? cell.spill : undefined;
    const block: Matrix = Array.isArray(result) ? result : [[result]];
    const { rows, columns } = fixed ?? { rows: block.length, columns: block[0]!.length };
    const obstacle = fixed || rows * columns === 1 ? undefined : obstacleTo(grid, row, column, rows, columns);
    if (obstacle !== undefined) {
      const blocked = new CellError('#SPILL!', `The result needs ${rows} × ${columns} cells, and some of them ${obstacle}`);
      grid.set(row, column, blocked);
      blockedResults.push({ ...formula, rows, columns });
      return blocked;
    }
    for (let r = 0; r < rows; r++) for (let c = 0; c < columns; c++) grid.set(row + r, column + c, fixed ? elementAt(block, r, c) : block[r]![c]!);
    if (rows * columns > 1) grid.setSpill(row, column, { rows, columns });
    return result;
  }
}

interface Prepared extends FormulaCell {
  readonly cell: CellModel;
  readonly arrays: boolean;
}

const PROGRESS_EVERY = 5000;

const isBlock = ({ rows, columns }: Spill): boolean => rows * columns > 1;
const placeKey = ({ grid, row, column }: Place): string => `${grid.index} ${row} ${column}`;

function sameSpills(a: ReadonlyMap<string, Spill>, b: ReadonlyMap<string, Spill>): boolean {
  return a.size === b.size && [...a].every(([key, { rows, columns }]) => b.get(key)?.rows === rows && b.get(key)?.columns === columns);
}

/** A formula's value as a cell or a block; one that refers to a blank cell is 0. */
function evaluated(formula: Prepared): Result {
  const { program, arrays } = formula;
  const value = arrays ? read(program.evaluate(formula)) : intersected(program.evaluate(formula), formula);
  if (!Array.isArray(value)) return value ?? 0;
  if (!value.length || !value[0]!.length) return failure('#CALC!');
  if (!arrays || (value.length === 1 && value[0]!.length === 1)) return value[0]![0] ?? 0;
  return value.some((line) => line.includes(null)) ? value.map((line) => line.map((cell) => cell ?? 0)) : value;
}

/** What keeps a result from its cells; undefined where they are free. */
function obstacleTo(grid: Grid, row: number, column: number, rows: number, columns: number): string | undefined {
  if (row + rows - 1 > LAST_ROW || column + columns - 1 > LAST_COLUMN) return 'lie beyond the sheet';
  if (grid.sheet.merges?.some((merge) => merge.row < row + rows && row < merge.row + merge.rows && merge.column < column + columns && column < merge.column + merge.columns)) return 'are merged';
  for (let r = row; r < row + rows; r++) {
    const line = grid.sheet.cells[r];
    for (let c = column; line && c < column + columns; c++) {
      const cell = line[c];
      if (cell && (r !== row || c !== column) && !cell.spilled && (cell.value !== null || cell.formula !== undefined)) return 'hold something else';
    }
  }
  return undefined;
}
