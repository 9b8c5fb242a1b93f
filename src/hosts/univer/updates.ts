/** Results of the calculator as the engine takes them: those that it does not show already. */
import {
  ObjectMatrix,
  type ICellData,
  type Injector,
  type IRange,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import type { Matrix } from '../../sheet';
import type { Computed } from '../../calculation';
import { toResultData } from './cells';
import type { CellPlace } from './mirror';
import { spilledCells, spillRanges } from './spills';

type Cells = ObjectMatrix<Nullable<ICellData>>;

/** What is to be done to the cells of a sheet. */
interface SheetUpdate {
  /** Values of the cells that hold formulas. */
  readonly values: Cells;
  /** Values of cells over which formulas spill, with those that hold the formulas. */
  readonly spilled: Cells;
  readonly ranges: Record<number, Record<number, IRange>>;
  /** Formulas that spill no more. */
  readonly ended: Cells;
}

export class Updates {
  private readonly byUnit = new Map<string, Map<string, SheetUpdate>>();
  hasResults = false;

  constructor(private readonly injector: Injector) {}

  /** A result on the sheet of this id. */
  add(book: EngineWorkbook, sheet: string, { row, column, result }: Computed): void {
    this.hasResults = true;
    const unit = book.getUnitId();
    const range = spillRanges(this.injector, unit, sheet)?.[row]?.[column];
    const cell = book.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column);
    if (Array.isArray(result)) return this.addBlock({ unit, sheet, row, column }, result, range, cell);
    const data = toResultData(result);
    if (range) this.update(unit, sheet).ended.setValue(row, column, data);
    else if (isShown(cell, data)) return;
    this.update(unit, sheet).values.setValue(row, column, data);
  }

  /** A number format for a cell that holds a formula. */
  format(book: EngineWorkbook, sheet: string, row: number, column: number, pattern: string): void {
    this.hasResults = true;
    const { values } = this.update(book.getUnitId(), sheet);
    const { v, t } =
      values.getValue(row, column) ?? book.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column) ?? {};
    values.setValue(row, column, { v, t, s: { n: { pattern } } });
  }

  /** As the engine takes results. */
  get data() {
    const each = <T>(part: (update: SheetUpdate) => T): Record<string, Record<string, T>> =>
      Object.fromEntries(
        [...this.byUnit].map(([unit, bySheet]) => [
          unit,
          Object.fromEntries([...bySheet].map(([sheet, update]) => [sheet, part(update)])),
        ]),
      );
    return {
      unitData: each(({ values }) => values.getMatrix()),
      spills: each(({ ranges }) => ranges),
      spilled: each(({ spilled }) => spilled),
      ended: each(({ ended }) => ended),
    };
  }

  private addBlock(
    { unit, sheet, row, column }: CellPlace & { readonly unit: string },
    block: Matrix,
    before: Nullable<IRange>,
    cell: Nullable<ICellData>,
  ): void {
    const range: IRange = {
      startRow: row,
      startColumn: column,
      endRow: row + block.length - 1,
      endColumn: column + block[0]!.length - 1,
    };
    const shown = spilledCells(this.injector, unit, sheet);
    const first = toResultData(block[0]![0]!);
    if (!isShown(cell, first)) this.update(unit, sheet).values.setValue(row, column, first);
    // The engine empties the whole extent when it is given the first cell.
    const isWhole =
      before?.endRow !== range.endRow ||
      before.endColumn !== range.endColumn ||
      !isShown(shown?.[row]?.[column], first);
    if (isWhole) (this.update(unit, sheet).ranges[row] ??= {})[column] = range;
    block.forEach((line, r) => {
      const own = shown?.[row + r];
      line.forEach((value, c) => {
        const data = toResultData(value);
        if (isWhole || !isShown(own?.[column + c], data))
          this.update(unit, sheet).spilled.setValue(row + r, column + c, data);
      });
    });
  }

  private update(unit: string, sheet: string): SheetUpdate {
    const bySheet = this.byUnit.get(unit) ?? new Map<string, SheetUpdate>();
    this.byUnit.set(unit, bySheet);
    const update = bySheet.get(sheet) ?? {
      values: new ObjectMatrix(),
      spilled: new ObjectMatrix(),
      ranges: {},
      ended: new ObjectMatrix(),
    };
    bySheet.set(sheet, update);
    return update;
  }
}

const isShown = (shown: Nullable<ICellData>, data: ICellData): boolean => shown?.v === data.v && shown?.t === data.t;
