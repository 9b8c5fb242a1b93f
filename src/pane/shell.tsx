/** What is around every view: theme, tabs, and the line that explains the selected cell. */
import { FluentProvider, makeStyles, Tab, TabList, tokens } from '@fluentui/react-components';
import { useState } from 'react';
import { ExplainLine } from './explain';
import { themeOf, type ThemeName } from './theme';
import type { PaneContext } from './view';
import { VIEWS } from './views';

const useStyles = makeStyles({
  pane: { height: '100%', minWidth: '300px', display: 'flex', flexDirection: 'column', fontSize: tokens.fontSizeBase200, lineHeight: tokens.lineHeightBase200, overflow: 'hidden' },
  tabs: { flexShrink: 0, flexWrap: 'wrap', borderBottom: `1px solid ${tokens.colorNeutralStroke2}`, padding: '0 4px' },
  body: { flex: '1 1 0', minHeight: 0, display: 'flex', flexDirection: 'column' },
  hidden: { display: 'none' },
});

export function Shell({ pane, theme }: { readonly pane: PaneContext; readonly theme: ThemeName }) {
  const [open, setOpen] = useState(VIEWS[0]!.id);
  // A view that was opened stays as it was left: a filter, a half-typed row.
  const [visited, setVisited] = useState<readonly string[]>([open]);
  const styles = useStyles();
  const choose = (id: string): void => {
    setOpen(id);
    setVisited((seen) => (seen.includes(id) ? seen : [...seen, id]));
  };
  return (
    <FluentProvider theme={themeOf(theme)} className={styles.pane}>
      <TabList size="small" className={styles.tabs} selectedValue={open} onTabSelect={(_event, { value }) => choose(String(value))} aria-label="Views">
        {VIEWS.map(({ id, label }) => (
          <Tab key={id} id={`tab-${id}`} value={id} aria-controls={`view-${id}`}>
            {label}
          </Tab>
        ))}
      </TabList>
      {VIEWS.filter(({ id }) => visited.includes(id)).map(({ id, Body }) => (
        <div key={id} id={`view-${id}`} role="tabpanel" aria-labelledby={`tab-${id}`} className={id === open ? styles.body : styles.hidden}>
          <Body pane={pane} />
        </div>
      ))}
      <ExplainLine pane={pane} />
    </FluentProvider>
  );
}
