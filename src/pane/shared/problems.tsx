/** Cells to fix, each with a button that selects it in the sheet. */
import { parseCell, type RangeAddress } from '../../sheet';
import type { Problem } from '../../project';
import { t } from '../locale';
import { CellList } from './cell-list';

interface Props {
  readonly store: { select(range: RangeAddress): Promise<unknown> };
  readonly problems: readonly Problem[];
}

export function Problems({ store, problems }: Props) {
  if (problems.length === 0) return null;
  return (
    <CellList
      heading={t('To fix')}
      cells={problems.map(({ sheet, cell, message }) => ({
        key: `${sheet}${cell}${message}`,
        name: `${sheet} ${cell}`,
        said: <span lang="en">{message}</span>,
        show: () => {
          const place = parseCell(cell);
          if (place) void store.select({ sheet, ...place, rows: 1, columns: 1 });
        },
      }))}
    />
  );
}
