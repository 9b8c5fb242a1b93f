/** The field of one value of a sheet: a list of choices, or a text that counts when it is entered. */
import { Input, makeStyles, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useRef, type KeyboardEvent } from 'react';
import { t } from '../locale';
import type { FieldDraft } from './use-draft';

const useStyles = makeStyles({
  input: { width: '100%', minWidth: 0 },
  numericInput: { '& input': { textAlign: 'right', fontVariantNumeric: 'tabular-nums' } },
});

interface Props {
  readonly id: string;
  readonly numeric: boolean;
  /** The value as it stands on the sheet. */
  readonly shown: string;
  readonly draft: Pick<FieldDraft, 'draft' | 'type' | 'put' | 'leave'>;
  readonly choices?: readonly string[] | undefined;
  readonly placeholder?: string | undefined;
  readonly autoFocus?: boolean | undefined;
  /** What the field says to who cannot see it. */
  readonly marks: {
    readonly 'aria-label'?: string | undefined;
    readonly 'aria-invalid'?: true | undefined;
    readonly 'aria-describedby'?: string | undefined;
  };
  onKeyDown(event: KeyboardEvent): void;
}

export function ValueField({ id, numeric, shown, draft, choices, placeholder, autoFocus, marks, onKeyDown }: Props) {
  const styles = useStyles();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (autoFocus) input.current?.focus();
  }, [autoFocus]);
  if (choices)
    return (
      <Select
        id={id}
        size="small"
        className={styles.input}
        value={shown}
        onChange={(_event, { value }) => draft.put(value)}
        {...marks}
      >
        {!choices.includes(shown) && <option value={shown}>{shown === '' ? t('Choose…') : shown}</option>}
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </Select>
    );
  return (
    <Input
      id={id}
      size="small"
      input={{ ref: input }}
      className={mergeClasses(styles.input, numeric && styles.numericInput)}
      value={draft.draft ?? shown}
      inputMode={numeric ? 'decimal' : undefined}
      placeholder={placeholder}
      autoComplete="off"
      spellCheck={false}
      onChange={(_event, { value }) => draft.type(value)}
      onBlur={draft.leave}
      onKeyDown={onKeyDown}
      {...marks}
    />
  );
}
