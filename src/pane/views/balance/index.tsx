/** The view 'Balance': the airplane weighed and loaded, and its control surfaces on their hinges. */
import { Button, Select } from '@fluentui/react-components';
import { useState, type ReactNode } from 'react';
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
import type { SheetKind } from './new-sheets';
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
  const { weighing, loading, envelopeSheet, casesSheet, judged, sheets, stations } = model;
  const sections: Readonly<Record<typeof section, { readonly kind: SheetKind; readonly shown: ReactNode }>> = {
    'balance-weighing': {
      kind: 'weighing',
      shown: weighing && <WeighingSection store={store} model={model} weighing={weighing} />,
    },
    'balance-loading': {
      kind: 'loading',
      shown: loading && <LoadingSection store={store} model={model} loading={loading} />,
    },
    'balance-envelope': {
      kind: 'envelope',
      shown: envelopeSheet && <EnvelopeSection store={store} model={model} envelopeSheet={envelopeSheet} />,
    },
    'balance-cases': {
      kind: 'cases',
      shown:
        casesSheet &&
        (judged ? (
          <CasesSection store={store} model={model} casesSheet={casesSheet} judged={judged} />
        ) : (
          <p className={styles.text}>
            {t('Cases are judged when there is an empty weight, a station and an envelope.')}
          </p>
        )),
    },
  };
  const { kind, shown } = sections[section];
  // A sheet of cases has a column for each station: without one it is the loading that has to be mended first.
  const own = sheets[kind] ?? (kind === 'cases' && stations.length === 0 ? sheets.loading : undefined);
  return shown ?? <MissingSheet store={store} model={model} kind={kind} sheet={own} />;
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
