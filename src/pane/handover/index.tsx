/** Where a pane cannot save a file: what became of it, said in the pane. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { t } from '../locale';
import { useStore } from '../shared/store';
import type { Handed, HandOverStore } from './hand-over-store';
import { BAR } from '../shared/looks';

export { HandOverStore } from './hand-over-store';

const useStyles = makeStyles({
  bar: BAR,
  said: { flex: '1 1 100%', minWidth: 0 },
  text: {
    flex: '1 1 100%',
    height: '96px',
    color: tokens.colorNeutralForeground1,
    backgroundColor: tokens.colorNeutralBackground1,
    border: `1px solid ${tokens.colorNeutralStrokeAccessible}`,
  },
});

export function HandedOver({ store }: { readonly store: HandOverStore }) {
  const { handed } = useStore(store);
  const styles = useStyles();
  const field = useRef<HTMLTextAreaElement>(null);
  const [copied, setCopied] = useState<Handed>();
  const copy = async (): Promise<void> => {
    if (handed?.kind !== 'text') return;
    try {
      await navigator.clipboard.writeText(handed.text);
    } catch {
      // Where the clipboard is closed to scripts, the text is marked, and the person's own copy takes it.
      field.current?.select();
      if (!document.execCommand('copy')) return;
    }
    setCopied(handed);
  };
  return (
    <div role="status" className={handed && styles.bar}>
      {handed && (
        <>
          <span className={styles.said}>
            {copied === handed
              ? t('Copied. Paste it into a text editor and save it as {name}.', { name: handed.name })
              : words(handed)}
          </span>
          {handed.kind === 'text' && (
            <>
              <textarea
                ref={field}
                readOnly
                className={styles.text}
                aria-label={t('Text of {name}', { name: handed.name })}
                value={handed.text}
              />
              <Button size="small" appearance="primary" onClick={() => void copy()}>
                {t('Copy text')}
              </Button>
            </>
          )}
          <Button size="small" onClick={() => store.close()}>
            {t('Close')}
          </Button>
        </>
      )}
    </div>
  );
}

function words(handed: Handed): string {
  switch (handed.kind) {
    case 'sheet':
      return t(
        'This Excel lets a pane neither save a file nor print. The rows are on the new sheet {sheet}: save or print it from Excel.',
        { sheet: handed.sheet },
      );
    case 'text':
      return t(
        'This Excel lets a pane neither save a file nor print. Copy the text, paste it into a text editor and save it as {name}.',
        { name: handed.name },
      );
    case 'refused':
      return t('{name} could not be put on a new sheet. {why}', { name: handed.name, why: handed.why });
  }
}
