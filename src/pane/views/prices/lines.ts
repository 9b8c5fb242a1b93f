/** The rows of the workbook's price table, read, checked and told apart. */
import {
  PRICE_COLUMNS,
  readPriceList,
  type PriceCell,
  type PriceColumn,
  type PriceColumnKey,
  type PriceList,
  type PriceRow,
} from '../../../core/price';
import { isBlankCell, withoutRow } from '../../../core/table';
import type { Cell } from '../../../sheet';

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

export const missingColumns = (places: Places): readonly PriceColumn[] =>
  PRICE_COLUMNS.filter(({ key, required }) => required && !places.has(key));

/** The cell of a column; blank where the table lacks it. */
export function cellOf(line: Pick<PriceLine, 'cells'>, places: Places, key: PriceColumnKey): Cell {
  const place = places.get(key);
  return place === undefined ? null : (line.cells[place] ?? null);
}

export function lineFormula(line: Pick<PriceLine, 'formulas'>, places: Places, key: PriceColumnKey): string | null {
  const place = places.get(key);
  return place === undefined ? null : (line.formulas[place] ?? null);
}

/** The list of rows that are on no sheet yet. */
function listOf(places: Places, raw: readonly RawLine[]): PriceList {
  const header = PRICE_COLUMNS.map((column) => column.label);
  return readPriceList([
    header,
    ...raw.map((line) => PRICE_COLUMNS.map(({ key }) => priceCell(cellOf(line, places, key)))),
  ]);
}

/**
 * The rows of the table with what the worksheet functions will say of them.
 * @param list what these make of the rows, where it is known
 */
export function checkLines(places: Places, raw: readonly RawLine[], list = listOf(places, raw)): PriceLine[] {
  const keys = PRICE_COLUMNS.map(({ key }) => key);
  const rows = new Map(list.rows.map((row) => [row.row, row]));
  const problems = new Map<number, Map<PriceColumnKey, string>>();
  for (const { row, column, message } of list.problems) {
    const known = problems.get(row) ?? new Map<PriceColumnKey, string>();
    known.set(column, withoutRow(message));
    problems.set(row, known);
  }
  return raw.map((line, index) => {
    // Row 1 is the header.
    const number = index + 2;
    const blank = keys.every((key) => isBlankCell(cellOf(line, places, key)));
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
export function keepLines(before: readonly PriceLine[], now: readonly PriceLine[]): PriceLine[] {
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
 * was edited keeps it by its item, or by its place among the edited.
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
