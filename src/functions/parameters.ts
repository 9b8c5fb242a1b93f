/** Parameters that many functions share, so that a thickness is checked in one way everywhere. */
import {
  integer,
  number,
  DIMENSIONS,
  custom,
  fromInch,
  plainNumber,
  toInch,
  unitSign,
  block,
  choice,
  optional,
  text,
  type Lookalike,
  type UnitSystem,
  type Parameter,
} from './define';
import { InputError, unlessRefused, refuse } from '../core/input-error';
import {
  densityOf,
  findMaterial,
  LB_IN3_PER_G_CM3,
  LB_IN3_PER_KG_M3,
  LB_IN3_PER_LB_FT3,
  material as lookUp,
  nearestWords,
} from '../core/material';
import { leadingNumber } from '../core/quantity';
import {
  HEAD_FORMS,
  inInches,
  inMillimetres,
  readOwnRivets,
  rivet as readRivet,
  type LengthText,
  type OwnRivets,
  type Rivet,
} from '../core/fastener';
import { entryOf, memoized } from '../core/memoized';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';

/** A number as a message shows it. */
export const sixDigits = (value: number): string => String(Number(value.toPrecision(6)));

/** Numbers above the thickest that is taken, up to half an inch in thousandths. */
const thousandthsAbove = (most: number): Lookalike => ({
  when: (value) => value > most && value <= 500,
  guess: (typed) =>
    `${sixDigits(typed)} looks like thousandths of an inch: write ${sixDigits(typed / 1000)}, or give the units "mm-kg" for millimetres`,
});

/** The longest part that is taken for real: 1,000 ft. Beyond it the number is in another unit. */
const LONGEST = 12_000;

/** Any length of a part, above zero. */
export const length = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { above: 0, max: LONGEST } });

/** A length that may be zero (an inside radius, an edge margin). */
export const lengthOrZero = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { min: 0, max: LONGEST } });

/** A place along an axis from the datum: any sign. */
export const station = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { min: -LONGEST, max: LONGEST } });

/** Sheet or wall thickness. */
export const thickness = (name = 'thickness', help = 'thickness of the sheet') =>
  number(name, { help, dimension: 'length', limits: { above: 0, max: 1 }, lookalike: thousandthsAbove(1) });

export const area = (name: string, help: string) =>
  number(name, { help, dimension: 'area', limits: { above: 0, max: 1e8 } });

/** Bend angle: how far the metal is turned from flat. */
export const angle = (name = 'angle', help = 'bend angle in degrees, turned from flat') =>
  number(name, { help, of: 'degrees', limits: { above: 0, below: 180 } });

/** Number of equal pieces; a fraction is taken (half a pair), a negative one is a correction and refused. */
export const quantity = (name = 'quantity', help = 'number of pieces') =>
  number(name, { help, of: 'pieces', limits: { min: 0, max: 1e7 } });

export const count = (name: string, help: string, of: string) =>
  integer(name, { help, of, limits: { min: 1, max: 1e6 } });

export const weight = (name = 'weight', help = 'weight') =>
  number(name, { help, dimension: 'weight', limits: { min: 0, max: 1e6 } });

/** Refuses a column that has not as many cells as another. */
export function checkLength(name: string, column: readonly (number | null)[], like: string, count: number): void {
  if (column.length !== count)
    throw new InputError(
      name,
      column.map((cell) => [cell]),
      `as many cells as ${like}, which has ${count}`,
    );
}

// For relations between lengths alone, which hold in any one unit: computed in the unit that the user typed, so that
// a message of the trade shows the numbers as they stand in the cells.

/**
 * @param power    of length in the result: 1 for a length, 2 for an area
 * @param relation receives the user's units in an inch, with which it multiplies each of its lengths
 */
export function inOwnUnit(units: UnitSystem, power: 1 | 2, relation: (unit: number) => number): number {
  if (units === 'in-lb') return relation(1);
  const unit = DIMENSIONS.length.factor;
  return unlessRefused(
    () => relation(unit) / unit ** power,
    (error): never => {
      // What compute refuses, it refuses in inches: the machinery turns it into the user's unit.
      throw typeof error.got === 'number' ? error.at(error.parameter, error.got / unit) : error;
    },
  );
}

// The parameter `material`: a designation or a density, handed to compute as a density in lb/in³.

/** Osmium is .816 lb/in³; nothing is denser. */
const DENSEST = 0.82;
/** The lightest core foams are near .001 lb/in³ (30 kg/m³). */
const LIGHTEST = 0.0005;

