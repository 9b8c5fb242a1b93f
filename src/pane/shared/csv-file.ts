/** Comma-separated text of a list, coming in and going out. Nothing in a file is ever a formula. */
import Papa from 'papaparse';
import { decimalNumber } from '../../core/quantity';
import { HEADER_WITHIN } from '../../core/table';
import { t } from '../locale';

/** Text that a spreadsheet would take for a formula when it opens the file. */
const LIKE_A_FORMULA = /^'*[=+\-@\t\r]/;

/** An apostrophe before text that looks like a formula; numbers stay as they are. */
export const guard = (text: string): string =>
  LIKE_A_FORMULA.test(text) && decimalNumber(text) === undefined ? `'${text}` : text;

/** Takes the apostrophe off again. */
export const unguard = (text: string): string =>
  text.startsWith("'") && LIKE_A_FORMULA.test(text) ? text.slice(1) : text;

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

/** Parts a file into its header and rows; blank rows are passed over. Throws an Error that says what is wrong with the file. */
export function readCsvFile(text: string, known: KnownLabels): CsvFile {
  const content = text.replace(/^\uFEFF/, '');
  const delimiter = delimiterOf(content, known);
  const parsed = Papa.parse<string[]>(content, { delimiter });
  const records = parsed.data
    .map((cells, index) => ({ number: index + 1, cells: cells.map(unguard) }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const broken = parsed.errors.find(({ type }) => type === 'Quotes');
  if (broken)
    throw new Error(
      t('Row {number} of the file has a quotation mark that is not closed. Fix it and choose the file again.', {
        number: (broken.row ?? 0) + 1,
      }),
    );
  const first = records[0];
  if (!first) throw new Error(t('The file is empty. Choose a CSV file with a header row.'));
  const header = records.slice(0, HEADER_WITHIN).find(({ cells }) => known(cells) >= 2) ?? first;
  return {
    headers: header.cells.map((cell) => cell.trim()),
    rows: records.filter(({ number }) => number > header.number),
    decimalComma: delimiter === ';',
  };
}

/** The one that parts most labels of the list from each other, or else most cells of the first row. Guessed from the rows, a note could mislead. */
function delimiterOf(text: string, known: KnownLabels): string {
  const scored = [',', ';', '\t'].map((delimiter) => {
    const { data } = Papa.parse<string[]>(text, { delimiter, preview: HEADER_WITHIN });
    return { delimiter, labels: Math.max(0, ...data.map(known)), cells: data[0]?.length ?? 0 };
  });
  return scored.reduce((best, one) =>
    one.labels > best.labels || (one.labels === best.labels && one.cells > best.cells) ? one : best,
  ).delimiter;
}

/** Rows of a file as they were, for those that did not come in. */
export const rowsAsCsv = (
  headers: readonly string[],
  rows: readonly { readonly cells: readonly string[]; readonly why: string }[],
): string =>
  Papa.unparse(
    [
      [...headers, t('Why refused')].map(guard),
      ...rows.map(({ cells, why }) => [...headers.map((_, index) => cells[index] ?? ''), why].map(guard)),
    ],
    { newline: '\r\n' },
  ) + '\r\n';
