/** Another order of rows as moves, for what goes with single cells: notes and links. */
import { LAST_ROW } from '../../sheet/formula';
import type { CellsMove } from '../../sheet/formula';
import type { RowsOrder } from './operation';

/** The rows are set aside at the sheet's end, and brought back one by one. Nothing but notes and links may follow these moves. */
export function asMoves({ sheet, row, column, columns, order, staying }: RowsOrder): CellsMove[] {
  const stays = new Set(staying);
  const aside = LAST_ROW + 1 - order.length;
  return runsBeside(column, columns, stays).flatMap(([first, count]): CellsMove[] => {
    const rowsOf = (from: number, rows: number, to: number): CellsMove => ({
      kind: 'move',
      from: { sheet, row: from, rows, column: first, columns: count },
      to: { sheet, row: to, column: first },
    });
    return [rowsOf(row, order.length, aside), ...order.map((from, to) => rowsOf(aside + from, 1, row + to))];
  });
}

/** Columns of a range without some: each run as its first column and how many they are. */
function runsBeside(column: number, columns: number, without: ReadonlySet<number>): [first: number, count: number][] {
  const runs: [number, number][] = [];
  for (let place = column; place < column + columns; place++) {
    if (without.has(place)) continue;
    const last = runs.at(-1);
    if (last && last[0] + last[1] === place) last[1] += 1;
    else runs.push([place, 1]);
  }
  return runs;
}
