/** The scale against the list: what weighed parts differ by, and what that says of the rest. */
import { Checkbox } from '@fluentui/react-components';
import type { Bias } from '../../../core/mass';
import type { Quantities } from '../../../core/quantity';
import { withBias } from '../../../project';
import { t, writeNumber } from '../../locale';
import { DataTable } from './data-table';
import { figures, percent, signed } from './weight-figures';
import { useWeightsStyles } from './styles';
import type { PanelProps } from './weights-store';

const tenths = (value: number): string => percent(value, 1);

export function ScalePanel({ store, state: { applyBias: applied }, model }: PanelProps) {
  const styles = useWeightsStyles();
  const { differences, bias } = model;
  const { weight, partWeight, unit, quantities } = figures(model.units);
  if (!bias) {
    return (
      <>
        <h2 className={styles.heading}>{t('No part is on the scale yet')}</h2>
        <p className={styles.text}>
          {t(
            'Weigh a part and type it under Weighed ({unit}); set its status to weighed. The row then counts as weighed, and here you see whether your list runs light or heavy.',
            { unit: unit('weight') },
          )}
        </p>
      </>
    );
  }
  return (
    <>
      <section className={styles.section}>
        <h2 className={styles.heading}>{t('The scale against the list')}</h2>
        <p className={styles.text}>{biasWords(bias, model.biasCertain, quantities)}</p>
        <DataTable
          caption={t('Weighed parts against their computed weight, {unit}', { unit: unit('weight') })}
          columns={[t('Part, {unit}', { unit: unit('weight') }), t('Listed'), t('Weighed'), t('Off by'), '%']}
          rows={differences.map(({ row, part, component, computed, weighed, difference, differencePercent }) => ({
            key: row,
            head: (
              <button type="button" className={styles.link} onClick={() => void store.selectRows([row])}>
                {part} ({component})
              </button>
            ),
            cells: [
              partWeight(computed),
              partWeight(weighed),
              signed(difference, partWeight),
              signed(differencePercent, (value) => writeNumber(value, 1)),
            ],
          }))}
        />
      </section>
      <section className={styles.section} aria-label={t('The same error applied to the rest')}>
        <Checkbox
          checked={applied}
          onChange={(_event, { checked }) => store.view({ applyBias: checked === true })}
          label={{ className: styles.check, children: t('Show what the rest would weigh with the same error') }}
        />
        {applied && (
          <>
            <DataTable
              caption={t('The same error applied to the parts not weighed yet, {unit}', { unit: unit('weight') })}
              columns={[
                t('Component, {unit}', { unit: unit('weight') }),
                t('Rest, listed'),
                t('Rest, corrected'),
                t('Then in all'),
              ]}
              rows={withBias(model).map(({ name, rest, corrected, weight: all }) => ({
                key: name,
                head: name,
                strong: name === model.total.name,
                cells: [
                  weight(rest),
                  `${weight(corrected.weight)}${corrected.plusMinus === undefined ? '' : ` ± ${weight(corrected.plusMinus)}`}`,
                  weight(all),
                ],
              }))}
            />
            <p className={styles.quiet}>
              {t(
                '± with 95 % confidence, by Student’s t over the scatter of the weighed parts. None of this is written into the sheet.',
              )}
            </p>
          </>
        )}
      </section>
    </>
  );
}

function biasWords({ parts, computed, weighed, fraction, plusMinus }: Bias, certain: boolean, say: Quantities): string {
  const off = tenths(Math.abs(fraction) * 100);
  const band = plusMinus === undefined ? '' : tenths(plusMinus * 100);
  return [
    t('{count, plural, one {# part} other {# parts}} weighed: {weighed}, listed as {listed}.', {
      count: parts,
      weighed: say.say(weighed, 'weight', 2),
      listed: say.say(computed, 'weight', 2),
    }),
    fraction === 0
      ? t('The list is right for these.')
      : fraction > 0
        ? t('The list runs light by {off}.', { off })
        : t('The list runs heavy by {off}.', { off }),
    plusMinus === undefined
      ? t('One part does not show how much parts vary.')
      : certain
        ? t('That is ± {band} with 95 % confidence.', { band })
        : t('That is ± {band} with 95 % confidence: it may be chance.', { band }),
  ].join(' ');
}
