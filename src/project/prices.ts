/** Where a workbook's price list stands, and what is in it. */
import { piecesPerPound } from '../core/fastener';
import { ByName, sameName } from '../core/names';
import { openPriceBook, readPriceList, type PriceBook } from '../core/price';
import { itemNames } from '../core/shopping';
import { CellError, type Cell, type RangeAddress, type TableModel } from '../sheet';
import { once, type SheetValues } from './reading';

/** The table's name, and the name of the sheet that a new one is put on. */
export const PRICE_TABLE = 'Prices';

export interface PricePlace {
  readonly sheet: string;
  /** Undefined where the list is a sheet's cells that are no table. */
  readonly table: TableModel | undefined;
}

export interface ProjectPrices extends PricePlace {
  /** The list's cells with its header row. */
  readonly range: RangeAddress;
  readonly book: PriceBook;
  /** The one currency of all its rows; '' where they name none, or several. */
  readonly currency: string;
  /** False where the cells are blank. */
  readonly filled: boolean;
}

const isPrices = (name: string): boolean => name.toLowerCase() === PRICE_TABLE.toLowerCase();

/**
 * The table Prices, whatever sheet it is on, since formulas use its name; without it the sheet Prices.
 * Undefined where there is neither.
 */
export function findPrices(sheets: readonly string[], tables: readonly TableModel[]): PricePlace | undefined {
  const table = tables.find(({ name }) => isPrices(name));
  if (table) return { sheet: table.range.sheet, table };
  const sheet = sheets.find(isPrices);
  return sheet === undefined ? undefined : { sheet, table: undefined };
}

/** A price list without rows. */
export const NO_PRICES: PriceBook = openPriceBook({ rows: [], problems: [] }, piecesPerPound);

/** The price list of a place, from the values of its sheet; undefined where these are blank. */
export const pricesAt = (values: SheetValues, { sheet, table }: PricePlace): ProjectPrices | undefined =>
  once(values, readPrices, sheet, table);

function readPrices(values: SheetValues, sheet: string, table: TableModel | undefined): ProjectPrices | undefined {
  const cells = values(sheet);
  if (!cells) return undefined;
  const columns = Math.max(0, ...cells.map((row) => row.length));
  const range = table?.range ?? { sheet, row: 0, column: 0, rows: cells.length, columns };
  const read = cellsIn(cells, range);
  const list = readPriceList(read.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell))));
  const currencies = new Set(list.rows.map(({ currency }) => currency).filter(Boolean));
  return {
    sheet,
    table,
    range,
    book: openPriceBook(list, piecesPerPound),
    currency: currencies.size === 1 ? [...currencies][0]! : '',
    filled: read.some((row) => row.some((cell) => cell !== null && cell !== '')),
  };
}

/** A range of cells that are read from A1; blank where there are none. */
export const cellsIn = <T extends Cell>(
  cells: readonly (readonly T[])[],
  { row, column, rows, columns }: RangeAddress,
): (T | null)[][] =>
  Array.from({ length: rows }, (_row, r) =>
    Array.from({ length: columns }, (_column, c) => cells[row + r]?.[column + c] ?? null),
  );

/** The currency that a price list has an item in; '' where it does not say, or there is no list. */
export function currencyOfItems(book: PriceBook | undefined): (item: string) => string {
  if (!book) return () => '';
  const nameOf = itemNames(book);
  const byItem = new ByName((item) => {
    const name = nameOf(item);
    return book.list.rows.find((row) => sameName(row.item, name))?.currency ?? '';
  });
  return (item) => (item === '' ? '' : byItem.get(item));
}
