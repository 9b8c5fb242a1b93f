/** The range that is selected on the sheet, followed. */
import { useEffect, useState } from 'react';
import type { RangeAddress } from '../../../sheet';
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
