/** Places of cells, and what of a sheet the calculator is told beside them. */
import type { Injector, ObjectMatrix, Worksheet } from '@univerjs/core';
import type { SheetCell } from '../../calculation';
import type { RowsLeftOut } from '../../calculation/service';
import { isInRange, type RangeAddress } from '../../sheet';
import { FilterStore } from './filter-store';
import { rowsHiddenByHand } from './ranges';

/** A cell by the engine's id of its sheet. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

type Area = Omit<RangeAddress, 'sheet'>;

/** A kept result of several cells, by the engine's id of its sheet. */
export interface KeptArea extends CellPlace, Area {}

export const isInside = (area: KeptArea, sheet: string, row: number, column: number): boolean =>
  area.sheet === sheet && isInRange(area, row, column);

export function isEditedIn(edited: ObjectMatrix<true>, area: Area): boolean {
  let isIn = false;
  edited.forValue((row, column) => {
    isIn ||= isInRange(area, row, column);
  });
  return isIn;
}

export const placeKey = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;

/** Rows of a sheet that subtotals leave out. */
export function rowsLeftOut(injector: Injector, worksheet: Worksheet): RowsLeftOut {
  const filtered = injector.get(FilterStore).hiddenRows(worksheet.getUnitId(), worksheet.getSheetId());
  return { hiddenRows: [...rowsHiddenByHand(worksheet), ...filtered], filtered: filtered.length > 0 };
}
