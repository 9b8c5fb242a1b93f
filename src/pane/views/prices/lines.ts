/** The rows of the workbook's price table, read, checked and told apart. */
import { entryOf, memoized } from '../../../core/memoized';
import {
  PRICE_COLUMNS,
  pricePlaces,
  readPriceList,
  type PriceCell,
  type PriceColumn,
  type PriceColumnKey,
  type PriceList,
  type PriceRow,
} from '../../../core/price';
import { HEADER_WITHIN, isBlankCell, withoutRow } from '../../../core/table';
import { cellsIn, findPrices, type ProjectSheets, type WantedSheets } from '../../../project';
import type { Cell, RangeAddress, TableModel } from '../../../sheet';
import { t } from '../../locale';
import { fileText } from './fields';

/** Problems of a row by the column to fix. */
export type RowProblems = ReadonlyMap<PriceColumnKey, string>;

/** A row of the table as it stands. */
export interface RawLine {
  /** Stays the same as long as the pane runs, wherever the row moves to in the sheet. */
  readonly id: number;
  /** The whole table row, with columns that are the user's own. */
  readonly cells: readonly Cell[];
  readonly formulas: readonly (string | null)[];
}

export interface PriceLine extends RawLine {
  /** Missing where the row is blank or has problems. */
  readonly row: PriceRow | undefined;
  readonly problems: RowProblems;
  readonly blank: boolean;
}

/** Where the list's columns stand in the table. */
export type Places = ReadonlyMap<PriceColumnKey, number>;

/** Columns that a list needs and the table has not. @internal */
export const missingColumns = (places: Places): readonly PriceColumn[] =>
  PRICE_COLUMNS.filter(({ key, required }) => required && !places.has(key));

/** The cell of a column; blank where the table lacks it. */
export const cellOf = ({ cells }: Pick<PriceLine, 'cells'>, places: Places, key: PriceColumnKey): Cell =>
  cells[places.get(key) ?? -1] ?? null;

export const lineFormula = (
  { formulas }: Pick<PriceLine, 'formulas'>,
  places: Places,
  key: PriceColumnKey,
): string | null => formulas[places.get(key) ?? -1] ?? null;

/** The list of rows that are on no sheet yet. */
const listOf = (places: Places, raw: readonly RawLine[]): PriceList =>
  readPriceList([
    PRICE_COLUMNS.map(({ label }) => label),
    ...raw.map((line) => PRICE_COLUMNS.map(({ key }) => priceCell(cellOf(line, places, key)))),
  ]);

/**
 * The rows of the table with what the worksheet functions will say of them.
 * @param list what these make of the rows, where it is known
 */
export function checkLines(places: Places, raw: readonly RawLine[], list = listOf(places, raw)): PriceLine[] {
  const rows = new Map(list.rows.map((row) => [row.row, row]));
  const problems = new Map<number, Map<PriceColumnKey, string>>();
  for (const { row, column, message } of list.problems) {
    entryOf(problems, row, () => new Map<PriceColumnKey, string>()).set(column, withoutRow(message));
  }
  return raw.map((line, index) => {
    // Row 1 is the header.
    const number = index + 2;
    const blank = PRICE_COLUMNS.every(({ key }) => isBlankCell(cellOf(line, places, key)));
    return { ...line, row: rows.get(number), problems: problems.get(number) ?? NONE, blank };
  });
}

const NONE: RowProblems = new Map();

/** An error cell is named by its code. */
export const priceCell = (cell: Cell): PriceCell => (typeof cell === 'object' && cell !== null ? cell.code : cell);

const fingerprint = (cells: readonly Cell[]): string =>
  cells
    .map((cell) =>
      typeof cell === 'object' && cell !== null ? cell.code : `${typeof cell} ${cell === null ? '' : String(cell)}`,
    )
    .join('\u0001');

/** Lines that did not change as the very objects that they were, so that only changed rows are drawn again. */
function keepLines(before: readonly PriceLine[], now: readonly PriceLine[]): PriceLine[] {
  const known = new Map(before.map((line) => [line.id, line]));
  return now.map((line) => {
    const old = known.get(line.id);
    return old && sameLine(old, line) ? old : line;
  });
}

const sameLine = (one: PriceLine, other: PriceLine): boolean =>
  fingerprint(one.cells) === fingerprint(other.cells) &&
  fingerprint(one.formulas) === fingerprint(other.formulas) &&
  [...one.problems].join() === [...other.problems].join();

/**
 * Ids for the rows as they stand now: a row that is unchanged keeps its id wherever it went; one that
 * was edited keeps it by its item, or by its place among the edited. @internal
 */
