/** What the view reads of the workbook: joints, options, prices. */
import { piecesPerPound } from '../../../core/fastener';
import { openPriceBook, readPriceList, type PriceBook } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { CellError, type Cell } from '../../../sheet';
import {
  PARTS,
  readRivetJoints,
  readRivetOptions,
  readTop,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  unitsOfProject,
  type RivetJoints,
  type RivetOptionsSheet,
} from '../../../project';
import { type Workbook } from '../../../sheet';

const PRICES = 'prices';

export interface RivetSheets {
  readonly joints: RivetJoints | undefined;
  readonly options: RivetOptionsSheet | undefined;
  readonly book: PriceBook;
  /** False where the workbook has no price list at all. */
  readonly priced: boolean;
  /** What the view is shown in. */
  readonly units: UnitSystem;
  /** Sheets whose change concerns the view, in lower case. */
  readonly names: ReadonlySet<string>;
}

export const NO_SHEETS: RivetSheets = {
  joints: undefined,
  options: undefined,
  book: openPriceBook({ rows: [], problems: [] }),
  priced: false,
  units: 'in-lb',
  names: new Set(),
};

export async function readRivetSheets(workbook: Workbook): Promise<RivetSheets> {
  const names = (await workbook.sheets()).map(({ name }) => name);
  const named = (wanted: string): string | undefined => names.find((one) => one.toLowerCase() === wanted.toLowerCase());
  const topOf = async (wanted: string): Promise<Cell[][] | undefined> => {
    const name = named(wanted);
    return name === undefined ? undefined : readTop(workbook, name);
  };
  const valuesOf = async (wanted: string): Promise<Cell[][] | undefined> => {
    const name = named(wanted);
    const used = name === undefined ? undefined : await workbook.usedRange(name);
    return used && workbook.read(used);
  };
  const table = (await workbook.tables()).find(({ name }) => name.toLowerCase() === PRICES);
  // The parts list says by its labels which units the workbook is in.
  const wanted = [PARTS.sheet, RIVET_JOINTS.sheet, RIVET_OPTIONS_SHEET];
  const read = new Map(
    await Promise.all(
      wanted.map(
        async (name) => [name.toLowerCase(), await (name === PARTS.sheet ? topOf(name) : valuesOf(name))] as const,
      ),
    ),
  );
  const values = (sheet: string): Cell[][] | undefined => read.get(sheet.toLowerCase());
  const prices = await (table ? workbook.read(table.range) : valuesOf(PRICES));
  const list = readPriceList(
    (prices ?? []).map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell))),
  );
  const units = unitsOfProject(values);
  return {
    joints: readRivetJoints(values, units),
    options: readRivetOptions(values),
    book: openPriceBook(list, piecesPerPound),
    priced: list.rows.length > 0,
    units,
    names: new Set([...wanted, table?.range.sheet ?? PRICES].map((name) => name.toLowerCase())),
  };
}
