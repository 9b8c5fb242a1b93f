/** The row of tabs: one Tab stop, arrow keys between tabs. */
import { makeStyles, mergeClasses, tokens } from '@fluentui/react-components';
import { useRef, type KeyboardEvent } from 'react';
import { t, type Marked } from '../locale';
import { HAIRLINE, RING } from './looks';

const useStyles = makeStyles({
  list: {
    flexShrink: 0,
    display: 'flex',
    flexWrap: 'wrap',
    borderBottom: HAIRLINE,
    padding: '0 4px',
  },
  tab: {
    minHeight: '32px',
    padding: '4px 8px',
    border: 'none',
    borderBottom: '2px solid transparent',
    background: 'none',
    color: tokens.colorNeutralForeground2,
    font: 'inherit',
    cursor: 'pointer',
    ':hover': { borderBottomColor: tokens.colorNeutralStroke1Hover },
    ':focus-visible': RING,
  },
  open: {
    borderBottomColor: tokens.colorCompoundBrandStroke,
    color: tokens.colorNeutralForeground1,
    fontWeight: tokens.fontWeightSemibold,
  },
});

export function Tabs({
  label,
  tabs,
  open,
  onOpen,
}: {
  /** Name of the row of tabs, in the pane’s language. */
  readonly label: string;
  readonly tabs: readonly { readonly id: string; readonly label: Marked }[];
  readonly open: string;
  onOpen(id: string): void;
}) {
  const styles = useStyles();
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent): void => {
    const at = tabs.findIndex(({ id }) => id === open);
    const step = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
    const to = step === undefined ? undefined : tabs[(step + tabs.length) % tabs.length];
    if (!to) return;
    event.preventDefault();
    onOpen(to.id);
    list.current?.querySelector<HTMLElement>(`#tab-${to.id}`)?.focus();
  };
  return (
    <div ref={list} role="tablist" aria-label={label} className={styles.list} onKeyDown={onKeyDown}>
      {tabs.map(({ id, label: text }) => (
        <button
          key={id}
          id={`tab-${id}`}
          type="button"
          role="tab"
          aria-selected={id === open}
          aria-controls={id === open ? `view-${id}` : undefined}
          tabIndex={id === open ? 0 : -1}
          className={mergeClasses(styles.tab, id === open && styles.open)}
          onClick={() => onOpen(id)}
        >
          {t(text)}
        </button>
      ))}
    </div>
  );
}
