/** Formulas inside a table that leave its name out, as some writers do: SUBTOTAL(109,[length]) in its row of totals. */
import type { CellModel, TableModel } from '../sheet';
import { references, replaced } from '../sheet/formula';

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

const withTableName = (formula: string, table: string): string =>
  replaced(
    formula,
    references(formula).flatMap((reference) =>
      reference.kind === 'table' && reference.table === '' && !reference.isElsewhere
        ? [{ start: reference.start, end: reference.start, text: table }]
        : [],
    ),
  );
