/** What is around a tab: the keys of undo, and at its foot what the last step did; and what is said until its sheets have been read. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { t } from '../locale';
import { HAIRLINE, TEXT, WRONG } from './looks';
import { undoKeys, type Message, type TabState, type TabStore } from './tab-store';

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
  text: TEXT,
});

/** A tab with what the last step did, told to screen readers as it changes, and the way back. */
export function TabFrame({
  store,
  message,
  children,
}: {
  readonly store: Pick<TabStore<TabState>, 'undo' | 'redo'>;
  readonly message: Message | undefined;
  readonly children: ReactNode;
}) {
  const styles = useStyles();
  return (
    <div style={{ display: 'contents' }} onKeyDown={undoKeys(store)}>
      {children}
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
    </div>
  );
}

/** What a tab shows once its sheets have been read; until then, and where they could not be, what is said of that. */
export function WhenRead({
  store,
  state: { status, mend },
  children,
}: {
  readonly store: Pick<TabStore<TabState>, 'readAgain'>;
  readonly state: Pick<TabState, 'status' | 'mend'>;
  readonly children: () => ReactNode;
}) {
  const styles = useStyles();
  if (status === 'reading') return <p className={styles.text}>{t('Reading the sheets…')}</p>;
  if (status !== 'failed') return children();
  return (
    <>
      <p className={styles.text}>{mend}</p>
      <Button size="small" onClick={() => void store.readAgain()}>
        {t('Read them again')}
      </Button>
    </>
  );
}
