/**
 * Bringing a list in from a file of comma-separated text: how the file is read, and which column of it fills which
 * column of the list. Nothing in a file is ever a formula.
 */
import { Select } from '@fluentui/react-components';
import type { ReactNode, RefObject } from 'react';
import { HEADER_WITHIN } from '../../core/table';
import { csvRecords, csvText, guard, unguard } from '../../project';
import { t } from '../locale';
import { ScrollTable, TableHead } from './scroll-table';

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

/**
 * Parts a file into its header and rows, its fields by what makes most labels of the list, or else most cells of the first
 * row: guessed from the rows, a note could mislead. Blank rows are passed over. Throws an Error that says what is wrong with the file.
 * @param known how many of the list's labels stand in a row
 */
export function readCsvFile(text: string, known: (cells: readonly string[]) => number): CsvFile {
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

/** The file field behind a button that brings in a CSV file: unseen, opened by the button. */
export function CsvFileInput({
  input,
  label,
  onFile,
}: {
  readonly input: RefObject<HTMLInputElement | null>;
  readonly label: string;
  onFile(name: string, bytes: Promise<ArrayBuffer>): void;
}) {
  return (
    <input
      ref={input}
      type="file"
      hidden
      accept=".csv,.tsv,.txt,text/csv,text/plain"
      aria-label={label}
      onChange={({ target }) => {
        const [chosen] = target.files ?? [];
        if (chosen) onFile(chosen.name, chosen.arrayBuffer());
        // The same file can be chosen again after it was changed.
        target.value = '';
      }}
    />
  );
}

// Columns: by their labels first, then as a person chooses.

/** For each column of the file, which column of the table it fills; undefined where it is left out. */
export type Mapping = readonly (number | undefined)[];

/** Each place is filled once, by the first column that is its own. */
export function mapColumns(
  headers: readonly string[],
  columns: readonly string[],
  isSame: (column: string, header: string) => boolean,
): Mapping {
  const taken = new Set<number>();
  return headers.map((header) => {
    const place = columns.findIndex((column, index) => !taken.has(index) && header !== '' && isSame(column, header));
    if (place < 0) return undefined;
    taken.add(place);
    return place;
  });
}

/** Lets a column of the file fill a place; another column that filled it gives way. */
export const remapped = (mapping: Mapping, column: number, place: number | undefined): Mapping =>
  mapping.map((old, index) => (index === column ? place : old === place ? undefined : old));

/** The columns of a file or of a sheet, each with the column of the list that it goes to. */
export function ColumnMapping({
  headers,
  columns,
  mapping,
  className,
  from = t('In the file'),
  to = t('Goes to'),
  beside,
  onMap,
}: {
  readonly headers: readonly string[];
  readonly columns: readonly string[];
  readonly mapping: Mapping;
  readonly className: string;
  readonly from?: string;
  readonly to?: string;
  /** What else is chosen of a column, with its heading. */
  readonly beside?: { readonly label: string; cell(column: number): ReactNode };
  onMap(column: number, place: number | undefined): void;
}) {
  return (
    <ScrollTable className={className}>
      <TableHead heads={[from, to, beside?.label]} />
      <tbody>
        {headers.map((header, index) => (
          <tr key={index}>
            <th scope="row">{header || t('(column {number})', { number: index + 1 })}</th>
            <td>
              <Select
                size="small"
                aria-label={t('{column} goes to', {
                  column: header || t('(column {number})', { number: index + 1 }),
                })}
                value={String(mapping[index] ?? '')}
                onChange={(_event, { value }) => onMap(index, value === '' ? undefined : Number(value))}
              >
                <option value="">{t('left out')}</option>
                {columns.map((column, place) => (
                  <option key={place} value={place}>
                    {column}
                  </option>
                ))}
              </Select>
            </td>
            {beside && <td>{beside.cell(index)}</td>}
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}
