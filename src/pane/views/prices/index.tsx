/** The view 'Prices': the workbook's price list, to read, edit, bring in and take out. */
import { Button } from '@fluentui/react-components';
import { useDeferredValue, useMemo, useRef, useState } from 'react';
import { PRICE_COLUMNS } from '../../../core/price';
import { PRICE_TABLE } from '../../../project';
import { t } from '../../locale';
import { undoKeys, useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { arrange, AS_IN_SHEET, isOld, type Ageing } from './arrange';
import { planImport } from './csv';
import { ImportDesk, ImportPanel, ReportPanel } from './import-panel';
import { PriceGrid } from './price-grid';
import { PricesStore, type PricesState } from './prices-store';
import { RowForm } from './row-form';
import { useFormStyles, usePanelStyles } from './styles';
import { Toolbar } from './toolbar';

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new PricesStore(pane));
  const [desk] = useState(() => new ImportDesk(store));
  const styles = usePanelStyles();
  const addButton = useRef<HTMLButtonElement>(null);
  const importButton = useRef<HTMLButtonElement>(null);
  const added = useRef<HTMLDivElement>(null);
  const today = pane.today();
  const ageing = useMemo<Ageing>(() => ({ today, oldAfter: state.oldAfter }), [today, state.oldAfter]);
  // The filter's field answers at once; a long list follows when there is time.
  const arrangement = useDeferredValue(state.arrangement);
  const lines = useMemo(
    () => arrange(state.lines, state.places, arrangement, ageing),
    [state.lines, state.places, arrangement, ageing],
  );
  const order = useMemo(() => lines.map(({ id }) => id), [lines]);
  const { importing, table, places } = state;
  const plan = useMemo(
    () => importing && table && planImport(importing.file, importing.mapping, table.columns, places, state.lines),
    [importing, table, places, state.lines],
  );

  const afterRender = (focus: () => void): void => void requestAnimationFrame(focus);
  let body;
  if (state.status !== 'ready')
    body = <NoList store={store} state={state} onMade={() => afterRender(() => added.current?.focus())} />;
  else if (importing && table && plan)
    body = (
      <ImportPanel
        desk={desk}
        importing={importing}
        columns={table.columns}
        plan={plan}
        onClosed={() => afterRender(() => importButton.current?.focus())}
      />
    );
  else if (state.report)
    body = (
      <ReportPanel
        desk={desk}
        report={state.report}
        onClosed={() => afterRender(() => importButton.current?.focus())}
      />
    );
  else {
    body = (
      <>
        <Toolbar
          store={store}
          desk={desk}
          state={state}
          order={order}
          addButton={addButton}
          importButton={importButton}
        />
        {state.added && (
          <div ref={added} tabIndex={-1} className={styles.added}>
            <span>{state.added}</span>
            <Button
              size="small"
              onClick={() => {
                store.putAwayAdded();
                afterRender(() => addButton.current?.focus());
              }}
            >
              {t('Close')}
            </Button>
          </div>
        )}
        {state.adding && (
          <Adding store={store} state={state} onClosed={() => afterRender(() => addButton.current?.focus())} />
        )}
        <ListOrHint store={store} state={state} lines={lines} ageing={ageing} />
      </>
    );
  }

  return (
    <div style={{ display: 'contents' }} onKeyDown={undoKeys(store)}>
      {body}
      <Foot state={state} shown={lines.length} ageing={ageing} />
    </div>
  );
}

const HEADERS = PRICE_COLUMNS.filter(({ required }) => required)
  .map(({ label }) => label)
  .join(', ');

function Adding({
  store,
  state,
  onClosed,
}: {
  readonly store: PricesStore;
  readonly state: PricesState;
  onClosed(): void;
}) {
  const styles = useFormStyles();
  return (
    <section className={styles.adding} aria-label={t('New item')}>
      <h2 className={styles.heading}>{t('New item')}</h2>
      <RowForm
        store={store}
        id="new"
        draft={state.adding!}
        line={undefined}
        places={state.places}
        saveLabel={t('Add')}
        onClosed={onClosed}
      />
    </section>
  );
}

function ListOrHint({
  store,
  state,
  lines,
  ageing,
}: {
  readonly store: PricesStore;
  readonly state: PricesState;
  readonly lines: ReturnType<typeof arrange>;
  readonly ageing: Ageing;
}) {
  const styles = usePanelStyles();
  if (lines.length > 0) return <PriceGrid store={store} state={state} lines={lines} ageing={ageing} />;
  if (state.lines.every(({ blank }) => blank)) {
    return (
      <div className={styles.panel}>
        <p className={styles.text}>
          {t(
            'The list is empty. Add item takes one price; Import takes a CSV file with a header row ({labels}, …). What you type into the sheet shows here as well.',
            { labels: HEADERS },
          )}
        </p>
      </div>
    );
  }
  return (
    <div className={styles.panel}>
      <p className={styles.text}>{t('No row matches the filter.')}</p>
      <Button size="small" onClick={() => store.arrange({ text: AS_IN_SHEET.text, show: AS_IN_SHEET.show })}>
        {t('Show all rows')}
      </Button>
    </div>
  );
}

/** Counts, and what the last step did; told to screen readers as it changes. */
function Foot({
  state: { lines, message, status },
  shown,
  ageing,
}: {
  readonly state: PricesState;
  readonly shown: number;
  readonly ageing: Ageing;
}) {
  const styles = usePanelStyles();
  const all = lines.filter(({ blank }) => !blank).length;
  const old = lines.filter((line) => isOld(line, ageing)).length;
  const mend = lines.filter(({ problems }) => problems.size > 0).length;
  const counts = [
    shown === all
      ? t('{all, plural, one {# row} other {# rows}}', { all })
      : t('{shown, number} of {all, plural, one {# row} other {# rows}}', { shown, all }),
    ...(old > 0 ? [t('{count, number} old', { count: old })] : []),
    ...(mend > 0 ? [t('{count, number} to fix', { count: mend })] : []),
  ].join(' · ');
  return (
    <div className={status === 'ready' || message ? styles.foot : undefined}>
      <span role="status">
        {status === 'ready' && counts}
        {message?.tone === 'done' && ` · ${message.text}`}
      </span>
      <div role="alert" className={styles.wrong}>
        {message?.tone === 'failed' && message.text}
      </div>
    </div>
  );
}

/** What the view says where there is no list to show. */
function NoList({
  store,
  state: { status, mend, candidate },
  onMade,
}: {
  readonly store: PricesStore;
  readonly state: PricesState;
  onMade(): void;
}) {
  const styles = usePanelStyles();
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
