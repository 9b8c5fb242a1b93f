/**
 * A calculator that is asked by messages. It keeps a copy of each workbook that is begun, so that it can run in a
 * thread of its own: nothing but messages goes in or out.
 */
import { CellError, type Cell, type CellModel, type SheetModel, type WorkbookModel } from '../../sheet';
import { Calculator, type Calculation } from '../calculate';
import {
  packedSpill,
  packResult,
  packValue,
  unpackCell,
  type Answer,
  type Asked,
  type PackedResult,
  type PackedValue,
  type Request,
  type Results,
  type UnknownInBook,
} from './messages';

/** Cells of one answer: a page shows as many in a few milliseconds. */
const CELLS_AT_ONCE = 4000;

/** Rows above and below the first one in view whose results come before all others. */
const ROWS_AROUND = 100;

/** A sheet whose cells and rows left out are set from outside. */
type OwnSheet = { -readonly [key in keyof SheetModel]: SheetModel[key] };

interface Served {
  readonly model: WorkbookModel & { readonly sheets: OwnSheet[] };
  calculator: Calculator | undefined;
  /** The cell that each error arose in: it is handed on to the cells that depend on it. */
  readonly origins: WeakMap<CellError, string>;
  /** What formulas that fill several cells gave last, by their place. */
  readonly spilled: Map<string, readonly PackedValue[]>;
}

export class CalculationService {
  private readonly books = new Map<string, Served>();

  constructor(private readonly tell: (answer: Answer) => void) {}

  take(request: Request): void {
    if (request.kind === 'begin') return this.begin(request);
    if (request.kind === 'end') return void this.books.delete(request.book);
    const served = this.books.get(request.book);
    if (!served) return;
    try {
      this.serve(served, request);
    } catch (error) {
      const { message, stack } = error instanceof Error ? error : new Error(String(error));
      this.tell({ kind: 'fault', book: request.book, message, stack });
    }
  }

  /**
   * Begins a workbook that was read here: its rows need not be sent. Formulas that cannot be calculated keep their
   * values: gives those.
   */
  adopt(book: string, { names, styles, dates1904 = false, sheets }: WorkbookModel): UnknownInBook[] {
    const own = sheets.map((sheet): OwnSheet => ({ ...sheet, cells: sheet.cells.map((line) => line?.map(valued)) }));
    const model = { names, styles, dates1904, sheets: own };
    const calculator = new Calculator(model, true);
    this.books.set(book, { model, calculator, origins: new WeakMap(), spilled: new Map() });
    return calculator.unknown.map((one) => ({ ...one, block: packedSpill(own[one.sheet]!, one.row, one.column) }));
  }

  private begin({ book, sheets, names, styles, dates1904 }: Request & { readonly kind: 'begin' }): void {
    const model = {
      names,
      styles,
      dates1904,
      sheets: sheets.map((sheet): OwnSheet => ({ ...sheet, cells: [], hiddenRows: [], filtered: false })),
    };
    this.books.set(book, { model, calculator: undefined, origins: new WeakMap(), spilled: new Map() });
  }

  private serve(served: Served, request: Exclude<Request, { readonly kind: 'begin' | 'end' }>): void {
    const { sheets } = served.model;
    switch (request.kind) {
      case 'rows':
        request.lines.forEach((line, index) => {
          if (line.length > 0) sheets[request.sheet]!.cells[request.row + index] = line.map(unpackCell);
        });
        return;
      case 'edit':
        for (const [sheet, row, column, packed] of request.cells) {
          const cell = unpackCell(packed);
          if (served.calculator) served.calculator.edit(sheet, row, column, cell);
          else (sheets[sheet]!.cells[row] ??= [])[column] = cell;
        }
        return;
      case 'calculate':
        request.leftOut?.forEach((leftOut, index) => Object.assign(sheets[index]!, leftOut));
        return this.calculate(served, request);
      case 'evaluate':
        return this.tell({
          kind: 'evaluated',
          book: request.book,
          question: request.question,
          results: request.asked.map((asked) => evaluated(served, asked)),
        });
    }
  }

  private calculate(served: Served, { book, inView }: Request & { readonly kind: 'calculate' }): void {
    const calculator = (served.calculator ??= new Calculator(served.model, true));
    const progress = (done: number, total: number): void => this.tell({ kind: 'progress', book, done, total });
    const calculation = calculator.update(progress);
    const answers = [...inAnswers(runsOf(calculation, served), inView)];
    const last = answers.pop() ?? [];
    for (const results of answers) this.tell({ kind: 'results', book, results });
    const { notRecalculated } = calculation;
    this.tell({ kind: 'done', book, results: last, unknown: calculator.unknown, notRecalculated });
    calculator.prepare();
  }
}

