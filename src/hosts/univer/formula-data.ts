/**
 * The engine's list of formulas, which it goes through with every edit so that formulas which were filled down follow
 * when the first of them goes. On a sheet without such formulas only the edited cells are looked at: going through all
 * cells of a long list took longer than everything else that an edit does on the page.
 */
import {
  isFormulaString,
  ObjectMatrix,
  type ICellData,
  type IObjectMatrixPrimitiveType,
  type Nullable,
} from '@univerjs/core';
import type { IFormulaDataItem } from '@univerjs/engine-formula';

type Cells = ObjectMatrix<Nullable<ICellData>>;
export type EditedCells = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

/** Sheets' cells that are known to hold formulas which were filled down, or none. */
let known = new WeakMap<Cells, boolean>();

/** Cells may have come from another sheet. */
export const forgetFilledDown = (): void => {
  known = new WeakMap<Cells, boolean>();
};

/** True where formulas of the sheet name a first one, or will after the edit. */
export function hasFilledDown(cells: Cells, edited: EditedCells): boolean {
  let has = known.get(cells);
  if (has === undefined) {
    has = false;
    cells.forValue((_row, _column, data) => {
      has ||= Boolean(data?.si);
      return !has;
    });
  }
  if (!has)
    new ObjectMatrix(edited).forValue((_row, _column, data) => {
      has ||= Boolean(data?.si);
    });
  known.set(cells, has);
  return has;
}

/** What an edit does to the list: formulas that come, and null for those that go. `cells` are those before it. */
export function formulasOfEdit(cells: Cells, edited: EditedCells): IObjectMatrixPrimitiveType<IFormulaDataItem | null> {
  const changes = new ObjectMatrix<IFormulaDataItem | null>();
  new ObjectMatrix(edited).forValue((row, column, data) => {
    if (isFormulaString(data?.f)) changes.setValue(row, column, { f: data!.f! });
    else if (isFormulaString(cells.getValue(row, column)?.f)) changes.setValue(row, column, null);
  });
  return changes.getMatrix();
}
