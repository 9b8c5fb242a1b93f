/** One row of the grid: its cells, the cell that is typed in, what is wrong with it, and its form. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { ChevronDownRegular, ChevronRightRegular } from '@fluentui/react-icons';
import { memo } from 'react';
import { priceColumn, type PriceColumnKey } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { t } from '../../locale';
import { columnLabel, type GridColumn, type GridColumnId } from './columns';
import { cellKey, changedUnder, checkDraft, sheetSays, type PriceDraft } from './price-draft';
import { FieldInput } from './field-input';
import { fileText } from './fields';
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
  readonly draft: PriceDraft | undefined;
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
  const { line, places, columns, shown, draft } = props;
  const styles = useGridStyles();
  const said = whatIsSaid(line, places, draft);
  const quoted = !shown.has('note');
  const below = quoted || said.isSomething || Boolean(draft?.form);
  const itemName = fileText('item', cellOf(line, places, 'item')) || t('row without a name');
  return (
    <div role="rowgroup" className={styles.group}>
      <div role="row" className={styles.row}>
        {columns.map((column) => (
          <RowCell key={column.id} {...props} column={column} said={said} itemName={itemName} followed={below} />
        ))}
      </div>
      {below && <Below {...props} said={said} quoted={quoted} />}
    </div>
  );
});

/** What is said of a row: of the cell that is typed in, and of its other cells. */
interface Said {
  readonly typing: PriceColumnKey | undefined;
  readonly wrong: string | undefined;
  /** The language of what is wrong is English where it comes from below the pane. */
  readonly wrongInEnglish: boolean;
  readonly cellNote: string | undefined;
  readonly notes: readonly string[];
  readonly unknown: string | undefined;
  readonly isSomething: boolean;
}

function whatIsSaid(line: PriceLine, places: Places, draft: PriceDraft | undefined): Said {
  const typing = draft && cellKey(draft);
  const { wrong, wrongInEnglish, cellNote } = typing ? saidOfCell(draft, typing, line, places) : NOTHING_SAID;
  // The form says of each of its fields what is wrong there.
  const notes = draft?.form ? [] : [...line.problems].map(([key, message]) => withHeader(key, message));
  const unknown = draft?.form ? undefined : line.row && noUnitPrice(line.row);
  return {
    typing,
    wrong,
    wrongInEnglish,
    cellNote,
    notes,
    unknown,
    isSomething: Boolean(cellNote) || notes.length > 0 || unknown !== undefined,
  };
}

type SaidOfCell = Pick<Said, 'wrong' | 'wrongInEnglish' | 'cellNote'>;

const NOTHING_SAID: SaidOfCell = { wrong: undefined, wrongInEnglish: false, cellNote: undefined };

/** What is said of the cell that is typed in: what is wrong, why it was refused, or what the sheet says now. */
function saidOfCell(draft: PriceDraft, typing: PriceColumnKey, line: PriceLine, places: Places): SaidOfCell {
  const checked = draft.shown.has(typing) ? checkDraft(draft, line, places) : undefined;
  const wrong = checked?.problems.get(typing);
  return {
    wrong,
    wrongInEnglish: wrong !== undefined && !checked?.unread.has(typing),
    cellNote: wrong ?? draft.refused ?? sheetSays(changedUnder(draft, line, places, typing)),
  };
}

function withHeader(key: PriceColumnKey, message: string): string {
  const { label } = priceColumn(key);
  return message.startsWith(label) ? message : `${label}: ${message}`;
}

interface RowCellProps extends PriceRowProps {
  readonly column: GridColumn;
  readonly said: Said;
  readonly itemName: string;
  /** True where something stands below the row's cells. */
  readonly followed: boolean;
}

function RowCell(props: RowCellProps) {
  const { store, line, places, shown, draft, age, digits, units, active, column, said, itemName, followed } = props;
  const styles = useGridStyles();
  const { id } = line;
  const { typing, wrong, cellNote } = said;
  const mark = cellMark(id, column.id);
  const base = mergeClasses(styles.cell, column.numeric && styles.numeric, followed && styles.followed);
  if (column.id === 'open') {
    return (
      <div role="gridcell" className={mergeClasses(base, styles.openCell)}>
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
  if (draft && typing !== undefined && typing === column.id) {
    return (
      <div role="gridcell" className={mergeClasses(base, styles.editing)}>
        <FieldInput
          column={typing}
          value={draft.texts[typing] ?? ''}
          kind={fileText('kind', cellOf(line, places, 'kind'))}
          className={styles.fill}
          numericClassName={styles.numericInput}
          grows
          attributes={{
            'data-editor': mark,
            'aria-label': t('{column} of {item}', { column: columnLabel(column.id), item: itemName }),
            'aria-invalid': Boolean(wrong) || undefined,
            'aria-describedby': cellNote ? noteId(id) : undefined,
          }}
          onText={(text) => store.type(id, typing, text)}
          onLeave={() => void store.save(id)}
        />
      </div>
    );
  }
  const key = column.id === 'unit' ? undefined : column.id;
  return (
    <div
      role={column.id === 'item' ? 'rowheader' : 'gridcell'}
      aria-readonly={!key || !places.has(key)}
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
}

const noteId = (id: number): string => `price-note-${id}`;

/** What stands below the cells of a row: its quote, what is wrong, and its form. */
function Below(props: PriceRowProps & { readonly said: Said; readonly quoted: boolean }) {
  const { store, line, places, columns, shown, draft, age, said, quoted } = props;
  const styles = useGridStyles();
  const { id } = line;
  const { wrong, wrongInEnglish, cellNote, notes, unknown } = said;
  return (
    <div role="row">
      <div role="gridcell" aria-colspan={columns.length} className={styles.note}>
        {quoted && <QuoteLine line={line} places={places} shown={shown} age={age} />}
        {cellNote && (
          <div
            id={noteId(id)}
            role="alert"
            lang={wrongInEnglish ? 'en' : undefined}
            className={wrong || draft?.refused ? styles.wrong : undefined}
          >
            {cellNote}
          </div>
        )}
        {notes.map((note) => (
          <div key={note}>
            <span className={styles.strong}>{t('To fix.')}</span> <span lang="en">{note}</span>
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
  );
}
