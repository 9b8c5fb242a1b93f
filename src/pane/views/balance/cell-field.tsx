/** One cell of a sheet as a field: what is typed is written by Enter or by leaving the field, Escape lets it go. */
import { Input, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useId, useRef, type KeyboardEvent } from 'react';
import type { Edit } from '../../../sheet';
import { cellText, readTypedCell, type CellKind } from '../../shared/cell-text';
import { t, type FieldUnit } from '../../locale';
import { useDraft } from '../../shared/use-draft';
import type { BalanceStore } from './balance-store';
import { useStyles } from './styles';
import { Why } from './why';

export interface CellFieldProps {
  readonly store: BalanceStore;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly kind: CellKind;
  /** What a number of the cell is in; another unit may be typed behind it. */
  readonly unit?: FieldUnit | undefined;
  /** What the field is called, with its row and unit: "Load of Pilot (lb)". */
  readonly label: string;
  /** Shown above the field; without it the label is for screen readers, and the reason of a refusal is told to `onWrong`. */
  readonly shownLabel?: string;
  readonly choices?: readonly string[];
  readonly placeholder?: string;
  /** A text that may be long: the field grows with it. */
  readonly lines?: boolean;
  readonly autoFocus?: boolean;
  /** Id of the element that shows the reason where the field itself does not. */
  readonly describedBy?: string;
  onWrong?(wrong: string | undefined): void;
  /** What else is written in the same step of undo. */
  also?(cell: string): readonly Edit[];
}

/** What the field says to who cannot see it. */
const marksOf = (field: {
  readonly label: string;
  readonly isWrong: boolean;
  /** True where a label stands above the field. */
  readonly shown: boolean;
  readonly reasonId: string | undefined;
}) =>
  ({
    'aria-label': field.shown ? undefined : field.label,
    'aria-invalid': field.isWrong ? true : undefined,
    'aria-describedby': field.isWrong ? field.reasonId : undefined,
  }) as const;

export function CellField({
  store,
  sheet,
  row,
  column,
  kind,
  unit,
  label,
  shownLabel,
  choices,
  placeholder,
  lines = false,
  autoFocus,
  describedBy,
  onWrong,
  also,
}: CellFieldProps) {
  const styles = useStyles();
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const shown = cellText(kind, store.cell(sheet, row, column));
  const {
    draft,
    refused,
    type,
    put,
    leave,
    onKeyDown: onDraftKey,
  } = useDraft((text) => {
    if (text.trim() === shown) return undefined;
    const typed = readTypedCell(kind, text, unit);
    if ('wrong' in typed) return typed.wrong;
    // Shown at once, before the workbook has it.
    void store.writeCell(t('Change {label}', { label }), { sheet, row, column }, typed.cell, also?.(text.trim()) ?? []);
    return undefined;
  }, onWrong);
  const below = refused === undefined && draft === undefined ? store.problemAt(sheet, row, column) : undefined;
  const isWrong = refused !== undefined || below !== undefined;
  useEffect(() => {
    if (autoFocus) input.current?.focus();
  }, [autoFocus]);

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && lines) event.preventDefault();
    onDraftKey(event);
  };

  const marks = marksOf({
    label,
    isWrong,
    shown: shownLabel !== undefined,
    reasonId: shownLabel ? `${id}-wrong` : describedBy,
  });
  let field;
  if (store.hasFormula(sheet, row, column)) {
    field = (
      <span
        className={mergeClasses(styles.computed, kind === 'number' && styles.numeric)}
        title={t('from a formula of the sheet')}
      >
        {shown || '–'}
      </span>
    );
  } else if (kind === 'yes') {
    field = (
      <span className={styles.check}>
        <input
          id={id}
          type="checkbox"
          checked={/^(?:y|yes|x|true|fuel)$/i.test(shown)}
          onChange={(event) => put(event.target.checked ? 'yes' : '')}
          {...marks}
        />
      </span>
    );
  } else if (choices) {
    field = (
      <Select
        id={id}
        size="small"
        className={styles.input}
        value={shown}
        onChange={(_event, { value }) => put(value)}
        {...marks}
      >
        {!choices.includes(shown) && <option value={shown}>{shown === '' ? t('Choose…') : shown}</option>}
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </Select>
    );
  } else if (lines) {
    field = (
      <textarea
        id={id}
        rows={1}
        className={styles.lines}
        value={draft ?? shown}
        spellCheck={false}
        onChange={(event) => type(event.target.value)}
        onBlur={leave}
        onKeyDown={onKeyDown}
        {...marks}
      />
    );
  } else {
    field = (
      <Input
        id={id}
        size="small"
        input={{ ref: input }}
        className={mergeClasses(styles.input, kind === 'number' && styles.numericInput)}
        value={draft ?? shown}
        inputMode={kind === 'number' ? 'decimal' : undefined}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        onChange={(_event, { value }) => type(value)}
        onBlur={leave}
        onKeyDown={onKeyDown}
        {...marks}
      />
    );
  }
  if (!shownLabel) return field;
  return (
    <div className={styles.fact}>
      <label htmlFor={id} className={styles.label}>
        {shownLabel}
      </label>
      {field}
      {isWrong && (
        <span id={`${id}-wrong`} className={mergeClasses(styles.note, styles.wrong)}>
          <Why own={refused} below={below} />
        </span>
      )}
    </div>
  );
}
