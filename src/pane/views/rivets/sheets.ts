/** What the view reads of the workbook: joints, options, prices, own rivets and whether the joints use them. */
import type { PriceBook } from '../../../core/price';
import { sameName } from '../../../core/names';
import type { UnitSystem } from '../../../core/quantity';
import { bookWithRivets } from '../../../core/rivet-choice';
import {
  NO_PRICES,
  jointsRewrite,
  OWN_RIVETS_SHEET,
  ownRivetsReference,
  PARTS,
  PRICE_TABLE,
  readNamedSheets,
  readOwnRivetSheet,
  readRivetJoints,
  readRivetOptions,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  type JointsRewrite,
  type OwnRivetSheet,
  type RivetJoints,
  type RivetOptionsSheet,
  type SheetValues,
} from '../../../project';
import type { Cell, TableModel, Workbook } from '../../../sheet';

export interface RivetSheets {
  readonly joints: RivetJoints | undefined;
  readonly options: RivetOptionsSheet | undefined;
  /** The builder's own rivets. */
  readonly own: OwnRivetSheet | undefined;
  /** Where they stand as a table, with its data rows; undefined where there is no table. */
  readonly ownTable: OwnTable | undefined;
  /** True where the workbook has a sheet Rivets, whatever it holds. */
  readonly hasOwnSheet: boolean;
  /** What lets the joints' formulas use them; undefined where they do, or nothing can be done. */
  readonly rewrite: JointsRewrite | undefined;
  readonly book: PriceBook;
  /** False where the workbook has no price list at all. */
  readonly priced: boolean;
  /** What the view is shown in. */
  readonly units: UnitSystem;
  /** Sheets whose change concerns the view, in lower case. */
  readonly names: ReadonlySet<string>;
}

export interface OwnTable {
  readonly table: TableModel;
  readonly rows: readonly (readonly Cell[])[];
}

export const NO_SHEETS: RivetSheets = {
  joints: undefined,
  options: undefined,
  own: undefined,
  ownTable: undefined,
  hasOwnSheet: false,
  rewrite: undefined,
  book: NO_PRICES,
  priced: false,
  units: 'in-lb',
  names: new Set(),
};

export async function readRivetSheets(workbook: Workbook): Promise<RivetSheets> {
  // The parts list says by its labels which units the workbook is in.
  const wanted = {
    [PARTS.sheet]: 'top',
    [RIVET_JOINTS.sheet]: 'all',
    [RIVET_OPTIONS_SHEET]: 'all',
    [OWN_RIVETS_SHEET]: 'all',
  } as const;
  const { values, prices, units } = await readNamedSheets(workbook, wanted);
  const own = readOwnRivetSheet(values, units);
  const book = bookWithRivets(prices?.book ?? NO_PRICES, own?.rivets);
  return {
    joints: readRivetJoints(values, units, own?.rivets),
    options: readRivetOptions(values, own?.rivets),
    own,
    ...(await ownPlaces(workbook, values, units)),
    book,
    priced: book.list.rows.length > 0,
    units,
    names: new Set([...Object.keys(wanted), prices?.sheet ?? PRICE_TABLE].map((name) => name.toLowerCase())),
  };
}

/** The table of own rivets, and what would let the joints use it. */
async function ownPlaces(
  workbook: Workbook,
  values: SheetValues,
  units: UnitSystem,
): Promise<Pick<RivetSheets, 'ownTable' | 'hasOwnSheet' | 'rewrite'>> {
  const cells = values(OWN_RIVETS_SHEET);
  if (!cells) return { ownTable: undefined, hasOwnSheet: false, rewrite: undefined };
  const tables = await workbook.tables();
  const reference = ownRivetsReference(cells, tables);
  const table = tables.find(
    ({ name, range }) => sameName(range.sheet, OWN_RIVETS_SHEET) && reference === `${name}[#All]`,
  );
  const rows = table && rowsOf(cells, table);
  return {
    hasOwnSheet: true,
    ownTable: table && rows && { table, rows },
    rewrite: reference === undefined ? undefined : await rewriteOf(workbook, values, { reference, units }),
  };
}

const rowsOf = (cells: readonly (readonly Cell[])[], { range }: TableModel): Cell[][] =>
  Array.from({ length: range.rows - 1 }, (_row, row) =>
    Array.from(
      { length: range.columns },
      (_cell, column) => cells[range.row + 1 + row]?.[range.column + column] ?? null,
    ),
  );

async function rewriteOf(
  workbook: Workbook,
  values: SheetValues,
  { reference, units }: { readonly reference: string; readonly units: UnitSystem },
): Promise<JointsRewrite | undefined> {
  const cells = values(RIVET_JOINTS.sheet);
  const sheet = (await workbook.sheets()).find(({ name }) => sameName(name, RIVET_JOINTS.sheet));
  const used = cells && sheet && (await workbook.usedRange(sheet.name));
  if (!used) return undefined;
  return jointsRewrite({ cells, formulas: await workbook.readFormulas(used), own: reference, system: units });
}
