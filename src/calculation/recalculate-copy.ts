/**
 * A copy of a workbook that was read through the port, recalculated: for trials that must leave no trace in the
 * workbook itself. The port says which cells hold formulas and not which show part of a spill; that is found here.
 */
import { CellError, type CellModel, type CellPlace, type SheetModel, type WorkbookModel } from '../sheet';
import { Calculator, type UnknownFormula } from './calculate';
import { withResults } from './results';

export interface RecalculatedCopy {
  readonly model: WorkbookModel;
  /** Formulas that cannot be calculated here: they keep their values. */
  readonly kept: readonly (CellPlace & Pick<UnknownFormula, 'functionName'>)[];
}

/** A spill inside another's extent is found in the next round; deeper than this they do not lie. */
const MOST_ROUNDS = 5;

/** @param copy cells with their values and formulas, spilled cells as plain values */
export function recalculateCopy(copy: WorkbookModel): RecalculatedCopy {
  const { unknown } = new Calculator(copy);
  const draft = copy.sheets.map((sheet): SheetModel => ({
    ...sheet,
    cells: sheet.cells.map((line) => line && [...line]),
  }));
  const change = (sheet: number, row: number, column: number, to: (cell: CellModel) => CellModel): void => {
    const line = draft[sheet]?.cells[row];
    const cell = line?.[column];
    if (line && cell) line[column] = to(cell);
  };
  const asValue = ({ formula: _formula, ...cell }: CellModel): CellModel => cell;
  for (const { sheet, row, column } of unknown) change(sheet, row, column, asValue);
  // What finds no room in the workbook itself finds none in the copy.
  draft.forEach(({ cells }, sheet) =>
    cells.forEach((line, row) =>
      line?.forEach((cell, column) => isSpillError(cell) && change(sheet, row, column, asValue)),
    ),
  );
  const model = { ...copy, sheets: draft };
  let calculation = new Calculator(model).run();
  for (let round = 1; calculation.blocked.length > 0 && round < MOST_ROUNDS; round++) {
    // The sheet shows these results: the cells in their extent are no one else's.
    for (const { grid, row, column, rows, columns } of calculation.blocked) {
      for (let r = row; r < row + rows; r++)
        for (let c = column; c < column + columns; c++)
          if (r !== row || c !== column)
            change(grid.index, r, c, (cell) => (cell.formula === undefined ? { ...cell, spilled: true } : cell));
    }
    calculation = new Calculator(model).run();
  }
  return {
    model: withResults(model, calculation.results).model,
    kept: unknown.map(({ sheet, row, column, functionName }) => ({
      sheet: copy.sheets[sheet]!.name,
      row,
      column,
      functionName,
    })),
  };
}

const isSpillError = (cell: CellModel | undefined): boolean =>
  cell?.formula !== undefined && cell.value instanceof CellError && cell.value.code === '#SPILL!';
