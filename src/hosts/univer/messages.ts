import { CellError } from '../../sheet';
import { eachResult, type Results } from '../../calculation/service';

/** The engine keeps only an error's code: the messages behind the codes are kept here, by sheet and cell. */
export class ErrorMessages {
  private readonly bySheet = new Map<string, Map<number, CellError>>();

  /** Remembers the errors of results, in the place of those of the last ones; `isLeft` says which cells are left as they are. */
  record(workbook: string, sheet: string, results: Results, isLeft: (row: number, column: number) => boolean): void {
    const key = sheetKey(workbook, sheet);
    let own = this.bySheet.get(key);
    // Most columns have no error in them, and none before.
    if (!own && results.values instanceof Float64Array) return;
    eachResult(results, (row, column, value) => {
      const error = typeof value === 'object' && value?.message ? value : undefined;
      if ((!error && !own) || isLeft(row, column)) return;
      if (!error) own!.delete(place(row, column));
      else {
        if (!own) this.bySheet.set(key, (own = new Map<number, CellError>()));
        own.set(place(row, column), new CellError(error.code, error.message));
      }
    });
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
}

const sheetKey = (workbook: string, sheet: string): string => `${workbook} ${sheet}`;

/** More columns than a sheet can have. */
const COLUMNS = 2 ** 15;
const place = (row: number, column: number): number => row * COLUMNS + column;
