/** A table in a box of its own: where its words are wider than the pane, the box scrolls, and no word breaks inside. */
import { makeStyles } from '@fluentui/react-components';
import { RING } from './looks';
import { useLayoutEffect, useRef, useState, type ComponentProps, type RefObject } from 'react';
import { t } from '../locale';

const useStyles = makeStyles({
  box: {
    overflowX: 'auto',
    minWidth: 0,
    // Unlike `anywhere`, this leaves a column the width of its longest word.
    '& th, & td': { overflowWrap: 'break-word' },
    ':focus-visible': RING,
  },
});

export function ScrollTable(table: ComponentProps<'table'>) {
  const styles = useStyles();
  const box = useRef<HTMLDivElement>(null);
  const scrolls = useScrolls(box);
  // A box that scrolls is a stop of Tab, so that the arrow keys can scroll it.
  const stop = scrolls ? { tabIndex: 0, role: 'group', 'aria-label': t('Table, wider than the pane') } : {};
  return (
    <div ref={box} className={styles.box} {...stop}>
      <table {...table} />
    </div>
  );
}

/** Whether the content is wider than the box, kept up to date. */
function useScrolls(box: RefObject<HTMLDivElement | null>): boolean {
  const [scrolls, setScrolls] = useState(false);
  useLayoutEffect(() => {
    const watched = box.current;
    if (!watched) return;
    const observer = new ResizeObserver(() => setScrolls(watched.scrollWidth > watched.clientWidth + 1));
    observer.observe(watched);
    if (watched.firstElementChild) observer.observe(watched.firstElementChild);
    return () => observer.disconnect();
  }, [box]);
  return scrolls;
}
