/** Lengths that are pasted from elsewhere, cell by cell as if they were typed: 1/8, 3/32", 1 1/4. */
import { ObjectMatrix, type ICellData, type IMutationInfo, type Injector, type Nullable } from '@univerjs/core';
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory } from '@univerjs/sheets';
import { ISheetClipboardService } from '@univerjs/sheets-ui';
import { numberStyleAt, pastedLength } from '../univer';

const NOTHING: { redos: IMutationInfo[]; undos: IMutationInfo[] } = { redos: [], undos: [] };

export function pasteLengths(injector: Injector): void {
  const clipboard = injector.get(ISheetClipboardService);
  clipboard.addClipboardHook({
    id: 'tarebook-lengths-in-cells',
    // Before the one that pastes, which reads what stands in the block: it would make dates of fractions.
    priority: -1,
    onPasteCells(from, { unitId, subUnitId, range }, block) {
      // Cells of this workbook are what they are.
      if (from) return NOTHING;
      const pasted = new ObjectMatrix<Nullable<ICellData>>();
      block.forValue((row, column, cell) => {
        const [r, c] = [range.rows[row], range.cols[column]];
        if (r !== undefined && c !== undefined) pasted.setValue(r, c, cell);
      });
      block.forValue((row, column, cell) => {
        const place = { unit: unitId, sheet: subUnitId, row: range.rows[row]!, column: range.cols[column]! };
        const length = pastedLength(injector, place, cell, pasted);
        if (length) block.setValue(row, column, { ...cell, ...length });
      });
      return NOTHING;
    },
  });
  clipboard.addClipboardHook({
    id: 'tarebook-lengths-in-text',
    // Behind the one that pastes: its cell is written over.
    priority: 1000,
    onPastePlainText({ unitId, subUnitId, range }, text) {
      const [row, column] = [range.rows[0]!, range.cols[0]!];
      const place = { unit: unitId, sheet: subUnitId, row, column };
      const length = pastedLength(injector, place, { v: text });
      if (!length) return NOTHING;
      // The paste that it follows may have made a date of the text, with a date's format.
      const cellValue = { [row]: { [column]: { ...length, s: numberStyleAt(injector, place) } } };
      const params = { unitId, subUnitId, cellValue };
      return {
        redos: [{ id: SetRangeValuesMutation.id, params }],
        undos: [{ id: SetRangeValuesMutation.id, params: SetRangeValuesUndoMutationFactory(injector, params) }],
      };
    },
  });
}
