/**
 * The builder's own table of rivets: what is copied from the maker's sheet or weighed at home. A row that cannot be
 * read is named with its cell and is not used; what a row leaves out is computed where its geometry allows it, and is
 * named as computed.
 */
import { InputError, refuse, unlessRefused } from '../input-error';
import { densityOf, findMaterial } from '../material';
import { nameKey } from '../names';
import {
  fromUnit,
  hasDecimalComma,
  labelUnit,
  readUnit,
  typedNumber,
  unitIn,
  type Dimension,
  type Unit,
  type UnitSystem,
} from '../quantity';
import { findHeader, isBlankCell, placesOf, tableText, type Places, type TableCell, type TableCells } from '../table';
import {
  BLIND_PAIRS,
  BLIND_SIZES,
  DRILLS,
  drillNamed,
  SOLID_ALLOYS,
  SOLID_SIZES,
  UNIVERSAL_HEAD,
  type SolidSize,
} from './sizes';
import { FORMED_HEAD_ALLOWANCE } from './layout';
import type { BlindPair, BlindStem, OwnRivet, RivetStyle } from './rivet';
import { shapeVolume, blindWeight } from './weight';

export interface OwnColumn {
  /** As it stands in the table's header, with the unit of a table in inches and pounds. */
  readonly label: string;
  /** Other words for it, as makers' lists have them. */
  readonly also?: readonly string[];
  readonly dimension?: Dimension;
  /** Greatest in inches and pounds: more is a slip of the unit. All numbers are above 0. */
  readonly most?: number;
}

/** The columns, by key. Weights are of 1,000 rivets. */
export const OWN_COLUMNS = {
  label: { label: 'Rivet', also: ['Label', 'Rivet label'] },
  kind: { label: 'Kind' },
  diameter: { label: 'Diameter (in)', dimension: 'length', most: 0.5 },
  head: { label: 'Head (in)', dimension: 'length', most: 1.5 },
  length: { label: 'Length (in)', dimension: 'length', most: 4 },
  gripMin: { label: 'Grip from (in)', also: ['Grip min', 'Min grip', 'Least grip'], dimension: 'length', most: 4 },
  gripMax: { label: 'Grip to (in)', also: ['Grip max', 'Max grip', 'Greatest grip'], dimension: 'length', most: 4 },
  bought: { label: '1000 bought (lb)', dimension: 'weight', most: 100 },
  installed: { label: '1000 installed (lb)', dimension: 'weight', most: 100 },
  hole: { label: 'Hole (in)', dimension: 'length', most: 0.6 },
  drill: { label: 'Drill' },
  shear: { label: 'Shear (lbf)', dimension: 'force', most: 20_000 },
  tension: { label: 'Tension (lbf)', dimension: 'force', most: 20_000 },
  material: { label: 'Material' },
  pieces: { label: 'Sample pieces', most: 1e6 },
  grams: { label: 'Sample (g)', most: 1e5 },
  source: { label: 'Source' },
} as const satisfies Record<string, OwnColumn>;
export type OwnKey = keyof typeof OWN_COLUMNS;

/** Words of the column Kind. "blind" is the kind whose stem breaks off. */
export const OWN_KINDS = ['universal', 'flush', 'blind', 'blind retained'] as const;

export interface OwnProblem {
  /** From 1, of the range that was read. */
  readonly row: number;
  /** From 0, of the same; undefined where the column is not there. */
  readonly column: number | undefined;
  readonly label: string;
  /** "row 4, Diameter: got 4; takes …" */
  readonly message: string;
}

/** The table, read. */
export interface OwnRivets {
  /** Row of the header in the range, from 0; undefined where there is none. */
  readonly header: number | undefined;
  readonly rivets: readonly OwnRivet[];
  readonly problems: readonly OwnProblem[];
  /** The rivet of a label, case and spacing aside; undefined where no row has it. Throws what is wrong with its row. */
  find(label: string, parameter?: string): OwnRivet | undefined;
}

