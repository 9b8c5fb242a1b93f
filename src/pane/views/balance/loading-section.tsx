/** The loading typed now: stations, the loading point over the envelope, limits, ballast. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useId, useState } from 'react';
import {
  loadEdits,
  LOADING,
  type BalanceModel,
  type JudgedBalance,
  type JudgedCase,
  type Loading,
  type StationRow,
} from '../../../project';
import { percentOfChord } from '../../../report';
import { mark, t, type FieldUnit } from '../../locale';
import { columnUnit, Why } from '../../shared/field';
import { Problems } from '../../shared/cell-list';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { figuresIn, judgementText, percent, stationTexts, verdictText, type Figures } from './balance-words';
import { BallastPanel } from './ballast-panel';
import { SaveCase } from './cases-section';
import { CellField, FormTable, type TableColumn } from './form-fields';
import { removeStation, renameInCases } from './edits';
import { EnvelopePicture, LimitsFrom } from './envelope-section';
import { useStyles } from './styles';

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
  const fill = (key: 'min' | 'max', label: string, said: string): void => {
    const loads = model.stations.map((station) => (station.fuel ? station[key] : station.load));
    void store.change(label, loadEdits(loading, loads), said);
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
            <Button size="small" onClick={() => fill('max', t('Tanks full'), t('Tanks full.'))}>
              {t('Tanks full')}
            </Button>
            <Button size="small" onClick={() => fill('min', t('Tanks on reserve'), t('Tanks on reserve.'))}>
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
  const toPercent = percentOfChord(model);
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
          <EnvelopePicture
            model={model}
            envelope={balance.airplane.envelope}
            cases={[now]}
            title={t('This loading on the envelope')}
          />
        </div>
      </section>
    </>
  );
}

/** Whether a loading is inside, in words, with where the limits come from. */
function Verdict({
  model,
  judged: { result },
  problems,
}: {
  readonly model: BalanceModel;
  readonly judged: JudgedCase;
  readonly problems: number;
}) {
  const styles = useStyles();
  const say = figuresIn(model.units);
  const word = result.inside ? t('Inside') : result.firstOutside ? t('Outside') : t('A station is out of its range');
  const takeoff = judgementText(result.takeoff.judgement, say);
  const moved = result.landing.weight !== result.takeoff.weight;
  return (
    <div className={mergeClasses(styles.verdict, !result.inside && styles.verdictOut)}>
      <div role="status" aria-label={t('Verdict')}>
        <p className={styles.verdictWord}>
          <span aria-hidden="true">{result.inside ? '✓ ' : '✕ '}</span>
          {word}
        </p>
        <p className={styles.line}>{moved ? t('Take-off: {judgement}', { judgement: takeoff }) : takeoff}</p>
        {result.firstOutside && result.takeoff.judgement.inside && (
          <p className={styles.line}>{t('Between: {verdict}', { verdict: verdictText(result, say) })}</p>
        )}
        {moved && (
          <p className={styles.line}>
            {t('Landing: {judgement}', { judgement: judgementText(result.landing.judgement, say) })}
          </p>
        )}
        {stationTexts(result, say).map((one) => (
          <p key={one} className={styles.line}>
            {one}
          </p>
        ))}
        {problems > 0 && (
          <p className={mergeClasses(styles.line, styles.wrong)}>
            {t(
              '{count, plural, one {One cell is left out of this: see To fix below.} other {# cells are left out of this: see To fix below.}}',
              { count: problems },
            )}
          </p>
        )}
      </div>
      <LimitsFrom model={model} />
    </div>
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

/** A load to type at each station, with the station's arm and range. */
function LoadTable({
  store,
  model,
  loading,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly loading: Loading;
}) {
  const styles = useStyles();
  const { sheet, columns } = loading.form;
  const unit = columnUnit(LOADING, loading.form, 'load');
  if (columns.load === undefined)
    return (
      <p className={styles.text}>
        {t('The sheet {sheet} has no column Load: put the label in its header row.', { sheet })}
      </p>
    );
  if (model.stations.length === 0)
    return (
      <p className={styles.text}>
        {t('The sheet {sheet} has no station that is complete: a name, an arm and a most.', { sheet })}
      </p>
    );
  const say = figuresIn(model.units);
  return (
    <ScrollTable className={styles.table}>
      <colgroup>
        <col />
        <col style={{ width: '96px' }} />
      </colgroup>
      <TableHead heads={[t('Station'), { number: unit ? t('Load, {unit}', { unit: unit.unit.sign }) : t('Load') }]} />
      <tbody>
        {model.stations.map((station) => (
          <LoadRow
            key={station.row}
            store={store}
            station={station}
            sheet={sheet}
            column={columns.load!}
            unit={unit}
            say={say}
          />
        ))}
      </tbody>
    </ScrollTable>
  );
}

function LoadRow({
  store,
  station,
  sheet,
  column,
  unit,
  say,
}: {
  readonly store: BalanceStore;
  readonly station: StationRow;
  readonly sheet: string;
  readonly column: number;
  readonly unit: FieldUnit | undefined;
  readonly say: Figures;
}) {
  const styles = useStyles();
  const id = useId();
  const [wrong, setWrong] = useState<string>();
  const { row, name, arm, min, max, load, fuel } = station;
  const below = store.problemAt(sheet, row, column);
  const range = { arm: say.arm(arm), least: say.plain(min), most: say.plain(max), unit: say.unit('weight') };
  const out =
    load > max
      ? t('{by} over its most', { by: say.weight(load - max) })
      : load < min
        ? t('{by} under its least', { by: say.weight(min - load) })
        : undefined;
  return (
    <tr>
      <th scope="row">
        {name}
        <span className={mergeClasses(styles.note, styles.label)}>
          {fuel ? t('{arm} · {least} to {most} {unit} · tank', range) : t('{arm} · {least} to {most} {unit}', range)}
        </span>
        <span id={id} className={mergeClasses(styles.note, styles.wrong)}>
          {wrong === undefined && below === undefined ? out : <Why own={wrong} below={below} />}
        </span>
      </th>
      <td>
        <CellField
          store={store}
          sheet={sheet}
          row={row}
          column={column}
          kind="number"
          unit={unit}
          label={
            unit
              ? t('Load of {station}, {unit}', { station: name, unit: unit.unit.sign })
              : t('Load of {station}', { station: name })
          }
          describedBy={id}
          onWrong={setWrong}
        />
      </td>
    </tr>
  );
}
