/** A line above the view where formulas of ours show #NAME?: how many, and the offer to write them again. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { t } from '../locale';
import { useStore } from '../shared/store';
import type { PaneContext } from '../shared/view';
import { UnboundStore } from './unbound-store';
import { BAR } from '../shared/looks';

const useStyles = makeStyles({
  bar: BAR,
  grow: { flex: '1 1 140px', minWidth: 0 },
  wrong: { flexBasis: '100%', color: tokens.colorStatusDangerForeground3 },
});

const ERROR = '#NAME?';

export function UnboundFormulas({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new UnboundStore(pane));
  useEffect(() => store.start(), [store]);
  const { found, still, written, busy, wrong } = useStore(store);
  const styles = useStyles();
  if (found.length + still.length + written === 0 && wrong === undefined) return null;
  return (
    <section className={styles.bar} aria-label={t('Formulas without a result')}>
      <span role="status" className={styles.grow}>
        {found.length > 0
          ? t(
              '{count, plural, one {# formula shows {error}: it was made where Tarebook was not on, or with another add-in.} other {# formulas show {error}: they were made where Tarebook was not on, or with another add-in.}}',
              { count: found.length, error: ERROR },
            )
          : still.length > 0
            ? t(
                '{count, plural, one {# formula was written again and still shows {error}. Is another name in it spelled wrong?} other {# formulas were written again and still show {error}. Is another name in them spelled wrong?}}',
                { count: still.length, error: ERROR },
              )
            : written > 0 &&
              t('{count, plural, one {# formula was written again.} other {# formulas were written again.}}', {
                count: written,
              })}
      </span>
      {found.length > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.writeAgain()}>
          {t('{count, plural, one {Write it again} other {Write them again}}', { count: found.length })}
        </Button>
      )}
      {found.length === 0 && still.length > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.select(still[0]!)}>
          {t('Show the first')}
        </Button>
      )}
      {found.length === 0 && written > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.undo()}>
          {t('Undo')}
        </Button>
      )}
      {wrong !== undefined && (
        <span role="alert" className={styles.wrong}>
          {wrong}
        </span>
      )}
    </section>
  );
}
