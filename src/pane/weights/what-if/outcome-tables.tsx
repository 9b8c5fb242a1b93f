/** A trial's outcome: before and after, what follows along, and every cell that would be written. */
import { inches, money, moments, partPounds, pounds, poundsLike, signed, type Write } from '../figures';
import { DataTable, type DataGroup, type DataRow } from '../data-table';
import { useWeightsStyles } from '../styles';
import type { BeforeAfter, Outcome, Standing, Sum } from './trial';

const line = (key: string, before: number | undefined, after: number | undefined, write: Write): DataRow => ({
  key,
  head: key,
  cells: [write(before), write(after), before === undefined || after === undefined ? '' : signed(after - before, write)],
});

/** A margin with its minus where it is over. */
const margins: Write = (value) => (value === undefined ? '' : `${value < 0 ? '−' : ''}${pounds(Math.abs(value))}`);

export function OutcomeTables({ outcome, doubts, currency }: { readonly outcome: Outcome; readonly doubts: readonly string[]; readonly currency: string }) {
  const styles = useWeightsStyles();
  const { swap, picked, standing, components, rows, unpriced } = outcome;
  const hasCost = standing.before.weights.parts.form.columns.cost !== undefined;
  const cost = currency ? `Cost, ${currency}` : 'Cost';
  const sums = ({ before, after }: BeforeAfter<Sum>): DataRow[] => [
    line('Weight, lb', before.weight, after.weight, poundsLike([before.weight, after.weight])),
    line('Arm, in', before.arm, after.arm, inches),
    line('Moment, lb·in', before.moment, after.moment, moments),
    ...(hasCost ? [line(cost, before.cost, after.cost, money)] : []),
  ];
  const against = (of: (one: Standing) => Budgeted | undefined): DataRow[] => {
    const [before, after] = [of(standing.before), of(standing.after)];
    const margin = before?.margin === undefined && after?.margin === undefined ? [] : [line('Margin, lb', before?.margin, after?.margin, margins)];
    return [line('Forecast, lb', before?.forecast, after?.forecast, pounds), ...margin];
  };
  const known = (sum: Sum, one: Standing): Sum => ({ ...sum, cost: one === standing.after && unpriced.length > 0 ? undefined : sum.cost });
  const total = ({ summary }: Standing): Sum => summary.total;
  const groups: DataGroup[] = [
    { key: 'picked', head: 'The parts picked', rows: sums(picked) },
    ...components.map((name) => ({ key: `component ${name}`, head: name, rows: [line('Weight, lb', weightOf(standing.before, name), weightOf(standing.after, name), pounds), ...against(({ weights }) => weights.components.find((one) => one.name === name))] })),
    { key: 'total', head: 'Everything', rows: [...sums({ before: known(total(standing.before), standing.before), after: known(total(standing.after), standing.after) }), ...against(({ weights }) => weights.total)] },
  ];
  const along = rows.filter((row) => !row.picked);
  return (
    <>
      <DataTable caption="Before and after" columns={['Figure', 'Before', 'After', 'Change']} groups={groups} />
      <Notes
        title="To know"
        notes={[
          ...along.map(({ name, before, after, weighedStays }) => `${name} changes with it${weighedStays ? ', and keeps its weighed value' : `: ${partPounds(before)} to ${partPounds(after)} lb`}.`),
          ...rows.filter((row) => row.picked && row.weighedStays).map(({ name }) => `${name} keeps its weighed value, so that its weight stays.`),
          ...swap.left.map(({ part, why }) => `${part} stays as it is: ${why}.`),
          ...unpriced,
          ...doubts,
        ]}
      />
      <section className={styles.section}>
        <h3 className={styles.legend}>Cells that Apply writes</h3>
        {swap.changes.length === 0 ? (
          <p className={styles.text}>None: nothing would change.</p>
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

const weightOf = ({ summary }: Standing, name: string): number | undefined => summary.components.find((one) => one.name === name)?.weight;

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
