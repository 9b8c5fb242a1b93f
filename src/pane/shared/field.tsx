/** The field of one value of a sheet: its label, what is typed before it counts, and why it is not taken. */
import { Input, makeStyles, mergeClasses, Select, tokens } from '@fluentui/react-components';
import { useEffect, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { t } from '../locale';

const useStyles = makeStyles({
  field: { display: 'flex', flexDirection: 'column', minWidth: 0 },
  label: { color: tokens.colorNeutralForeground2 },
  wrong: { display: 'block', overflowWrap: 'break-word', color: tokens.colorStatusDangerForeground3 },
  input: { width: '100%', minWidth: 0 },
  numericInput: { '& input': { textAlign: 'right', fontVariantNumeric: 'tabular-nums' } },
});

export interface FieldDraft {
  /** Undefined while nothing is being typed. */
  readonly draft: string | undefined;
  /** Why what was typed does not count. */
  readonly refused: string | undefined;
  type(text: string): void;
  put(text: string): void;
  /** Puts what is typed, if there is something. */
  leave(): void;
  onKeyDown(event: KeyboardEvent): void;
}

/**
 * Enter or leaving the field puts what is typed, Escape lets it go.
 * @param put takes a text: gives why it is refused, undefined where it is taken, or what is waited for until it is
 * @param onWrong is told the reason of a refusal, and when it is gone
 */
export function useDraft(
  put: (text: string) => string | undefined | Promise<unknown>,
  onWrong?: (wrong: string | undefined) => void,
): FieldDraft {
  const [draft, setDraft] = useState<string>();
  const [refused, setRefused] = useState<string>();
  const refuse = (reason: string | undefined): void => {
    setRefused(reason);
    onWrong?.(reason);
  };
  const letGo = (): void => {
    setDraft(undefined);
    refuse(undefined);
  };
  const take = (text: string): void => {
    const answer = put(text);
    if (typeof answer === 'string') refuse(answer);
    else if (answer === undefined) letGo();
    else void answer.then(letGo);
  };
  const leave = (): void => {
    if (draft !== undefined) take(draft);
  };
  return {
    draft,
    refused,
    leave,
    put: take,
    type(text) {
      setDraft(text);
      if (refused !== undefined) refuse(undefined);
    },
    onKeyDown(event) {
      if (event.key === 'Enter') leave();
      if (event.key !== 'Escape' || draft === undefined) return;
      event.stopPropagation();
      letGo();
    },
  };
}

/** Id of the reason, for the field's aria-describedby. */
export const reasonId = (id: string): string => `${id}-wrong`;

/** A label above a field, and below it why what was typed is not taken. */
export function LabelledField({
  id,
  label,
  wrong,
  children,
}: {
  /** Of the field. */
  readonly id: string;
  readonly label: string;
  /** The reason; undefined where there is none. */
  readonly wrong: ReactNode;
  readonly children: ReactNode;
}) {
  const styles = useStyles();
  return (
    <div className={styles.field}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      {children}
      {wrong !== undefined && (
        <span id={reasonId(id)} className={styles.wrong}>
          {wrong}
        </span>
      )}
    </div>
  );
}

/** What is wrong with a cell: the pane's own refusal before what was found below the pane, which is in English. */
export function Why({ own, below }: { readonly own: string | undefined; readonly below: string | undefined }) {
  if (own !== undefined) return <>{own}</>;
  return below === undefined ? null : <span lang="en">{below}</span>;
}

/** A list of choices, or a text that counts when it is entered. */
export function ValueField({
  id,
  numeric,
  shown,
  draft,
  choices,
  placeholder,
  autoFocus,
  marks,
  onKeyDown,
}: {
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
}) {
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
