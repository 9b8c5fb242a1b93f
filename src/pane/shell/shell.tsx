/** The views, and what is around each: theme, tabs, and the line that explains the selected cell. */
import { FluentProvider, makeStyles, tokens } from '@fluentui/react-components';
import { useState, type ComponentType } from 'react';
import { ExplainLine } from '../explain';
import { HandedOver } from '../handover';
import { localeOf, mark, t, type Marked } from '../locale';
import { Fetched, fetchedCode } from '../shared/fetched';
import { SPOKEN } from '../shared/looks';
import { InView } from '../shared/tab-store';
import { Tabs } from '../shared/tabs';
import type { PaneContext } from '../shared/view';
import { UnboundFormulas } from '../unbound';
import { Body } from '../views/prices';
import { Start, useInPlace, useStart } from '../views/start';
import { themeOf, type ThemeName } from './theme';

const useStyles = makeStyles({
  pane: {
    height: '100%',
    minWidth: '300px',
    display: 'flex',
    flexDirection: 'column',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    overflow: 'hidden',
    // Beside a long text it is the text that folds: a button that shrinks cuts its word off.
    '& button': { flexShrink: 0, maxWidth: '100%' },
  },
  /** Scrolls only where the pane is too low for a view's least height. */
  body: { flex: '1 1 0', minHeight: 0, display: 'flex', flexDirection: 'column', overflowY: 'auto' },
  hidden: { display: 'none' },
  spoken: SPOKEN,
});

export function Shell({ pane, theme }: { readonly pane: PaneContext; readonly theme: ThemeName }) {
  const [open, setOpen] = useState(VIEWS[0]!.id);
  // A view that was opened stays as it was left: a filter, a half-typed row.
  const [visited, setVisited] = useState<readonly string[]>([open]);
  const styles = useStyles();
  const start = useStart(pane);
  const starting = useInPlace(start);
  const choose = (id: string): void => {
    start.stepAside();
    setOpen(id);
    setVisited((seen) => (seen.includes(id) ? seen : [...seen, id]));
  };
  return (
    <FluentProvider theme={themeOf(theme)} className={styles.pane} lang={localeOf().language}>
      <h1 className={styles.spoken}>{t(VIEWS.find(({ id }) => id === open)!.label)}</h1>
      <Tabs label={t('Views')} tabs={VIEWS} open={open} onOpen={choose} />
      <UnboundFormulas pane={pane} />
      {pane.handOver && <HandedOver store={pane.handOver} />}
      <Start store={start} />
      {VIEWS.filter(({ id }) => visited.includes(id)).map(({ id, Body }) => (
        <div
          key={id}
          id={`view-${id}`}
          role="tabpanel"
          aria-labelledby={`tab-${id}`}
          className={id === open && !starting ? styles.body : styles.hidden}
        >
          <InView value={id === open && !starting}>
            <Body pane={pane} />
          </InView>
        </div>
      ))}
      <ExplainLine pane={pane} />
    </FluentProvider>
  );
}

/** One tab of the pane. A view is one folder and one line below. */
interface View {
  readonly id: string;
  readonly label: Marked;
  readonly Body: ComponentType<{ readonly pane: PaneContext }>;
}

/** The view of a folder that exports `Body`, by a function that imports the folder when the view is first opened. */
function later(id: string, label: Marked, load: () => Promise<Pick<View, 'Body'>>): View {
  const code = fetchedCode(load);
  return {
    id,
    label,
    Body: ({ pane }) => (
      <Fetched
        code={code}
        waiting={t('Opening {view} …', { view: t(label) })}
        failed={t('The tab “{view}” could not be shown. Nothing in the workbook has changed.', { view: t(label) })}
      >
        {({ Body }) => <Body pane={pane} />}
      </Fetched>
    ),
  };
}

/**
 * The tabs, in the order in which they are shown. All but the first are fetched when the pane is idle, so
 * that it opens quickly and still has everything when the network is gone. @internal
 */
export const VIEWS: readonly View[] = [
  { id: 'prices', label: mark('Prices'), Body },
  later('weights', mark('Weights'), () => import(/* webpackPrefetch: true */ '../views/weights')),
  later('balance', mark('Balance'), () => import(/* webpackPrefetch: true */ '../views/balance')),
  later('rivets', mark('Rivets'), () => import(/* webpackPrefetch: true */ '../views/rivets')),
  later('buying', mark('Buying'), () => import(/* webpackPrefetch: true */ '../views/buying')),
  later('insert', mark('Formula'), () => import(/* webpackPrefetch: true */ '../views/formula')),
];
