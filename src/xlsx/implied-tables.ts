/** Formulas inside a table that leave its name out, as some writers do: SUBTOTAL(109,[length]) in its row of totals. */
import type { CellModel, TableModel } from '../sheet';
import { pieces } from '../sheet/formula';

/** Puts the names of tables into the formulas of their cells, in place: spreadsheet programs show them so, and not every engine can do without. */
export function nameImpliedTables(cells: readonly (CellModel | undefined)[][], tables: readonly TableModel[]): void {
  for (const { name, range, totals } of tables) {
    const bottom = range.row + range.rows + (totals ? 1 : 0);
    for (let row = range.row; row < bottom; row++) {
      const line = cells[row];
      for (let column = range.column; line && column < range.column + range.columns; column++) {
        const cell = line[column];
        if (cell?.formula?.includes('[')) line[column] = { ...cell, formula: withTableName(cell.formula, name) };
      }
    }
  }
}

/** A bracket is a table's own where no name stands before it and no sheet or name behind: "[1]Prices!A1" is another file's. */
function withTableName(formula: string, table: string): string {
  const all = pieces(formula);
  return all
    .map(({ kind, text }, index) => {
      const next = all[index + 1];
      const isImplied =
        kind === 'bracket' && all[index - 1]?.kind !== 'table' && next?.kind !== 'sheet' && next?.text !== '!';
      return isImplied ? table + text : text;
    })
    .join('');
}
