/** Cells that are to be mended, each with a button that selects it in the sheet. */
import { Button } from '@fluentui/react-components';
import { parseCell, type Problem } from '../../workbook';
import type { BalanceStore } from './balance-store';
import { useStyles } from './styles';

export function Problems({ store, problems }: { readonly store: BalanceStore; readonly problems: readonly Problem[] }) {
  const styles = useStyles();
  if (problems.length === 0) return null;
  const show = ({ sheet, cell }: Problem): void => {
    const place = parseCell(cell);
    if (place) void store.select({ sheet, ...place, rows: 1, columns: 1 });
  };
  return (
    <section className={styles.section} aria-labelledby="balance-problems">
      <h2 id="balance-problems" className={styles.heading}>
        To mend
      </h2>
      <ul className={styles.list}>
        {problems.map((problem) => (
          <li key={`${problem.sheet}${problem.cell}${problem.message}`}>
            <Button size="small" appearance="subtle" onClick={() => show(problem)}>
              {problem.sheet} {problem.cell}
            </Button>{' '}
            {problem.message}
          </li>
        ))}
      </ul>
    </section>
  );
}
