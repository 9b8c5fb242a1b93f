/** Comma-separated text of a list, coming in and going out. Nothing in a file is ever a formula. */
import { HEADER_WITHIN } from '../../core/table';
import { csvRecords, csvText, guard, unguard } from '../../project';
import { t } from '../locale';

export interface CsvRow {
  /** Record in the file, the first being 1. */
  readonly number: number;
  readonly cells: readonly string[];
}

export interface CsvFile {
  readonly headers: readonly string[];
  readonly rows: readonly CsvRow[];
  /** True where fields are parted by semicolons: a comma is then a decimal comma. */
  readonly decimalComma: boolean;
}

/** How many of a list's labels stand in a row. */
type KnownLabels = (cells: readonly string[]) => number;

/**
 * Parts a file into its header and rows, its fields by what makes most labels of the list, or else most cells of the first
 * row: guessed from the rows, a note could mislead. Blank rows are passed over. Throws an Error that says what is wrong with the file.
 */
export function readCsvFile(text: string, known: KnownLabels): CsvFile {
  const {
    records: all,
    delimiter,
    unclosed,
  } = csvRecords(text, (some) => {
    const looked = some.slice(0, HEADER_WITHIN);
    return [Math.max(0, ...looked.map(known)), looked[0]?.length ?? 0];
  });
  if (unclosed !== undefined)
    throw new Error(
      t('Row {number} of the file has a quotation mark that is not closed. Fix it and choose the file again.', {
        number: unclosed,
      }),
    );
  const records = all
    .map((cells, index) => ({ number: index + 1, cells: cells.map(unguard) }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const first = records[0];
  if (!first) throw new Error(t('The file is empty. Choose a CSV file with a header row.'));
  const header = records.slice(0, HEADER_WITHIN).find(({ cells }) => known(cells) >= 2) ?? first;
  return {
    headers: header.cells.map((cell) => cell.trim()),
    rows: records.filter(({ number }) => number > header.number),
    decimalComma: delimiter === ';',
  };
}

/** Rows of a file as they were, for those that did not come in. */
export const rowsAsCsv = (
  headers: readonly string[],
  rows: readonly { readonly cells: readonly string[]; readonly why: string }[],
): string =>
  csvText([
    [...headers, t('Why refused')].map(guard),
    ...rows.map(({ cells, why }) => [...headers.map((_, index) => cells[index] ?? ''), why].map(guard)),
  ]);
