/** One row of the grid: its cells, the cell that is typed in, what is wrong with it, and its form. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { ChevronDownRegular, ChevronRightRegular } from '@fluentui/react-icons';
import { Fragment, memo, type ReactNode } from 'react';
import { priceColumn, type PriceColumnKey } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { t, writeNumber } from '../../locale';
import { columnLabel, type GridColumn, type GridColumnId } from './columns';
import { fieldText, fileText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import { cellKey, checkDraft, sheetSays, type PriceDraft } from './price-draft';
import { currencyText, detailLines, noUnitPrice, perUse, perWords, priceText, unitPrice } from './price-words';
import type { PricesStore } from './prices-store';
import { FieldInput, RowForm } from './row-form';
import { useGridStyles } from './styles';

interface PriceRowProps {
  readonly store: PricesStore;
  readonly line: PriceLine;
  readonly places: Places;
  readonly columns: readonly GridColumn[];
  readonly shown: ReadonlySet<GridColumnId>;
  readonly draft: PriceDraft | undefined;
  /** "old: 14 months", where the quote is old. */
  readonly age: string | undefined;
  /** Decimals of unit prices. */
  readonly digits: number;
  /** System of the unit prices. */
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
  const checked = typing && draft.shown.has(typing) ? checkDraft(draft, line, places) : undefined;
  const wrong = typing && checked?.problems.get(typing);
  // Of the cell that is typed in: what is wrong, why it was refused, or what the sheet says now.
  const cellNote = typing && (wrong ?? draft.refused ?? sheetSays(draft, line, places, typing));
  // The form says of each of its fields what is wrong there.
  const notes = draft?.form ? [] : [...line.problems].map(([key, message]) => withHeader(key, message));
  const unknown = draft?.form ? undefined : line.row && noUnitPrice(line.row);
  return {
    typing,
    wrong,
    wrongInEnglish: typing !== undefined && wrong !== undefined && !checked?.unread.has(typing),
    cellNote,
    notes,
    unknown,
    isSomething: Boolean(cellNote) || notes.length > 0 || unknown !== undefined,
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

/** What a cell of the grid shows when it is not being typed in. */
function CellContent({
  column,
  line,
  places,
  shown,
  age,
  digits,
  units,
}: Pick<PriceRowProps, 'line' | 'places' | 'shown' | 'age' | 'digits' | 'units'> & { readonly column: GridColumnId }) {
  const styles = useGridStyles();
  switch (column) {
    case 'item': {
      const { goods } = detailLines(line, places, shown);
      return (
        <>
          {fileText('item', cellOf(line, places, 'item')) || t('(no name)')}
          {goods.length > 0 && <span className={styles.detail}>{goods.join(' · ')}</span>}
        </>
      );
    }
    case 'price': {
      const currency = currencyText(line, places);
      // A currency's code is shown beside the number; anything longer is a fault and is shown below it.
      const beside = shown.has('soldBy') && currency.length <= 3;
      return (
        <>
          {priceText(line, places)}
          {beside ? (
            <span className={styles.unit}>{currency}</span>
          ) : (
            <span className={styles.detail}>{breakable(shown.has('soldBy') ? currency : perWords(line, places))}</span>
          )}
        </>
      );
    }
    case 'unit': {
      const each = line.row && unitPrice(line.row, units);
      if (!line.row || each === undefined) return <span className={styles.detail}>–</span>;
      return (
        <>
          {writeNumber(each, digits)}
          <span className={styles.unit}>{perUse(line.row.measure, units)}</span>
        </>
      );
    }
    case 'quotedOn':
      return (
        <>
          {fieldText(column, cellOf(line, places, column))} {age && <span className={styles.word}>{age}</span>}
        </>
      );
    case 'open':
      return null;
    default:
      return <>{fieldText(column, cellOf(line, places, column))}</>;
  }
}

/** Under the row: from which quantity, who quoted it and when, and whether that is long ago. */
function QuoteLine({ line, places, shown, age }: Pick<PriceRowProps, 'line' | 'places' | 'shown' | 'age'>) {
  const styles = useGridStyles();
  const { quote } = detailLines(line, places, shown);
  const word = shown.has('quotedOn') ? undefined : age;
  if (quote.length === 0 && !word) return null;
  return (
    <div className={styles.quote}>
      {quote.map((part, index) => (
        <span key={part} className={styles.together}>
          {index > 0 && '· '}
          {part}{' '}
        </span>
      ))}
      {word && <span className={styles.word}>{word}</span>}
    </div>
  );
}

/** A narrow column may end its line behind a slash, where a browser ends none by itself. */
const breakable = (text: string): ReactNode =>
  text.split('/').map((part, index) => (
    <Fragment key={index}>
      {index > 0 && (
        <>
          /<wbr />
        </>
      )}
      {part}
    </Fragment>
  ));