const KEYS = Object.keys(OWN_COLUMNS) as OwnKey[];
const column = (key: OwnKey): OwnColumn => OWN_COLUMNS[key];
/** A cell as a message names it: "row 4, Diameter". */
const inRow = (row: number, key: OwnKey): string => `row ${row}, ${column(key).label.replace(/ \(.*/, '')}`;
const problem = (row: number, at: number | undefined, label: string, { message }: InputError): OwnProblem => ({
  row,
  column: at,
  label,
  message,
});
const COLUMNS = KEYS.map((key) => ({ key, ...column(key) }));

/** Columns of the table by their labels, whatever unit stands behind them. */
export const ownPlaces = (labels: readonly unknown[]): Places<OwnKey> => placesOf(COLUMNS, labels);

/** Refuses one cell by the key of its column, which the reader of the rows turns into the cell's place. */
const refuseCell = (key: OwnKey, got: TableCell, takes: string, guess?: string): never =>
  refuse(key, got, takes, guess);

/**
 * Reads the table with its header row; columns are found by their labels, in any order.
 * @param units of numbers below a label that names no unit in brackets
 */
export function readOwnRivets(cells: TableCells, units: UnitSystem = 'in-lb'): OwnRivets {
  const problems: OwnProblem[] = [];
  const head = findHeader(COLUMNS, cells, ['label', 'diameter']);
  if (!head) {
    const labels = cells[0]?.map(tableText).filter(Boolean).join(', ');
    const error = new InputError('header', labels, HEADER_TAKES);
    return table(undefined, [], [problem(1, undefined, '', error)]);
  }
  const { header } = head;
  const places = new Map<OwnKey, { readonly at: number; readonly unit: Unit | undefined }>();
  for (const [key, at] of head.places) {
    const label = cells[header]![at];
    const { dimension } = column(key);
    const unit = dimension && unitBelow(label, dimension, units);
    if (!dimension || unit) places.set(key, { at, unit });
    else {
      const error = new InputError(inRow(header + 1, key), labelUnit(label), `a unit of ${dimension}: ${label}`);
      problems.push(problem(header + 1, at, '', error));
    }
  }
  if (!places.has('kind')) {
    const error = new InputError(inRow(header + 1, 'kind'), null, `a column Kind with ${KINDS_TAKEN}`);
    return table(header, [], [...problems, problem(header + 1, head.places.get('label'), '', error)]);
  }
  const rivets: OwnRivet[] = [];
  for (let index = header + 1; index < cells.length; index++) {
    const cell = (key: OwnKey): TableCell => cells[index]![places.get(key)?.at ?? -1];
    const label = tableText(cell('label'));
    if (KEYS.every((key) => isBlankCell(cell(key)))) continue;
    unlessRefused(
      () => {
        const same = rivets.find(({ designation }) => nameKey(designation) === nameKey(label));
        if (same) refuseCell('label', label, `another label than row ${same.row}, which has this one`);
        rivets.push(readRow(cell, (key) => places.get(key)?.unit, index + 1));
      },
      (error) => {
        const key = error.parameter as OwnKey;
        problems.push(problem(index + 1, places.get(key)?.at, label, error.at(inRow(index + 1, key))));
      },
    );
  }
  return table(header, rivets, problems);
}

/** The unit of the numbers below a label; undefined where it names one of another dimension. */
function unitBelow(label: TableCell, dimension: Dimension, units: UnitSystem): Unit | undefined {
  const sign = labelUnit(label);
  return sign === undefined ? unitIn(dimension, units) : readUnit(sign, dimension);
}

const HEADER_TAKES =
  'a header row with Rivet, Kind, Diameter, and what else is known: Grip from, Grip to, 1000 bought …';

const KINDS_TAKEN = OWN_KINDS.map((one) => `"${one}"`).join(', ');

function table(header: number | undefined, rivets: readonly OwnRivet[], problems: readonly OwnProblem[]): OwnRivets {
  const byLabel = new Map(rivets.map((one) => [nameKey(one.designation), one]));
  return {
    header,
    rivets,
    problems,
    find(label, parameter = 'rivet') {
      const found = byLabel.get(nameKey(label));
      if (found) return found;
      const wrong = problems.find((one) => one.label !== '' && nameKey(one.label) === nameKey(label));
      if (wrong)
        throw new InputError(parameter, label, 'a rivet whose row can be read', `Table of rivets, ${wrong.message}`);
      return undefined;
    },
  };
}

