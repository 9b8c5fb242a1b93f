/** What is wrong with a sheet's cells, named by sheet and cell; days and shares as cells hold them. */
import { isoFromSerial, serialFromIso } from '../core/price';
import { CellError, isBlank, type Cell } from '../sheet';

export interface Problem {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
}

/** Values of a sheet by its name, rows × columns; undefined where there is no such sheet. */
export type SheetValues = (sheet: string) => readonly (readonly Cell[])[] | undefined;

/** A cell's content as a message shows it. */
export const shown = (cell: Cell): string =>
  cell instanceof CellError ? cell.toString() : typeof cell === 'string' ? `"${cell}"` : String(cell);

/** "2026-03-31" for a spreadsheet's date or that text; undefined for anything else. */
export function isoDate(cell: Cell | undefined): string | undefined {
  if (typeof cell === 'number') return isoFromSerial(cell);
  if (typeof cell !== 'string') return undefined;
  const serial = serialFromIso(cell);
  return serial === undefined ? undefined : isoFromSerial(serial);
}

/** A share as a fraction: 0.15, which a cell may show as 15%, or the text "15%". Undefined for a cell that is not a share. */
export function fractionIn(cell: Cell | undefined): number | undefined {
  if (isBlank(cell)) return undefined;
  const fraction =
    typeof cell === 'string' ? Number(cell.replace('%', '').trim()) / (cell.includes('%') ? 100 : 1) : cell;
  return typeof fraction === 'number' && Number.isFinite(fraction) ? fraction : undefined;
}