function evaluated({ calculator }: Served, { sheet, row, column, formula, cells }: Asked): PackedResult[] {
  if (!calculator) return cells.map(() => null);
  const evaluate = calculator.evaluator(sheet, row, column, formula);
  return cells.map(([own, ownColumn]) => packResult(evaluate(own, ownColumn)));
}

/** A file's formula without a value has an empty text. */
const valued = (cell: CellModel | undefined): CellModel | undefined =>
  cell?.formula !== undefined && cell.value === null ? { ...cell, value: '' } : cell;

/** A run of results that grows while it is collected. */
interface Run extends Results {
  readonly values: PackedValue[];
}

/** Results of single cells joined to runs down their columns, and those of several cells each by itself. */
function runsOf({ results: computed, isWhole }: Calculation, { origins, spilled }: Served): Run[] {
  const runs: Run[] = [];
  const open = new Map<string, Run>();
  const pack = (sheet: number, row: number, column: number, value: Cell): PackedValue =>
    value instanceof CellError && !arisesIn(value, `${sheet} ${row} ${column}`, origins)
      ? { code: value.code, message: '' }
      : packValue(value);
  for (const { sheet, row, column, result } of computed) {
    if (Array.isArray(result)) {
      const columns = result[0]!.length;
      const values = result.flatMap((line, r) => line.map((value, c) => pack(sheet, row + r, column + c, value)));
      const place = `${sheet} ${row} ${column}`;
      const last = isWhole ? undefined : spilled.get(place);
      spilled.set(place, values);
      const [first, end] = changedRows(values, last, columns);
      if (first < end)
        runs.push({
          sheet,
          row: row + first,
          column,
          columns,
          values: first === 0 && end === result.length ? values : values.slice(first * columns, end * columns),
          spill: { row, column, rows: result.length, columns },
        });
      continue;
    }
    const key = `${sheet} ${column}`;
    let run = open.get(key);
    if (run?.row !== row - (run?.values.length ?? 0) || run.values.length >= CELLS_AT_ONCE) {
      run = { sheet, row, column, columns: 1, values: [] };
      open.set(key, run);
      runs.push(run);
    }
    run.values.push(pack(sheet, row, column, result));
  }
  return runs;
}

/**
 * The rows from the first to behind the last that are not what they were: all of them where the first cell is another,
 * which stands for the whole extent.
 */
function changedRows(
  values: readonly PackedValue[],
  last: readonly PackedValue[] | undefined,
  columns: number,
): readonly [first: number, end: number] {
  if (last?.length !== values.length || values[0] !== last[0]) return [0, values.length / columns];
  const isNew = (value: PackedValue, index: number): boolean => value !== last[index];
  const first = Math.max(0, values.findIndex(isNew));
  return [Math.floor(first / columns), Math.ceil((values.findLastIndex(isNew) + 1) / columns)];
}

function arisesIn(error: CellError, cell: string, origins: WeakMap<CellError, string>): boolean {
  const origin = origins.get(error);
  if (origin === undefined) origins.set(error, cell);
  return (origin ?? cell) === cell;
}

/** Runs in pieces of so many cells as an answer may have, those in view first. */
function* inAnswers(
  runs: readonly Run[],
  inView: { readonly sheet: number; readonly row: number } | undefined,
): Generator<readonly Results[]> {
  const pieces = runs.flatMap(piecesOf);
  const far = ({ sheet, row, columns, values, spill }: Results): number => {
    if (sheet !== inView?.sheet) return 2;
    const last = row + values.length / columns;
    const isNear = row <= inView.row + ROWS_AROUND && last >= inView.row - ROWS_AROUND;
    // Where a formula fills several pieces, the first of them says how far it reaches.
    return isNear || (spill !== undefined && row === spill.row) ? 0 : 1;
  };
  const ordered = [0, 1, 2].flatMap((distance) => pieces.filter((piece) => far(piece) === distance));
  let some: Results[] = [];
  let cells = 0;
  for (const piece of ordered) {
    if (cells > 0 && cells + piece.values.length > CELLS_AT_ONCE) {
      yield some;
      some = [];
      cells = 0;
    }
    some.push(piece);
    cells += piece.values.length;
  }
  if (some.length > 0) yield some;
}

function piecesOf(run: Run): Results[] {
  const { row, columns, values } = run;
  const step = Math.max(1, Math.floor(CELLS_AT_ONCE / columns));
  const rows = values.length / columns;
  const pieces: Results[] = [];
  for (let at = 0; at < rows; at += step)
    pieces.push({
      ...run,
      row: row + at,
      values: packedRun(step >= rows ? values : values.slice(at * columns, (at + step) * columns)),
    });
  return pieces;
}

const packedRun = (values: readonly PackedValue[]): Results['values'] =>
  values.every((value) => typeof value === 'number') ? Float64Array.from(values) : values;