type Cells = (key: OwnKey) => TableCell;

function readRow(cell: Cells, unitOf: (key: OwnKey) => Unit | undefined, row: number): OwnRivet {
  const designation = tableText(cell('label')) || refuseCell('label', null, 'what the rivet is called');
  const number = (key: OwnKey): number | undefined => numberIn(key, cell(key), unitOf(key));
  const kind = tableText(cell('kind'))
    .toLowerCase()
    .replace(/[\s,-]+/g, ' ');
  const found = OWN_KINDS.find((one) => one === kind) ?? refuseCell('kind', cell('kind'), KINDS_TAKEN);
  const diameter = number('diameter') ?? refuseCell('diameter', null, 'the diameter of the shank');
  const style: RivetStyle = found === 'blind retained' ? 'blind' : found;
  const read: Read = {
    designation,
    style,
    stem: style === 'blind' ? (found === 'blind' ? 'broken' : 'retained') : undefined,
    diameter,
    head: number('head'),
    length: number('length'),
    gripMin: number('gripMin'),
    gripMax: number('gripMax'),
    bought: thousandth(number('bought')) ?? sample(number('pieces'), number('grams')),
    installed: thousandth(number('installed')),
    hole: number('hole'),
    drill: tableText(cell('drill')),
    material: tableText(cell('material')),
  };
  checkRow(read, cell);
  return {
    ...complete(read),
    shear: number('shear'),
    tension: number('tension'),
    source: tableText(cell('source')),
    row,
  };
}

interface Read {
  readonly designation: string;
  readonly style: RivetStyle;
  readonly stem: BlindStem | undefined;
  readonly diameter: number;
  readonly head: number | undefined;
  readonly length: number | undefined;
  readonly gripMin: number | undefined;
  readonly gripMax: number | undefined;
  readonly bought: number | undefined;
  readonly installed: number | undefined;
  readonly hole: number | undefined;
  readonly drill: string;
  readonly material: string;
}

const thousandth = (weight: number | undefined): number | undefined => weight && weight / 1000;
/** The avoirdupois pound is 453.59237 g. */
const sample = (pieces: number | undefined, grams: number | undefined): number | undefined =>
  pieces && grams && grams / 453.59237 / pieces;

/** A number above 0, also as a fraction ("3/32", "1 1/4") or with its unit behind (".063 in"); 0 is some hosts' blank. */
function numberIn(key: OwnKey, cell: TableCell, unit: Unit | undefined): number | undefined {
  if (isBlankCell(cell) || cell === 0) return undefined;
  const { most = Infinity } = column(key);
  const { typed, own } = numberOf(key, cell);
  const value = fromUnit(typed, own ?? unit);
  const upTo = most < Infinity ? ` and up to ${Number((most / (unit?.inInch ?? 1)).toPrecision(4))}` : '';
  return value > 0 && value <= most
    ? value
    : refuseCell(
        key,
        cell,
        `${unit?.words ?? 'a number'} above 0${upTo}`,
        key === 'diameter' && unit?.sign === 'in' ? dashGuess(typed) : undefined,
      );
}

const dashGuess = (typed: number): string | undefined =>
  Number.isInteger(typed) && typed > 1 && typed < 17
    ? `${typed} looks like the diameter number of a designation: write ${typed}/32`
    : undefined;

/** What a cell says, in its own unit where a text names one; NaN for a cell that is not a number. */
function numberOf(key: OwnKey, text: TableCell): { readonly typed: number; readonly own?: Unit | undefined } {
  if (typeof text !== 'string') return { typed: typeof text === 'number' ? text : NaN };
  const read = typedNumber(text);
  if (!read && hasDecimalComma(text))
    refuseCell(key, text, 'a decimal point', `Write ${text.trim().replace(',', '.')}`);
  const { dimension } = column(key);
  const own = read?.sign === undefined ? undefined : dimension && readUnit(read.sign, dimension);
  return { typed: read && (read.sign === undefined || own) ? read.value : NaN, own };
}

