/** Where the keyboard goes in the grid. */
import type { KeyboardEvent } from 'react';
import type { GridColumn, GridColumnId } from './columns';

export interface CellPlace {
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
export function cellByKey(
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

const at = <T>(list: readonly T[], index: number): T => list[Math.min(list.length - 1, Math.max(0, index))]!;

/** True for a key that types a character. */
export const types = (event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean =>
  event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
