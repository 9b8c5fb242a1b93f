/** What a file would bring in, before it does; and what it brought in, after. */
import { Button, Checkbox } from '@fluentui/react-components';
import { useEffect, useRef, type ReactNode } from 'react';
import { rich, t } from '../../locale';
import { ColumnMapping } from '../../shared/csv-import';
import type { ImportDesk } from './import-desk';
import type { ImportPlan, Refused } from './csv';
import type { ImportReport, PricesState } from './prices-store';
import { usePanelStyles } from './styles';

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
      <h3 className={styles.subheading}>
        {t('Refused: {count, plural, one {# row} other {# rows}}', { count: refused.length })}
      </h3>
      <ul className={styles.list}>
        {refused.map(({ number, cells, why, checked }) => (
          <li key={number}>
            {rich('Row {number} ({cell}): {why}', {
              number,
              cell: cells.find((cell) => cell.trim() !== '') ?? '',
              why: (
                <span key="why" lang={checked ? 'en' : undefined}>
                  {why}
                </span>
              ),
            })}
          </li>
        ))}
      </ul>
    </>
  );
}

export function ImportPanel({
  desk,
  state,
  plan,
  onClosed,
}: {
  readonly desk: ImportDesk;
  readonly state: PricesState;
  readonly plan: ImportPlan;
  onClosed(): void;
}) {
  const styles = usePanelStyles();
  const { importing, table } = state;
  if (!importing || !table) return null;
  const { file, fileName, mapping, update } = importing;
  const writes = plan.add.length + (update ? plan.change.length : 0);
  const unclear = plan.missing.length > 0 || plan.leftOut.length > 0;
  return (
    <Panel title={t('Import {file}', { file: fileName })}>
      {plan.missing.length > 0 ? (
        <p className={styles.text}>
          {t('No column of the file is used for {labels}. Choose it below.', {
            labels: plan.missing.join(', '),
          })}
        </p>
      ) : (
        <ul className={styles.list}>
          <li>{t('{count, plural, one {# row} other {# rows}} to add', { count: plan.add.length })}</li>
          <li>
            {t('{count, plural, one {# row} other {# rows}} in the list already, with other values', {
              count: plan.change.length,
            })}
          </li>
          <li>
            {t('{count, plural, one {# row} other {# rows}} in the list already, the same', { count: plan.same })}
          </li>
          <li>{t('{count, plural, one {# row} other {# rows}} refused', { count: plan.refused.length })}</li>
        </ul>
      )}
      {plan.change.length > 0 && (
        <Checkbox
          size="medium"
          checked={update}
          onChange={(_event, { checked }) => desk.setUpdate(checked === true)}
          label={{ className: styles.check, children: t('Update what is in the list already with the file’s values') }}
        />
      )}
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          disabledFocusable={writes === 0}
          onClick={() => void (writes > 0 && desk.bringIn())}
        >
          {writes === 0
            ? t('Nothing to bring in')
            : t('Bring in {count, plural, one {# row} other {# rows}}', { count: writes })}
        </Button>
        <Button
          size="small"
          onClick={() => {
            desk.cancel();
            onClosed();
          }}
        >
          {t('Cancel')}
        </Button>
      </div>
      <details open={unclear || undefined}>
        <summary>{t('Columns of the file')}</summary>
        <ColumnMapping
          headers={file.headers}
          columns={table.columns}
          mapping={mapping}
          className={styles.mapping}
          onMap={(column, place) => desk.map(column, place)}
        />
      </details>
      <RefusedRows refused={plan.refused} />
    </Panel>
  );
}

export function ReportPanel({
  desk,
  report,
  onClosed,
}: {
  readonly desk: ImportDesk;
  readonly report: ImportReport;
  onClosed(): void;
}) {
  const styles = usePanelStyles();
  const { fileName, added, updated, kept, same, refused, leftOut } = report;
  const done = [
    t('{count, plural, one {# row} other {# rows}} added', { count: added }),
    t('{count, plural, one {# row} other {# rows}} updated', { count: updated }),
    ...(kept > 0
      ? [t('{count, plural, one {# row} other {# rows}} with other values left as they were', { count: kept })]
      : []),
    t('{count, plural, one {# row} other {# rows}} in the list already', { count: same }),
    t('{count, plural, one {# row} other {# rows}} refused', { count: refused.length }),
  ];
  return (
    <Panel title={t('Brought in {file}', { file: fileName })}>
      <ul className={styles.list}>
        {done.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {leftOut.length > 0 && (
        <p className={styles.text}>
          {t('Left out, because the list has no such column: {labels}.', { labels: leftOut.join(', ') })}
        </p>
      )}
      <p className={styles.text}>{t('Undo takes the whole import back.')}</p>
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          onClick={() => {
            desk.closeReport();
            onClosed();
          }}
        >
          {t('Close')}
        </Button>
        {refused.length > 0 && (
          <Button size="small" onClick={() => desk.saveRefused()}>
            {t('Save refused rows as CSV')}
          </Button>
        )}
      </div>
      <RefusedRows refused={refused} />
    </Panel>
  );
}