/** Throws for a row whose cells contradict one another. */
function checkRow({ diameter, head, length, gripMin, gripMax, bought, installed, hole }: Read, cell: Cells): void {
  const over = (key: OwnKey, value: number | undefined, than: number | undefined, takes: string): void => {
    if (value !== undefined && than !== undefined && value < than) refuseCell(key, cell(key), takes);
  };
  over('head', head, diameter, 'a head wider than the shank');
  over('hole', hole, diameter - 0.005, 'a hole that the shank goes into');
  over('gripMax', gripMax, gripMin, 'a grip of Grip from or more');
  over('length', length, gripMax, 'a length of Grip to or more');
  if (bought !== undefined && installed !== undefined && installed > bought * 1.001)
    refuseCell('installed', cell('installed'), 'no more than 1,000 weigh as bought');
}

/** A row's rivet with what its geometry gives. */
function complete(read: Read): Omit<OwnRivet, 'shear' | 'tension' | 'source' | 'row'> {
  const computed: string[] = [];
  const compute = <T>(given: T | undefined, how: string, by: () => T | undefined): T | undefined => {
    if (given !== undefined) return given;
    const value = by();
    if (value !== undefined) computed.push(how);
    return value;
  };
  const { designation, style, stem, diameter, length } = read;
  const size = sizeOf(style, diameter);
  const hole =
    compute(read.hole, 'hole: that of the drill', () => drillNamed(read.drill)) ??
    compute(undefined, 'hole and drill: those of the size', () => size && DRILLS[size.drill]);
  const drill = read.drill || (read.hole === undefined && size ? size.drill : '');
  const bought = compute(read.bought, 'weight as bought: from length, head and material', () =>
    weightBy(read, 'bought'),
  );
  const installed = compute(
    read.installed,
    style === 'blind' ? 'installed weight: from length and material' : 'installed weight: as bought',
    () => (style === 'blind' ? weightBy(read, 'installed') : bought),
  );
  const reach = style === 'blind' || length === undefined ? undefined : length - FORMED_HEAD_ALLOWANCE * diameter;
  const gripMax = compute(read.gripMax, 'grip to: length − 1.5 D + 1/32 in', () => positive(reach && reach + 1 / 32));
  const gripMin = compute(read.gripMin, 'grip from: length − 1.5 D − 1/16 in', () =>
    reach === undefined || gripMax === undefined ? undefined : Math.max(0, reach - 1 / 16),
  );
  return {
    kind: 'own',
    designation,
    style,
    stem,
    dash: size?.dash ?? diameter * 32,
    nominal: diameter,
    length,
    gripMin,
    gripMax,
    bought,
    installed,
    hole,
    drill,
    computed,
  };
}

const positive = (value: number | undefined): number | undefined =>
  value !== undefined && value > 0 ? value : undefined;

/** The standard size of that diameter. A diameter in millimetres or to three decimals is a few thousandths off it. */
const sizeOf = (style: RivetStyle, diameter: number): Pick<SolidSize, 'dash' | 'drill'> | undefined =>
  (style === 'blind' ? BLIND_SIZES : SOLID_SIZES).find(({ dash }) => Math.abs(dash / 32 - diameter) <= 0.004);

/** lb of one, from length, head and material; undefined where the row has not enough for it. */
function weightBy(read: Read, state: 'bought' | 'installed'): number | undefined {
  const { style, stem, diameter, length, material } = read;
  const size = sizeOf(style, diameter);
  if (length === undefined || material === '') return undefined;
  const letters = material.toUpperCase();
  if (stem) {
    // Tubes of other dimensions than IFI-114's are not known well enough.
    if (!size || !Object.hasOwn(BLIND_PAIRS, letters)) return undefined;
    return blindWeight({ dash: size.dash, length, stem, pair: letters as BlindPair }, state);
  }
  const metal = findMaterial(Object.hasOwn(SOLID_ALLOYS, letters) ? SOLID_ALLOYS[letters as 'AD'] : material);
  const flush = SOLID_SIZES.find(({ dash }) => dash === size?.dash)?.flushHead;
  const head = read.head ?? (style === 'universal' ? UNIVERSAL_HEAD.diameter * diameter : flush);
  return !metal || head === undefined || style === 'blind'
    ? undefined
    : shapeVolume(style, diameter, head, length) * densityOf(metal);
}
