/** What the view says where there is no parts list. */
import { Button } from '@fluentui/react-components';
import { PARTS } from '../../workbook';
import { AddSheet } from '../start';
import type { WeightsState } from './state';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

export function NoParts({ store, state }: { readonly store: WeightsStore; readonly state: WeightsState }) {
  const styles = useWeightsStyles();
  const needed = PARTS.columns.filter(({ required }) => required).map(({ label }) => label);
  const others = PARTS.columns.filter(({ required }) => !required).map(({ label }) => label);
  if (state.status === 'reading') return <div className={styles.panel}>Reading the sheets…</div>;
  if (state.status === 'failed') {
    return (
      <section className={styles.panel} aria-label="Weights">
        <p className={styles.text}>{state.mend}</p>
        <Button size="small" onClick={() => void store.refresh()}>
          Read them again
        </Button>
      </section>
    );
  }
  const there = state.sheets.some((name) => name.toLowerCase() === PARTS.sheet.toLowerCase());
  return (
    <section className={styles.panel} aria-label="Weights">
      <h2 className={styles.heading}>{there ? `The sheet ${PARTS.sheet} has no header row yet` : 'No parts list in this workbook yet'}</h2>
      <p className={styles.text}>
        Weights are read from the sheet {PARTS.sheet}. Its header row needs {needed.slice(0, -1).join(', ')} and {needed.at(-1)}, in any order; titles and notes may stand above it.
      </p>
      <p className={styles.text}>
        With {others.join(', ')} as well there is more to see: growth by status, the scale against the list, balance, cost, and trials of other sheet. As soon as the header is there, this view shows what stands below it.
      </p>
      {!there && <AddSheet pane={store.pane} name="Parts" />}
      <p className={styles.quiet}>The sample workbook wing.xlsx has such a list, to look at and to copy from.</p>
    </section>
  );
}
