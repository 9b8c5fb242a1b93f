/** The view 'Weights': the parts list against the budget, over time, on the scale, and as it might be. */
import { Button } from '@fluentui/react-components';
import { useContext, useEffect, useState, type ReactNode } from 'react';
import { PARTS } from '../../../project';
import { mark, t } from '../../locale';
import { OwnLists } from '../../match';
import { Tabs } from '../../shared/tabs';
import { InView, useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { AddSheet } from '../start';
import { BudgetPanel, CellsToFix } from './budget-panel';
import { HeaviestPanel } from './heaviest-panel';
import { LogPanel } from './log-panel';
import { ScalePanel } from './scale-panel';
import { useWeightsStyles } from './styles';
import { WeightsStore, type WeightsState } from './weights-store';
import { WhatIfPanel } from './what-if/what-if-panel';

const PANELS = [
  { id: 'weights-budget', label: mark('Budget'), Panel: BudgetPanel },
  { id: 'weights-heaviest', label: mark('Heaviest'), Panel: HeaviestPanel },
  { id: 'weights-log', label: mark('Log'), Panel: LogPanel },
  { id: 'weights-scale', label: mark('Scale'), Panel: ScalePanel },
  { id: 'weights-what-if', label: mark('What if'), Panel: WhatIfPanel },
];

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new WeightsStore(pane));
  const styles = useWeightsStyles();
  const [open, setOpen] = useState('weights-budget');
  // A panel that was opened stays as it was left: where it was scrolled to, what was typed.
  const [visited, setVisited] = useState<readonly string[]>([open]);
  const isTrying = useContext(InView) && open === 'weights-what-if';
  useEffect(() => {
    // What is out of sight holds no copy of the workbook.
    if (isTrying) void store.resumeTrial();
    else store.endTrial();
  }, [store, isTrying]);
  const choose = (id: string): void => {
    if (id !== open) store.leaveTab();
    setOpen(id);
    setVisited((seen) => (seen.includes(id) ? seen : [...seen, id]));
  };
  const { model } = state;
  return (
    <div className={styles.view}>
      {model === undefined || model.parts.rows.length === 0 ? (
        <NoParts store={store} state={state} />
      ) : (
        <>
          <Tabs label={t('Weights')} tabs={PANELS} open={open} onOpen={choose} />
          {PANELS.filter(({ id }) => visited.includes(id)).map(({ id, Panel }) => (
            <div
              key={id}
              id={`view-${id}`}
              role="tabpanel"
              aria-labelledby={`tab-${id}`}
              className={id === open ? styles.panel : styles.hidden}
            >
              <Panel store={store} state={state} model={model} />
            </div>
          ))}
        </>
      )}
      <Foot store={store} state={state} />
    </div>
  );
}

/** What the last step did, told to screen readers as it changes, and the standing caution. */
function Foot({
  store,
  state: { message, model, status, mend },
}: {
  readonly store: WeightsStore;
  readonly state: WeightsState;
}) {
  const styles = useWeightsStyles();
  if (!model && !message) return null;
  const wrong = message?.tone === 'failed' ? message.text : status === 'failed' && model ? mend : '';
  return (
    <div className={styles.foot}>
      <div className={styles.message}>
        <span role="status">{message?.tone === 'done' ? message.text : ''}</span>
        <span role="alert" className={styles.wrong}>
          {wrong}
        </span>
        {message?.undoable && (
          <Button size="small" onClick={() => void store.undo()}>
            {t('Undo')}
          </Button>
        )}
        {model && (
          <Button size="small" style={{ marginLeft: 'auto' }} onClick={() => void store.saveReport()}>
            {t('Save report')}
          </Button>
        )}
      </div>
      {t('An estimate is not a weighing.')}
    </div>
  );
}

/** What the view says where there is no parts list. */
function NoParts({ store, state }: { readonly store: WeightsStore; readonly state: WeightsState }) {
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
      <CellsToFix store={store} problems={state.asked} />
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
