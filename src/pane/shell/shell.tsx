/** What is around every view: theme, tabs, and the line that explains the selected cell. */
import { FluentProvider, makeStyles, tokens } from '@fluentui/react-components';
import { SPOKEN } from '../shared/looks';
import { useState } from 'react';
import { ExplainLine } from '../explain';
import { HandedOver } from '../handover';
import { localeOf, t } from '../locale';
import { Start, useInPlace, useStart } from '../views/start';
import { Tabs } from '../shared/tabs';
import { InView } from '../shared/tab-store';
import { UnboundFormulas } from '../unbound';
import { themeOf, type ThemeName } from './theme';
import type { PaneContext } from '../shared/view';
import { VIEWS } from './views';

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
