/** A table in a box of its own: where its words are wider than the pane, the box scrolls, and no word breaks inside. And the head of one. */
import { makeStyles } from '@fluentui/react-components';
import { useRef, type ComponentProps } from 'react';
import { t } from '../locale';
import { RING, SPOKEN } from './looks';
import { useMeasured } from './element';

const useStyles = makeStyles({
  box: {
    overflowX: 'auto',
    minWidth: 0,
    // Unlike `anywhere`, this leaves a column the width of its longest word.
    '& th, & td': { overflowWrap: 'break-word' },
    ':focus-visible': RING,
  },
  spoken: SPOKEN,
});

/** A column's head: a text, one over numbers, or one that is read aloud and not shown. */
type Head = string | { readonly number: string } | { readonly spoken: string };

/** The head of a table, one cell a column; what is false or undefined is no column. */
export function TableHead({ heads }: { readonly heads: readonly (Head | false | undefined)[] }) {
  const styles = useStyles();
  const cells = heads.filter((head): head is Head => head !== false && head !== undefined);
  return (
    <thead>
      <tr>
        {cells.map((head, index) => (
          // A column is known by its place: two may have one text.
          <th key={index} scope="col" data-number={typeof head === 'object' && 'number' in head ? '' : undefined}>
            {typeof head === 'string' ? (
              head
            ) : 'number' in head ? (
              head.number
            ) : (
              <span className={styles.spoken}>{head.spoken}</span>
            )}
          </th>
        ))}
      </tr>
    </thead>
  );
}

export function ScrollTable(table: ComponentProps<'table'>) {
  const styles = useStyles();
  const box = useRef<HTMLDivElement>(null);
  // A box that scrolls is a stop of Tab, so that the arrow keys can scroll it.
  const stop = useMeasured(box, false, isScrolled)
    ? { tabIndex: 0, role: 'group', 'aria-label': t('Table, wider than the pane') }
    : {};
  return (
    <div ref={box} className={styles.box} {...stop}>
      <table {...table} />
    </div>
  );
}

/** Whether the content is wider than the box. */
const isScrolled = ({ scrollWidth, clientWidth }: HTMLElement): boolean => scrollWidth > clientWidth + 1;
