/** What a patch changes in a workbook, and what a new model differs in from the one that was read. */
import type {
  BarChart,
  Cell,
  ChoiceValidation,
  FilterModel,
  NameModel,
  RangeAddress,
  SheetModel,
  Spill,
  StyleModel,
  TableModel,
} from '../sheet';
import type { RowChange } from './patch-rows';

export interface CellChange {
  readonly row: number;
  readonly column: number;
  /** null empties the cell. */
  readonly value: Cell;
  /** Typed, without "="; null takes a formula away; left out, a formula stays and only its value changes. */
  readonly formula?: string | null;
  /** True: the formula stays of the plain kind even where it names ranges (see CellModel). */
  readonly plain?: boolean;
  /** New extent of an array formula. */
  readonly spill?: Spill;
  /** Index into WorkbookChanges.styles; left out, the cell keeps its looks. */
  readonly style?: number;
}

export interface SheetChanges {
  readonly sheet: string;
  /** True for a sheet whose contents are made here: it is set up to be printed, too. */
  readonly isMadeHere?: boolean;
  readonly cells?: readonly CellChange[];
  /** Tables that are new, or whose range or columns changed. */
  readonly tables?: readonly TableModel[];
  /** Widths in characters by column. */
  readonly columnWidths?: ReadonlyMap<number, number>;
  readonly frozen?: { readonly rows: number; readonly columns: number };
  /** Merges and drop-down lists to be added. */
  readonly merges?: readonly RangeAddress[];
  readonly validations?: readonly ChoiceValidation[];
  /** Merges to be removed. */
  readonly unmerged?: readonly RangeAddress[];
  /** Rows hidden, shown, or given a height. */
  readonly rows?: ReadonlyMap<number, RowChange>;
  /** Columns hidden (true) or shown. */
  readonly hiddenColumns?: ReadonlyMap<number, boolean>;
  /** The sheet itself hidden or shown. */
  readonly hidden?: boolean;
  /** "#rrggbb"; '' takes the colour away. */
  readonly tabColor?: string;
  /** All filters of the sheet and its tables, where one of them changed. */
  readonly filters?: readonly FilterModel[];
  /** Drop-down lists that have other cells than in the file, or that are removed. */
  readonly movedValidations?: readonly ListMove[];
  /** Charts of a sheet that is made here. */
  readonly charts?: readonly BarChart[];
}

export interface ListMove {
  readonly from: RangeAddress;
  /** Undefined: the list is taken away. */
  readonly to?: RangeAddress;
}

/** A sheet as it shall stand; `was` is its name in the file, left out for one that is new. */
export interface SheetPlace {
  readonly name: string;
  readonly was?: string;
}

export interface WorkbookChanges {
  /** Changes to sheets, by the names that they have in the file. */
  readonly sheets: readonly SheetChanges[];
  readonly newSheets?: readonly SheetModel[];
  /** All sheets in their new order, new ones included; given where one is renamed, removed or moved. */
  readonly order?: readonly SheetPlace[];
  /** Names that are new or stand for something else. */
  readonly names?: readonly NameModel[];
  readonly removedNames?: readonly Pick<NameModel, 'name' | 'scope'>[];
  /** What style indexes of changed cells and new sheets point into. */
  readonly styles?: readonly StyleModel[];
}

/** Lines that were hidden and are not, or the other way round. */
export function hiddenChanges(before: readonly number[], after: readonly number[]): Map<number, boolean> {
  const [was, is] = [new Set(before), new Set(after)];
  return new Map([
    ...before.filter((line) => !is.has(line)).map((line): [number, boolean] => [line, false]),
    ...after.filter((line) => !was.has(line)).map((line): [number, boolean] => [line, true]),
  ]);
}

export function rowChanges(
  before: readonly number[],
  after: readonly number[],
  heights: ReadonlyMap<number, number> = new Map(),
): Map<number, RowChange> {
  const changes = new Map<number, RowChange>();
  for (const [row, hidden] of hiddenChanges(before, after)) changes.set(row, { hidden });
  for (const [row, height] of heights) changes.set(row, { ...changes.get(row), height });
  return changes;
}

/** A sheet that does not exist yet, as changes to an empty one. */
export function asChanges(sheet: SheetModel): SheetChanges {
  const cells: CellChange[] = [];
  sheet.cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (!cell) return;
      const { value, formula, plain, spill, style } = cell;
      cells.push({
        row,
        column,
        value,
        ...(formula === undefined ? {} : { formula }),
        ...(plain ? { plain } : {}),
        ...(spill ? { spill } : {}),
        ...(style === undefined ? {} : { style }),
      });
    }),
  );
  const widths = (sheet.columnWidths ?? []).flatMap((width, column): [number, number][] =>
    width === undefined ? [] : [[column, width]],
  );
  return {
    sheet: sheet.name,
    isMadeHere: true,
    cells,
    tables: sheet.tables,
    columnWidths: new Map(widths),
    merges: sheet.merges ?? [],
    validations: sheet.validations ?? [],
    ...(sheet.frozen ? { frozen: sheet.frozen } : {}),
    rows: rowChanges([], sheet.hiddenRows ?? [], sheet.rowHeights),
    hiddenColumns: hiddenChanges([], sheet.hiddenColumns ?? []),
    ...(sheet.tabColor ? { tabColor: sheet.tabColor } : {}),
    ...(sheet.filters?.length ? { filters: sheet.filters } : {}),
    ...(sheet.charts ? { charts: sheet.charts } : {}),
  };
}
