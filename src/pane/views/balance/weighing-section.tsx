/** The airplane on its scales: facts, points, corrections, and the empty weight that follows. */
import { Button, mergeClasses } from '@fluentui/react-components';
import {
  CORRECTIONS,
  GEARS,
  numberIn,
  WEIGHING,
  WEIGHING_FACTS,
  type BalanceModel,
  type Weighing,
  type WeighingFact,
} from '../../../project';
import { type CellKind, factUnit, ownLabel } from '../../shared/field';
import { mark, t } from '../../locale';
import { printPaper } from '../../shared/paper';
import { Problems } from '../../shared/cell-list';
import { refusal } from '../../shared/refusal';
import type { BalanceStore } from './balance-store';
import { CellField, FormTable, type TableColumn } from './form-fields';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import { figuresIn, percent } from './balance-words';
import { takeRowEdits } from './edits';
import { useStyles } from './styles';
import { RECORD_STYLES, recordBody, recordPage } from './weighing-record';

const FACTS: readonly (readonly [WeighingFact, CellKind])[] = [
  ['airplane', 'text'],
  ['date', 'date'],
  ['gear', 'text'],
  ['lemac', 'number'],
  ['mac', 'number'],
  ['level', 'text'],
  ['scales', 'text'],
];
const WIDE: ReadonlySet<WeighingFact> = new Set(['airplane', 'level', 'scales']);

const POINTS: readonly TableColumn<'point' | 'reading' | 'tare' | 'net' | 'arm' | 'moment'>[] = [
  { key: 'point', head: mark('Point'), kind: 'text', width: '34%', line: true },
  { key: 'reading', head: mark('Scale reading'), kind: 'number', width: '23%' },
  { key: 'tare', head: mark('Tare'), kind: 'number', width: '20%' },
  { key: 'arm', head: mark('Arm'), kind: 'number', width: '23%' },
];
const CORRECTED: readonly TableColumn<'correction' | 'weight' | 'arm' | 'moment'>[] = [
  { key: 'correction', head: mark('What'), kind: 'text', width: '50%', line: true },
  { key: 'weight', head: mark('Weight'), kind: 'number', width: '25%' },
  { key: 'arm', head: mark('Arm'), kind: 'number', width: '25%' },
];

export function WeighingSection({
  store,
  model,
  weighing,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly weighing: Weighing;
}) {
  const styles = useStyles();
  const { sheet, points, corrections, facts } = weighing;
  const say = figuresIn(model.units);
  // The line above the corrections is their heading, not a weighing point.
  const limit = corrections ? corrections.header - 1 : Infinity;
  const pointRows = points.rows
    .filter(({ row, cells }) => row < limit || cells.reading !== undefined)
    .map(({ row }) => row);
  const text = (row: number, column: number | undefined): string =>
    column === undefined ? '' : String(store.cell(sheet, row, column) ?? '');
  const pointLine = (row: number): string => {
    const cells = points.rows.find((one) => one.row === row)?.cells;
    const [reading, arm] = [numberIn(cells?.reading), numberIn(cells?.arm)];
    if (reading === undefined || arm === undefined) return t('not weighed yet');
    const net = reading - (numberIn(cells?.tare) ?? 0);
    return t('net {weight} · moment {moment}', { weight: say.weight(net), moment: say.moment(net * arm) });
  };
  const correctionLine = (row: number): string => {
    const cells = corrections?.rows.find((one) => one.row === row)?.cells;
    const [weight, arm] = [numberIn(cells?.weight), numberIn(cells?.arm)];
    if (weight === undefined || arm === undefined) return '';
    const moment = say.moment(weight * arm);
    return weight < 0 ? t('taken off · moment {moment}', { moment }) : t('added · moment {moment}', { moment });
  };

  return (
    <>
      <Result store={store} model={model} weighing={weighing} />
      <section className={styles.section} aria-label={t('Facts of the weighing')}>
        <div className={styles.facts}>
          {FACTS.map(([key, kind]) => {
            const fact = facts[key];
            if (!fact) return null;
            const unit = factUnit(WEIGHING_FACTS[key], fact);
            const label = ownLabel(WEIGHING_FACTS[key], unit);
            return (
              <div key={key} className={WIDE.has(key) ? styles.wide : undefined}>
                <CellField
                  store={store}
                  sheet={sheet}
                  row={fact.row}
                  column={fact.column}
                  kind={kind}
                  unit={unit}
                  label={label}
                  shownLabel={label}
                  lines={WIDE.has(key)}
                  {...(key === 'gear' ? { choices: GEARS } : {})}
                  {...(key === 'date' ? { placeholder: t('YYYY-MM-DD') } : {})}
                />
              </div>
            );
          })}
        </div>
      </section>
      <section className={styles.section} aria-labelledby="balance-points">
        <h2 id="balance-points" className={styles.heading}>
          {t('On the scales')}
        </h2>
        <FormTable
          store={store}
          form={WEIGHING}
          found={points}
          columns={POINTS}
          rows={pointRows}
          limit={limit}
          addLabel={t('Add point')}
          nameOf={(row) => text(row, points.columns.point)}
          below={pointLine}
          remove={(row) => takeRowEdits(WEIGHING, points, store.state.sheets, row, pointRows.at(-1)!)}
        />
      </section>
      {corrections && (
        <section className={styles.section} aria-labelledby="balance-corrections">
          <h2 id="balance-corrections" className={styles.heading}>
            {t('Corrections')}
          </h2>
          <p className={styles.text}>
            {t(
              'Negative for what was aboard but is not part of the empty weight; positive for what was missing but is.',
            )}
          </p>
          <FormTable
            store={store}
            form={CORRECTIONS}
            found={corrections}
            columns={CORRECTED}
            rows={corrections.rows.map(({ row }) => row)}
            addLabel={t('Add correction')}
            nameOf={(row) => text(row, corrections.columns.correction)}
            below={correctionLine}
            remove={(row) =>
              takeRowEdits(CORRECTIONS, corrections, store.state.sheets, row, corrections.rows.at(-1)!.row)
            }
          />
        </section>
      )}
      <Problems store={store} problems={model.problems.filter((problem) => problem.sheet === sheet)} />
    </>
  );
}

