/** One row of the grid: its cells, the cell that is typed in, what is wrong with it, and its form. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { ChevronDownRegular, ChevronRightRegular } from '@fluentui/react-icons';
import { memo } from 'react';
import { priceColumn, type PriceColumnKey } from '../../core/price';
import type { GridColumn, GridColumnId } from './columns';
import { cellKey, changedUnder, checkDraft, type Draft } from './draft';
import { FieldInput } from './field-input';
import { cellText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import { CellContent, QuoteLine } from './price-cell';
import type { PricesStore } from './prices-store';
import { RowForm } from './row-form';
import { useGridStyles } from './styles';
import { unitPrice } from './unit-price';

export interface PriceRowProps {
  readonly store: PricesStore;
  readonly line: PriceLine;
  readonly places: Places;
  readonly columns: readonly GridColumn[];
  readonly shown: ReadonlySet<GridColumnId>;
  readonly draft: Draft | undefined;
  readonly age: string | undefined;
  readonly digits: number;
  /** The column that Tab reaches in this row; undefined where Tab passes the row by. */
  readonly active: GridColumnId | undefined;
  readonly onActive: (id: number, column: GridColumnId) => void;
  readonly onOpen: (id: number) => void;
  readonly onClosed: (id: number) => void;
  readonly onRemove: (id: number) => void;
  readonly onBreak: (line: PriceLine) => void;
}

/** What a cell is found by in the page. */
export const cellMark = (id: number, column: GridColumnId): string => `${id}:${column}`;

export const PriceRowView = memo(function PriceRowView(props: PriceRowProps) {
  const { store, line, places, columns, shown, draft, age, digits, active } = props;
  const styles = useGridStyles();
  const { id } = line;
  const typing = draft && cellKey(draft);
  const wrong = draft && typing && draft.shown.has(typing) ? checkDraft(draft, line, places).problems.get(typing) : undefined;
  const under = draft && typing && changedUnder(draft, line, places, typing);
  const unit = line.row && unitPrice(line.row);
  const notes: string[] = [...(draft?.form ? [] : line.problems)].map(([key, message]) => (message.startsWith(priceColumn(key).header) ? message : `${priceColumn(key).header}: ${message}`));
  const cellNote = typing && (wrong ?? draft?.refused ?? (under === undefined ? undefined : `The sheet now says ${under === '' ? 'a blank' : under}; saving keeps yours.`));
  const quoted = !shown.has('note');
  const below = quoted || Boolean(cellNote) || notes.length > 0 || (unit?.why !== undefined && !draft?.form) || Boolean(draft?.form);
  const noteId = `price-note-${id}`;
  const itemName = cellText('item', cellOf(line, places, 'item')) || 'row without a name';

  const cell = (column: GridColumn) => {
    const mark = cellMark(id, column.id);
    const base = mergeClasses(styles.cell, column.numeric && styles.numeric, below && styles.followed);
    if (column.id === 'open') {
      return (
        <div key={column.id} role="gridcell" className={mergeClasses(base, styles.openCell)}>
          <Button
            size="small"
            appearance="subtle"
            icon={draft?.form ? <ChevronDownRegular /> : <ChevronRightRegular />}
            aria-expanded={Boolean(draft?.form)}
            aria-label={`Details of ${itemName}`}
            data-cell={mark}
            tabIndex={active === 'open' ? 0 : -1}
            onFocus={() => props.onActive(id, 'open')}
            onClick={() => props.onOpen(id)}
          />
        </div>
      );
    }
    if (typing === column.id && draft) {
      return (
        <div key={column.id} role="gridcell" className={mergeClasses(base, styles.editing)}>
          <FieldInput
            column={typing}
            value={draft.texts[typing] ?? ''}
            kind={cellText('kind', cellOf(line, places, 'kind'))}
            className={styles.fill}
            numericClassName={styles.numericInput}
            attributes={{ 'data-editor': mark, 'aria-label': `${column.label} of ${itemName}`, 'aria-invalid': Boolean(wrong) || undefined, 'aria-describedby': cellNote ? noteId : undefined }}
            onText={(text) => store.type(id, typing, text)}
            onLeave={() => void store.save(id)}
          />
        </div>
      );
    }
    const key = column.id === 'unit' ? undefined : (column.id as PriceColumnKey);
    const readOnly = !key || !places.has(key);
    return (
      <div
        key={column.id}
        role={column.id === 'item' ? 'rowheader' : 'gridcell'}
        aria-readonly={readOnly}
        className={base}
        data-cell={mark}
        tabIndex={active === column.id ? 0 : -1}
        onFocus={() => props.onActive(id, column.id)}
      >
        <CellContent column={column.id} line={line} places={places} shown={shown} age={age} digits={digits} />
      </div>
    );
  };

  return (
    <div role="rowgroup" className={styles.group}>
      <div role="row" className={styles.row}>
        {columns.map(cell)}
      </div>
      {below && (
        <div role="row">
          <div role="gridcell" aria-colspan={columns.length} className={styles.note}>
            {quoted && <QuoteLine line={line} places={places} shown={shown} age={age} />}
            {cellNote && (
              <div id={noteId} role="alert" className={wrong || draft?.refused ? styles.wrong : undefined}>
                {cellNote}
              </div>
            )}
            {!draft?.form &&
              notes.map((note) => (
                <div key={note}>
                  <span className={styles.strong}>To mend.</span> {note}
                </div>
              ))}
            {!draft?.form && unit?.why}
            {draft?.form && (
              <div className={styles.form}>
                <RowForm store={store} id={id} draft={draft} line={line} places={places} saveLabel="Save" onClosed={() => props.onClosed(id)}>
                  <Button size="small" type="button" onClick={() => void store.showInSheet(id)}>
                    Show in sheet
                  </Button>
                  <Button size="small" type="button" onClick={() => props.onBreak(line)}>
                    Add price break
                  </Button>
                  <Button size="small" type="button" onClick={() => props.onRemove(id)}>
                    Remove
                  </Button>
                </RowForm>
              </div>
            )}
          </div>
        </div>
      )}
    </div>
  );
});
