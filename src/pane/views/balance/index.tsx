/** The view 'Balance': the airplane weighed and loaded, and its control surfaces on their hinges. */
import { Button, Select } from '@fluentui/react-components';
import { useState } from 'react';
import { t } from '../../locale';
import { NotRecalculated } from '../../shared/cell-list';
import { useFocus } from '../../shared/element';
import { TabFrame, WhenRead } from '../../shared/tab-frame';
import { useTab } from '../../shared/tab-store';
import { Tabs } from '../../shared/tabs';
import type { PaneContext } from '../../shared/view';
import { BalanceStore, SECTIONS, type BalanceState, type SectionId } from './balance-store';
import { CasesSection } from './cases-section';
import { EnvelopeSection } from './envelope-section';
import { LoadingSection } from './loading-section';
import { MissingSheet, NewAirplane } from './new-airplane';
import { useStyles } from './styles';
import { NoSurfaces, SurfacesSection } from './surfaces-section';
import { WeighingSection } from './weighing-section';

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new BalanceStore(pane));
  const styles = useStyles();
  const [adding, setAdding] = useState(false);
  const { section, models, airplane } = state;
  const { weighing, loading, envelope, cases } = store.model?.sheets ?? {};
  /** The marked places on the sheets of the airplane that is shown. */
  const marked = state.marked.filter(({ sheet }) => [weighing, loading, envelope, cases].includes(sheet));
  const open = (id: string): void => {
    setAdding(false);
    store.open(id as SectionId);
  };

  return (
    <TabFrame store={store} message={state.message}>
      {models.length > 0 && section !== 'balance-surfaces' && (
        <div className={styles.bar}>
          {models.length > 1 && (
            <Select
              size="small"
              aria-label={t('Airplane')}
              className={styles.chooser}
              value={String(airplane)}
              onChange={(_event, { value }) => store.choose(Number(value))}
            >
              {models.map((model, index) => (
                <option key={index} value={String(index)}>
                  {model.airplane || model.sheets.name || t('The airplane')}
                </option>
              ))}
            </Select>
          )}
          <Button size="small" aria-pressed={adding} onClick={() => setAdding(!adding)}>
            {t('Add airplane')}
          </Button>
        </div>
      )}
      <Tabs label={t('Parts of the balance')} tabs={SECTIONS} open={section} onOpen={open} />
      <Added store={store} state={state} />
      <div id={`view-${section}`} role="tabpanel" aria-labelledby={`tab-${section}`} className={styles.body}>
        {adding ? (
          <NewAirplane store={store} first={false} onClosed={() => setAdding(false)} />
        ) : (
          <>
            {section !== 'balance-surfaces' && <NotRecalculated store={store} marked={marked} />}
            <WhenRead store={store} state={state}>
              {() => <Section key={`${section}${airplane}`} store={store} state={state} />}
            </WhenRead>
          </>
        )}
      </div>
    </TabFrame>
  );
}

function Section({
  store,
  state: { section, surfaces, parts },
}: {
  readonly store: BalanceStore;
  readonly state: BalanceState;
}) {
  const styles = useStyles();
  const { model } = store;
  if (section === 'balance-surfaces')
    return surfaces ? (
      <SurfacesSection store={store} sheet={surfaces} parts={parts} />
    ) : (
      <NoSurfaces store={store} parts={parts} />
    );
  if (!model) return <NewAirplane store={store} first onClosed={() => undefined} />;
  const { weighing, loading, envelopeSheet, casesSheet, judged, sheets } = model;
  switch (section) {
    case 'balance-weighing':
      return weighing ? (
        <WeighingSection store={store} model={model} weighing={weighing} />
      ) : (
        <MissingSheet store={store} model={model} kind="weighing" sheet={sheets.weighing} />
      );
    case 'balance-loading':
      return loading ? (
        <LoadingSection store={store} model={model} loading={loading} />
      ) : (
        <MissingSheet store={store} model={model} kind="loading" sheet={sheets.loading} />
      );
    case 'balance-envelope':
      return envelopeSheet ? (
        <EnvelopeSection store={store} model={model} envelopeSheet={envelopeSheet} />
      ) : (
        <MissingSheet store={store} model={model} kind="envelope" sheet={sheets.envelope} />
      );
    case 'balance-cases':
      if (!casesSheet)
        return (
          <MissingSheet
            store={store}
            model={model}
            kind="cases"
            sheet={model.stations.length > 0 ? sheets.cases : (sheets.cases ?? sheets.loading)}
          />
        );
      return judged ? (
        <CasesSection store={store} model={model} casesSheet={casesSheet} judged={judged} />
      ) : (
        <p className={styles.text}>{t('Cases are judged when there is an empty weight, a station and an envelope.')}</p>
      );
  }
}

function Added({ store, state: { added } }: { readonly store: BalanceStore; readonly state: BalanceState }) {
  const styles = useStyles();
  const box = useFocus<HTMLDivElement>(added);
  if (added === undefined) return null;
  return (
    <div ref={box} tabIndex={-1} className={styles.added}>
      <span className={styles.grow}>{added}</span>
      <Button size="small" onClick={() => store.sayAdded(undefined)}>
        {t('Close')}
      </Button>
    </div>
  );
}
