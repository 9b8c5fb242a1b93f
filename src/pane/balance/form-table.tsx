/** The rows of a form's sheet as a table to type in; below each row what follows from it, and what is wrong with it. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useId, useRef, useState, type ReactNode } from 'react';
import type { Edit, FormSheet, SheetForm } from '../../workbook';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import type { CellKind } from './cell-text';
import { nextRow } from './row-edits';
import { useStyles } from './styles';

export interface TableColumn<K extends string> {
  readonly key: K;
  readonly head: string;
  readonly kind: CellKind;
  readonly choices?: readonly string[];
  /** Share of the table's width. */
  readonly width: string;
}

export interface FormTableProps<K extends string> {
  readonly store: BalanceStore;
  readonly form: SheetForm<K>;
  readonly found: FormSheet<K>;
  readonly columns: readonly TableColumn<K>[];
  /** Rows of the sheet that are shown. */
  readonly rows: readonly number[];
  /** "Add point"; without it no rows can be added. */
  readonly addLabel?: string;
  /** Row of the sheet that new ones must stay above. */
  readonly limit?: number;
  nameOf(row: number): string;
  /** What follows from the row. */
  below?(row: number): ReactNode;
  remove?(row: number): readonly Edit[] | string;
  also?(row: number, key: K, text: string): readonly Edit[];
}

export function FormTable<K extends string>({ store, form, found, columns, rows, addLabel, limit, nameOf, below, remove, also }: FormTableProps<K>) {
  const styles = useStyles();
  const id = useId();
  const table = useRef<HTMLTableElement>(null);
  const addButton = useRef<HTMLButtonElement>(null);
  const [adding, setAdding] = useState<number>();
  const [wrong, setWrong] = useState<ReadonlyMap<string, string>>(new Map());
  const { sheet } = found;
  const shown = adding !== undefined && !rows.includes(adding) ? [...rows, adding] : rows;
  const there = columns.filter(({ key }) => found.columns[key] !== undefined);

  const add = (): void => {
    const next = nextRow(form, found, rows, store.state.sheets, limit);
    if ('full' in next) store.tell('failed', next.full);
    else setAdding(next.row);
  };
  const takeOut = async (row: number): Promise<void> => {
    const name = nameOf(row) || 'a row';
    setAdding(undefined);
    const edits = rows.includes(row) ? (remove?.(row) ?? []) : [];
    if (typeof edits === 'string') return store.tell('failed', edits);
    addButton.current?.focus();
    if (edits.length > 0) await store.change(`Remove ${name}`, edits, `Removed ${name}. Undo brings it back.`);
  };
  const tellWrong = (key: string, reason: string | undefined): void => {
    const next = new Map(wrong);
    if (reason === undefined) next.delete(key);
    else next.set(key, reason);
    setWrong(next);
  };
  const reasons = (row: number): string[] =>
    there.flatMap(({ key, head }) => {
      const reason = wrong.get(`${row}:${key}`) ?? store.problemAt(sheet, row, found.columns[key]!);
      return reason === undefined ? [] : [`${plainHead(head)}: ${reason}`];
    });

  return (
    <>
      {shown.length > 0 && (
        <table ref={table} className={styles.table}>
          <colgroup>
            {there.map(({ key, width }) => (
              <col key={key} style={{ width }} />
            ))}
          </colgroup>
          <thead>
            <tr>
              {there.map(({ key, head, kind }) => (
                <th key={key} scope="col" className={kind === 'number' ? styles.numericHead : undefined}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          {shown.map((row) => {
            const why = reasons(row);
            const name = nameOf(row) || `row ${row + 1}`;
            return (
              <tbody key={row}>
                <tr>
                  {there.map(({ key, head, kind, choices }, place) => (
                    <td key={key}>
                      <CellField
                        store={store}
                        sheet={sheet}
                        row={row}
                        column={found.columns[key]!}
                        kind={kind}
                        label={place === 0 ? `${head} in row ${row + 1}` : `${head} of ${name}`}
                        describedBy={`${id}-${row}`}
                        autoFocus={row === adding && place === 0}
                        onWrong={(reason) => tellWrong(`${row}:${key}`, reason)}
                        {...(choices ? { choices } : {})}
                        {...(also ? { also: (text: string) => also(row, key, text) } : {})}
                      />
                    </td>
                  ))}
                </tr>
                <tr>
                  <td colSpan={there.length} className={styles.below}>
                    <div className={styles.belowLine}>
                      <span className={styles.grow}>
                        {below?.(row)}
                        <span id={`${id}-${row}`} className={mergeClasses(styles.note, styles.wrong)}>
                          {why.join(' ')}
                        </span>
                      </span>
                      {remove && (
                        <Button size="small" appearance="subtle" onClick={() => void takeOut(row)} aria-label={`Remove ${name}`}>
                          Remove
                        </Button>
                      )}
                    </div>
                  </td>
                </tr>
              </tbody>
            );
          })}
        </table>
      )}
      {addLabel && (
        <div className={styles.buttons}>
          <Button ref={addButton} size="small" onClick={add}>
            {addLabel}
          </Button>
        </div>
      )}
    </>
  );
}

/** Without its unit. */
const plainHead = (head: string): string => head.replace(/\s*\([^)]*\)$/, '').replace(/, [^,]*$/, '');
