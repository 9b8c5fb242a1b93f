/** Values of an open workbook for conditions, and what formulas that stand in no cell give. */
import type { Workbook as EngineWorkbook } from '@univerjs/core';
import { fromCellData } from '../cells';
import type { Engine } from '../engine';
import { injectorOf } from '../internals';
import { spilledCells } from '../spills';
import type { Values } from './conditional-looks';

export function valuesOf(engine: Engine, book: EngineWorkbook): Values {
  const unit = book.getUnitId();
  const injector = injectorOf(engine.univer);
  return {
    of(sheet) {
      const spilled = spilledCells(injector, unit, sheet);
      const cells = book.getSheetBySheetId(sheet)?.getCellMatrix();
      return (row, column) => fromCellData(spilled?.[row]?.[column] ?? cells?.getValue(row, column));
    },
    given: (written, cell, known) => engine.calculation.given(unit, written, cell, known),
    size(sheet) {
      const worksheet = book.getSheetBySheetId(sheet);
      return { rows: worksheet?.getRowCount() ?? 0, columns: worksheet?.getColumnCount() ?? 0 };
    },
  };
}
