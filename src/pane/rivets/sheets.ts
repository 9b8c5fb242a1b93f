/** What the view reads of the workbook: joints, options, prices. */
import { piecesPerPound } from '../../core/fastener';
import { openPriceBook, readPriceList, type PriceBook } from '../../core/price';
import { CellError, type Cell } from '../../functions';
import { readRivetJoints, readRivetOptions, RIVET_JOINTS, RIVET_OPTIONS_SHEET, type RivetJoints, type RivetOptionsSheet, type Workbook } from '../../workbook';

const PRICES = 'prices';

export interface RivetSheets {
  readonly joints: RivetJoints | undefined;
  readonly options: RivetOptionsSheet | undefined;
  readonly book: PriceBook;
  /** False where the workbook has no price list at all. */
  readonly priced: boolean;
  /** Sheets whose change concerns the view, in lower case. */
  readonly names: ReadonlySet<string>;
}

export const NO_SHEETS: RivetSheets = { joints: undefined, options: undefined, book: openPriceBook({ rows: [], problems: [] }), priced: false, names: new Set() };

export async function readRivetSheets(workbook: Workbook): Promise<RivetSheets> {
  const names = (await workbook.sheets()).map(({ name }) => name);
  const valuesOf = async (wanted: string): Promise<Cell[][] | undefined> => {
    const name = names.find((one) => one.toLowerCase() === wanted.toLowerCase());
    const used = name === undefined ? undefined : await workbook.usedRange(name);
    return used && workbook.read(used);
  };
  const table = (await workbook.tables()).find(({ name }) => name.toLowerCase() === PRICES);
  const [joints, options, prices] = await Promise.all([valuesOf(RIVET_JOINTS.sheet), valuesOf(RIVET_OPTIONS_SHEET), table ? workbook.read(table.range) : valuesOf(PRICES)]);
  const list = readPriceList((prices ?? []).map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell))));
  return {
    joints: readRivetJoints(() => joints),
    options: readRivetOptions(() => options),
    book: openPriceBook(list, piecesPerPound),
    priced: list.rows.length > 0,
    names: new Set([RIVET_JOINTS.sheet, RIVET_OPTIONS_SHEET, table?.range.sheet ?? PRICES].map((name) => name.toLowerCase())),
  };
}
