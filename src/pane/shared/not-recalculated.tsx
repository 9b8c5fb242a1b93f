/** Cells that were not recalculated, each with a button that selects it in the sheet. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useId } from 'react';
import { cellName, quoteSheet, type MarkedPlace, type RangeAddress } from '../../sheet';
import { t } from '../locale';

/** As many are named. */
const MOST_NAMED = 5;

const useStyles = makeStyles({
  section: { margin: '0 0 16px' },
  heading: {
    margin: '0 0 4px',
    fontSize: tokens.fontSizeBase300,
    lineHeight: tokens.lineHeightBase300,
    fontWeight: tokens.fontWeightSemibold,
  },
  list: { margin: '0 0 8px', paddingLeft: '18px' },
});

interface Props {
  readonly store: { select(range: RangeAddress, said: string): Promise<unknown> };
  readonly marked: readonly MarkedPlace[];
}

export function NotRecalculated({ store, marked }: Props) {
  const styles = useStyles();
  const id = useId();
  if (marked.length === 0) return null;
  const more = marked.length - MOST_NAMED;
  return (
    <section className={styles.section} aria-labelledby={id}>
      <h2 id={id} className={styles.heading}>
        {t('Not recalculated')}
      </h2>
      <ul className={styles.list}>
        {marked.slice(0, MOST_NAMED).map(({ because, ...own }) => (
          <li key={nameOf(own)}>
            <Button
              size="small"
              appearance="subtle"
              onClick={() =>
                void store.select({ ...own, rows: 1, columns: 1 }, t('{cell} selected.', { cell: nameOf(own) }))
              }
            >
              {nameOf(own)}
            </Button>{' '}
            {nameOf(own) === nameOf(because)
              ? t('keeps the file’s value')
              : t('rests on {cell}, which keeps the file’s value', { cell: nameOf(because) })}
          </li>
        ))}
        {more > 0 && <li>{t('and {count, plural, one {# more cell} other {# more cells}}', { count: more })}</li>}
      </ul>
    </section>
  );
}

const nameOf = ({ sheet, row, column }: Omit<MarkedPlace, 'because'>): string =>
  `${quoteSheet(sheet)}!${cellName(row, column)}`;