/** A density in lb/in³ of each unit that may stand behind a typed number. */
const WRITTEN_UNITS: readonly { readonly pattern: RegExp; readonly factor: number }[] = [
  { pattern: /^lbs?\/(?:in3|cu ?in)$/, factor: 1 },
  { pattern: /^g\/(?:cm3|cc|ml)$|^kg\/(?:dm3|l)$|^t\/m3$/, factor: LB_IN3_PER_G_CM3 },
  { pattern: /^kg\/m3$/, factor: LB_IN3_PER_KG_M3 },
  { pattern: /^lbs?\/(?:ft3|cu ?ft)$/, factor: LB_IN3_PER_LB_FT3 },
];

const fourDigits = (value: number): string => String(Number(value.toPrecision(4)));

function takesMaterial(units: UnitSystem): string {
  const [from, to] = [LIGHTEST, DENSEST].map((limit) => fourDigits(fromInch(limit, 'density', units)));
  return `a designation as "6061-T6" or a density from ${from} to ${to} ${unitSign('density', units)}`;
}

/** What a number out of range may be in another unit: one unit, or two that it could be. */
function guessUnit(typed: number, units: UnitSystem): string | undefined {
  const as = (unit: string, factor: number): string | undefined => {
    const density = typed * factor;
    return density < LIGHTEST || density > DENSEST
      ? undefined
      : `${unit} (write ${fourDigits(fromInch(density, 'density', units))})`;
  };
  const likely =
    typed >= 800
      ? [as('kg/m³', LB_IN3_PER_KG_M3)]
      : typed >= 30
        ? [as('lb/ft³', LB_IN3_PER_LB_FT3), as('kg/m³', LB_IN3_PER_KG_M3)]
        : units === 'in-lb' && typed > DENSEST
          ? [as('g/cm³', LB_IN3_PER_G_CM3)]
          : [];
  const named = likely.filter((guess) => guess !== undefined);
  const unit = named.length > 0 ? `${fourDigits(typed)} looks like ${named.join(' or ')}` : undefined;
  const designation =
    Number.isInteger(typed) && typed >= 1000 && typed <= 9999 ? nearestWords(String(typed)) : undefined;
  return [designation, unit].filter(Boolean).join('. ') || undefined;
}

function readDensity(name: string, typed: number, units: UnitSystem): number {
  const density = toInch(typed, 'density', units);
  return density >= LIGHTEST && density <= DENSEST
    ? density
    : refuse(name, typed, takesMaterial(units), guessUnit(typed, units));
}

function readWritten(name: string, written: string, units: UnitSystem): number {
  const found = findMaterial(written);
  if (found) return densityOf(found);
  const bare = plainNumber(written);
  if (bare !== undefined) return readDensity(name, bare, units);
  const { value, rest } = leadingNumber(written) ?? {};
  const unit = rest?.toLowerCase().replace('³', '3').replace('^3', '3');
  const factor = WRITTEN_UNITS.find(({ pattern }) => unit !== undefined && pattern.test(unit))?.factor;
  if (value !== undefined && factor !== undefined) {
    // A unit that is written out is taken at its word in either system.
    const density = value * factor;
    return density >= LIGHTEST && density <= DENSEST ? density : refuse(name, written, takesMaterial(units));
  }
  return densityOf(lookUp(written, name));
}

/**
 * A material: "6061-T6", "2024-T3 clad", "4130N" (the temper may be left out), or its density as a number.
 * A number that is a designation of the table (6061 in a number cell) is read as the designation.
 */
export const materialParameter = (
  name = 'material',
  help = 'designation, temper optional ("6061-T6", "2024-T3 clad", "4130"), or density',
): Parameter<number> =>
  custom(name, {
    help,
    dimension: 'density',
    takes: takesMaterial,
    read(cell, units) {
      if (typeof cell === 'boolean') throw new InputError(name, cell, takesMaterial(units));
      if (typeof cell === 'string') return readWritten(name, cell.trim(), units);
      const named = Number.isInteger(cell) && cell >= 100 ? findMaterial(String(cell)) : undefined;
      return named ? densityOf(named) : readDensity(name, cell, units);
    },
  });

// Parameters that the functions of rivets share.

/** A rivet by its designation or its label; rivetOf reads it. */
export const rivet = text('rivet', {
  help: 'designation: "MS20470AD4-6", "MS20426AD3-3.5" (half size), "BLIND-AA-42" (the stem breaks off), "BLIND-AA-42R" (the stem is retained); AN470 and AN426 serve too; or a label of rivets',
  of: 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"',
});

