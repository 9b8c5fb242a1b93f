/** One cell of a sheet as a field: what is typed is written by Enter or by leaving the field, Escape lets it go. */
import { mergeClasses } from '@fluentui/react-components';
import { useId, type KeyboardEvent } from 'react';
import type { Edit } from '../../../sheet';
import { cellText, readTypedCell, type CellKind } from '../../shared/cell-text';
import { t, type FieldUnit } from '../../locale';
import { useDraft } from '../../shared/use-draft';
import { ValueField } from '../../shared/value-field';
import { LabelledField, reasonId, Why } from '../../shared/labelled-field';
import type { BalanceStore } from './balance-store';
import { useStyles } from './styles';

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
  const shown = cellText(kind, store.cell(sheet, row, column));
  const typing = useDraft((text) => {
    if (text.trim() === shown) return undefined;
    const typed = readTypedCell(kind, text, unit);
    if ('wrong' in typed) return typed.wrong;
    // Shown at once, before the workbook has it.
    void store.writeCell(t('Change {label}', { label }), { sheet, row, column }, typed.cell, also?.(text.trim()) ?? []);
    return undefined;
  }, onWrong);
  const { draft, refused } = typing;
  const below = refused === undefined && draft === undefined ? store.problemAt(sheet, row, column) : undefined;
  const isWrong = refused !== undefined || below !== undefined;
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && lines) event.preventDefault();
    typing.onKeyDown(event);
  };
  const reason = shownLabel ? reasonId(id) : describedBy;
  /** What the field says to who cannot see it. */
  const marks = {
    'aria-label': shownLabel === undefined ? label : undefined,
    'aria-invalid': isWrong ? true : undefined,
    'aria-describedby': isWrong ? reason : undefined,
  } as const;
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
          onChange={(event) => typing.put(event.target.checked ? 'yes' : '')}
          {...marks}
        />
      </span>
    );
  } else if (lines && !choices) {
    field = (
      <textarea
        id={id}
        rows={1}
        className={styles.lines}
        value={draft ?? shown}
        spellCheck={false}
        onChange={(event) => typing.type(event.target.value)}
        onBlur={typing.leave}
        onKeyDown={onKeyDown}
        {...marks}
      />
    );
  } else {
    field = (
      <ValueField
        id={id}
        numeric={kind === 'number'}
        shown={shown}
        draft={typing}
        choices={choices}
        placeholder={placeholder}
        autoFocus={autoFocus}
        marks={marks}
        onKeyDown={onKeyDown}
      />
    );
  }
  if (!shownLabel) return field;
  return (
    <LabelledField id={id} label={shownLabel} wrong={isWrong ? <Why own={refused} below={below} /> : undefined}>
      {field}
    </LabelledField>
  );
}
