/** How long the search for a plan may take: read when it is left or by Enter, Escape lets go. */
import { Input } from '@fluentui/react-components';
import { useId } from 'react';
import { cellText, readTypedCell } from '../../shared/cell-text';
import { t } from '../../locale';
import { LabelledField, reasonId } from '../../shared/labelled-field';
import { useDraft } from '../../shared/use-draft';
import { LONGEST_SECONDS, type PlanStore } from './plan-store';
import { useStyles } from './styles';

export function SecondsField({
  store,
  seconds,
  disabled,
}: {
  readonly store: PlanStore;
  readonly seconds: number;
  readonly disabled: boolean;
}) {
  const styles = useStyles();
  const id = useId();
  const { draft, refused, type, leave, onKeyDown } = useDraft((text) => {
    const typed = readTypedCell('number', text);
    if ('wrong' in typed) return typed.wrong;
    if (typeof typed.cell !== 'number' || typed.cell < 1 || typed.cell > LONGEST_SECONDS)
      return t('“{typed}” is not a time. Type seconds from 1 to {longest, number}', {
        typed: text,
        longest: LONGEST_SECONDS,
      });
    store.allow(typed.cell);
    return undefined;
  });
  return (
    <LabelledField id={id} label={t('Time limit (s)')} wrong={refused}>
      <Input
        id={id}
        size="small"
        className={styles.input}
        value={draft ?? cellText('number', seconds)}
        inputMode="decimal"
        autoComplete="off"
        disabled={disabled}
        aria-invalid={refused === undefined ? undefined : true}
        aria-describedby={refused === undefined ? undefined : reasonId(id)}
        onChange={(_event, { value }) => type(value)}
        onBlur={leave}
        onKeyDown={onKeyDown}
      />
    </LabelledField>
  );
}
