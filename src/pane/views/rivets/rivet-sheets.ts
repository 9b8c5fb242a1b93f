/** What the view reads of the workbook: joints, options, prices, own rivets and whether the joints use them. */
import type { PriceBook } from '../../../core/price';
import { sameName } from '../../../core/names';
import type { UnitSystem } from '../../../core/quantity';
import {
  cellsIn,
  jointsRewrite,
  sheetsNamed,
  NO_PRICES,
  OWN_RIVETS_SHEET,
  ownRivetsReference,
  pricedRivets,
  readOwnRivetSheet,
  readRivetJoints,
  readRivetOptions,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  type JointsRewrite,
  type OwnRivetSheet,
  type RivetJoints,
  type RivetOptionsSheet,
  type ProjectSheets,
  type WantedSheets,
} from '../../../project';
import type { Cell, TableModel } from '../../../sheet';

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
}

export interface OwnTable {
  readonly table: TableModel;
  readonly rows: readonly (readonly Cell[])[];
}

export const NOTHING_READ: RivetSheets = {
  joints: undefined,
  options: undefined,
  own: undefined,
  ownTable: undefined,
  hasOwnSheet: false,
  rewrite: undefined,
  book: NO_PRICES,
  priced: false,
  units: 'in-lb',
};

/** What the view shows is read whole, the joints with their formulas, which may not know the own rivets. */
export const rivetSheets: WantedSheets = (there) => [
  ...sheetsNamed(there, RIVET_JOINTS.sheet).map((sheet) => ({ sheet, formulas: true })),
  ...[...sheetsNamed(there, RIVET_OPTIONS_SHEET, OWN_RIVETS_SHEET), ...(there.prices ? [there.prices.sheet] : [])].map(
    (sheet) => ({ sheet }),
  ),
];

export function readRivetSheets(sheets: ProjectSheets): RivetSheets {
  const { values, prices, units } = sheets;
  const { own: rivets, book } = pricedRivets(values, prices, units);
  return {
    joints: readRivetJoints(values, units, rivets),
    options: readRivetOptions(values, rivets),
    own: readOwnRivetSheet(values, units),
    ...ownPlaces(sheets),
    book,
    priced: book.list.rows.length > 0,
    units,
  };
}

/** The table of own rivets, and what would let the joints use it. */
function ownPlaces(sheets: ProjectSheets): Pick<RivetSheets, 'ownTable' | 'hasOwnSheet' | 'rewrite'> {
  const { values, tables } = sheets;
  const cells = values(OWN_RIVETS_SHEET);
  if (!cells) return { ownTable: undefined, hasOwnSheet: false, rewrite: undefined };
  const reference = ownRivetsReference(cells, tables);
  const table = tables.find(
    ({ name, range }) => sameName(range.sheet, OWN_RIVETS_SHEET) && reference === `${name}[#All]`,
  );
  return {
    hasOwnSheet: true,
    ownTable: table && {
      table,
      rows: cellsIn(cells, { ...table.range, row: table.range.row + 1, rows: table.range.rows - 1 }),
    },
    rewrite: reference === undefined ? undefined : rewriteOf(sheets, reference),
  };
}

function rewriteOf({ values, formulas, units }: ProjectSheets, reference: string): JointsRewrite | undefined {
  const [cells, typed] = [values(RIVET_JOINTS.sheet), formulas(RIVET_JOINTS.sheet)];
  return cells && typed && jointsRewrite({ cells, formulas: typed, own: reference, system: units });
}
