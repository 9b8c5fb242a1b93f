/** Whether a loading is inside, in words, with where the limits come from. */
import { mergeClasses } from '@fluentui/react-components';
import { LIMITS_CAUTION } from '../../core/balance';
import type { BalanceModel, JudgedCase } from '../../workbook';
import { useStyles } from './styles';

export function Verdict({ model, judged, problems }: { readonly model: BalanceModel; readonly judged: JudgedCase; readonly problems: number }) {
  const styles = useStyles();
  const { result, words } = judged;
  const word = result.inside ? 'Inside' : result.firstOutside ? 'Outside' : 'A station is out of its range';
  const moved = result.landing.weight !== result.takeoff.weight;
  const between = result.firstOutside && result.takeoff.judgement.inside;
  return (
    <div className={mergeClasses(styles.verdict, !result.inside && styles.verdictOut)}>
      <div role="status" aria-label="Verdict">
        <p className={styles.verdictWord}>
          <span aria-hidden="true">{result.inside ? '✓ ' : '✕ '}</span>
          {word}
        </p>
        <p className={styles.line}>
          {moved ? 'Take-off: ' : ''}
          {words.takeoff}
        </p>
        {between && <p className={styles.line}>Between: {words.verdict}</p>}
        {moved && <p className={styles.line}>Landing: {words.landing}</p>}
        {words.stations.map((one) => (
          <p key={one} className={styles.line}>
            {one}
          </p>
        ))}
        {problems > 0 && (
          <p className={mergeClasses(styles.line, styles.wrong)}>{problems === 1 ? 'One cell is' : `${problems} cells are`} left out of this: see To mend below.</p>
        )}
      </div>
      <LimitsFrom model={model} />
    </div>
  );
}

/** The standing caution, with the document that the sheet names. */
export function LimitsFrom({ model }: { readonly model: BalanceModel }) {
  const styles = useStyles();
  const from = model.envelopeSheet?.limitsFrom;
  return (
    <p className={styles.quiet}>
      {from ? `Limits from: ${from}. ` : 'The sheet does not say which document the limits are from. '}
      {LIMITS_CAUTION}
    </p>
  );
}
