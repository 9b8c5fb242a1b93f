/** A sheet whose columns have been matched: where its header is, and what its columns mean. */
import { isBlank, textIn, type Cell } from '../../sheet';
import type { Means, ReadAs } from './meanings';

export type Cells = readonly (readonly Cell[])[];

export interface HeaderPlace {
  /** First row of the header, from 0. */
  readonly row: number;
  readonly height: 1 | 2;
}

export interface ColumnMatch {
  readonly column: number;
  /** As `headersAt` gives it. */
  readonly header: string;
  readonly means: Means;
  /** Sign of a unit, or "gauge"; '' for what has none. */
  readonly unit: string;
  readonly readAs: ReadAs;
}

/** Where a list without a column of components has them from: its sheet's name, or rows that are headings. */
export type ComponentFrom = 'sheet' | 'headings';

export interface SheetMatch {
  readonly sheet: string;
  readonly place: HeaderPlace;
  readonly columns: readonly ColumnMatch[];
  readonly component?: ComponentFrom | undefined;
}

export interface Header {
  /** What the column is called; told apart from another of the same name by "#2", and by its letter where it has none. */
  readonly text: string;
  /** The label of each row of the header. */
  readonly labels: readonly string[];
}

/** A header may be of two rows: "Weight" over "each" and "total", or units below the labels. */
export function headersAt(values: Cells, { row, height }: HeaderPlace): Header[] {
  const top = values[row] ?? [];
  const below = height === 2 ? (values[row + 1] ?? []) : [];
  const seen = new Map<string, number>();
  /** What a merged label over several columns says of those to its right. */
  let over = '';
  return Array.from({ length: Math.max(top.length, below.length) }, (_, column) => {
    const [own, lower] = [textIn(top[column]), textIn(below[column])];
    if (own !== '') over = own;
    else if (lower === '') over = '';
    const upper = own === '' && lower !== '' ? over : own;
    const labels = [upper, lower].filter((label) => label !== '').map((label) => label.replace(/\s+/g, ' '));
    const text = labels.join(' / ');
    if (text === '') return { text, labels };
    const times = (seen.get(text.toLowerCase()) ?? 0) + 1;
    seen.set(text.toLowerCase(), times);
    return { text: times > 1 ? `${text} #${times}` : text, labels };
  });
}

/** True for a row without a cell that says something. */
export const isEmptyRow = (line: readonly Cell[] | undefined): boolean =>
  (line ?? []).every((cell) => isBlank(cell) || textIn(cell) === '');
