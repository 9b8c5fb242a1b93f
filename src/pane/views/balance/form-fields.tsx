/** What is typed into a form's sheet: one of its cells as a field, and its rows as a table of such fields. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { Fragment, useId, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import type { FormSheet, SheetForm } from '../../../project';
import type { Edit } from '../../../sheet';
import { rich, t, type FieldUnit, type Marked } from '../../locale';
import {
  type CellKind,
  cellText,
  columnUnit,
  readTypedCell,
  LabelledField,
  reasonId,
  useDraft,
  ValueField,
  Why,
} from '../../shared/field';
import { ScrollTable } from '../../shared/scroll-table';
import { useWidth } from '../../shared/element';
import type { BalanceStore } from './balance-store';
import { nextRow } from './edits';
import { useStyles } from './styles';

/** One cell of a sheet as a field: what is typed is written by Enter or by leaving the field, Escape lets it go. */
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
}: {
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
}) {
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

/** From this width on a row stands in one line. */
const ONE_LINE = 440;

export interface TableColumn<K extends string> {
  readonly key: K;
  /** Without the unit, which is the sheet's. */
  readonly head: Marked;
  readonly kind: CellKind;
  /** Share of the table's width. */
  readonly width: string;
  /** Has a line of its own where the table is narrow: a name, a note. */
  readonly line?: boolean;
}

/**
 * A row that is being added below those of a form: it is shown before the sheet has anything in it.
 * @param limit row of the sheet that it must stay above
 */
export function useAdding<K extends string>(
  store: BalanceStore,
  form: SheetForm<K>,
  found: FormSheet<K>,
  rows: readonly number[],
  limit?: number,
) {
  const [adding, setAdding] = useState<number>();
  const add = (): void => {
    const next = nextRow(form, found, rows, store.state.sheets, limit);
    if ('full' in next) store.tell('failed', next.full);
    else setAdding(next.row);
  };
  const shown = adding !== undefined && !rows.includes(adding) ? [...rows, adding] : rows;
  return { adding, shown, add, stop: () => setAdding(undefined) };
}

/** The rows of a form's sheet as a table to type in; below each row what follows from it, and what is wrong with it. */
export function FormTable<K extends string>({
  store,
  form,
  found,
  columns,
  rows,
  addLabel,
  limit,
  nameOf,
  below,
  remove,
  also,
}: {
  readonly store: BalanceStore;
  readonly form: SheetForm<K>;
  readonly found: FormSheet<K>;
  readonly columns: readonly TableColumn<K>[];
  /** Rows of the sheet that are shown. */
  readonly rows: readonly number[];
  /** "Add point". */
  readonly addLabel: string;
  /** Row of the sheet that new ones must stay above. */
  readonly limit?: number;
  nameOf(row: number): string;
  /** What follows from the row. */
  below?(row: number): ReactNode;
  remove(row: number): readonly Edit[] | string;
  also?(row: number, key: K, text: string): readonly Edit[];
}) {
  const styles = useStyles();
  const id = useId();
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const addButton = useRef<HTMLButtonElement>(null);
  const { adding, shown, add, stop } = useAdding(store, form, found, rows, limit);
  const [wrong, setWrong] = useState<ReadonlyMap<string, string | undefined>>(new Map());
  const { sheet } = found;
  const there = columns.filter(({ key }) => found.columns[key] !== undefined);
  const narrow = width < ONE_LINE;
  const own = narrow ? there.find(({ line }) => line) : undefined;
  const ownFirst = own !== undefined && own === there[0];
  const across = own ? there.filter((column) => column !== own) : there;
  const nameKey = there[0]?.kind === 'text' ? there[0].key : undefined;

  const takeOut = async (row: number): Promise<void> => {
    const name = nameOf(row) || t('a row');
    stop();
    const edits = rows.includes(row) ? remove(row) : [];
    if (typeof edits === 'string') return store.tell('failed', edits);
    addButton.current?.focus();
    if (edits.length > 0)
      await store.change(t('Remove {name}', { name }), edits, t('Removed {name}. Undo brings it back.', { name }));
  };
  const reasons = (row: number): ReactNode[] =>
    there.flatMap(({ key, head }) => {
      const [own, below] = [wrong.get(`${row}:${key}`), store.problemAt(sheet, row, found.columns[key]!)];
      if (own === undefined && below === undefined) return [];
      return [
        <Fragment key={key}>
          {rich('{column}: {why}', { column: t(head), why: <Why key="why" own={own} below={below} /> })}{' '}
        </Fragment>,
      ];
    });
  const headOf = ({ key, head }: TableColumn<K>): string => {
    const unit = columnUnit(form, found, key);
    return unit ? t('{column}, {unit}', { column: t(head), unit: unit.unit.sign }) : t(head);
  };
  const rowName = (row: number): string => nameOf(row) || t('row {row, number}', { row: row + 1 });

  const field = (column: TableColumn<K>, row: number): ReactNode => {
    const { key, kind } = column;
    const head = headOf(column);
    return (
      <CellField
        store={store}
        sheet={sheet}
        row={row}
        column={found.columns[key]!}
        kind={kind}
        unit={columnUnit(form, found, key)}
        label={
          key === nameKey
            ? t('{column} in row {row, number}', { column: head, row: row + 1 })
            : t('{column} of {row}', { column: head, row: rowName(row) })
        }
        describedBy={`${id}-${row}`}
        autoFocus={row === adding && key === there[0]?.key}
        onWrong={(reason) => setWrong(new Map(wrong).set(`${row}:${key}`, reason))}
        {...(narrow && kind === 'text' ? { placeholder: head } : {})}
        {...(also ? { also: (text: string) => also(row, key, text) } : {})}
      />
    );
  };
  const removal = (row: number): ReactNode => (
    <Button
      size="small"
      appearance="subtle"
      onClick={() => void takeOut(row)}
      aria-label={t('Remove {name}', { name: rowName(row) })}
    >
      {t('Remove')}
    </Button>
  );
  /** A column with a line of its own, beside it the way to remove the row. */
  const ownLine = (column: TableColumn<K>, row: number): ReactNode => (
    <tr>
      <td colSpan={across.length}>
        <div className={styles.belowLine}>
          <span className={styles.grow}>{field(column, row)}</span>
          {removal(row)}
        </div>
      </td>
    </tr>
  );

  return (
    <div ref={frame}>
      {shown.length > 0 && (
        <ScrollTable className={styles.table}>
          <colgroup>
            {across.map(({ key, width }) => (
              <col key={key} style={{ width: narrow ? `${100 / across.length}%` : width }} />
            ))}
          </colgroup>
          <thead>
            <tr>
              {across.map((column) => (
                <th key={column.key} scope="col" data-number={column.kind === 'number' ? '' : undefined}>
                  {headOf(column)}
                </th>
              ))}
            </tr>
          </thead>
          {shown.map((row) => {
            const why = reasons(row);
            const follows = below?.(row);
            return (
              <tbody key={row} data-item="">
                {own && ownFirst && ownLine(own, row)}
                <tr>
                  {across.map((column) => (
                    <td key={column.key}>{field(column, row)}</td>
                  ))}
                </tr>
                {own && !ownFirst && ownLine(own, row)}
                {(!own || follows || why.length > 0) && (
                  <tr>
                    <td colSpan={across.length} data-below="">
                      <div className={styles.belowLine}>
                        <span className={styles.grow}>
                          {follows}
                          <span id={`${id}-${row}`} className={mergeClasses(styles.note, styles.wrong)}>
                            {why}
                          </span>
                        </span>
                        {!own && removal(row)}
                      </div>
                    </td>
                  </tr>
                )}
              </tbody>
            );
          })}
        </ScrollTable>
      )}
      <div className={styles.buttons}>
        <Button ref={addButton} size="small" onClick={add}>
          {addLabel}
        </Button>
      </div>
    </div>
  );
}
