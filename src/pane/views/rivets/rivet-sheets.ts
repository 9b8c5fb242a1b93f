/** What the view reads of the workbook: joints, options, prices, own rivets and whether the joints use them; and its edits of them. */
import { sameName } from '../../../core/names';
import type { PriceBook } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import {
  ACCESS_LABEL,
  cellsIn,
  exceptionAt,
  jointsRewrite,
  NO_PRICES,
  ONE_SIDE,
  OWN_RIVETS_SHEET,
  ownRivetsReference,
  pricedRivets,
  readOwnRivetSheet,
  readRivetJoints,
  readRivetOptions,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  sheetsNamed,
  type FormSheet,
  type JointsRewrite,
  type OwnRivetSheet,
  type ProjectSheets,
  type RivetJoint,
  type RivetJoints,
  type RivetOptionsSheet,
  type WantedSheets,
} from '../../../project';
import type { Cell, Edit, TableModel } from '../../../sheet';
import { rowBelow, writeCell } from '../../shared/edits';

export interface RivetSheets {
  readonly joints: RivetJoints | undefined;
  readonly options: RivetOptionsSheet | undefined;
  /** The builder's own rivets. */
  readonly own: OwnRivetSheet | undefined;
  /** Where they stand as a table, with its data rows; undefined where there is no table. */
  readonly ownTable: { readonly table: TableModel; readonly rows: readonly (readonly Cell[])[] } | undefined;
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

// Edits of the sheets Joints and Rivet options

/** Empties a list's row; a blank row is passed over. */
export const clearRow = ({ sheet, columns }: FormSheet<string>, row: number): Edit[] =>
  Object.values(columns).map((column) => writeCell(sheet, row, column!, null));

/** Other rivets at one joint of an option; '' takes them back. */
export function exceptionEdits(
  { exceptionList, exceptions }: RivetOptionsSheet,
  option: string,
  joint: RivetJoint,
  kind: string,
): Edit[] {
  if (!exceptionList) return [];
  const { sheet, columns } = exceptionList;
  const known = exceptionAt(exceptions, option, joint);
  if (kind === '') return known ? clearRow(exceptionList, known.row) : [];
  const row = known?.row ?? rowBelow(exceptionList);
  const cells = [
    [columns.option, option],
    [columns.joint, known?.joint ?? joint.name],
    [columns.kind, kind],
  ] as const;
  return cells.flatMap(([column, cell]) => (column === undefined ? [] : [writeCell(sheet, row, column, cell)]));
}

const HEADER_FILL = '#e8e6df';

/** Marks a joint's access; `free` is the first column behind everything on the sheet, for a sheet that has no such column yet. */
export function accessEdits(
  { form }: RivetJoints,
  joint: RivetJoint,
  oneSide: boolean,
  free: number,
): { readonly edits: readonly Edit[]; readonly added: boolean } {
  const column = form.columns.access;
  const cell = oneSide ? ONE_SIDE : null;
  if (column !== undefined) return { edits: [writeCell(form.sheet, joint.row, column, cell)], added: false };
  const header = { sheet: form.sheet, row: form.header, column: free, rows: 1, columns: 1 };
  return {
    edits: [
      writeCell(form.sheet, form.header, free, ACCESS_LABEL),
      { kind: 'format', range: header, bold: true, fill: HEADER_FILL },
      writeCell(form.sheet, joint.row, free, cell),
    ],
    added: true,
  };
}
