/** What the view says where there is no list to show. */
import { Button } from '@fluentui/react-components';
import { t } from '../../locale';
import { PRICE_TABLE } from '../../../project';
import type { PricesStore } from './prices-store';
import type { PricesState } from './prices-state';
import { usePanelStyles } from './styles';

export function NoList({
  store,
  state,
  onMade,
}: {
  readonly store: PricesStore;
  readonly state: PricesState;
  onMade(): void;
}) {
  const styles = usePanelStyles();
  const { status, mend, candidate } = state;
  if (status === 'reading') return <div className={styles.panel}>{t('Reading the price list…')}</div>;
  if (status !== 'absent') {
    return (
      <section className={styles.panel} aria-label={t('Price list')}>
        <h2 className={styles.heading}>{t('Fix the price list')}</h2>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.readAgain()}>
          {t('Read it again')}
        </Button>
      </section>
    );
  }
  const make = async (): Promise<void> => {
    await store.makeList();
    if (store.state.status === 'ready') onMade();
  };
  return (
    <section className={styles.panel} aria-label={t('Price list')}>
      <h2 className={styles.heading}>
        {candidate
          ? t('Use the rows on the sheet {sheet}?', { sheet: candidate.range.sheet })
          : t('No price list in this workbook yet')}
      </h2>
      <p className={styles.text}>
        {t(
          'Prices are in a table named {table} on a sheet of this workbook, where you can read and change them without this pane.',
          { table: PRICE_TABLE },
        )}
      </p>
      <p className={styles.text}>
        {t(
          'Each row says what you buy and how it is sold: a sheet of 48 x 144, a pound of rivets, a bar of 12 ft. From it the price functions in your parts list compute the cost of a square inch, an inch or one rivet.',
        )}
      </p>
      {candidate && (
        <p className={styles.text}>
          {t(
            'The sheet {sheet} has the labels of a price list and {count, plural, one {# row} other {# rows}} below them. They become the table as they are; no cell is changed.',
            { sheet: candidate.range.sheet, count: candidate.range.rows - 1 },
          )}
        </p>
      )}
      <Button appearance="primary" onClick={() => void make()}>
        {candidate ? t('Use these rows') : t('Add a price list')}
      </Button>
    </section>
  );
}
