import { Link, makeStyles, tokens } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { useStore } from '../store';
import type { PaneContext } from '../view';
import { ExplainStore } from './explain-store';

const useStyles = makeStyles({
  line: { borderTop: `1px solid ${tokens.colorNeutralStroke2}`, backgroundColor: tokens.colorNeutralBackground2, padding: '6px 12px', flexShrink: 0, overflowWrap: 'anywhere' },
  head: { fontWeight: tokens.fontWeightSemibold },
});

/** A quiet line at the foot of the pane: why the selected cell shows an error. */
export function ExplainLine({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new ExplainStore(pane.workbook));
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  const { explanation } = useStore(store);
  const styles = useStyles();
  const help = explanation?.functionName ? pane.helpUrl?.(explanation.functionName) : undefined;
  return (
    <div role="status" aria-label="The selected cell" className={explanation && styles.line}>
      {explanation && (
        <>
          <span className={styles.head}>
            {explanation.cell} {explanation.code}
            {explanation.functionName && ` TARE.${explanation.functionName}`}
          </span>
          <br />
          {explanation.text}
          {help && (
            <>
              {' '}
              <Link href={help} target="_blank" rel="noreferrer" inline>
                About {explanation.functionName}
              </Link>
            </>
          )}
        </>
      )}
    </div>
  );
}
