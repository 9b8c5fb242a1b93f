/** One of the lists of the sheet Rivet options, to type in. */
import { Button } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { type FormSheet, type SheetForm } from '../../../project';
import { textIn } from '../../../sheet';
import { columnUnit, ownLabel } from '../../shared/field-units';
import { t } from '../../locale';
import { clearRow, rowBelow } from './rivet-edits';
import { OptionField } from './option-field';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';

export interface ListEditorProps<K extends string> {
  readonly store: RivetsStore;
  readonly form: SheetForm<K>;
  readonly found: FormSheet<K>;
  readonly numbers: readonly K[];
  readonly heading: string;
  readonly help: string;
  readonly addLabel: string;
}

export function ListEditor<K extends string>({
  store,
  form,
  found,
  numbers,
  heading,
  help,
  addLabel,
}: ListEditorProps<K>) {
  const styles = useStyles();
  const [adding, setAdding] = useState<number>();
  const addButton = useRef<HTMLButtonElement>(null);
  const filled = found.rows.map(({ row }) => row);
  const rows = adding !== undefined && !filled.includes(adding) ? [...filled, adding] : filled;
  const first = form.columns[0]!.key;
  return (
    <>
      <h3 className={styles.subheading}>{heading}</h3>
      <p className={styles.quiet}>{help}</p>
      {rows.map((row) => {
        const cells = found.rows.find((one) => one.row === row)?.cells;
        const name = textIn(cells?.[first]) || t('row {row, number}', { row: row + 1 });
        return (
          <div key={row} className={styles.rowFields} role="group" aria-label={name}>
            {form.columns.map(({ key, label, choices }, index) => {
              const column = found.columns[key];
              if (column === undefined) return null;
              const unit = columnUnit(form, found, key);
              return (
                <div
                  key={key}
                  className={index === 0 || (!numbers.includes(key) && !choices) ? styles.wide : styles.narrow}
                >
                  <OptionField
                    store={store}
                    sheet={found.sheet}
                    row={row}
                    column={column}
                    cell={cells?.[key] ?? null}
                    kind={numbers.includes(key) ? 'number' : 'text'}
                    unit={unit}
                    label={ownLabel(label, unit)}
                    of={name}
                    autoFocus={index === 0 && row === adding}
                    {...(choices ? { choices } : {})}
                  />
                </div>
              );
            })}
            <Button
              size="small"
              appearance="subtle"
              aria-label={t('Remove {name}', { name })}
              onClick={() => {
                setAdding(undefined);
                addButton.current?.focus();
                if (cells)
                  void store.change(
                    t('Remove {name}', { name }),
                    clearRow(found, row),
                    t('Removed {name}. Undo brings it back.', { name }),
                  );
              }}
            >
              {t('Remove')}
            </Button>
          </div>
        );
      })}
      <div className={styles.buttons}>
        <Button ref={addButton} size="small" onClick={() => setAdding(rowBelow(found))}>
          {addLabel}
        </Button>
      </div>
    </>
  );
}
