/** The price list as a grid: one Tab stop, arrows between cells, typing or Enter edits in place. */
import { mergeClasses } from '@fluentui/react-components';
import {
  useCallback,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  type CSSProperties,
  type KeyboardEvent,
  type MouseEvent,
} from 'react';
import { priceColumn, type PriceColumnKey } from '../../../core/price';
import { t } from '../../locale';
import { useWidth } from '../../shared/element';
import { lineAge, type Ageing, type Arrangement } from './arrange';
import { columnLabel, columnsFor, type GridColumn, type GridColumnId } from './columns';
import type { PriceLine } from './lines';
import { cellMark, PriceRowView } from './price-row';
import type { PricesStore, PricesState } from './prices-store';
import { useGridStyles } from './styles';
import { unitDigits, unitPrice } from './price-words';

export function PriceGrid({
  store,
  state,
  lines,
  ageing,
}: {
  readonly store: PricesStore;
  readonly state: PricesState;
  /** The lines to show, in their order. */
  readonly lines: readonly PriceLine[];
  readonly ageing: Ageing;
}) {
  const { places, drafts, arrangement, units } = state;
  const styles = useGridStyles();
  const scroller = useRef<HTMLDivElement>(null);
  const width = useWidth(scroller);
  const columns = useMemo(
    () => columnsFor(width).filter(({ id }) => id === 'unit' || id === 'open' || places.has(id)),
    [width, places],
  );
  const shown = useMemo(() => new Set(columns.map(({ id }) => id)), [columns]);
  const digits = useMemo(
    () =>
      unitDigits(
        state.lines.map(({ row }) => row && unitPrice(row, units)),
        units,
      ),
    [state.lines, units],
  );
  const ids = useMemo(() => lines.map(({ id }) => id), [lines]);
  const [chosen, setChosen] = useState<CellPlace>();
  const wanted = useRef<(CellPlace & { readonly select?: boolean }) | undefined>(undefined);

  // Tab reaches one cell: the last that was used, or the first.
  const active: CellPlace | undefined =
    chosen && ids.includes(chosen.id) && shown.has(chosen.column)
      ? chosen
      : ids[0] === undefined
        ? undefined
        : { id: ids[0], column: columns[0]!.id };

  useLayoutEffect(() => {
    const place = wanted.current;
    if (!place) return;
    const mark = cellMark(place.id, place.column);
    const found =
      scroller.current?.querySelector<HTMLInputElement>(`[data-editor="${mark}"]`) ??
      scroller.current?.querySelector<HTMLElement>(`[data-cell="${mark}"]`);
    if (!found) return;
    wanted.current = undefined;
    found.focus();
    if (place.select && found instanceof HTMLInputElement) found.select();
  });

  const go = useCallback((place: CellPlace): void => {
    wanted.current = place;
    setChosen({ ...place });
  }, []);
  const onActive = useCallback(
    (id: number, column: GridColumnId) =>
      setChosen((now) => (now?.id === id && now.column === column ? now : { id, column })),
    [],
  );
  const onClosed = useCallback((id: number) => go({ id, column: 'open' }), [go]);
  const onOpen = useCallback(
    (id: number) => {
      if (!store.draft(id)?.form) return store.openRow(id);
      store.cancel(id);
      onClosed(id);
    },
    [store, onClosed],
  );
  const onRemove = useCallback(
    (id: number) => {
      const at = ids.indexOf(id);
      const next = ids[at + 1] ?? ids[at - 1];
      if (next !== undefined) go({ id: next, column: columns[0]!.id });
      void store.remove(id);
    },
    [store, ids, columns, go],
  );
  const onBreak = useCallback(
    (line: PriceLine) => {
      store.cancel(line.id);
      store.openNew(line);
    },
    [store],
  );

  const edit = (place: CellPlace, text?: string): void => {
    if (place.column === 'unit' || place.column === 'open') return;
    wanted.current = { ...place, select: text === undefined };
    store.editCell(place.id, place.column, priceColumn(place.column).kind === 'choice' ? undefined : text);
    setChosen({ ...place });
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    const target = event.target as HTMLElement;
    const cell = placeOfMark(target.dataset.cell);
    const editor = placeOfMark(target.dataset.editor);
    if (editor) keyInEditor(event, editor);
    else if (cell) keyInCell(event, cell);
  };
  const keyInEditor = (event: KeyboardEvent, place: CellPlace): void => {
    if (event.key === 'Escape') {
      store.cancel(place.id);
      go(place);
    } else if (event.key === 'Enter') {
      go(place);
      void store.save(place.id);
    } else if (event.key === 'Tab') {
      const next = cellByKey(
        { key: event.shiftKey ? 'ArrowLeft' : 'ArrowRight', ctrlKey: false, metaKey: false },
        place,
        ids,
        columns,
      );
      if (!next || next.column === place.column) return;
      go(next);
      void store.save(place.id);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const keyInCell = (event: KeyboardEvent, place: CellPlace): void => {
    const to = cellByKey(event, place, ids, columns);
    if (to) go(to);
    else if (place.column === 'open') return;
    else if (event.key === 'Enter' || event.key === 'F2') edit(place);
    else if (types(event) && event.key !== ' ') edit(place, event.key);
    else if (event.key === 'Delete' || event.key === 'Backspace') edit(place, '');
    else return;
    event.preventDefault();
  };
  const onDoubleClick = (event: MouseEvent): void => {
    const place = placeOfMark((event.target as HTMLElement).closest<HTMLElement>('[data-cell]')?.dataset.cell);
    if (place) edit(place);
  };

  return (
    <div ref={scroller} className={styles.scroller}>
      <div
        role="grid"
        aria-label={t('Price list')}
        className={styles.grid}
        style={{ '--columns': template(columns) } as CSSProperties}
        onKeyDown={onKeyDown}
        onDoubleClick={onDoubleClick}
      >
        <div role="rowgroup" className={styles.head}>
          <div role="row" className={styles.row}>
            {columns.map((column) => (
              <HeaderCell key={column.id} column={column} arrangement={arrangement} store={store} />
            ))}
          </div>
        </div>
        {lines.map((line) => (
          <PriceRowView
            key={line.id}
            store={store}
            line={line}
            places={places}
            columns={columns}
            shown={shown}
            draft={drafts.get(line.id)}
            age={lineAge(line, ageing)}
            digits={digits}
            units={units}
            active={active?.id === line.id ? active.column : undefined}
            onActive={onActive}
            onOpen={onOpen}
            onClosed={onClosed}
            onRemove={onRemove}
            onBreak={onBreak}
          />
        ))}
      </div>
    </div>
  );
}

const template = (columns: readonly GridColumn[]): string =>
  columns.map(({ width }) => (width > 0 ? `${width}px` : 'minmax(0, 1fr)')).join(' ');

function placeOfMark(mark: string | undefined): CellPlace | undefined {
  const [id, column] = mark?.split(':') ?? [];
  return id && column ? { id: Number(id), column: column as PriceColumnKey } : undefined;
}

function HeaderCell({
  column,
  arrangement,
  store,
}: {
  readonly column: GridColumn;
  readonly arrangement: Arrangement;
  readonly store: PricesStore;
}) {
  const styles = useGridStyles();
  const { sort } = column;
  if (!sort) {
    return (
      <div role="columnheader" className={styles.header}>
        <span className={styles.spoken}>{columnLabel(column.id)}</span>
      </div>
    );
  }
  const sorted = arrangement.sort === sort;
  // Up, down, and back to the order of the sheet.
  const next: Partial<Arrangement> = !sorted
    ? { sort, descending: false }
    : arrangement.descending
      ? { sort: 'sheet', descending: false }
      : { descending: true };
  return (
    <div
      role="columnheader"
      className={styles.header}
      aria-sort={!sorted ? undefined : arrangement.descending ? 'descending' : 'ascending'}
    >
      <button
        type="button"
        className={mergeClasses(styles.sorter, column.numeric && styles.numericSorter)}
        onClick={() => store.arrange(next)}
      >
        {columnLabel(column.id)}
        {sorted && (
          <span aria-hidden="true" className={styles.arrow}>
            {arrangement.descending ? ' ▼' : ' ▲'}
          </span>
        )}
      </button>
    </div>
  );
}

// Where the keyboard goes in the grid

interface CellPlace {
  readonly id: number;
  readonly column: GridColumnId;
}

const PAGE = 12;

type Move = (row: number, column: number, all: boolean) => readonly [row: number, column: number];

/** Row and column that a key leads to; beyond the grid's edge it leads to the edge. `all`: with Ctrl or Command. */
const MOVES: ReadonlyMap<string, Move> = new Map<string, Move>([
  ['ArrowUp', (row, column, all) => [all ? 0 : row - 1, column]],
  ['ArrowDown', (row, column, all) => [all ? Infinity : row + 1, column]],
  ['ArrowLeft', (row, column, all) => [row, all ? 0 : column - 1]],
  ['ArrowRight', (row, column, all) => [row, all ? Infinity : column + 1]],
  ['Home', (row, _column, all) => [all ? 0 : row, 0]],
  ['End', (row, _column, all) => [all ? Infinity : row, Infinity]],
  ['PageUp', (row, column) => [row - PAGE, column]],
  ['PageDown', (row, column) => [row + PAGE, column]],
]);

/** The cell that a key leads to from another; undefined where the key leads nowhere. */
function cellByKey(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey'>,
  from: CellPlace,
  ids: readonly number[],
  columns: readonly GridColumn[],
): CellPlace | undefined {
  const row = ids.indexOf(from.id);
  const column = columns.findIndex(({ id }) => id === from.column);
  const to = MOVES.get(event.key)?.(row, column, event.ctrlKey || event.metaKey);
  return row < 0 || column < 0 || !to ? undefined : { id: at(ids, to[0]), column: at(columns, to[1]).id };
}

const at = <T,>(list: readonly T[], index: number): T => list[Math.min(list.length - 1, Math.max(0, index))]!;

/** True for a key that types a character. */
const types = (event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean =>
  event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
