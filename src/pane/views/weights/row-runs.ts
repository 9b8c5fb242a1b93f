/** Rows that belong together, as stretches that can be selected in the sheet one at a time. */
import type { RangeAddress } from '../../../sheet';
import type { PartsList } from '../../../project';

export function rowRuns({ form }: PartsList, rows: readonly number[]): RangeAddress[] {
  const columns = Object.values(form.columns);
  const column = Math.min(...columns);
  const width = Math.max(...columns) - column + 1;
  const runs: { row: number; rows: number }[] = [];
  for (const row of [...new Set(rows)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row === last.row + last.rows) last.rows += 1;
    else runs.push({ row, rows: 1 });
  }
  return runs.map((run) => ({ sheet: form.sheet, column, columns: width, ...run }));
}
