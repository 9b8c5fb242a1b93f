/** Bringing in a CSV file: read, mapped, looked at, then written as one step of undo; and the panels that say what it would bring in, and what it did. */
import { Button, Checkbox } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { decodeText } from '../../../sheet';
import { rich, t } from '../../locale';
import { ColumnMapping, remapped, rowsAsCsv } from '../../shared/csv-import';
import { mapByLabel, planImport, readCsv, type ImportPlan, type Refused } from './csv';
import { addRows, writeCells } from './price-edits';
import { placeOf, type ImportReport, type PricesState, type PricesStore } from './prices-store';
import { useFocus } from '../../shared/element';
import { usePanelStyles } from './styles';

export class ImportDesk {
  constructor(private readonly store: PricesStore) {}

  async open(fileName: string, bytes: Promise<ArrayBuffer>): Promise<void> {
    const { table } = this.store.state;
    if (!table) return;
    try {
      const file = readCsv(decodeText(await bytes));
      this.store.update({
        importing: { fileName, file, mapping: mapByLabel(file.headers, table.columns), update: true },
        report: undefined,
        message: undefined,
      });
    } catch (error) {
      this.store.tell(
        'failed',
        `${t('{file} was not brought in.', { file: fileName })} ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  }

  /** Lets a column of the file fill a place in the table; another column that filled it gives way. */
  map(column: number, place: number | undefined): void {
    const { importing } = this.store.state;
    if (importing)
      this.store.update({ importing: { ...importing, mapping: remapped(importing.mapping, column, place) } });
  }

  setUpdate(update: boolean): void {
    const { importing } = this.store.state;
    if (importing) this.store.update({ importing: { ...importing, update } });
  }

  cancel(): void {
    this.store.update({ importing: undefined });
  }

  closeReport(): void {
    this.store.update({ report: undefined });
  }

  async bringIn(): Promise<void> {
    const { importing } = this.store.state;
    if (!importing) return;
    const { fileName, file, mapping, update } = importing;
    let plan: ImportPlan | undefined;
    const wrong = await this.store.change(t('Import {file}', { file: fileName }), (list, lines) => {
      // Against the list as it is now, which may have changed since it was looked at.
      plan = planImport(file, mapping, list.table.columns, list.places, lines());
      return [
        ...(update ? plan.change : []).flatMap(({ id, cells }) => writeCells(list, placeOf(list, id), cells)),
        ...(plan.add.length > 0 ? addRows(list, plan.add) : []),
      ];
    });
    if (wrong !== undefined || !plan)
      return this.store.tell('failed', `${t('Nothing was brought in.')} ${wrong ?? ''}`);
    const { add, change, same, refused, leftOut } = plan;
    this.store.update({
      importing: undefined,
      report: {
        fileName,
        headers: file.headers,
        added: add.length,
        updated: update ? change.length : 0,
        kept: update ? 0 : change.length,
        same,
        refused,
        leftOut,
      },
    });
  }

  /** The refused rows as a file, with the reason in a last column, so that they can be fixed and brought in again. */
  saveRefused(): void {
    const { report } = this.store.state;
    if (report) this.store.pane.saveFile('prices-refused.csv', rowsAsCsv(report.headers, report.refused));
  }
}

function Panel({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  const styles = usePanelStyles();
  const heading = useFocus<HTMLHeadingElement>(true);
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
  importing: { file, fileName, mapping, update },
  columns,
  plan,
  onClosed,
}: {
  readonly desk: ImportDesk;
  readonly importing: NonNullable<PricesState['importing']>;
  readonly columns: readonly string[];
  readonly plan: ImportPlan;
  onClosed(): void;
}) {
  const styles = usePanelStyles();
  const writes = plan.add.length + (update ? plan.change.length : 0);
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
      <details open={plan.missing.length > 0 || plan.leftOut.length > 0 || undefined}>
        <summary>{t('Columns of the file')}</summary>
        <ColumnMapping
          headers={file.headers}
          columns={columns}
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
  report: { fileName, added, updated, kept, same, refused, leftOut },
  onClosed,
}: {
  readonly desk: ImportDesk;
  readonly report: ImportReport;
  onClosed(): void;
}) {
  const styles = usePanelStyles();
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
