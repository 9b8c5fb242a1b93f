/** One cell of the sheet Rivet options as a field: written by Enter or by leaving it, Escape lets go. */
import { useId } from 'react';
import type { Cell } from '../../../sheet';
import { inUnit } from '../../../core/quantity';
import { cellText, readTypedCell } from '../../shared/cell-text';
import { t, type FieldUnit } from '../../locale';
import { LabelledField, reasonId } from '../../shared/labelled-field';
import { useDraft } from '../../shared/use-draft';
import { ValueField } from '../../shared/value-field';
import { write } from './rivet-edits';
import type { RivetsStore } from './rivets-store';

export interface OptionFieldProps {
  readonly store: RivetsStore;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** A number in inch-pound units. */
  readonly cell: Cell;
  /** Unit of the sheet's column, where its numbers have one. */
  readonly unit?: FieldUnit | undefined;
  readonly kind: 'text' | 'number';
  /** Above the field; `of` is said behind it to screen readers: "Tool price of Squeezer". */
  readonly label: string;
  readonly of?: string;
  readonly choices?: readonly string[];
  readonly autoFocus?: boolean;
}

export function OptionField({
  store,
  sheet,
  row,
  column,
  cell,
  unit,
  kind,
  label,
  of,
  choices,
  autoFocus,
}: OptionFieldProps) {
  const id = useId();
  const shown = cellText(kind, typeof cell === 'number' ? inUnit(cell, unit?.unit) : cell);
  const typing = useDraft((text) => {
    if (text.trim() === shown) return undefined;
    const typed = readTypedCell(kind, text, unit);
    if ('wrong' in typed) return typed.wrong;
    return store.change(t('Change {label}', { label }), [write(sheet, row, column, typed.cell)]);
  });
  const { refused } = typing;
  const name = of ? t('{label} of {row}', { label, row: of }) : undefined;
  return (
    <LabelledField id={id} label={label} wrong={refused}>
      <ValueField
        id={id}
        numeric={kind === 'number'}
        shown={shown}
        draft={typing}
        choices={choices}
        autoFocus={autoFocus}
        marks={{
          'aria-label': name,
          'aria-invalid': refused === undefined ? undefined : true,
          'aria-describedby': refused === undefined ? undefined : reasonId(id),
        }}
        onKeyDown={typing.onKeyDown}
      />
    </LabelledField>
  );
}
