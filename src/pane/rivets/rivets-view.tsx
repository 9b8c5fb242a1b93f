/** The view 'Rivets': the same joints in several kinds of rivets, by weight, money, work and strength. */
import { Button, Select } from '@fluentui/react-components';
import { useEffect, useState, type KeyboardEvent } from 'react';
import { parseCell, type Problem } from '../../workbook';
import { useStore } from '../store';
import type { PaneContext } from '../view';
import { ComparisonSection } from './comparison-section';
import { DetailSection } from './detail-section';
import { RivetsStore } from './rivets-store';
import { SettingsSection } from './settings-section';
import { useStyles } from './styles';

export function RivetsView({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new RivetsStore(pane));
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  const { status, mend, component, joints, sheets, message } = useStore(store);
  const styles = useStyles();
  const { components } = store;

  const onKeyDown = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || (event.target as HTMLElement).matches('input, textarea, select')) return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) void store.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) void store.redo();
    else return;
    event.preventDefault();
  };

  let body;
  if (status === 'reading') body = <p className={styles.text}>Reading the sheets…</p>;
  else if (status === 'failed') {
    body = (
      <>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.refresh()}>
          Read them again
        </Button>
      </>
    );
  } else if (joints.length === 0) body = <NoJoints wrong={store.problems.length > 0} />;
  else {
    body = (
      <>
        {!sheets.priced && <p className={styles.caution}>There is no price list in this workbook yet: weights and work are compared, money is not. The view Prices adds one.</p>}
        <ComparisonSection store={store} />
        {!sheets.options && <SettingsSection store={store} />}
        <DetailSection store={store} />
        {sheets.options && <SettingsSection store={store} />}
      </>
    );
  }
  return (
    <div style={{ display: 'contents' }} onKeyDown={onKeyDown}>
      {joints.length > 0 && (
        <div className={styles.bar}>
          <Select size="small" aria-label="Component" className={styles.chooser} value={component} onChange={(_event, { value }) => store.choose(value)}>
            <option value="">All components</option>
            {components.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </div>
      )}
      <div className={styles.body} tabIndex={-1}>
        {body}
        <Problems store={store} problems={store.problems} />
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

function NoJoints({ wrong }: { readonly wrong: boolean }) {
  const styles = useStyles();
  return (
    <>
      <h2 className={styles.heading}>{wrong ? 'No joint can be read yet' : 'No rivet joints in this workbook yet'}</h2>
      <p className={styles.text}>The view compares the joints of a sheet named Joints: one row a joint, with the columns Joint, Component, Grip or Sheet 1 to Sheet 3, Style, Diameter and Rivets. The sample wing has one.</p>
    </>
  );
}

function Problems({ store, problems }: { readonly store: RivetsStore; readonly problems: readonly Problem[] }) {
  const styles = useStyles();
  if (problems.length === 0) return null;
  return (
    <section className={styles.section} aria-labelledby="rivets-problems">
      <h2 id="rivets-problems" className={styles.heading}>
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
