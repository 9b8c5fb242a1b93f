import { sameName } from '../../../core/names';
import type { Workbook } from '../../../sheet';

/** The currency of the table Prices where all its rows have the same one; '' otherwise. */
export async function currencyOf(workbook: Pick<Workbook, 'tables' | 'read'>): Promise<string> {
  const table = (await workbook.tables()).find(({ name }) => name.toLowerCase() === 'prices');
  const place = table?.columns.findIndex((column) => sameName(column, 'currency')) ?? -1;
  if (!table || place < 0 || table.range.rows < 2) return '';
  const { sheet, row, column, rows } = table.range;
  const cells = await workbook.read({ sheet, row: row + 1, column: column + place, rows: rows - 1, columns: 1 });
  const currencies = new Set(
    cells.flatMap(([cell]) => (typeof cell === 'string' && cell.trim() ? [cell.trim().toUpperCase()] : [])),
  );
  return currencies.size === 1 ? [...currencies][0]! : '';
}
