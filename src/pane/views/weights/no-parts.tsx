/** What the view says where there is no parts list. */
import { Button } from '@fluentui/react-components';
import { PARTS } from '../../../project';
import { t } from '../../locale';
import { AddSheet } from '../start';
import type { WeightsState } from './state';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

export function NoParts({ store, state }: { readonly store: WeightsStore; readonly state: WeightsState }) {
  const styles = useWeightsStyles();
  const needed = PARTS.columns.filter(({ required }) => required).map(({ label }) => label);
  const others = PARTS.columns.filter(({ required }) => !required).map(({ label }) => label);
  if (state.status === 'reading') return <div className={styles.panel}>{t('Reading the sheets…')}</div>;
  if (state.status === 'failed') {
    return (
      <section className={styles.panel} aria-label={t('Weights')}>
        <p className={styles.text}>{state.mend}</p>
        <Button size="small" onClick={() => void store.refresh()}>
          {t('Read them again')}
        </Button>
      </section>
    );
  }
  if (state.model) {
    return (
      <section className={styles.panel} aria-label={t('Weights')}>
        <h2 className={styles.heading}>{t('The parts list has no row yet')}</h2>
        <p className={styles.text}>
          {t(
            'When a part has a weight, this tab shows its component against the budget, the heaviest parts, the scale against the list, and the log.',
          )}
        </p>
        <AddSheet pane={store.pane} name="Parts" />
      </section>
    );
  }
  const there = state.sheets.some((name) => name.toLowerCase() === PARTS.sheet.toLowerCase());
  return (
    <section className={styles.panel} aria-label={t('Weights')}>
      <h2 className={styles.heading}>
        {there
          ? t('The sheet {sheet} has no header row yet', { sheet: PARTS.sheet })
          : t('No parts list in this workbook yet')}
      </h2>
      <p className={styles.text}>
        {t(
          'Weights are read from the sheet {sheet}. Its header row needs {first} and {last}, in any order; titles and notes may stand above it. The unit in brackets may be another: Weight (kg), Arm (mm).',
          { sheet: PARTS.sheet, first: needed.slice(0, -1).join(', '), last: needed.at(-1)! },
        )}
      </p>
      <p className={styles.text}>
        {t(
          'Add {labels} to see more: growth by status, the scale against the list, balance, cost, and trials of another gauge. When the header is there, this tab shows what is below it.',
          { labels: others.join(', ') },
        )}
      </p>
      {!there && <AddSheet pane={store.pane} name="Parts" />}
      <p className={styles.quiet}>{t('The sample workbook wing.xlsx has such a list, to look at and to copy from.')}</p>
    </section>
  );
}
