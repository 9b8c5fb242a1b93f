/** The builder's own rivets: the sheet Rivets, whose wrong cells are named by their address. */
import { readOwnRivets, type OwnRivets } from '../core/fastener';
import { withoutRow } from '../core/table';
import { sameName } from '../core/names';
import type { PriceBook } from '../core/price';
import type { UnitSystem } from '../core/quantity';
import { bookWithRivets } from '../core/rivet-choice';
import { CellError, cellName, columnName, isBlank, type Cell, type TableModel } from '../sheet';
import { once, type Problem, type SheetValues } from './reading';
import { NO_PRICES, type ProjectPrices } from './prices';
import { keptInUnits } from './project-units';

export const OWN_RIVETS_SHEET = 'Rivets';

export interface OwnRivetSheet {
  readonly rivets: OwnRivets;
  readonly problems: readonly Problem[];
}

const plain = (cell: Cell): Exclude<Cell, CellError> => (cell instanceof CellError ? cell.code : cell);

/** The sheet; undefined where the workbook has none of that name with the table's header. */
export const readOwnRivetSheet = keptInUnits((values: SheetValues, units: UnitSystem): OwnRivetSheet | undefined => {
  const cells = values(OWN_RIVETS_SHEET);
  if (!cells) return undefined;
  const rivets = readOwnRivets(
    cells.map((row) => row.map(plain)),
    units,
  );
  // A sheet of that name that holds something else does not belong to the project.
  if (rivets.header === undefined) return undefined;
  return {
    rivets,
    problems: rivets.problems.map(({ row, column, message }) => ({
      sheet: OWN_RIVETS_SHEET,
      cell: cellName(row - 1, column ?? 0),
      message: withoutRow(message),
    })),
  };
});

/** The builder's own rivets, if there are some, and the price list in which they have their own weights. */
export const pricedRivets = (
  values: SheetValues,
  prices: Pick<ProjectPrices, 'book'> | undefined,
  units: UnitSystem,
): { readonly own: OwnRivets | undefined; readonly book: PriceBook; readonly problems: readonly Problem[] } =>
  once(values, pricedOf, prices?.book ?? NO_PRICES, units);

function pricedOf(values: SheetValues, book: PriceBook, units: UnitSystem): ReturnType<typeof pricedRivets> {
  const sheet = readOwnRivetSheet(values, units);
  return { own: sheet?.rivets, book: bookWithRivets(book, sheet?.rivets), problems: sheet?.problems ?? [] };
}

/**
 * What a formula calls the own rivets on their sheet: the table, or the range where they are no table.
 * Undefined where the sheet holds something else.
 * @param cells of the sheet, from A1
 */
export function ownRivetsReference(
  cells: readonly (readonly Cell[])[],
  tables: readonly Pick<TableModel, 'name' | 'range'>[],
): string | undefined {
  const { header } = readOwnRivets(cells.map((row) => row.map(plain)));
  if (header === undefined) return undefined;
  const table = tables.find(({ range }) => sameName(range.sheet, OWN_RIVETS_SHEET) && range.row === header);
  if (table) return `${table.name}[#All]`;
  const last = cells[header]!.findLastIndex((cell) => !isBlank(cell));
  return `${OWN_RIVETS_SHEET}!$A$${header + 1}:$${columnName(last)}$${Math.max(cells.length, header + 1) + ROOM}`;
}

/** Rows below the last rivet that the formulas reach: room for more. */
const ROOM = 30;
