/** The worst loadings that the stations' ranges allow: most forward and aft, nearest each limit, lightest, heaviest. */
import { Button, mergeClasses } from '@fluentui/react-components';
import type { WorstLoading } from '../../../core/balance';
import { fromUnit, inUnit, unitIn, type Unit } from '../../../core/quantity';
import { loadEdits, type BalanceModel, type CasesSheet, type JudgedBalance } from '../../../project';
import { decimalSign, t } from '../../locale';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { figuresIn } from './balance-numbers';
import { useStyles } from './styles';
import { judgementText, marginsText } from './verdict-words';

export interface WorstSectionProps {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly judged: JudgedBalance;
  readonly casesSheet: CasesSheet | undefined;
}

export function WorstSection({ store, model, judged: { worst, allInside } }: WorstSectionProps) {
  const styles = useStyles();
  // Where the decimals have a comma, a comma between numbers would be read as one.
  const separator = decimalSign() === ',' ? '; ' : ', ';
  const say = figuresIn(model.units);
  const rows: readonly (readonly [string, WorstLoading | undefined])[] = [
    [t('Most forward'), worst.forward],
    [t('Most aft'), worst.aft],
    [t('Nearest the forward limit'), worst.forwardMargin],
    [t('Nearest the aft limit'), worst.aftMargin],
    [t('Lightest'), worst.lightest],
    [t('Heaviest'), worst.heaviest],
  ];
  const load = (label: string, { loads }: WorstLoading): void => {
    if (!model.loading) return;
    const { form } = model.loading;
    const unit = form.units.load ?? unitIn('weight', model.units);
    void store.change(
      t('Load: {loading}', { loading: label }),
      loadEdits(
        model.loading,
        loads.map((one) => toTenth(one, unit)),
      ),
      t('Put the loading “{loading}” onto the sheet {sheet}.', { loading: label, sheet: form.sheet }),
    );
  };
  return (
    <section className={styles.section} aria-labelledby="balance-worst">
      <h2 id="balance-worst" className={styles.heading}>
        {allInside ? t('Worst that the ranges allow: all inside') : t('Worst that the ranges allow: some outside')}
      </h2>
      <p className={styles.text}>
        {t(
          'The worst of every load between least and most at every station, fuel included. Narrow a station’s range under Loading if the airplane is never loaded that way.',
        )}
      </p>
      <ScrollTable className={styles.table}>
        <colgroup>
          <col />
          <col style={{ width: '84px' }} />
        </colgroup>
        <TableHead heads={[t('Loading'), t('Verdict')]} />
        {rows.map(([label, loading]) => (
          <tbody key={label} data-item="">
            <tr>
              <th scope="row">{label}</th>
              <td>
                {loading && (
                  <span className={styles.word}>{loading.judgement.inside ? t('inside') : t('outside')}</span>
                )}
              </td>
            </tr>
            <tr>
              <td colSpan={2} data-below="">
                {loading ? (
                  <>
                    <span className={styles.note}>
                      {t('{weight} at {arm}: {loads} {unit}', {
                        weight: say.weight(loading.weight),
                        arm: say.arm(loading.arm),
                        loads: model.stations
                          .map(({ name }, index) => `${name} ${say.plain(loading.loads[index] ?? 0)}`)
                          .join(separator),
                        unit: say.unit('weight'),
                      })}
                    </span>
                    <span className={mergeClasses(styles.note, !loading.judgement.inside && styles.wrong)}>
                      {loading.judgement.inside
                        ? marginsText(loading.judgement, say)
                        : judgementText(loading.judgement, say)}
                    </span>
                    <div className={styles.belowLine}>
                      <span className={styles.grow} />
                      <Button
                        size="small"
                        appearance="subtle"
                        onClick={() => load(label, loading)}
                        aria-label={t('Load it: {loading}', { loading: label })}
                      >
                        {t('Load it')}
                      </Button>
                    </div>
                  </>
                ) : (
                  t('None within the weights of the envelope.')
                )}
              </td>
            </tr>
          </tbody>
        ))}
      </ScrollTable>
    </section>
  );
}

/** Nobody loads to more than a tenth of a pound or of a kilogram; a round number of the column's unit stays what it is. */
const toTenth = (load: number, unit: Unit): number => fromUnit(Math.round(inUnit(load, unit) * 10) / 10, unit);
