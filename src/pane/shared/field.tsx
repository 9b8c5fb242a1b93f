/**
 * The field of one value of a sheet: a cell as it is typed, what was typed as a cell and the unit of both, the field's
 * label, what is typed before it counts, and why it is not taken.
 */
import { Input, makeStyles, mergeClasses, Select, tokens } from '@fluentui/react-components';
import { useState, type KeyboardEvent, type ReactNode } from 'react';
import { serialFromIso } from '../../core/price';
import { labelDimension } from '../../core/quantity';
import { isoDate, type Fact, type FormSheet, type SheetForm } from '../../project';
import { CellError, type Cell } from '../../sheet';
import { cellNumber, readNumber, t, type FieldUnit } from '../locale';
import { useFocus } from './element';

/** 'yes': a mark that is there or not, typed as the word yes. */
export type CellKind = 'text' | 'number' | 'date' | 'yes';

export function cellText(kind: CellKind, cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof CellError) return cell.code;
  if (kind === 'date') return isoDate(cell) ?? String(cell);
  return typeof cell === 'number' ? cellNumber(cell) : String(cell);
}

/** Reads what was typed; `unit` is the one that a number of the cell is in, and lets another be typed behind it. */
export function readTypedCell(
  kind: CellKind,
  typed: string,
  unit?: FieldUnit,
): { readonly cell: Cell } | { readonly wrong: string } {
  const text = typed.trim();
  if (text === '') return { cell: null };
  if (kind === 'text' || kind === 'yes') return { cell: text };
  if (kind === 'date') {
    const serial = serialFromIso(text);
    return serial === undefined
      ? { wrong: t('“{typed}” is not a date. Type year-month-day, such as 2026-03-31', { typed: text }) }
      : { cell: serial };
  }
  const read = readNumber(text, unit);
  return 'wrong' in read ? read : { cell: read.value };
}

/** The unit of a column's field; undefined where the column has no dimension, or its unit cannot be told. */
export function columnUnit<K extends string>(
  form: SheetForm<K>,
  { units }: Pick<FormSheet<K>, 'units'>,
  key: K,
): FieldUnit | undefined {
  const dimension = form.columns.find((column) => column.key === key)?.dimension;
  const unit = units[key];
  return dimension && unit && { dimension, unit };
}

/** The unit of a fact's field. */
export function factUnit(label: string, { unit }: Fact): FieldUnit | undefined {
  const dimension = labelDimension(label);
  return dimension && unit && { dimension, unit };
}

/** A form's label with the unit that the sheet names: "Hinge line (mm)"; without any where that cannot be told. */
export const ownLabel = (label: string, unit: FieldUnit | undefined): string =>
  labelDimension(label) === undefined
    ? label
    : label.replace(/\s*\([^)]*\)\s*$/, () => (unit ? ` (${unit.unit.sign})` : ''));

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
  const input = useFocus<HTMLInputElement>(autoFocus);
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