export function keepIds(
  before: readonly { readonly id: number; readonly cells: readonly Cell[] }[],
  now: readonly (readonly Cell[])[],
  newId: () => number,
  itemAt = 0,
): number[] {
  const ids: (number | undefined)[] = new Array<number | undefined>(now.length).fill(undefined);
  const left = new Set(before.map((_, index) => index));
  const pair = (old: number, place: number): void => {
    ids[place] = before[old]!.id;
    left.delete(old);
  };
  const prints = before.map(({ cells }) => fingerprint(cells));
  const printsNow = now.map(fingerprint);
  // Rows in their places first, so that of equal rows each keeps its own id.
  prints.forEach((print, index) => {
    if (print === printsNow[index]) pair(index, index);
  });
  const match = (keyBefore: (index: number) => string, keyNow: (index: number) => string): void => {
    const queues = new Map<string, number[]>();
    for (const old of left) {
      const key = keyBefore(old);
      if (key !== '') queues.set(key, [...(queues.get(key) ?? []), old]);
    }
    ids.forEach((id, place) => {
      if (id !== undefined) return;
      const old = queues.get(keyNow(place))?.shift();
      if (old !== undefined) pair(old, place);
    });
  };
  match(
    (index) => prints[index]!,
    (place) => printsNow[place]!,
  );
  match(
    (index) => String(before[index]!.cells[itemAt] ?? ''),
    (place) => String(now[place]![itemAt] ?? ''),
  );
  const edited = ids.flatMap((id, place) => (id === undefined ? [place] : []));
  if (edited.length === left.size) [...left].forEach((old, index) => pair(old, edited[index]!));
  return ids.map((id) => id ?? newId());
}

// The table as it is read

/** A range that reads as a price list but is no table yet. */
export interface ListCandidate {
  readonly range: RangeAddress;
  readonly columns: readonly string[];
}

/** The rows of a table with all columns that a list needs. */
export interface Rows {
  readonly status: 'ready';
  readonly table: TableModel;
  readonly places: Places;
  readonly rows: readonly RawLine[];
}

export type Reading =
  | { readonly status: 'absent'; readonly candidate: ListCandidate | undefined }
  | { readonly status: 'lacking'; readonly table: TableModel; readonly mend: string }
  | Rows;

/** The sheet of the price list; its formulas, since cells can be typed in. */
export const priceSheet: WantedSheets = ({ prices }) => (prices ? [{ sheet: prices.sheet, formulas: true }] : []);

/** The price table as the project has read it, whose rows keep their ids from one reading to the next. */
export class ListReader {
  private lastId = 0;
  private lines: readonly PriceLine[] = [];
  /** The same map as long as the labels are the same, so that nothing is drawn again for it. */
  private readonly placesOf = memoized((labels: string) => pricePlaces(JSON.parse(labels) as string[]), 1);

  read(sheets: ProjectSheets): Reading {
    const table = findPrices([], sheets.tables)?.table;
    if (!table) return { status: 'absent', candidate: candidateIn(sheets) };
    const places = this.placesOf(JSON.stringify(table.columns));
    const lacking = missingColumns(places).map(({ label }) => label);
    if (lacking.length > 0) {
      const mend = t(
        'The table {table} on the sheet {sheet} has no {count, plural, one {column} other {columns}} {columns}. Put the label in its header row; the list shows when it is there.',
        {
          table: table.name,
          sheet: table.range.sheet,
          count: lacking.length,
          columns: lacking.join(', '),
        },
      );
      return { status: 'lacking', table, mend };
    }
    const data = { ...table.range, row: table.range.row + 1, rows: table.range.rows - 1 };
    const cells = cellsIn(sheets.values(data.sheet) ?? [], data);
    const formulas = cellsIn(sheets.formulas(data.sheet) ?? [], data);
    const ids = keepIds(this.lines, cells, () => (this.lastId += 1), places.get('item'));
    return {
      status: 'ready',
      table,
      places,
      rows: cells.map((row, index) => ({ id: ids[index]!, cells: row, formulas: formulas[index] ?? [] })),
    };
  }

  /** The rows with what the project's price list says of them: those that are as they were as the objects that they were. */
  check({ places, rows }: Rows, { prices }: ProjectSheets): PriceLine[] {
    return keepLines(this.lines, checkLines(places, rows, prices?.book.list));
  }

  /** Goes on from these rows. */
  keep(lines: readonly PriceLine[]): void {
    this.lines = lines;
  }
}

/** A sheet called as the table is, with the list's labels in a row, that is no table yet. */
function candidateIn({ sheets, values }: ProjectSheets): ListCandidate | undefined {
  const sheet = findPrices(
    sheets.flatMap(({ name, visible }) => (visible ? [name] : [])),
    [],
  )?.sheet;
  const cells = sheet === undefined ? undefined : values(sheet);
  if (sheet === undefined || !cells) return undefined;
  const row = cells
    .slice(0, HEADER_WITHIN)
    .findIndex((line) => missingColumns(pricePlaces(line.map((cell) => fileText(undefined, cell)))).length === 0);
  if (row < 0 || row + 1 >= cells.length) return undefined;
  const labels = cells[row]!.map((cell) => fileText(undefined, cell).trim());
  const from = labels.findIndex((label) => label !== '');
  const end = labels.findIndex((label, index) => index > from && label === '');
  const columns = labels.slice(from, end < 0 ? undefined : end);
  if (missingColumns(pricePlaces(columns)).length > 0) return undefined;
  return { range: { sheet, row, rows: cells.length - row, column: from, columns: columns.length }, columns };
}
