/** The view 'Weights': the parts list against the budget, over time, on the scale, and as it might be. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useContext, useEffect, useState } from 'react';
import { weighedBySize, type WeightsModel } from '../../../project';
import { mark, t } from '../../locale';
import { bySizeText, OwnLists } from '../../match';
import { NotRecalculated } from '../../shared/not-recalculated';
import { InView, useTab } from '../../shared/use-tab';
import { Tabs } from '../../shared/tabs';
import type { PaneContext } from '../../shared/view';
import { BudgetPanel } from './budget-panel';
import { HeaviestPanel } from './heaviest-panel';
import { LogPanel } from './log-panel';
import { NoParts } from './no-parts';
import { CellsToFix } from './cells-to-fix';
import { ScalePanel } from './scale-panel';
import type { WeightsState } from './weights-state';
import { useWeightsStyles } from './styles';
import { WeightsStore } from './weights-store';
import { WhatIfPanel } from './what-if/what-if-panel';

const PANELS = [
  { id: 'weights-budget', label: mark('Budget') },
  { id: 'weights-heaviest', label: mark('Heaviest') },
  { id: 'weights-log', label: mark('Log') },
  { id: 'weights-scale', label: mark('Scale') },
  { id: 'weights-what-if', label: mark('What if') },
] as const;
type PanelId = (typeof PANELS)[number]['id'];

export function WeightsView({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new WeightsStore(pane));
  const styles = useWeightsStyles();
  const [open, setOpen] = useState<PanelId>('weights-budget');
  // A panel that was opened stays as it was left: where it was scrolled to, what was typed.
  const [visited, setVisited] = useState<readonly PanelId[]>([open]);
  const isTrying = useContext(InView) && open === 'weights-what-if';
  useEffect(() => {
    // What is out of sight holds no copy of the workbook.
    if (isTrying) void store.resumeTrial();
    else store.endTrial();
  }, [store, isTrying]);
  const choose = (id: string): void => {
    const panel = PANELS.find((one) => one.id === id);
    if (!panel) return;
    if (panel.id !== open) store.leaveTab();
    setOpen(panel.id);
    setVisited((seen) => (seen.includes(panel.id) ? seen : [...seen, panel.id]));
  };
  return (
    <div className={styles.view}>
      {state.model === undefined || state.model.parts.rows.length === 0 ? (
        <NoParts store={store} state={state} />
      ) : (
        <>
          <Tabs label={t('Weights')} tabs={PANELS} open={open} onOpen={choose} />
          {PANELS.filter(({ id }) => visited.includes(id)).map(({ id }) => (
            <div
              key={id}
              id={`view-${id}`}
              role="tabpanel"
              aria-labelledby={`tab-${id}`}
              className={id === open ? styles.panel : styles.hidden}
            >
              <Panel id={id} store={store} state={state} />
            </div>
          ))}
        </>
      )}
      <Foot store={store} state={state} />
    </div>
  );
}

function Panel({
  id,
  store,
  state,
}: {
  readonly id: PanelId;
  readonly store: WeightsStore;
  readonly state: WeightsState;
}) {
  const model = state.model!;
  switch (id) {
    case 'weights-budget':
      return <Budget store={store} state={state} model={model} />;
    case 'weights-heaviest':
      return <HeaviestPanel store={store} model={model} shown={state.partsShown} />;
    case 'weights-log':
      return <LogPanel store={store} model={model} component={state.logOf} since={state.since} />;
    case 'weights-scale':
      return <ScalePanel store={store} model={model} applied={state.applyBias} />;
    case 'weights-what-if':
      return <WhatIfPanel store={store} state={state} model={model} />;
  }
}

/** The budget; below it the lists that are matched, and others that may be. */
function Budget({
  store,
  state,
  model,
}: {
  readonly store: WeightsStore;
  readonly state: WeightsState;
  readonly model: WeightsModel;
}) {
  const styles = useWeightsStyles();
  const bySize = weighedBySize(model.parts);
  const budget = (
    <>
      <CellsToFix store={store} problems={[...model.problems, ...state.asked]} missing={model.missing.length} />
      <NotRecalculated store={store} marked={state.resting.marked} />
      <BudgetPanel store={store} model={model} resting={state.resting} />
      {bySize > 0 && <p className={styles.text}>{bySizeText(bySize)}</p>}
    </>
  );
  if (!model.parts.form.matched) return budget;
  return (
    <OwnLists pane={store.pane}>
      {(offer) => (
        <>
          {budget}
          {offer}
        </>
      )}
    </OwnLists>
  );
}

/** What the last step did, told to screen readers as it changes, and the standing caution. */
function Foot({ store, state }: { readonly store: WeightsStore; readonly state: WeightsState }) {
  const styles = useWeightsStyles();
  const { message, model, status, mend } = state;
  if (!model && !message) return null;
  const wrong = message?.tone === 'failed' ? message.text : status === 'failed' && model ? mend : '';
  return (
    <div className={styles.foot}>
      <div className={styles.message}>
        <span role="status">{message?.tone === 'done' ? message.text : ''}</span>
        <span role="alert" className={mergeClasses(styles.wrong)}>
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
