/** What is selected on the sheet, followed as it changes, and what the columns of a list are called. */
import { useEffect, useState } from 'react';
import { columnName, type RangeAddress } from '../../../sheet';
import type { UniverWorkbook } from '../../univer';

export function useSelection(workbook: UniverWorkbook): RangeAddress | undefined {
  const [selected, setSelected] = useState<RangeAddress>();
  useEffect(() => {
    void workbook.selection().then(setSelected);
    return workbook.onSelection(setSelected);
  }, [workbook]);
  return selected;
}

/** Counts changes of the workbook, so that what is read of it is read again. */
export function useChanges(workbook: UniverWorkbook): number {
  const [count, setCount] = useState(0);
  useEffect(() => workbook.onChange(() => setCount((before) => before + 1)), [workbook]);
  return count;
}

/** What columns of a list are called: by their headings, or by their letters. */
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
