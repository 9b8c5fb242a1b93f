import { Link, makeStyles, tokens } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { t } from '../locale';
import { useStore } from '../shared/store';
import type { PaneContext } from '../shared/view';
import { ExplainStore } from './explain-store';

const useStyles = makeStyles({
  line: {
    borderTop: `1px solid ${tokens.colorNeutralStroke2}`,
    backgroundColor: tokens.colorNeutralBackground2,
    padding: '6px 12px',
    flexShrink: 0,
    overflowWrap: 'break-word',
  },
  head: { fontWeight: tokens.fontWeightSemibold },
});

const NAMESPACE = 'TARE.';

/** A quiet line at the foot of the pane: why the selected cell shows an error, or what its row comes to. */
export function ExplainLine({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new ExplainStore(pane.workbook));
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  const { explanation, rowFigures } = useStore(store);
  const styles = useStyles();
  // What has no such name has no page either.
  const isKnown = explanation?.functionName && explanation.code !== '#NAME?';
  const help = isKnown ? pane.helpUrl?.(explanation.functionName) : undefined;
  return (
    <div
      role="status"
      aria-label={t('The selected cell')}
      className={explanation || rowFigures ? styles.line : undefined}
    >
      {explanation ? (
        <>
          <span className={styles.head}>
            {explanation.cell} {explanation.code}
            {explanation.functionName && ` ${NAMESPACE}${explanation.functionName}`}
          </span>
          <br />
          <span lang={explanation.own ? 'en' : undefined}>{explanation.text}</span>
          {help && (
            <>
              {' '}
              <Link href={help} target="_blank" rel="noreferrer" inline>
                {t('About {name}', { name: explanation.functionName })}
              </Link>
            </>
          )}
        </>
      ) : (
        rowFigures
      )}
    </div>
  );
}
