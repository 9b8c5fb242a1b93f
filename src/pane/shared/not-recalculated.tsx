/** Cells that were not recalculated, each with a button that selects it in the sheet. */
import { cellName, quoteSheet, type MarkedPlace, type RangeAddress } from '../../sheet';
import { t } from '../locale';
import { CellList } from './cell-list';

/** How many formulas are named. */
const MOST_NAMED = 5;

interface Props {
  readonly store: { select(range: RangeAddress, said: string): Promise<unknown> };
  readonly marked: readonly MarkedPlace[];
}

export function NotRecalculated({ store, marked }: Props) {
  if (marked.length === 0) return null;
  const more = marked.length - MOST_NAMED;
  return (
    <CellList
      heading={t('Not recalculated')}
      cells={marked.slice(0, MOST_NAMED).map(({ because, ...own }) => {
        const [name, other] = [nameOf(own), nameOf(because)];
        return {
          key: name,
          name,
          said:
            name === other
              ? t('keeps the value from the file')
              : t('uses {cell}, which keeps the value from the file', { cell: other }),
          show: () => void store.select({ ...own, rows: 1, columns: 1 }, t('{cell} selected.', { cell: name })),
        };
      })}
      rest={more > 0 && t('and {count, plural, one {# more cell} other {# more cells}}', { count: more })}
    />
  );
}

const nameOf = ({ sheet, row, column }: Omit<MarkedPlace, 'because'>): string =>
  `${quoteSheet(sheet)}!${cellName(row, column)}`;
