/** What the view says where there is no parts list. */
import { Button } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { PARTS } from '../../../project';
import { t } from '../../locale';
import { OwnLists } from '../../match';
import { AddSheet } from '../start';
import { CellsToFix } from './cells-to-fix';
import type { WeightsState } from './weights-state';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

export function NoParts({ store, state }: { readonly store: WeightsStore; readonly state: WeightsState }) {
  const styles = useWeightsStyles();
  if (state.status === 'reading') return <div className={styles.panel}>{t('Reading the sheets…')}</div>;
  if (state.status === 'failed') {
    return (
      <section className={styles.panel} aria-label={t('Weights')}>
        <p className={styles.text}>{state.mend}</p>
        <Button size="small" onClick={() => void store.readAgain()}>
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
  return (
    <OwnLists pane={store.pane}>
      {(offer, lists) => (
        <NoHeader store={store} state={state} others={lists.map(({ match }) => match.sheet)}>
          {offer}
        </NoHeader>
      )}
    </OwnLists>
  );
}

function NoHeader({
  store,
  state,
  others,
  children,
}: {
  readonly store: WeightsStore;
  readonly state: WeightsState;
  /** Sheets whose columns may be matched. */
  readonly others: readonly string[];
  /** The offer of that. */
  readonly children: ReactNode;
}) {
  const styles = useWeightsStyles();
  const needed = PARTS.columns.filter(({ required }) => required).map(({ label }) => label);
  const optional = PARTS.columns.filter(({ required }) => !required).map(({ label }) => label);
  const isParts = (name: string): boolean => name.toLowerCase() === PARTS.sheet.toLowerCase();
  const there = state.sheets.some(isParts);
  return (
    <section className={styles.panel} aria-label={t('Weights')}>
      <CellsToFix store={store} problems={state.asked} missing={0} />
      {children}
      <h2 className={styles.heading}>
        {others.some(isParts)
          ? t('The sheet {sheet} has headers of its own', { sheet: PARTS.sheet })
          : there
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
          { labels: optional.join(', ') },
        )}
      </p>
      {!there && <AddSheet pane={store.pane} name="Parts" />}
      <p className={styles.quiet}>{t('The sample workbook wing.xlsx has such a list, to look at and to copy from.')}</p>
    </section>
  );
}
