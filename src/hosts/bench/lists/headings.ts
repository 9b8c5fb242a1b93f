/** What columns of a list are called: by their headings, or by their letters. */
import { columnName, type RangeAddress } from '../../../sheet';
import type { UniverWorkbook } from '../../univer';

export async function headingsOf(
  workbook: UniverWorkbook,
  range: RangeAddress,
  hasHeadings: boolean,
): Promise<string[]> {
  const [first] = await workbook.read({ ...range, rows: 1 });
  return Array.from({ length: range.columns }, (_none, index) => {
    const letter = columnName(range.column + index);
    const heading = first?.[index];
    return hasHeadings && typeof heading === 'string' && heading.trim() !== '' ? `${letter}: ${heading}` : letter;
  });
}
