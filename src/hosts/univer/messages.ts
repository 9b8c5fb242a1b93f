import { CellError, type Result } from '../../functions';

/** The engine keeps only an error's code: the messages behind the codes are kept here, by cell. */
export class ErrorMessages {
  private readonly byCell = new Map<string, CellError>();
  /** The cell that each error arose in: it is handed on to the cells that depend on it. */
  private readonly origins = new WeakMap<CellError, string>();

  /** Remembers the errors of a result that was computed for the formula in a cell. */
  record(workbook: string, sheet: string, row: number, column: number, result: Result): void {
    if (result instanceof CellError) this.keep(workbook, sheet, row, column, result);
    if (!Array.isArray(result)) return;
    result.forEach((line, r) =>
      line.forEach((cell, c) => {
        if (cell instanceof CellError) this.keep(workbook, sheet, row + r, column + c, cell);
      }),
    );
  }

  /** The message for a cell that now shows `code`; undefined where none of ours gave that error. */
  explain(workbook: string, sheet: string, row: number, column: number, code: string): string | undefined {
    const error = this.byCell.get(key(workbook, sheet, row, column));
    return error?.code === code ? error.message : undefined;
  }

  /** Forgets them all: after cells have moved they would stand for others. */
  clear(): void {
    this.byCell.clear();
  }

  private keep(workbook: string, sheet: string, row: number, column: number, error: CellError): void {
    if (!error.message) return;
    const cell = key(workbook, sheet, row, column);
    if ((this.origins.get(error) ?? cell) !== cell) return;
    this.origins.set(error, cell);
    this.byCell.set(cell, error);
  }
}

const key = (workbook: string, sheet: string, row: number, column: number): string => `${workbook} ${sheet} ${row} ${column}`;
