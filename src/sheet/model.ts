/**
 * A workbook as plain data: what the reader gives, what the spreadsheet engine is fed with, and what a
 * new file is written from. Rows and columns count from 0. Formulas stand as they are typed, without
 * the leading "=" and with the functions' own names (TARE.AREA.RECT), never in a file's spelling.
 */
import type { Cell } from './cell';

export interface Spill {
  readonly rows: number;
  readonly columns: number;
  /** True for an array formula of the older kind, which fills the extent that it was given, whatever its result's. */
  readonly fixed?: boolean;
}

export interface CellModel {
  /** The value, or the last computed value of a formula. */
  readonly value: Cell;
  readonly formula?: string;
  /**
   * True for a formula of a file's plain kind: where a cell is wanted and a range is given, it takes the range's
   * cell in its own row or column. Formulas without the mark are as typed today, and compute over the range.
   */
  readonly plain?: boolean;
  /** Extent over which an array formula in this cell spills, itself included. */
  readonly spill?: Spill;
  /** True where the cell shows part of another cell's spill. */
  readonly spilled?: boolean;
  /** Index into WorkbookModel.styles. */
  readonly style?: number;
}

/** The looks that are carried; anything else stays in the file and is patched around. */
export interface StyleModel {
  readonly numberFormat?: string;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly size?: number;
  /** "#rrggbb" */
  readonly color?: string;
  readonly fill?: string;
  readonly align?: 'left' | 'center' | 'right';
  readonly wrap?: boolean;
  readonly borderBottom?: boolean;
}

/** A rectangle of cells on a sheet. */
export interface RangeAddress {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export interface TableModel {
  readonly name: string;
  /** The range with its header row. */
  readonly range: RangeAddress;
  /** True where a row of totals follows the range. */
  readonly totals?: boolean;
  readonly columns: readonly string[];
}

export interface ChoiceValidation {
  readonly range: RangeAddress;
  readonly choices: readonly string[];
  /** The cells that hold the choices, where they stand in cells. */
  readonly from?: RangeAddress;
  /** True: other texts are taken, too. */
  readonly open?: true;
}

/** What a filter asks of one of its columns. */
export interface FilterColumn {
  /** Counted from the filter's first. */
  readonly column: number;
  /**
   * Rows stay whose cell shows one of these texts. Left out for what is carried through as it stands: colours, dates,
   * comparisons, the highest ones.
   */
  readonly values?: readonly string[];
  /** True where rows stay whose cell is blank. */
  readonly blanks?: boolean;
}

/** A filter over a list; rows that it hides are among the sheet's hidden ones. */
export interface FilterModel {
  /** With the row of headings. */
  readonly range: RangeAddress;
  /** The table that it belongs to; a sheet has one filter beside those of its tables. */
  readonly table?: string;
  /** Columns that hide rows, in order. */
  readonly columns: readonly FilterColumn[];
}

export interface SheetModel {
  /** True for a sheet without cells whose file holds what the model does not: charts, pictures, comments. */
  readonly holdsMore?: boolean;
  readonly name: string;
  readonly hidden?: boolean;
  readonly protected?: boolean;
  /** Sparse: cells[row]?.[column]. */
  readonly cells: (CellModel | undefined)[][];
  /** Widths in characters of the default font, by column. */
  readonly columnWidths?: readonly (number | undefined)[];
  readonly frozen?: { readonly rows: number; readonly columns: number };
  readonly merges?: readonly RangeAddress[];
  /** Rows that are not shown. */
  readonly hiddenRows?: readonly number[];
  /** Columns that are not shown. */
  readonly hiddenColumns?: readonly number[];
  /** Heights in points, by row, of rows that a person gave one. */
  readonly rowHeights?: ReadonlyMap<number, number>;
  /** Colour of the sheet's tab, "#rrggbb". */
  readonly tabColor?: string;
  /** True where a filter hides rows of the sheet. */
  readonly filtered?: boolean;
  /** Left out where there are none or they are not known: the file then keeps its own. A table's filter is listed only where it hides rows. */
  readonly filters?: readonly FilterModel[];
  readonly tables: readonly TableModel[];
  readonly validations?: readonly ChoiceValidation[];
  /** Charts for a sheet that is made here. Charts that a file has are not read; they stay in the file. */
  readonly charts?: readonly BarChart[];
}

/** Bars of one list's columns, side by side for each of its rows. */
export interface BarChart {
  readonly title: string;
  /** The header's row and those below it: names in the first column, numbers in the others. */
  readonly source: RangeAddress;
  /** The cells that it covers. */
  readonly at: RangeAddress;
}

export interface NameModel {
  readonly name: string;
  /** The formula that the name means, without "=": "Prices!$A$1:$J$40". */
  readonly refersTo: string;
  /** The one sheet on which the name holds; a name without it holds everywhere. */
  readonly scope?: string;
}

export interface WorkbookModel {
  /**
   * True where the file counts days from 1904. Cells that show dates have days since 1900 here all the same; every other
   * number, and what formulas compute with, is as the file has it.
   */
  readonly dates1904?: boolean;
  readonly sheets: readonly SheetModel[];
  readonly names: readonly NameModel[];
  readonly styles: readonly StyleModel[];
}

/** Days between the two epochs that a file can count dates from (1900 and 1904). */
export const DAYS_1904 = 1462;

/** True where a format shows a day, and not a mere time or duration. */
export function showsDate(format: string): boolean {
  const bare = format.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, '');
  return !/general/i.test(bare) && (/[yd]/i.test(bare) || (/m/i.test(bare) && !/[hs]/i.test(bare)));
}
