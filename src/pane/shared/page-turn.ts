/** Long work in pieces, between which the page has its turn. */
import type { RangeAddress, Workbook } from '../../sheet';

/** Resolves when the page has had its turn: what is pressed meanwhile is taken, and what is shown is drawn. */
export const pageTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/**
 * The cells of some sheets in blocks of whole rows.
 * @param atOnce how many cells a block holds
 * @param pause  what is waited for before each of them
 */
export async function* blocksOf(
  workbook: Pick<Workbook, 'usedRange'>,
  sheets: readonly string[],
  atOnce: number,
  pause = pageTurn,
): AsyncGenerator<RangeAddress> {
  for (const sheet of sheets) {
    const used = await workbook.usedRange(sheet);
    if (!used) continue;
    const rows = Math.max(1, Math.floor(atOnce / used.columns));
    for (let row = 0; row < used.rows; row += rows) {
      await pause();
      yield { ...used, row: used.row + row, rows: Math.min(rows, used.rows - row) };
    }
  }
}
