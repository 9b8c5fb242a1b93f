/** One row of the grid: its cells, the cell that is typed in, what is wrong with it, and its form. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { ChevronDownRegular, ChevronRightRegular } from '@fluentui/react-icons';
import { memo } from 'react';
import { priceColumn } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { t } from '../../locale';
import { columnLabel, type GridColumn, type GridColumnId } from './columns';
import { cellKey, changedUnder, checkDraft, sheetSays, type Draft } from './draft';
import { FieldInput } from './field-input';
import { cellText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import { CellContent, QuoteLine } from './price-cell';
import type { PricesStore } from './prices-store';
import { RowForm } from './row-form';
import { useGridStyles } from './styles';
import { noUnitPrice } from './unit-price';

export interface PriceRowProps {
  readonly store: PricesStore;
  readonly line: PriceLine;
  readonly places: Places;
  readonly columns: readonly GridColumn[];
  readonly shown: ReadonlySet<GridColumnId>;
  readonly draft: Draft | undefined;
  readonly age: string | undefined;
  readonly digits: number;
  readonly units: UnitSystem;
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
  const { store, line, places, columns, shown, draft, age, digits, units, active } = props;
  const styles = useGridStyles();
  const { id } = line;
  const typing = draft && cellKey(draft);
  const checked = draft && typing && draft.shown.has(typing) ? checkDraft(draft, line, places) : undefined;
  const wrong = typing && checked?.problems.get(typing);
  const under = draft && typing && changedUnder(draft, line, places, typing);
  const unknown = draft?.form ? undefined : line.row && noUnitPrice(line.row);
  const notes: string[] = [...(draft?.form ? [] : line.problems)].map(([key, message]) =>
    message.startsWith(priceColumn(key).header) ? message : `${priceColumn(key).header}: ${message}`,
  );
  const cellNote = typing && (wrong ?? draft?.refused ?? sheetSays(under));
  const quoted = !shown.has('note');
  const below = quoted || Boolean(cellNote) || notes.length > 0 || unknown !== undefined || Boolean(draft?.form);
  const noteId = `price-note-${id}`;
  const itemName = cellText('item', cellOf(line, places, 'item')) || t('row without a name');

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
            aria-label={t('Details of {item}', { item: itemName })}
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
            attributes={{
              'data-editor': mark,
              'aria-label': t('{column} of {item}', { column: columnLabel(column.id), item: itemName }),
              'aria-invalid': Boolean(wrong) || undefined,
              'aria-describedby': cellNote ? noteId : undefined,
            }}
            onText={(text) => store.type(id, typing, text)}
            onLeave={() => void store.save(id)}
          />
        </div>
      );
    }
    const key = column.id === 'unit' ? undefined : column.id;
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
        <CellContent
          column={column.id}
          line={line}
          places={places}
          shown={shown}
          age={age}
          digits={digits}
          units={units}
        />
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
              <div
                id={noteId}
                role="alert"
                lang={wrong && !checked?.unread.has(typing) ? 'en' : undefined}
                className={wrong || draft?.refused ? styles.wrong : undefined}
              >
                {cellNote}
              </div>
            )}
            {!draft?.form &&
              notes.map((note) => (
                <div key={note}>
                  <span className={styles.strong}>{t('To mend.')}</span> <span lang="en">{note}</span>
                </div>
              ))}
            {unknown}
            {draft?.form && (
              <div className={styles.form}>
                <RowForm
                  store={store}
                  id={id}
                  draft={draft}
                  line={line}
                  places={places}
                  saveLabel={t('Save')}
                  onClosed={() => props.onClosed(id)}
                >
                  <Button size="small" type="button" onClick={() => void store.showInSheet(id)}>
                    {t('Show in sheet')}
                  </Button>
                  <Button size="small" type="button" onClick={() => props.onBreak(line)}>
                    {t('Add price break')}
                  </Button>
                  <Button size="small" type="button" onClick={() => props.onRemove(id)}>
                    {t('Remove')}
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