const TAKES_RIVETS =
  'the table of your own rivets with its header row: Rivet, Kind, Diameter, Grip from, Grip to, 1000 bought, 1000 installed …';

/** By the block that they were read from, so that a column of calls reads the table once. */
const tablesRead = new WeakMap<Matrix, Map<UnitSystem, OwnRivets>>();

/** The builder's own rivets, as the last argument. */
export const rivets = optional(
  block<OwnRivets>('rivets', {
    help: 'table of your own rivets, such as Rivets[#All], with its header row; its labels come before the designations',
    takes: TAKES_RIVETS,
    read(cells, units) {
      const known = entryOf(tablesRead, cells, () => new Map<UnitSystem, OwnRivets>());
      const table = entryOf(known, units, () => readOwnRivets(plain(cells), units));
      if (table.header === undefined) throw new InputError('rivets', cells, TAKES_RIVETS, table.problems[0]?.message);
      return table;
    },
  }),
);

/** Cells as tables of the trade take them: an error by its code. */
export const plain = (cells: Matrix): (string | number | boolean | null)[][] =>
  cells.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell)));

const standard = memoized((designation: string) => readRivet(designation));
const ofTable = new WeakMap<OwnRivets, (designation: string) => Rivet>();

/** The rivet of a designation or label; throws as core/fastener does. */
export function rivetOf(designation: string, own: OwnRivets | undefined): Rivet {
  if (!own) return standard(designation);
  return entryOf(ofTable, own, () => memoized((one: string) => readRivet(one, 'rivet', own)))(designation);
}

const dashNumber: Lookalike = {
  when: (value) => Number.isInteger(value) && value > 0 && value <= 16,
  guess: (typed) => `${typed} looks like the diameter number of a designation: write ${typed}/32`,
};

/** Diameter of a rivet: inches, also as a fraction ("1/8"). */
export const rivetDiameter = number('diameter', {
  help: 'nominal diameter, also as a fraction: 0.125 or "1/8"',
  dimension: 'length',
  limits: { above: 0, below: 1 },
  lookalike: dashNumber,
});

/** How a grip is checked. */
export const GRIP = { dimension: 'length', limits: { above: 0, max: 4 }, lookalike: thousandthsAbove(4) } as const;

/** Sum of the sheets. */
export const grip = (help = 'thickness of everything that the rivet goes through') => number('grip', { help, ...GRIP });

/** How a flush head is let in. */
export const headForm = optional(
  choice('head', {
    help: 'of a flush rivet: "countersunk" or "dimpled"; when omitted, thin sheet is taken to be dimpled',
    choices: HEAD_FORMS,
  }),
);

export const pitch = length('pitch', 'from centre to centre of neighbouring rivets in a row');

const oneSheet = number('thicknesses', {
  help: '',
  dimension: 'length',
  limits: { above: 0, max: 2 },
  lookalike: thousandthsAbove(2),
});

/** Thicknesses, one in each cell or several in one: "0.016+0.020+0.016". */
export const sheets = block<number[]>('thicknesses', {
  help: 'thickness of each sheet, in a column or a row, or in one cell as "0.016+0.020+0.016", the sheet under the head first; blanks are passed over',
  takes: (units) => `a column of ${oneSheet.takes(units)}`,
  dimension: 'length',
  read(cells, units) {
    const across = cells.length === 1;
    if (!across && cells.some((row) => row.length > 1))
      throw new InputError('thicknesses', cells, 'one column or one row of cells');
    return (across ? cells[0]! : cells.map((row) => row[0] ?? null)).flatMap((cell, index) =>
      isBlank(cell) ? [] : pieces(cell).map((one) => sheetAt(one, index, units)),
    );
  },
});

const pieces = (cell: Cell): Cell[] => (typeof cell === 'string' ? cell.split('+') : [cell]);

function sheetAt(cell: Cell, index: number, units: UnitSystem): number {
  const place = `thicknesses, row ${index + 1}`;
  if (cell instanceof CellError) throw new InputError(place, cell.code, oneSheet.takes(units));
  return unlessRefused(
    () => oneSheet.read(typeof cell === 'string' ? cell.trim() : cell!, units),
    (error): never => {
      throw error.at(place);
    },
  );
}

/** How lengths are written in a text for whoever works in `units`. */
export const lengthText = (units: UnitSystem): LengthText => (units === 'mm-kg' ? inMillimetres : inInches);
