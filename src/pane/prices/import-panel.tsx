/** What a file would bring in, before it does; and what it brought in, after. */
import { Button, Checkbox, Select } from '@fluentui/react-components';
import { useEffect, useRef, type ReactNode } from 'react';
import type { ImportDesk } from './import-desk';
import type { ImportPlan, Refused } from './import-plan';
import type { ImportReport, PricesState } from './state';
import { usePanelStyles } from './styles';

const rows = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`;

function Panel({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  const styles = usePanelStyles();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section className={styles.panel} aria-label={title}>
      <h2 ref={heading} tabIndex={-1} className={styles.heading}>
        {title}
      </h2>
      {children}
    </section>
  );
}

function RefusedRows({ refused }: { readonly refused: readonly Refused[] }) {
  const styles = usePanelStyles();
  if (refused.length === 0) return null;
  return (
    <>
      <h3 className={styles.subheading}>Refused: {rows(refused.length)}</h3>
      <ul className={styles.list}>
        {refused.map(({ number, cells, why }) => (
          <li key={number}>
            Row {number} ({cells.filter((cell) => cell.trim() !== '')[0]}): {why}
          </li>
        ))}
      </ul>
    </>
  );
}

export function ImportPanel({ desk, state, plan, onClosed }: { readonly desk: ImportDesk; readonly state: PricesState; readonly plan: ImportPlan; onClosed(): void }) {
  const styles = usePanelStyles();
  const { importing, table } = state;
  if (!importing || !table) return null;
  const { file, fileName, mapping, update } = importing;
  const writes = plan.add.length + (update ? plan.change.length : 0);
  const unclear = plan.missing.length > 0 || plan.leftOut.length > 0;
  return (
    <Panel title={`Import ${fileName}`}>
      {plan.missing.length > 0 ? (
        <p className={styles.text}>
          No column of the file is taken for {plan.missing.join(', ')}. Choose which ones are, below.
        </p>
      ) : (
        <ul className={styles.list}>
          <li>{rows(plan.add.length)} to add</li>
          <li>{rows(plan.change.length)} in the list already, with other values</li>
          <li>{rows(plan.same)} in the list already, the same</li>
          <li>{rows(plan.refused.length)} refused</li>
        </ul>
      )}
      {plan.change.length > 0 && <Checkbox size="medium" checked={update} onChange={(_event, { checked }) => desk.setUpdate(checked === true)} label={{ className: styles.check, children: "Update what is in the list already with the file's values" }} />}
      <div className={styles.buttons}>
        <Button size="small" appearance="primary" disabledFocusable={writes === 0} onClick={() => void (writes > 0 && desk.bringIn())}>
          {writes === 0 ? 'Nothing to bring in' : `Bring in ${rows(writes)}`}
        </Button>
        <Button
          size="small"
          onClick={() => {
            desk.cancel();
            onClosed();
          }}
        >
          Cancel
        </Button>
      </div>
      <details open={unclear || undefined}>
        <summary>Columns of the file</summary>
        <table className={styles.mapping}>
          <thead>
            <tr>
              <th scope="col">In the file</th>
              <th scope="col">Goes to</th>
            </tr>
          </thead>
          <tbody>
            {file.headers.map((header, index) => (
              <tr key={index}>
                <th scope="row">{header || `(column ${index + 1})`}</th>
                <td>
                  <Select size="small" aria-label={`${header || `Column ${index + 1}`} goes to`} value={String(mapping[index] ?? '')} onChange={(_event, { value }) => desk.map(index, value === '' ? undefined : Number(value))}>
                    <option value="">left out</option>
                    {table.columns.map((column, place) => (
                      <option key={place} value={place}>
                        {column}
                      </option>
                    ))}
                  </Select>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      <RefusedRows refused={plan.refused} />
    </Panel>
  );
}

export function ReportPanel({ desk, report, onClosed }: { readonly desk: ImportDesk; readonly report: ImportReport; onClosed(): void }) {
  const styles = usePanelStyles();
  const { fileName, added, updated, kept, same, refused, leftOut } = report;
  const done = [`${rows(added)} added`, `${rows(updated)} updated`, ...(kept > 0 ? [`${rows(kept)} with other values left as they were`] : []), `${rows(same)} in the list already`, `${rows(refused.length)} refused`];
  return (
    <Panel title={`Brought in ${fileName}`}>
      <ul className={styles.list}>
        {done.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {leftOut.length > 0 && <p className={styles.text}>Left out, as the list has no such column: {leftOut.join(', ')}.</p>}
      <p className={styles.text}>Undo takes the whole import back.</p>
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          onClick={() => {
            desk.closeReport();
            onClosed();
          }}
        >
          Close
        </Button>
        {refused.length > 0 && (
          <Button size="small" onClick={() => desk.saveRefused()}>
            Save refused rows as CSV
          </Button>
        )}
      </div>
      <RefusedRows refused={refused} />
    </Panel>
  );
}
