/** What the last step did, told to screen readers as it changes, and the way back. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { t } from '../locale';
import { HAIRLINE, WRONG } from './looks';
import type { Message } from './tab-store';

const useStyles = makeStyles({
  foot: {
    flexShrink: 0,
    display: 'flex',
    flexWrap: 'wrap',
    alignItems: 'center',
    gap: '2px 8px',
    padding: '4px 12px',
    borderTop: HAIRLINE,
    color: tokens.colorNeutralForeground2,
    overflowWrap: 'break-word',
  },
  grow: { flexGrow: 1, minWidth: 0 },
  wrong: WRONG,
});

export function StepFoot({
  store,
  message,
}: {
  readonly store: { undo(): Promise<unknown>; redo(): Promise<unknown> };
  readonly message: Message | undefined;
}) {
  const styles = useStyles();
  return (
    <div className={styles.foot}>
      <span role="status" className={styles.grow}>
        {message?.tone === 'done' && message.text}
      </span>
      <div role="alert" className={styles.wrong}>
        {message?.tone === 'failed' && message.text}
      </div>
      <Button size="small" appearance="subtle" onClick={() => void store.undo()}>
        {t('Undo')}
      </Button>
      <Button size="small" appearance="subtle" onClick={() => void store.redo()}>
        {t('Redo')}
      </Button>
    </div>
  );
}
