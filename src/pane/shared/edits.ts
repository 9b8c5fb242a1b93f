/** Edits that several tabs make. */
import { sheetsNamed, type FormSheet, type ProjectSheets } from '../../project';
import type { Cell, CellInput, Edit, TableModel } from '../../sheet';
import { t, type Marked } from '../locale';

export const writeCell = (sheet: string, row: number, column: number, cell: Cell): Edit => ({
  kind: 'write',
  range: { sheet, row, column, rows: 1, columns: 1 },
  cells: [[cell]],
});

/** The first row below everything that a list holds. */
export const rowBelow = ({ header, rows }: Pick<FormSheet<string>, 'header' | 'rows'>): number =>
  Math.max(header, ...rows.map(({ row }) => row)) + 1;

/**
 * Adds rows at a table's end: into the blank ones that wait there, then below.
 * @param filled how many of its data rows there are down to the last that is not blank
 */
export function addTableRows(
  { name, range }: TableModel,
  filled: number,
  rows: readonly (readonly CellInput[])[],
): Edit[] {
  const held = range.rows - 1;
  const waiting = rows.slice(0, held - filled);
  const below = rows.slice(waiting.length);
  const there = { ...range, row: range.row + 1 + filled, rows: waiting.length };
  return [
    ...(waiting.length > 0 ? [{ kind: 'write', range: there, cells: waiting } as const] : []),
    ...(below.length > 0 ? [{ kind: 'insertTableRows', table: name, at: held, cells: below } as const] : []),
  ];
}

/**
 * Whether a sheet of the name is to be added before it is filled; throws where there is one that holds something.
 * @param taken said then; {sheet} is its name
 */
export function isToAdd({ names, values }: ProjectSheets, name: string, taken: Marked): boolean {
  const [known] = sheetsNamed({ names }, name);
  if (known !== undefined && values(known)) throw new Error(t(taken, { sheet: known }));
  return known === undefined;
}
