/** Where the keyboard goes in the grid. */
import type { KeyboardEvent } from 'react';
import type { GridColumn, GridColumnId } from './columns';

export interface CellPlace {
  readonly id: number;
  readonly column: GridColumnId;
}

const PAGE = 12;

/** The cell that a key leads to from another; undefined where the key leads nowhere. */
// eslint-disable-next-line complexity -- one case a key
export function cellByKey(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey'>,
  from: CellPlace,
  ids: readonly number[],
  columns: readonly GridColumn[],
): CellPlace | undefined {
  const row = ids.indexOf(from.id);
  const column = columns.findIndex(({ id }) => id === from.column);
  if (row < 0 || column < 0) return undefined;
  const all = event.ctrlKey || event.metaKey;
  const to = (toRow: number, toColumn: number): CellPlace => ({
    id: ids[Math.min(ids.length - 1, Math.max(0, toRow))]!,
    column: columns[Math.min(columns.length - 1, Math.max(0, toColumn))]!.id,
  });
  switch (event.key) {
    case 'ArrowUp':
      return to(all ? 0 : row - 1, column);
    case 'ArrowDown':
      return to(all ? ids.length : row + 1, column);
    case 'ArrowLeft':
      return to(row, all ? 0 : column - 1);
    case 'ArrowRight':
      return to(row, all ? columns.length : column + 1);
    case 'Home':
      return to(all ? 0 : row, 0);
    case 'End':
      return to(all ? ids.length : row, columns.length);
    case 'PageUp':
      return to(row - PAGE, column);
    case 'PageDown':
      return to(row + PAGE, column);
    default:
      return undefined;
  }
}

/** True for a key that types a character. */
export const types = (event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean =>
  event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