function Result({
  store,
  model,
  weighing,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly weighing: Weighing;
}) {
  const styles = useStyles();
  const { result, problems } = weighing;
  const today = store.pane.today();
  const { weight, arm, bare, unit } = figuresIn(model.units);
  const body = recordBody(weighing, model.units, today);
  if (!result || body === undefined) {
    return (
      <section className={styles.section} aria-labelledby="balance-empty">
        <h2 id="balance-empty" className={styles.heading}>
          {t('Not weighed yet')}
        </h2>
        <p className={styles.text}>
          {t('Type a scale reading and an arm for each point; empty weight and arm follow at once.')}
        </p>
      </section>
    );
  }
  const print = (): void => {
    if (store.pane.handOver) return save();
    try {
      printPaper(body, 'record', RECORD_STYLES);
    } catch (error) {
      store.tell(
        'failed',
        `${t('Printing is not possible here. Save the record and print it from a browser.')} ${refusal(error)}`,
      );
    }
  };
  const save = (): void => {
    const name = `weighing-${weighing.record.date ?? today}.html`;
    const saved = store.pane.saveFile(
      name,
      recordPage(
        body,
        weighing.airplane === ''
          ? t('Weighing record')
          : t('Weighing record {airplane}', { airplane: weighing.airplane }),
      ),
    );
    if (saved !== false) store.tell('done', t('Saved the record as {name}.', { name }));
  };
  const empty = { weight: weight(result.weight), arm: arm(result.arm) };
  return (
    <section className={styles.section} aria-labelledby="balance-empty">
      <h2 id="balance-empty" className={styles.heading}>
        {result.percentMac === undefined
          ? t('Empty: {weight} at {arm}', empty)
          : t('Empty: {weight} at {arm}, {percent} % MAC', { ...empty, percent: percent(result.percentMac) })}
      </h2>
      <ScrollTable className={mergeClasses(styles.table, styles.results)}>
        <TableHead
          heads={[
            { spoken: t('Stage') },
            { number: t('Weight, {unit}', { unit: unit('weight') }) },
            { number: t('Arm, {unit}', { unit: unit('length') }) },
            { number: t('Moment, {unit}', { unit: unit('moment') }) },
          ]}
        />
        <tbody>
          {(
            [
              [t('As weighed'), result.asWeighed],
              [t('Corrected'), result],
            ] as const
          ).map(([label, sum]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td data-number="">{bare.weight(sum.weight)}</td>
              <td data-number="">{bare.arm(sum.arm)}</td>
              <td data-number="">{bare.moment(sum.moment)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {problems.length > 0 && (
        <p className={mergeClasses(styles.quiet, styles.wrong)}>
          {t('{count, plural, one {Fix one cell below first.} other {Fix # cells below first.}}', {
            count: problems.length,
          })}
        </p>
      )}
      <div className={styles.buttons}>
        <Button size="small" onClick={print}>
          {t('Print record')}
        </Button>
        <Button size="small" onClick={save}>
          {t('Save record')}
        </Button>
      </div>
    </section>
  );
}
