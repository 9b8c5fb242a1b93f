/** The loading typed now: stations, the loading point over the envelope, limits, ballast. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useCallback, useMemo, useState } from 'react';
import { envelopePicture, type PictureOptions } from '../../../pictures';
import { percentOfChord } from '../../../report';
import {
  loadEdits,
  LOADING,
  type BalanceModel,
  type JudgedBalance,
  type JudgedCase,
  type Loading,
} from '../../../project';
import { mark, t } from '../../locale';
import { Picture } from '../../shared/picture';
import { Problems } from '../../shared/cell-list';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { BallastPanel } from './ballast-panel';
import { FormTable, type TableColumn } from './form-table';
import { LoadTable } from './load-table';
import { figuresIn, percent } from './balance-numbers';
import { pictureCase } from './verdict-words';
import { SaveCase } from './save-case';
import { removeStation, renameInCases } from './station-edits';
import { useStyles } from './styles';
import { Verdict } from './verdict';

const STATIONS: readonly TableColumn<(typeof LOADING.columns)[number]['key']>[] = [
  { key: 'station', head: mark('Station'), kind: 'text', width: '31%', line: true },
  { key: 'arm', head: mark('Arm'), kind: 'number', width: '20%' },
  { key: 'min', head: mark('Least'), kind: 'number', width: '19%' },
  { key: 'max', head: mark('Most'), kind: 'number', width: '19%' },
  { key: 'fuel', head: mark('Tank'), kind: 'yes', width: '11%' },
];

export function LoadingSection({
  store,
  model,
  loading,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly loading: Loading;
}) {
  const styles = useStyles();
  const [changing, setChanging] = useState(model.stations.length === 0);
  const { judged } = model;
  const problems = model.problems.filter(({ sheet }) => sheet !== model.sheets.cases);
  const tanks = model.stations.filter(({ fuel }) => fuel);
  const fill = (key: 'min' | 'max'): void => {
    const loads = model.stations.map((station) => (station.fuel ? station[key] : station.load));
    if (key === 'max') void store.change(t('Tanks full'), loadEdits(loading, loads), t('Tanks full.'));
    else void store.change(t('Tanks on reserve'), loadEdits(loading, loads), t('Tanks on reserve.'));
  };
  return (
    <>
      {judged?.now ? (
        <Judged model={model} balance={judged} now={judged.now} problems={problems.length} />
      ) : (
        <NotJudged store={store} model={model} />
      )}
      <section className={styles.section} aria-labelledby="balance-stations">
        <div className={styles.head}>
          <h2 id="balance-stations" className={styles.heading}>
            {changing ? t('Stations') : t('Loads')}
          </h2>
          <Button size="small" aria-pressed={changing} onClick={() => setChanging(!changing)}>
            {t('Change stations')}
          </Button>
        </div>
        {changing ? (
          <FormTable
            store={store}
            form={LOADING}
            found={loading.form}
            columns={STATIONS}
            rows={loading.form.rows.map(({ row }) => row)}
            addLabel={t('Add station')}
            nameOf={(row) => String(store.cell(loading.form.sheet, row, loading.form.columns.station ?? 0) ?? '')}
            remove={(row) => removeStation(model, row)}
            also={(row, key, text) => (key === 'station' ? renameInCases(model, row, text) : [])}
          />
        ) : (
          <LoadTable store={store} model={model} loading={loading} />
        )}
        {!changing && tanks.length > 0 && (
          <div className={styles.buttons}>
            <Button size="small" onClick={() => fill('max')}>
              {t('Tanks full')}
            </Button>
            <Button size="small" onClick={() => fill('min')}>
              {t('Tanks on reserve')}
            </Button>
          </div>
        )}
      </section>
      {judged?.now && <BallastPanel airplane={judged.airplane} now={judged.now} units={model.units} />}
      {judged?.now && model.casesSheet && (
        <SaveCase store={store} casesSheet={model.casesSheet} loads={judged.now.loads} />
      )}
      <Problems store={store} problems={problems} />
    </>
  );
}

function Judged({
  model,
  balance,
  now,
  problems,
}: {
  readonly model: BalanceModel;
  readonly balance: JudgedBalance;
  readonly now: JudgedCase;
  readonly problems: number;
}) {
  const styles = useStyles();
  const toPercent = useMemo(() => percentOfChord(model), [model]);
  const draw = useCallback(
    (options: PictureOptions) =>
      envelopePicture(
        {
          envelope: balance.airplane.envelope,
          cases: [pictureCase(now, model.units)],
          title: t('This loading on the envelope'),
          quantities: figuresIn(model.units).quantities,
          ...(toPercent ? { toPercent } : {}),
        },
        options,
      ),
    [balance, now, toPercent, model],
  );
  const { takeoff, landing } = now.result;
  const { bare, unit } = figuresIn(model.units);
  const rows = [
    [t('Take-off'), takeoff] as const,
    ...(landing.weight === takeoff.weight ? [] : [[t('Landing'), landing] as const]),
  ];
  return (
    <>
      <Verdict model={model} judged={now} problems={problems} />
      <section className={styles.section} aria-label={t('Loading point')}>
        <ScrollTable className={mergeClasses(styles.table, styles.results)}>
          <TableHead
            heads={[
              { spoken: t('When') },
              { number: t('Weight, {unit}', { unit: unit('weight') }) },
              { number: t('Arm, {unit}', { unit: unit('length') }) },
              toPercent && { number: t('% MAC') },
              { number: t('Forward to aft limit, {unit}', { unit: unit('length') }) },
            ]}
          />
          <tbody>
            {rows.map(([label, { weight, arm, judgement }]) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                <td data-number="">{bare.weight(weight)}</td>
                <td data-number="">{bare.arm(arm)}</td>
                {toPercent && <td data-number="">{percent(toPercent(arm))}</td>}
                <td data-number="">
                  {t('{from} to {to}', { from: bare.arm(judgement.limits.from), to: bare.arm(judgement.limits.to) })}
                </td>
              </tr>
            ))}
          </tbody>
        </ScrollTable>
        <div className={styles.picture}>
          <Picture draw={draw} />
        </div>
      </section>
    </>
  );
}

/** What is still needed before anything can be judged. */
function NotJudged({ store, model }: { readonly store: BalanceStore; readonly model: BalanceModel }) {
  const styles = useStyles();
  const lacking = [
    ...(model.empty
      ? []
      : [{ words: t('Needed: the empty weight and arm, from the weighing.'), section: 'balance-weighing' } as const]),
    ...(model.envelope
      ? []
      : [{ words: t('Needed: the corners of the envelope.'), section: 'balance-envelope' } as const]),
  ];
  return (
    <section className={styles.section} aria-labelledby="balance-lacking">
      <h2 id="balance-lacking" className={styles.heading}>
        {t('Not judged yet')}
      </h2>
      {lacking.length === 0 && (
        <p className={styles.text}>
          {model.stations.length === 0 ? t('Add a station with its arm and range.') : t('Type a load at any station.')}
        </p>
      )}
      {lacking.map(({ words, section }) => (
        <p key={section} className={styles.text}>
          {words}{' '}
          <Button size="small" onClick={() => store.open(section)}>
            {t('Go there')}
          </Button>
        </p>
      ))}
    </section>
  );
}
