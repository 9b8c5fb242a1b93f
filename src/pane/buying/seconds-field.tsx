/** How long the search for a plan may take: read when it is left or by Enter, Escape lets go. */
import { Input, mergeClasses } from '@fluentui/react-components';
import { useId, useState, type KeyboardEvent } from 'react';
import { cellText, readTyped } from '../cell-text';
import { t } from '../locale';
import { LONGEST_SECONDS, type PlanStore } from './plan-store';
import { useStyles } from './styles';

export function SecondsField({ store, seconds, disabled }: { readonly store: PlanStore; readonly seconds: number; readonly disabled: boolean }) {
  const styles = useStyles();
  const id = useId();
  const [draft, setDraft] = useState<string>();
  const [refused, setRefused] = useState<string>();
  const letGo = (): void => {
    setDraft(undefined);
    setRefused(undefined);
  };
  const put = (text: string): void => {
    const typed = readTyped('number', text);
    if ('wrong' in typed) return setRefused(typed.wrong);
    if (typeof typed.cell !== 'number' || typed.cell < 1 || typed.cell > LONGEST_SECONDS) return setRefused(t('“{typed}”: takes seconds from 1 to {longest, number}', { typed: text, longest: LONGEST_SECONDS }));
    store.allow(typed.cell);
    letGo();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && draft !== undefined) put(draft);
    if (event.key !== 'Escape' || draft === undefined) return;
    event.stopPropagation();
    letGo();
  };
  return (
    <div className={styles.field}>
      <label htmlFor={id} className={styles.label}>
        {t('Time limit (s)')}
      </label>
      <Input
        id={id}
        size="small"
        className={styles.input}
        value={draft ?? cellText('number', seconds)}
        inputMode="decimal"
        autoComplete="off"
        disabled={disabled}
        aria-invalid={refused === undefined ? undefined : true}
        aria-describedby={refused === undefined ? undefined : `${id}-wrong`}
        onChange={(_event, { value }) => {
          setDraft(value);
          setRefused(undefined);
        }}
        onBlur={() => draft !== undefined && put(draft)}
        onKeyDown={onKeyDown}
      />
      {refused !== undefined && (
        <span id={`${id}-wrong`} className={mergeClasses(styles.wrong)}>
          {refused}
        </span>
      )}
    </div>
  );
}
