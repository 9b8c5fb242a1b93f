/** The scale against the list: what weighed parts differ by, and what that says of the rest. */
import { Checkbox } from '@fluentui/react-components';
import type { Bias } from '../../core/mass';
import { withBias, type WeightsModel } from '../../workbook';
import { DataTable } from './data-table';
import { counted, partPounds, pounds, signed } from './figures';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

const tenths = (value: number): string => `${value.toFixed(1)}\u00a0%`;

export function ScalePanel({ store, model, applied }: { readonly store: WeightsStore; readonly model: WeightsModel; readonly applied: boolean }) {
  const styles = useWeightsStyles();
  const { differences, bias } = model;
  if (!bias) {
    return (
      <>
        <h2 className={styles.heading}>No part is on the scale yet</h2>
        <p className={styles.text}>Weigh a part and type it under Weighed (lb); set its status to weighed. The row then counts as weighed, and here you see whether your list runs light or heavy.</p>
      </>
    );
  }
  return (
    <>
      <section className={styles.section}>
        <h2 className={styles.heading}>The scale against the list</h2>
        <p className={styles.text}>{biasWords(bias, model.biasCertain)}</p>
        <DataTable
          caption="Weighed parts against their computed weight, lb"
          columns={['Part, lb', 'Listed', 'Weighed', 'Off by', '%']}
          rows={differences.map(({ row, part, component, computed, weighed, difference, differencePercent }) => ({
            key: row,
            head: (
              <button type="button" className={styles.link} onClick={() => void store.selectRows([row])}>
                {part} ({component})
              </button>
            ),
            cells: [partPounds(computed), partPounds(weighed), signed(difference, partPounds), signed(differencePercent, (value) => value.toFixed(1))],
          }))}
        />
      </section>
      <section className={styles.section} aria-label="The bias applied to the rest">
        <Checkbox checked={applied} onChange={(_event, { checked }) => store.view({ applyBias: checked === true })} label={{ className: styles.check, children: 'Show what the rest would weigh if it is off by as much' }} />
        {applied && (
          <>
            <DataTable
              caption="The bias applied to the parts that have not been weighed, lb"
              columns={['Component, lb', 'Rest, listed', 'Rest, corrected', 'Then in all']}
              rows={withBias(model).map(({ name, rest, corrected, weight }) => ({
                key: name,
                head: name,
                strong: name === model.total.name,
                cells: [pounds(rest), `${pounds(corrected.weight)}${corrected.plusMinus === undefined ? '' : ` ± ${pounds(corrected.plusMinus)}`}`, pounds(weight)],
              }))}
            />
            <p className={styles.quiet}>± with 95 % confidence, by Student’s t over the scatter of the weighed parts. Nothing of this is written into the sheet.</p>
          </>
        )}
      </section>
    </>
  );
}

function biasWords({ parts, computed, weighed, fraction, plusMinus }: Bias, certain: boolean): string {
  const runs = fraction === 0 ? 'The list is right on these' : `The list runs ${fraction > 0 ? 'light' : 'heavy'} by ${tenths(Math.abs(fraction) * 100)}`;
  const sure = plusMinus === undefined ? 'One part says nothing of how much parts scatter.' : certain ? `± ${tenths(plusMinus * 100)} with 95 % confidence.` : `± ${tenths(plusMinus * 100)} with 95 % confidence: that may be chance.`;
  return `${counted(parts, 'part')} weighed: ${pounds(weighed)} lb, listed as ${pounds(computed)} lb. ${runs}${plusMinus === undefined ? '. ' : ' '}${sure}`;
}
