/**
 * What the view reads of the workbook: joints, options, prices, own rivets and whether the joints use them; its edits of
 * them; and how own rivets are brought in from a file.
 */
import { OWN_COLUMNS, ownPlaces, readOwnRivets, type OwnColumn, type OwnKey } from '../../../core/fastener';
import { nameKey, sameName } from '../../../core/names';
import type { PriceBook } from '../../../core/price';
import {
  fromUnit,
  inUnit,
  labelUnit,
  readUnit,
  typedNumber,
  unitIn,
  withDot,
  type Unit,
  type UnitSystem,
} from '../../../core/quantity';
import { withoutRow } from '../../../core/table';
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
import { mapColumns, readCsvFile, type CsvFile, type CsvRow, type Mapping } from '../../shared/csv-import';
import { addTableRows, rowBelow, writeCell } from '../../shared/edits';

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
    ...ownTableIn(sheets),
    book,
    priced: book.list.rows.length > 0,
    units,
  };
}

/** The table of own rivets, and what would let the joints use it. */
function ownTableIn(sheets: ProjectSheets): Pick<RivetSheets, 'ownTable' | 'hasOwnSheet' | 'rewrite'> {
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

// Own rivets from a CSV file: mapped, checked row by row, then written as one step of undo

/** The column of the table of rivets that a label names, whatever unit stands behind it. */
const keyOf = (label: string): OwnKey | undefined => [...ownPlaces([label]).keys()][0];

export const readRivetCsv = (text: string): CsvFile => readCsvFile(text, (cells) => ownPlaces(cells).size);

export const mapRivetColumns = (headers: readonly string[], columns: readonly string[]): Mapping =>
  mapColumns(
    headers,
    columns,
    (column, header) => column.trim() === header || (keyOf(header) !== undefined && keyOf(column) === keyOf(header)),
  );

interface RefusedRivet {
  /** Record in the file, the first being 1. */
  readonly number: number;
  readonly label: string;
  readonly why: string;
}

export interface RivetImport {
  /** Whole table rows that are new. */
  readonly add: readonly (readonly Cell[])[];
  /** Data rows of the table, from 0, that the file has with other values; null cells stay as they are. */
  readonly change: readonly { readonly at: number; readonly cells: readonly Cell[] }[];
  readonly same: number;
  readonly refused: readonly RefusedRivet[];
  /** Labels without which no rivet can be read, and that no column of the file fills. */
  readonly missing: readonly string[];
}

const NEEDED: readonly OwnKey[] = ['label', 'kind', 'diameter'];

export interface RivetTable {
  readonly labels: readonly string[];
  /** Its data rows. */
  readonly rows: readonly (readonly Cell[])[];
  /** System of columns whose labels name no unit. */
  readonly units: UnitSystem;
}

/** What a file's rows would do to the table; nothing is written. */
export function planRivets(file: CsvFile, mapping: Mapping, { labels, rows, units }: RivetTable): RivetImport {
  const filled = new Set(mapping.map((place) => (place === undefined ? undefined : keyOf(labels[place]!))));
  const missing = NEEDED.filter((key) => !filled.has(key)).map((key) => plainWords(OWN_COLUMNS[key].label));
  if (missing.length > 0) return { add: [], change: [], same: 0, refused: [], missing };
  const place = ownPlaces(labels).get('label') ?? -1;
  const known = new Map(rows.map((cells, at) => [nameKey(String(cells[place] ?? '')), at]));
  const read = file.rows.map((row) => tableRow(row, file, mapping, { labels, rows, units }));
  // All rows at once, so that a label that comes twice is named.
  const { problems } = readOwnRivets([labels, ...read.map((cells) => cells.map((cell) => plain(cell)))], units);
  const add: Cell[][] = [];
  const change: { at: number; cells: Cell[] }[] = [];
  const refused: RefusedRivet[] = [];
  let same = 0;
  read.forEach((cells, index) => {
    const { number } = file.rows[index]!;
    const label = String(cells[place] ?? '').trim();
    const wrong = problems.find(({ row }) => row === index + 2);
    const at = known.get(nameKey(label));
    if (wrong) refused.push({ number, label, why: withoutRow(wrong.message) });
    else if (at === undefined || label === '') add.push(cells);
    else if (cells.every((cell, column) => cell === null || String(cell) === String(rows[at]![column] ?? '')))
      same += 1;
    else change.push({ at, cells });
  });
  return { add, change, same, refused, missing };
}

const plain = (cell: Cell): string | number | boolean | null =>
  typeof cell === 'object' && cell !== null ? cell.code : cell;
const plainWords = (label: string): string => label.replace(/ \(.*/, '');

/** A row of the file in the table's columns, numbers in the table's units. */
function tableRow(
  { cells }: CsvRow,
  { headers, decimalComma }: CsvFile,
  mapping: Mapping,
  { labels, units }: RivetTable,
): Cell[] {
  const row: Cell[] = labels.map(() => null);
  mapping.forEach((place, index) => {
    const text = (cells[index] ?? '').trim();
    if (place !== undefined && text !== '')
      row[place] = cellOf(withDot(text, decimalComma ? 'mixed' : 'dot'), {
        header: headers[index]!,
        label: labels[place]!,
        units,
      });
  });
  return row;
}

/** What cannot be read as a number stays a text, which the row's check names. */
function cellOf(
  text: string,
  { header, label, units }: { readonly header: string; readonly label: string; readonly units: UnitSystem },
): Cell {
  const key = keyOf(label);
  const { dimension, most }: OwnColumn = key ? OWN_COLUMNS[key] : { label };
  const typed = typedNumber(text);
  if (!typed) return text;
  if (!dimension) return most !== undefined && typed.sign === undefined ? typed.value : text;
  const unitOf = (sign: string | undefined): Unit | undefined =>
    sign === undefined ? unitIn(dimension, units) : readUnit(sign, dimension);
  const table = unitOf(labelUnit(label));
  const own =
    typed.sign === undefined
      ? labelUnit(header) === undefined
        ? table
        : unitOf(labelUnit(header))
      : unitOf(typed.sign);
  if (!own || !table) return text;
  return own.sign === table.sign ? typed.value : inUnit(fromUnit(typed.value, own), table);
}

const isFilled = (cells: readonly Cell[]): boolean => cells.some((value) => value !== null && value !== '');

/** The edits that bring them in: into blank rows that wait at the table's end, then below. */
export const rivetImportEdits = (table: TableModel, rows: RivetTable['rows'], plan: RivetImport): Edit[] => [
  ...plan.change.flatMap(({ at, cells }) =>
    cells.flatMap((value, column) => (value === null ? [] : [writeIn(table, at, column, value)])),
  ),
  ...addTableRows(table, rows.findLastIndex(isFilled) + 1, plan.add),
];

/** Writes a cell of a data row. */
const writeIn = ({ range }: TableModel, row: number, column: number, cell: Cell): Edit =>
  writeCell(range.sheet, range.row + 1 + row, range.column + column, cell);

/**
 * Weights of 1,000 as bought that weighed samples give and no cell says, as edits of their cells. The table is read as
 * the functions read it: a sample typed as text counts, and a row with a wrong cell gives nothing.
 */
export function sampleEdits(table: TableModel, { labels, rows, units }: RivetTable): Edit[] {
  const places = ownPlaces(labels);
  const [bought, pieces, grams] = [places.get('bought'), places.get('pieces'), places.get('grams')];
  if (bought === undefined || pieces === undefined || grams === undefined) return [];
  const sign = labelUnit(labels[bought]);
  const unit = sign === undefined ? unitIn('weight', units) : readUnit(sign, 'weight');
  return readOwnRivets([labels, ...rows.map((cells) => cells.map((cell) => plain(cell)))], units).rivets.flatMap(
    (rivet): Edit[] => {
      const row = rivet.row - 2;
      const isBlank = (place: number): boolean => [null, '', 0].includes((rows[row]![place] ?? null) as null);
      if (!isBlank(bought) || isBlank(pieces) || isBlank(grams) || rivet.bought === undefined) return [];
      return [writeIn(table, row, bought, Math.round(inUnit(rivet.bought * 1000, unit) * 1e5) / 1e5)];
    },
  );
}
