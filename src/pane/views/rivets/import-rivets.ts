/** Bringing own rivets in from a CSV file: mapped, checked row by row, then written as one step of undo. */
import { nameKey } from '../../../core/names';
import { OWN_COLUMNS, ownPlaces, readOwnRivets, type OwnColumn, type OwnKey } from '../../../core/fastener';
import {
  fromUnit,
  inUnit,
  labelUnit,
  readUnit,
  typedNumber,
  withDot,
  unitIn,
  type Unit,
  type UnitSystem,
} from '../../../core/quantity';
import { withoutRow } from '../../../core/table';
import type { Cell, Edit, TableModel } from '../../../sheet';
import { addTableRows, writeCell } from '../../shared/edits';
import { mapColumns, readCsvFile, type Mapping, type CsvFile, type CsvRow } from '../../shared/csv-import';

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
