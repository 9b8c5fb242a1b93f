/** A trial's outcome: before and after, what follows along, and every cell that would be written. */
import { t } from '../../../locale';
import { figures, money, signed, type Write } from '../weight-figures';
import { LongList } from '../../../shared/long-list';
import { DataTable, type DataGroup, type DataRow } from '../data-table';
import { useWeightsStyles } from '../styles';
import type { ComponentFigures, ShownOutcome } from './shown-outcome';
import type { BeforeAfter, Sum } from './trial';

const line = (key: string, before: number | undefined, after: number | undefined, write: Write): DataRow => ({
  key,
  head: key,
  cells: [
    write(before),
    write(after),
    before === undefined || after === undefined ? '' : signed(after - before, write),
  ],
});

export function OutcomeTables({ outcome, currency }: { readonly outcome: ShownOutcome; readonly currency: string }) {
  const styles = useWeightsStyles();
  const { picked, components, total, notes, changes, hasCost } = outcome;
  const { weight, arm, moment, weightLike, unit } = figures(outcome.units);
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
  const against = ({ before, after }: BeforeAfter<Omit<ComponentFigures, 'weight'>>): DataRow[] => [
    line(labels.forecast, before.forecast, after.forecast, weight),
    ...(before.margin === undefined && after.margin === undefined
      ? []
      : [line(labels.margin, before.margin, after.margin, weight)]),
  ];
  const groups: DataGroup[] = [
    { key: 'picked', head: t('The parts picked'), rows: sums(picked) },
    ...components.map(({ name, ...both }) => ({
      key: `component ${name}`,
      head: name,
      rows: [line(labels.weight, both.before.weight, both.after.weight, weight), ...against(both)],
    })),
    { key: 'total', head: t('Everything'), rows: [...sums(total), ...against(total)] },
  ];
  return (
    <>
      <DataTable
        caption={t('Before and after')}
        columns={[t('Figure'), t('Before'), t('After'), t('Change')]}
        groups={groups}
      />
      {notes.count > 0 && (
        <section className={styles.section}>
          <h3 className={styles.legend}>{t('To know')}</h3>
          <LongList items={notes.first} count={notes.count}>
            {(shown) => (
              <ul className={styles.list}>
                {shown.map((note) => (
                  <li key={note}>{note}</li>
                ))}
              </ul>
            )}
          </LongList>
        </section>
      )}
      <section className={styles.section}>
        <h3 className={styles.legend}>{t('Cells that Apply writes')}</h3>
        {changes.count === 0 ? (
          <p className={styles.text}>{t('None: nothing would change.')}</p>
        ) : (
          <LongList items={changes.first} count={changes.count}>
            {(shown) => (
              <ul className={styles.list}>
                {shown.map(({ cell, from, to, why }) => (
                  <li key={cell}>
                    {cell}: {from} → {to} ({why})
                  </li>
                ))}
              </ul>
            )}
          </LongList>
        )}
      </section>
    </>
  );
}
