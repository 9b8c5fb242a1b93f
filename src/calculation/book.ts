/** A workbook while it is calculated: its sheets by name, its names and its tables. */
import {
  showsDate,
  type CellError,
  type NameModel,
  type RangeAddress,
  type TableModel,
  type WorkbookModel,
} from '../sheet';
import { Grid, Shared } from './grid';
import { noSheet, Reference } from './values';

export class Book {
  readonly grids: readonly Grid[];
  readonly shared = new Shared();
  private readonly byName: ReadonlyMap<string, Grid>;
  private readonly names: ReadonlyMap<string, NameModel>;
  private readonly tables: ReadonlyMap<string, TableModel>;

  /** True where days are counted from 1904. */
  readonly dates1904: boolean;
  private readonly dateStyles: readonly boolean[];

  constructor(model: WorkbookModel) {
    this.dates1904 = model.dates1904 ?? false;
    this.dateStyles = this.dates1904 ? model.styles.map(({ numberFormat }) => showsDate(numberFormat ?? '')) : [];
    this.grids = model.sheets.map((sheet, index) => new Grid(index, sheet, this));
    this.byName = new Map(this.grids.map((grid) => [grid.sheet.name.toLowerCase(), grid]));
    this.names = new Map(model.names.map((name) => [nameKey(name.name, name.scope), name]));
    this.tables = new Map(
      model.sheets.flatMap(({ tables }) => tables.map((table) => [table.name.toLowerCase(), table] as const)),
    );
  }

  /** True for a style in which the model has days since 1900 that the workbook counts from 1904. */
  isShifted(style: number | undefined): boolean {
    return style !== undefined && (this.dateStyles[style] ?? false);
  }

  grid(name: string): Grid | undefined {
    return this.byName.get(name.toLowerCase());
  }

  /** A name as a sheet sees it: its own before the workbook's. */
  name(name: string, sheet: string): NameModel | undefined {
    return this.names.get(nameKey(name, sheet)) ?? this.names.get(nameKey(name, undefined));
  }

  table(name: string): TableModel | undefined {
    return this.tables.get(name.toLowerCase());
  }

  /** The table that a cell is part of. */
  tableAt(grid: Grid, row: number, column: number): TableModel | undefined {
    return grid.sheet.tables.find(
      ({ range, totals }) =>
        row >= range.row &&
        row < range.row + range.rows + (totals ? 1 : 0) &&
        column >= range.column &&
        column < range.column + range.columns,
    );
  }

  range({ sheet, row, column, rows, columns }: RangeAddress): Reference | CellError {
    const grid = this.grid(sheet);
    return grid ? new Reference(grid, row, column, rows, columns) : noSheet(sheet);
  }
}

const nameKey = (name: string, scope: string | undefined): string =>
  `${name.toLowerCase()} ${scope?.toLowerCase() ?? ''}`;
