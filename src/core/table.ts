/** Lists with a header row: the header found by its labels, the rows below it, and what is wrong with a cell. */
import { plainLabel } from './quantity';

export type TableCell = number | string | boolean | null | undefined;
export type TableCells = readonly (readonly TableCell[])[];

export interface TableColumn<K extends string> {
  readonly key: K;
  readonly label: string;
  /** Other labels by which it is found, too. */
  readonly also?: readonly string[];
}

export type Places<K extends string> = ReadonlyMap<K, number>;

/** How far down a header may stand: titles and notes come above it. */
export const HEADER_WITHIN = 30;

/** A label by its letters alone: "Sold by", "sold-by" and "SoldBy" are one. */
export const labelLetters = (label: unknown): string => plainLabel(label).replace(/[^a-z]/g, '');

export const isBlankCell = (cell: unknown): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');

export const tableText = (cell: unknown): string => (isBlankCell(cell) ? '' : String(cell).trim());

/**
 * Columns by the labels of a row, in any order; of two with one label the first counts.
 * @param plain what of a label counts
 */
export function placesOf<K extends string>(
  columns: readonly TableColumn<K>[],
  labels: readonly unknown[],
  plain: (label: unknown) => string = plainLabel,
): Map<K, number> {
  const there = labels.map(plain);
  return new Map(
    columns.flatMap(({ key, label, also = [] }) => {
      const names = [label, ...also].map(plain);
      const place = there.findIndex((one) => names.includes(one));
      return place < 0 ? [] : [[key, place] as const];
    }),
  );
}

/** The first row, near the top, that has the labels of all columns needed; undefined where none has. */
export function findHeader<K extends string>(
  columns: readonly TableColumn<K>[],
  cells: readonly (readonly unknown[])[],
  needed: readonly K[],
  plain?: (label: unknown) => string,
): { readonly header: number; readonly places: Places<K> } | undefined {
  for (let header = 0; header < Math.min(cells.length, HEADER_WITHIN); header++) {
    const places = placesOf(columns, cells[header]!, plain);
    if (needed.every((key) => places.has(key))) return { header, places };
  }
  return undefined;
}

/** "row 4, Price: got -3; takes …" without the row, where that is shown anyway. */
export const withoutRow = (message: string): string => message.replace(/^row \d+, /, '');
