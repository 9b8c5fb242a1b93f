import { CellError, type Cell, type Result } from '../../sheet';

/** The engine keeps only an error's code: the messages behind the codes are kept here, by sheet and cell. */
export class ErrorMessages {
  private readonly bySheet = new Map<string, Map<number, CellError>>();
  /** The cell that each error arose in: it is handed on to the cells that depend on it. */
  private readonly origins = new WeakMap<CellError, string>();

  /** Remembers the errors of a result that was computed for the formula in a cell, in the place of those of the last one. */
  record(workbook: string, sheet: string, row: number, column: number, result: Result): void {
    const key = sheetKey(workbook, sheet);
    if (!Array.isArray(result)) this.keep(key, row, column, result);
    else result.forEach((line, r) => line.forEach((cell, c) => this.keep(key, row + r, column + c, cell)));
  }

  /** The message for a cell that now shows `code`; undefined where none of ours gave that error. */
  explain(workbook: string, sheet: string, row: number, column: number, code: string): string | undefined {
    const error = this.bySheet.get(sheetKey(workbook, sheet))?.get(place(row, column));
    return error?.code === code ? error.message : undefined;
  }

  /** Forgets them all: after cells have moved they would stand for others. */
  clear(): void {
    this.bySheet.clear();
  }

  private keep(key: string, row: number, column: number, cell: Cell): void {
    const own = this.bySheet.get(key);
    if (!(cell instanceof CellError) || !cell.message || !this.arisesIn(cell, `${key} ${row} ${column}`))
      own?.delete(place(row, column));
    else if (own) own.set(place(row, column), cell);
    else this.bySheet.set(key, new Map([[place(row, column), cell]]));
  }

  private arisesIn(error: CellError, cell: string): boolean {
    const origin = this.origins.get(error);
    if (origin === undefined) this.origins.set(error, cell);
    return (origin ?? cell) === cell;
  }
}

const sheetKey = (workbook: string, sheet: string): string => `${workbook} ${sheet}`;

/** More columns than a sheet can have. */
const COLUMNS = 2 ** 15;
const place = (row: number, column: number): number => row * COLUMNS + column;
