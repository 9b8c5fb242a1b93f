/** Whether a loading is inside, in words, with where the limits come from. */
import { mergeClasses } from '@fluentui/react-components';
import type { BalanceModel, JudgedCase } from '../../../project';
import { t } from '../../locale';
import { figuresIn } from './balance-numbers';
import { useStyles } from './styles';
import { judgementText, limitsCaution, stationTexts, verdictText } from './verdict-words';

export function Verdict({
  model,
  judged,
  problems,
}: {
  readonly model: BalanceModel;
  readonly judged: JudgedCase;
  readonly problems: number;
}) {
  const styles = useStyles();
  const { result } = judged;
  const say = figuresIn(model.units);
  const word = result.inside ? t('Inside') : result.firstOutside ? t('Outside') : t('A station is out of its range');
  const takeoff = judgementText(result.takeoff.judgement, say);
  const moved = result.landing.weight !== result.takeoff.weight;
  const between = result.firstOutside && result.takeoff.judgement.inside;
  return (
    <div className={mergeClasses(styles.verdict, !result.inside && styles.verdictOut)}>
      <div role="status" aria-label={t('Verdict')}>
        <p className={styles.verdictWord}>
          <span aria-hidden="true">{result.inside ? '✓ ' : '✕ '}</span>
          {word}
        </p>
        <p className={styles.line}>{moved ? t('Take-off: {judgement}', { judgement: takeoff }) : takeoff}</p>
        {between && <p className={styles.line}>{t('Between: {verdict}', { verdict: verdictText(result, say) })}</p>}
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

/** The standing caution, with the document that the sheet names. */
export function LimitsFrom({ model }: { readonly model: BalanceModel }) {
  const styles = useStyles();
  const from = model.envelopeSheet?.limitsFrom;
  return (
    <p className={styles.quiet}>
      {from
        ? t('Limits from: {document}.', { document: from })
        : t('The sheet does not say which document the limits are from.')}{' '}
      {limitsCaution()}
    </p>
  );
}
