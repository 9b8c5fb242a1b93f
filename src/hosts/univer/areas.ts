/** Places of cells, and what of a sheet the calculator is told beside them. */
import type { Injector, ObjectMatrix, Worksheet } from '@univerjs/core';
import type { SheetCell } from '../../calculation';
import { packValue, type PackedValue, type RowsLeftOut } from '../../calculation/service';
import type { SheetModel } from '../../sheet';
import { FilterStore } from './filter-store';
import { rowsHiddenByHand } from './ranges';

/** A cell by the engine's id of its sheet. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

interface Area {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** A kept result of several cells, by the engine's id of its sheet. */
export interface KeptArea extends CellPlace, Area {}

const holds = (area: Area, row: number, column: number): boolean =>
  row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns;

export const isInside = (area: KeptArea, sheet: string, row: number, column: number): boolean =>
  area.sheet === sheet && holds(area, row, column);

export function isEditedIn(edited: ObjectMatrix<true>, area: Area): boolean {
  let isIn = false;
  edited.forValue((row, column) => {
    isIn ||= holds(area, row, column);
  });
  return isIn;
}

export const placeKey = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;

/** All that a formula of a file spilled; undefined for one that has a single cell. */
export function blockInFile({ cells }: SheetModel, row: number, column: number): PackedValue[][] | undefined {
  const spill = cells[row]?.[column]?.spill;
  if (!spill || spill.rows * spill.columns === 1) return undefined;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => packValue(cells[row + r]?.[column + c]?.value ?? null)),
  );
}

/** Rows of a sheet that subtotals leave out. */
export function rowsLeftOut(injector: Injector, worksheet: Worksheet): RowsLeftOut {
  const filtered = injector.get(FilterStore).hiddenRows(worksheet.getUnitId(), worksheet.getSheetId());
  return { hiddenRows: [...rowsHiddenByHand(worksheet), ...filtered], filtered: filtered.length > 0 };
}
