/** Cells that are to be mended, each with a button that selects it in the sheet. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useId } from 'react';
import { parseCell, type RangeAddress } from '../../sheet';
import type { Problem } from '../../project';
import { t } from '../locale';

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
  readonly store: { select(range: RangeAddress): Promise<unknown> };
  readonly problems: readonly Problem[];
}

export function Problems({ store, problems }: Props) {
  const styles = useStyles();
  const id = useId();
  if (problems.length === 0) return null;
  const show = ({ sheet, cell }: Problem): void => {
    const place = parseCell(cell);
    if (place) void store.select({ sheet, ...place, rows: 1, columns: 1 });
  };
  return (
    <section className={styles.section} aria-labelledby={id}>
      <h2 id={id} className={styles.heading}>
        {t('To mend')}
      </h2>
      <ul className={styles.list}>
        {problems.map((problem) => (
          <li key={`${problem.sheet}${problem.cell}${problem.message}`}>
            <Button size="small" appearance="subtle" onClick={() => show(problem)}>
              {problem.sheet} {problem.cell}
            </Button>{' '}
            <span lang="en">{problem.message}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
