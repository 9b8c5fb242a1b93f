/** The list around the selected cell, followed as the selection and the cells change. */
import { useEffect, useState, type ReactNode } from 'react';
import { columnName, type RangeAddress } from '../../../sheet';
import { t } from '../../../pane/locale';
import type { UniverWorkbook } from '../../univer';

/** What a panel over a list is given. */
export interface AroundProps<L> {
  readonly workbook: UniverWorkbook;
  readonly list: L;
  /** The list's column that is selected, counted from its first: the nearest where that is beside it. */
  readonly selectedColumn: number;
  /** Counts changes of the workbook, so that what is read of it is read again. */
  readonly changes: number;
}

interface Props<L> {
  readonly workbook: UniverWorkbook;
  readonly listAt: (selected: RangeAddress) => L | undefined;
  readonly children: (around: AroundProps<L>) => ReactNode;
}

/** Shows something for the list around the selection, or says that there is none. */
export function ListAround<L extends { readonly range: RangeAddress }>({ workbook, listAt, children }: Props<L>) {
  const [selected, setSelected] = useState<RangeAddress>();
  useEffect(() => {
    void workbook.selection().then(setSelected);
    return workbook.onSelection(setSelected);
  }, [workbook]);
  const [changes, setChanges] = useState(0);
  useEffect(() => workbook.onChange(() => setChanges((before) => before + 1)), [workbook]);
  const list = selected && listAt(selected);
  if (!list)
    return (
      <p className="tool-body" role="status">
        {t('There is no list around the selected cell. Select a cell of the list, or its rows.')}
      </p>
    );
  const { column, columns } = list.range;
  const selectedColumn = Math.min(Math.max(selected.column - column, 0), columns - 1);
  return children({ workbook, list, selectedColumn, changes });
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
