/** The view 'Buying': what is left to buy and at which supplier, what it costs, what is spent. */
import { Button } from '@fluentui/react-components';
import { useEffect, useState, type KeyboardEvent } from 'react';
import { parseCell, type Problem } from '../../workbook';
import { useStore } from '../store';
import type { PaneContext } from '../view';
import { BuyingStore } from './buying-store';
import { ListSection, SumsSection } from './list-section';
import { PlanSection } from './plan-section';
import { PlanStore } from './plan-store';
import { useStyles } from './styles';
import { TermsSection } from './terms-section';

export function BuyingView({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new BuyingStore(pane));
  const [plans] = useState(() => new PlanStore(pane));
  useEffect(() => {
    store.start();
    return () => {
      store.stop();
      plans.stop();
    };
  }, [store, plans]);
  const { status, mend, sheets, message } = useStore(store);
  const styles = useStyles();

  const onKeyDown = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || (event.target as HTMLElement).matches('input, textarea, select')) return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) void store.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) void store.redo();
    else return;
    event.preventDefault();
  };

  let body;
  if (status === 'failed') {
    body = (
      <>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.refresh()}>
          Read them again
        </Button>
      </>
    );
  } else if (!sheets) body = <p className={styles.text}>Reading the sheets…</p>;
  else {
    const { list } = sheets;
    const anything = list.orders.length + list.met.length + list.unpriced.length > 0;
    body = (
      <>
        {!sheets.priced && <p className={styles.caution}>There is no price list in this workbook yet. The view Prices adds one.</p>}
        {anything || list.spent > 0 ? <SumsSection list={list} /> : <NothingNeeded />}
        {anything && <ListSection sheets={sheets} />}
        {sheets.parts && <PlanSection store={plans} sheets={sheets} />}
        <TermsSection store={store} sheets={sheets} />
        <Problems store={store} problems={sheets.problems} />
      </>
    );
  }
  return (
    <div style={{ display: 'contents' }} onKeyDown={onKeyDown}>
      <div className={styles.body} tabIndex={-1}>
        {body}
      </div>
      <div className={styles.foot}>
        <span role="status" className={styles.grow}>
          {message?.tone === 'done' && message.text}
        </span>
        <div role="alert" className={styles.wrong}>
          {message?.tone === 'failed' && message.text}
        </div>
        <Button size="small" appearance="subtle" onClick={() => void store.undo()}>
          Undo
        </Button>
        <Button size="small" appearance="subtle" onClick={() => void store.redo()}>
          Redo
        </Button>
      </div>
    </div>
  );
}

function NothingNeeded() {
  const styles = useStyles();
  return (
    <>
      <h2 className={styles.heading}>Nothing to buy yet</h2>
      <p className={styles.text}>The list is made of the sheet Parts, by its columns Price item and Use, and of the rivets of the sheet Joints. The sample wing has both.</p>
    </>
  );
}

function Problems({ store, problems }: { readonly store: BuyingStore; readonly problems: readonly Problem[] }) {
  const styles = useStyles();
  if (problems.length === 0) return null;
  return (
    <section className={styles.section} aria-labelledby="buying-problems">
      <h2 id="buying-problems" className={styles.heading}>
        To mend
      </h2>
      <ul className={styles.list}>
        {problems.map((problem) => {
          const place = parseCell(problem.cell);
          return (
            <li key={`${problem.sheet}${problem.cell}${problem.message}`}>
              <Button size="small" appearance="subtle" onClick={() => place && void store.select({ sheet: problem.sheet, ...place, rows: 1, columns: 1 })}>
                {problem.sheet} {problem.cell}
              </Button>{' '}
              {problem.message}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
