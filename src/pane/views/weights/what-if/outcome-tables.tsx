/** A trial's outcome: before and after, what follows along, and every cell that would be written. */
import { t } from '../../../locale';
import { figures, money, signed, type Write } from '../weight-figures';
import { DataTable, type DataGroup, type DataRow } from '../data-table';
import { useWeightsStyles } from '../styles';
import type { BeforeAfter, Outcome, Standing, Sum } from './trial';

const line = (key: string, before: number | undefined, after: number | undefined, write: Write): DataRow => ({
  key,
  head: key,
  cells: [
    write(before),
    write(after),
    before === undefined || after === undefined ? '' : signed(after - before, write),
  ],
});

export function OutcomeTables({
  outcome,
  doubts,
  currency,
}: {
  readonly outcome: Outcome;
  readonly doubts: readonly string[];
  readonly currency: string;
}) {
  const styles = useWeightsStyles();
  const { swap, picked, standing, components, rows, unpriced } = outcome;
  const hasCost = standing.before.weights.parts.form.columns.cost !== undefined;
  const { weight, partWeight, arm, moment, weightLike, unit } = figures(standing.before.weights.units);
  const cost = currency ? t('Cost, {currency}', { currency }) : t('Cost');
  const labels = {
    weight: t('Weight, {unit}', { unit: unit('weight') }),
    arm: t('Arm, {unit}', { unit: unit('length') }),
    moment: t('Moment, {unit}', { unit: unit('moment') }),
    margin: t('Margin, {unit}', { unit: unit('weight') }),
    forecast: t('Forecast, {unit}', { unit: unit('weight') }),
  };
  const sums = ({ before, after }: BeforeAfter<Sum>): DataRow[] => [
    line(labels.weight, before.weight, after.weight, weightLike([before.weight, after.weight])),
    line(labels.arm, before.arm, after.arm, arm),
    line(labels.moment, before.moment, after.moment, moment),
    ...(hasCost ? [line(cost, before.cost, after.cost, money)] : []),
  ];
  const against = (of: (one: Standing) => Budgeted | undefined): DataRow[] => {
    const [before, after] = [of(standing.before), of(standing.after)];
    const margin =
      before?.margin === undefined && after?.margin === undefined
        ? []
        : [line(labels.margin, before?.margin, after?.margin, weight)];
    return [line(labels.forecast, before?.forecast, after?.forecast, weight), ...margin];
  };
  const known = (sum: Sum, one: Standing): Sum => ({
    ...sum,
    cost: one === standing.after && unpriced.length > 0 ? undefined : sum.cost,
  });
  const total = ({ summary }: Standing): Sum => summary.total;
  const groups: DataGroup[] = [
    { key: 'picked', head: t('The parts picked'), rows: sums(picked) },
    ...components.map((name) => ({
      key: `component ${name}`,
      head: name,
      rows: [
        line(labels.weight, weightOf(standing.before, name), weightOf(standing.after, name), weight),
        ...against(({ weights }) => weights.components.find((one) => one.name === name)),
      ],
    })),
    {
      key: 'total',
      head: t('Everything'),
      rows: [
        ...sums({
          before: known(total(standing.before), standing.before),
          after: known(total(standing.after), standing.after),
        }),
        ...against(({ weights }) => weights.total),
      ],
    },
  ];
  const along = rows.filter((row) => !row.picked);
  return (
    <>
      <DataTable
        caption={t('Before and after')}
        columns={[t('Figure'), t('Before'), t('After'), t('Change')]}
        groups={groups}
      />
      <Notes
        title={t('To know')}
        notes={[
          ...along.map(({ name, before, after, weighedStays }) =>
            weighedStays
              ? t('{name} changes with it, and keeps its weighed value.', { name })
              : t('{name} changes with it: {before} to {after} {unit}.', {
                  name,
                  before: partWeight(before),
                  after: partWeight(after),
                  unit: unit('weight'),
                }),
          ),
          ...rows
            .filter((row) => row.picked && row.weighedStays)
            .map(({ name }) => t('{name} keeps its weighed value, so its weight stays.', { name })),
          ...swap.left.map(({ part, why }) => t('{part} stays as it is: {why}.', { part, why })),
          ...unpriced,
          ...doubts,
        ]}
      />
      <section className={styles.section}>
        <h3 className={styles.legend}>{t('Cells that Apply writes')}</h3>
        {swap.changes.length === 0 ? (
          <p className={styles.text}>{t('None: nothing would change.')}</p>
        ) : (
          <ul className={styles.list}>
            {swap.changes.map(({ cell, from, to, why }) => (
              <li key={cell}>
                {cell}: {from} → {to} ({why})
              </li>
            ))}
          </ul>
        )}
      </section>
    </>
  );
}

interface Budgeted {
  readonly forecast: number;
  readonly margin: number | undefined;
}

const weightOf = ({ summary }: Standing, name: string): number | undefined =>
  summary.components.find((one) => one.name === name)?.weight;

function Notes({ title, notes }: { readonly title: string; readonly notes: readonly string[] }) {
  const styles = useWeightsStyles();
  if (notes.length === 0) return null;
  return (
    <section className={styles.section}>
      <h3 className={styles.legend}>{title}</h3>
      <ul className={styles.list}>
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </section>
  );
}
