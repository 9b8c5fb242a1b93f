/**
 * The price list as comma-separated text, going out and coming in, and what a file's rows would do to the list: looked at
 * before anything is written. Nothing in a file is ever a formula.
 */
import { pricePlaces, PRICE_COLUMNS, validatePriceRow, type PriceColumnKey, type PriceRow } from '../../../core/price';
import { nameKey } from '../../../core/names';
import { labelLetters, withoutRow } from '../../../core/table';
import { csvText, guard } from '../../../project';
import type { Cell } from '../../../sheet';
import { t } from '../../locale';
import { readCsvFile, mapColumns, type CsvFile, type Mapping } from '../../shared/csv-import';
import { fileText, numberIfLossless, readValue } from './fields';
import { priceCell, type Places, type PriceLine } from './lines';

/** The list as it stands in the sheet, with columns of the user's own; dates as year-month-day. */
export function writeCsv(columns: readonly string[], places: Places, lines: readonly PriceLine[]): string {
  const keys = new Map<number, PriceColumnKey>([...places].map(([key, place]) => [place, key]));
  const rows = lines
    .filter(({ blank }) => !blank)
    .map(({ cells }) => columns.map((_, place) => exportText(keys.get(place), cells[place] ?? null)));
  return csvText([columns.map(guard), ...rows]);
}

const exportText = (key: PriceColumnKey | undefined, cell: Cell): string =>
  typeof cell === 'string' ? guard(cell) : fileText(key, cell);

/** A price list's file. */
export const readCsv = (text: string): CsvFile => readCsvFile(text, (cells) => pricePlaces(cells).size);

export interface Refused {
  readonly number: number;
  readonly cells: readonly string[];
  readonly why: string;
  /** True where the check of a row says why, which speaks English. */
  readonly checked?: boolean;
}

export interface ImportPlan {
  /** Whole table rows that are new. */
  readonly add: readonly (readonly Cell[])[];
  /** Rows of the list that the file has with other values; undefined cells stay as they are. */
  readonly change: readonly { readonly id: number; readonly cells: readonly (Cell | undefined)[] }[];
  /** Rows that the list has already, the same in every column of the file. */
  readonly same: number;
  readonly refused: readonly Refused[];
  /** Labels of columns with content that are left out. */
  readonly leftOut: readonly string[];
  /** Required columns that no column of the file fills. */
  readonly missing: readonly string[];
}

/** Columns of the file by their labels. */
export const mapByLabel = (headers: readonly string[], columns: readonly string[]): Mapping =>
  mapColumns(
    headers,
    columns,
    (column, header) =>
      (column.trim() === header || labelLetters(column) === labelLetters(header)) && /[a-z]/i.test(header),
  );

export function planImport(
  file: CsvFile,
  mapping: Mapping,
  columns: readonly string[],
  places: Places,
  lines: readonly PriceLine[],
): ImportPlan {
  const keys = new Map<number, PriceColumnKey>([...places].map(([key, place]) => [place, key]));
  const missing = PRICE_COLUMNS.filter(
    ({ key, required }) => required && !(places.has(key) && mapping.includes(places.get(key))),
  ).map(({ label }) => label);
  const leftOut = file.headers.filter(
    (_, index) => mapping[index] === undefined && file.rows.some(({ cells }) => (cells[index] ?? '').trim() !== ''),
  );
  const plan = {
    add: [] as Cell[][],
    change: [] as { id: number; cells: (Cell | undefined)[] }[],
    same: 0,
    refused: [] as Refused[],
    leftOut,
    missing,
  };
  if (missing.length > 0) return plan;

  const inList = new Map<string, PriceLine>();
  for (const line of lines) if (line.row && !inList.has(offerKey(line.row))) inList.set(offerKey(line.row), line);
  const inFile = new Map<string, number>();

  file.rows.forEach(({ number, cells }) => {
    const refuse = (why: string, checked = false): void =>
      void plan.refused.push({ number, cells, why, ...(checked ? { checked } : {}) });
    if (cells.slice(file.headers.length).some((cell) => cell.trim() !== ''))
      return refuse(t('it has more cells than the header row'));
    const row = columns.map((): Cell | undefined => undefined);
    mapping.forEach((place, index) => {
      if (place === undefined) return;
      const text = cells[index] ?? '';
      const key = keys.get(place);
      row[place] = text === '' ? null : key ? readValue(key, text, file.decimalComma) : numberIfLossless(text);
    });
    const checked = validatePriceRow(
      Object.fromEntries([...places].map(([key, place]) => [key, priceCell(row[place] ?? null)])),
    );
    if (!checked) return refuse(t('it has nothing in the columns that are brought in'));
    if (!checked.row) return refuse(checked.problems.map(({ message }) => withoutRow(message)).join('. '), true);
    const key = offerKey(checked.row);
    const first = inFile.get(key);
    if (first !== undefined)
      return refuse(t('it prices the same item as row {row} of the file, from the same quantity', { row: first }));
    inFile.set(key, number);
    const line = inList.get(key);
    if (!line) plan.add.push(row.map((cell) => cell ?? null));
    else if (row.every((cell, place) => (cell ?? null) === null || sameCell(cell!, line.cells[place] ?? null)))
      plan.same += 1;
    // A blank in the file does not take away what the list knows.
    else plan.change.push({ id: line.id, cells: row.map((cell) => cell ?? undefined) });
  });
  return plan;
}

/** Rows with the same key price the same thing from the same quantity: the list may hold one of them. */
const offerKey = (row: PriceRow): string =>
  [nameKey(row.item), nameKey(row.supplier), row.soldBy, row.contents ?? '', row.currency, row.from].join('\u0001');

const sameCell = (one: Cell, other: Cell): boolean => String(one ?? '').trim() === String(other ?? '').trim();
