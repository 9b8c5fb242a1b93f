/** Rows that belong together, as stretches that can be selected in the sheet one at a time. */
import type { RangeAddress } from '../../../sheet';
import { placeOfRow, type PartsList } from '../../../project';

export function rowRuns({ form }: PartsList, rows: readonly number[]): RangeAddress[] {
  const runs: { row: number; rows: number }[] = [];
  for (const row of [...new Set(rows)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row === last.row + last.rows) last.rows += 1;
    else runs.push({ row, rows: 1 });
  }
  return runs.map(({ row, rows: height }) => {
    const place = placeOfRow(form, row);
    const columns = Object.values(place.head.columns);
    const column = Math.min(...columns);
    return {
      sheet: place.head.sheet,
      column,
      columns: Math.max(...columns) - column + 1,
      row: place.row,
      rows: height,
    };
  });
}
