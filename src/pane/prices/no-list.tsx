/** What the view says where there is no list to show. */
import { Button } from '@fluentui/react-components';
import type { PricesStore } from './prices-store';
import type { PricesState } from './state';
import { usePanelStyles } from './styles';

export function NoList({ store, state, onMade }: { readonly store: PricesStore; readonly state: PricesState; onMade(): void }) {
  const styles = usePanelStyles();
  const { status, mend, candidate } = state;
  if (status === 'reading') return <div className={styles.panel}>Reading the price list…</div>;
  if (status !== 'absent') {
    return (
      <section className={styles.panel} aria-label="Price list">
        <h2 className={styles.heading}>The price list needs mending</h2>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.refresh()}>
          Read it again
        </Button>
      </section>
    );
  }
  const make = async (): Promise<void> => {
    await store.makeList();
    if (store.state.status === 'ready') onMade();
  };
  return (
    <section className={styles.panel} aria-label="Price list">
      <h2 className={styles.heading}>{candidate ? `Use the rows on the sheet ${candidate.range.sheet}?` : 'No price list in this workbook yet'}</h2>
      <p className={styles.text}>Prices stand in a table named Prices on a sheet of this workbook, where you can read and change them without this pane, too.</p>
      <p className={styles.text}>
        Each row says what you buy and how it is sold: a sheet of 48 x 144, a pound of rivets, a bar of 12 ft. From that follows what a square inch, an inch or one rivet costs, which is what the price functions in your parts list work with.
      </p>
      {candidate && <p className={styles.text}>The sheet {candidate.range.sheet} has the labels of a price list and {candidate.range.rows - 1} rows below them. They become the table as they are; no cell is changed.</p>}
      <Button appearance="primary" onClick={() => void make()}>
        {candidate ? 'Use these rows' : 'Add a price list'}
      </Button>
    </section>
  );
}
