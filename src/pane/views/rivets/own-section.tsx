/** The builder's own rivets: the sheet Rivets, a file brought in, weighed samples, and the joints that use them. */
import { Button } from '@fluentui/react-components';
import { useRef } from 'react';
import { OWN_RIVETS_SHEET } from '../../../project';
import { t } from '../../locale';
import { CsvFileInput, ColumnMapping } from '../../shared/csv-import';
import type { RivetImport } from './rivet-sheets';
import type { RivetsState, RivetsStore } from './rivets-store';
import { useStyles } from './styles';

export function OwnSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { own, hasOwnSheet } = store.state.sheets;
  return (
    <section className={styles.section} aria-labelledby="rivets-own">
      <h2 id="rivets-own" className={styles.heading}>
        {t('Your own rivets')}
      </h2>
      {own || hasOwnSheet ? (
        <Own store={store} />
      ) : (
        <>
          <p className={styles.text}>
            {t('A kit’s rivets go on a sheet {sheet}: grip, weight, hole and strength from the maker’s sheet.', {
              sheet: OWN_RIVETS_SHEET,
            })}
          </p>
          <Button size="small" onClick={() => void store.addRivets()}>
            {t('Add the sheet {sheet}', { sheet: OWN_RIVETS_SHEET })}
          </Button>
        </>
      )}
    </section>
  );
}

function Own({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const file = useRef<HTMLInputElement>(null);
  const { importing, sheets } = store.state;
  const { own, ownTable, rewrite } = sheets;
  const samples = store.samples.length;
  const plan = store.foreseen;
  return (
    <>
      <p className={styles.text}>
        {t('{count, plural, =0 {No rivet yet} one {# rivet} other {# rivets}} on the sheet {sheet}.', {
          count: own?.rivets.rivets.length ?? 0,
          sheet: OWN_RIVETS_SHEET,
        })}{' '}
        {rewrite && t('Some formulas of the sheet Joints do not use it yet, or a column is missing.')}
      </p>
      <div className={styles.buttons}>
        {rewrite && (
          <Button size="small" appearance="primary" onClick={() => void store.useOwnRivets()}>
            {t('Let the joints use them')}
          </Button>
        )}
        {samples > 0 && (
          <Button size="small" onClick={() => void store.fillSamples()}>
            {t('Fill in {count, plural, one {# weight} other {# weights}} from samples', { count: samples })}
          </Button>
        )}
        {ownTable && (
          <Button size="small" title={t('Bring in a CSV file')} onClick={() => file.current?.click()}>
            {t('Import')}
          </Button>
        )}
        <CsvFileInput input={file} label={t('CSV file')} onFile={(name, bytes) => void store.openFile(name, bytes)} />
      </div>
      {importing && plan && ownTable && (
        <Foreseen store={store} importing={importing} columns={ownTable.table.columns} plan={plan} />
      )}
    </>
  );
}

function Foreseen({
  store,
  importing,
  columns,
  plan,
}: {
  readonly store: RivetsStore;
  readonly importing: NonNullable<RivetsState['importing']>;
  readonly columns: readonly string[];
  readonly plan: RivetImport;
}) {
  const styles = useStyles();
  const writes = plan.add.length + plan.change.length;
  return (
    <section aria-label={t('Import {file}', { file: importing.fileName })}>
      <h3 className={styles.subheading}>{t('Import {file}', { file: importing.fileName })}</h3>
      <p className={styles.text}>
        {plan.missing.length > 0
          ? t('No column of the file is used for {labels}. Choose it below.', {
              labels: plan.missing.join(', '),
            })
          : t(
              '{added, number} to add, {changed, number} to change, {same, number} the same, {refused, number} refused.',
              {
                added: plan.add.length,
                changed: plan.change.length,
                same: plan.same,
                refused: plan.refused.length,
              },
            )}
      </p>
      <ColumnMapping
        headers={importing.file.headers}
        columns={columns}
        mapping={importing.mapping}
        className={styles.lengths}
        onMap={(column, place) => store.map(column, place)}
      />
      {plan.refused.length > 0 && (
        <ul className={styles.list} aria-label={t('Refused rows')}>
          {plan.refused.map(({ number, label, why }) => (
            <li key={number}>
              {t('Row {number} ({cell}):', { number, cell: label })} <span lang="en">{why}</span>
            </li>
          ))}
        </ul>
      )}
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          disabledFocusable={writes === 0}
          onClick={() => void (writes > 0 && store.bringIn())}
        >
          {writes === 0
            ? t('Nothing to bring in')
            : t('Bring in {count, plural, one {# row} other {# rows}}', { count: writes })}
        </Button>
        <Button size="small" onClick={() => store.cancelImport()}>
          {t('Cancel')}
        </Button>
      </div>
    </section>
  );
}
