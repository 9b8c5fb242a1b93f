/** Which sums of a project rest on formulas that were not calculated. */
import { cellName } from '../sheet';
import { JOINTS, PARTS } from './forms';
import { NO_COMPONENT } from './parts';
import type { SheetValues } from './problems';
import { readSheet } from './project-units';
import { textIn } from './rows';

/** A formula that was not calculated, or rests on one that was not. */
export interface MarkedPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly because: Omit<MarkedPlace, 'because'>;
}

export interface Resting {
  /** Components with such a cell in one of their rows. */
  readonly components: ReadonlySet<string>;
  /** "Parts!F7 rests on Prices!B2, which keeps the file's value" */
  readonly sentences: readonly string[];
}

export function restingOn(values: SheetValues, marked: readonly MarkedPlace[]): Resting {
  const components = new Set<string>();
  for (const form of [PARTS, JOINTS]) {
    const sheet = readSheet(values, form);
    if (!sheet) continue;
    const rows = new Set(marked.flatMap((one) => (one.sheet === sheet.sheet ? [one.row] : [])));
    for (const row of sheet.rows) if (rows.has(row.row)) components.add(textIn(row.cells.component) || NO_COMPONENT);
  }
  return { components, sentences: marked.map(sentence) };
}

const nameOf = ({ sheet, row, column }: Omit<MarkedPlace, 'because'>): string => `${sheet}!${cellName(row, column)}`;

function sentence({ because, ...own }: MarkedPlace): string {
  return nameOf(own) === nameOf(because)
    ? `${nameOf(own)} keeps the file's value`
    : `${nameOf(own)} rests on ${nameOf(because)}, which keeps the file's value`;
}
