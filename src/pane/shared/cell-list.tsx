/** Cells under a heading, each with a button that selects it in the sheet and with what is said of it. */
import { Button, makeStyles } from '@fluentui/react-components';
import { useId, type ReactNode } from 'react';
import type { Problem } from '../../project';
import { cellName, parseCell, quoteSheet, type MarkedPlace, type RangeAddress } from '../../sheet';
import { t } from '../locale';
import { HEADING, LIST, SECTION } from './looks';

const useStyles = makeStyles({ section: SECTION, heading: HEADING, list: LIST });

interface Selects {
  select(range: RangeAddress, said?: string): Promise<unknown>;
}

function CellList({
  heading,
  cells,
  rest,
}: {
  readonly heading: string;
  readonly cells: readonly {
    readonly key: string;
    /** The cell as it is written: "Parts M7". */
    readonly name: string;
    readonly said: ReactNode;
    show(): void;
  }[];
  /** A last line: how many are not named. */
  readonly rest?: ReactNode;
}) {
  const styles = useStyles();
  const id = useId();
  return (
    <section className={styles.section} aria-labelledby={id}>
      <h2 id={id} className={styles.heading}>
        {heading}
      </h2>
      <ul className={styles.list}>
        {cells.map(({ key, name, said, show }) => (
          <li key={key}>
            <Button size="small" appearance="subtle" onClick={show}>
              {name}
            </Button>{' '}
            {said}
          </li>
        ))}
        {rest && <li>{rest}</li>}
      </ul>
    </section>
  );
}

/** Cells to fix. */
export function Problems({ store, problems }: { readonly store: Selects; readonly problems: readonly Problem[] }) {
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

/** How many formulas are named. */
const MOST_NAMED = 5;

/** Cells that were not recalculated. */
export function NotRecalculated({
  store,
  marked,
}: {
  readonly store: Selects;
  readonly marked: readonly MarkedPlace[];
}) {
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
