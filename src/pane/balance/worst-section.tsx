/** The worst loadings that the stations' ranges allow: most forward and aft, nearest each limit, lightest, heaviest. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { judgementWords, type WorstLoading } from '../../core/balance';
import { loadEdits, type BalanceModel, type CasesSheet, type JudgedBalance } from '../../workbook';
import type { BalanceStore } from './balance-store';
import { inches, plain, pounds } from './numbers';
import { useStyles } from './styles';

export interface WorstSectionProps {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly judged: JudgedBalance;
  readonly casesSheet: CasesSheet | undefined;
}

export function WorstSection({ store, model, judged: { worst, allInside } }: WorstSectionProps) {
  const styles = useStyles();
  const rows: readonly (readonly [string, WorstLoading | undefined])[] = [
    ['Most forward', worst.forward],
    ['Most aft', worst.aft],
    ['Nearest the forward limit', worst.forwardMargin],
    ['Nearest the aft limit', worst.aftMargin],
    ['Lightest', worst.lightest],
    ['Heaviest', worst.heaviest],
  ];
  const load = (label: string, { loads }: WorstLoading): void => {
    if (model.loading) void store.change(`Load: ${label.toLowerCase()}`, loadEdits(model.loading, loads.map(toTenth)), `Put the loading "${label.toLowerCase()}" onto the sheet ${model.loading.form.sheet}.`);
  };
  return (
    <section className={styles.section} aria-labelledby="balance-worst">
      <h2 id="balance-worst" className={styles.heading}>
        Worst that the ranges allow: {allInside ? 'all inside' : 'some outside'}
      </h2>
      <p className={styles.text}>Found over every load between least and most at every station, fuel among them. Narrow a station’s range under Loading where the airplane is never loaded so.</p>
      <table className={styles.table}>
        <colgroup>
          <col />
          <col style={{ width: '84px' }} />
        </colgroup>
        <thead>
          <tr>
            <th scope="col">Loading</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        {rows.map(([label, loading]) => (
          <tbody key={label} data-item="">
            <tr>
              <th scope="row">{label}</th>
              <td>{loading && <span className={styles.word}>{loading.judgement.inside ? 'inside' : 'outside'}</span>}</td>
            </tr>
            <tr>
              <td colSpan={2} data-below="">
                {loading ? (
                  <>
                    <span className={styles.note}>
                      {pounds(loading.weight)} at {inches(loading.arm)}: {model.stations.map(({ name }, index) => `${name} ${plain(loading.loads[index] ?? 0)}`).join(', ')} lb
                    </span>
                    <span className={mergeClasses(styles.note, !loading.judgement.inside && styles.wrong)}>{judgementWords(loading.judgement).replace(/^inside, /, '')}</span>
                    <div className={styles.belowLine}>
                      <span className={styles.grow} />
                      <Button size="small" appearance="subtle" onClick={() => load(label, loading)} aria-label={`Load it: ${label.toLowerCase()}`}>
                        Load it
                      </Button>
                    </div>
                  </>
                ) : (
                  'There is none within the weights of the envelope.'
                )}
              </td>
            </tr>
          </tbody>
        ))}
      </table>
    </section>
  );
}

/** Nobody loads to more than a tenth of a pound; a round number stays what it is. */
const toTenth = (load: number): number => Math.round(load * 10) / 10;
