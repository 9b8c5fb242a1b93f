/**
 * Parameters of worksheet functions: what each takes, how a cell becomes a value of it, and what is
 * said when it does not. A parameter is stated once; coercion, unit conversion, limits, messages,
 * host metadata and the reference all follow from it.
 */
import { alternatives, InputError, refuse } from '../../core/input-error';
import { CellError, isBlank, type Cell, type Matrix } from '../../sheet/cell';
import {
  fromUnit,
  hasDecimalComma,
  inUnit,
  plainNumber,
  readUnit,
  toInch,
  typedNumber,
  unitIn,
  unitSign,
  unitWords,
  type Dimension,
  type UnitSystem,
} from '../../core/quantity';

/**
 * cell:   one value a row; a column of them is lifted over its rows
 * block:  the cells as a whole
 * either: one text a row, or a block when it is two or more columns wide
 */
export type Shape = 'cell' | 'block' | 'either';

/** Limits in inch-pound units (or bare numbers where there is no dimension). */
export interface Limits {
  /** Must be greater than this. */
  readonly above?: number;
  /** Must be this or greater. */
  readonly min?: number;
  /** Must be less than this. */
  readonly below?: number;
  /** Must be this or less. */
  readonly max?: number;
}

/** A number outside its limits that looks like the right one in another unit. */
export interface Lookalike {
  /** True where the inch-pound value looks like the other unit. */
  readonly when: (value: number) => boolean;
  /** The guess as a sentence, from the number as it was typed. */
  readonly guess: (typed: number) => string;
}

export interface Parameter<T = unknown> {
  readonly name: string;
  readonly help: string;
  readonly kind: 'number' | 'integer' | 'text' | 'choice' | 'flag' | 'cells';
  readonly shape: Shape;
  readonly optional: boolean;
  /** What an omitted optional parameter stands for, in inch-pound units; undefined: none. */
  readonly default?: T;
  readonly dimension?: Dimension;
  readonly limits?: Limits;
  readonly choices?: readonly string[];
  /** True where 0 is a value that the limits refuse, so that a host's 0 for a blank cell can be told. */
  readonly zeroIsNoValue: boolean;
  /** Inch-pound numbers strictly between these (whole ones, where `whole`) are within the limits and need no further reading. */
  readonly quick?: { readonly low: number; readonly high: number; readonly whole: boolean };
  /** What it takes, in words: "inches above 0 and up to 1". */
  takes(units: UnitSystem): string;
  /** The value of one cell that is not blank and no error; throws InputError. */
  read(cell: Exclude<Cell, null | CellError>, units: UnitSystem): T;
  /** The value of a block of cells; only where shape is block or either. */
  readBlock?(cells: Matrix, units: UnitSystem): T;
}

/** The values that compute receives for the parameters. */
export type ValuesOf<P extends readonly Parameter[]> = {
  -readonly [K in keyof P]: P[K] extends Parameter<infer T> ? T : never;
};

interface Common {
  readonly help: string;
}
interface NumberSpec extends Common {
  readonly dimension?: Dimension;
  readonly limits?: Limits;
  /** What the bare number counts or means, where there is no dimension: "degrees", "rivets". */
  readonly of?: string;
  readonly lookalike?: Lookalike;
}

function limitWords({ above, min, below, max }: Limits, show: (value: number) => string): string {
  const [hasLow, hasHigh] = [above !== undefined || min !== undefined, below !== undefined || max !== undefined];
  return [
    above !== undefined && `above ${show(above)}`,
    min !== undefined && (hasHigh ? `from ${show(min)}` : `of ${show(min)} or more`),
    below !== undefined && (hasLow ? `and below ${show(below)}` : `below ${show(below)}`),
    max !== undefined &&
      (hasLow ? `${min === undefined ? 'and up to' : 'to'} ${show(max)}` : `of ${show(max)} or less`),
  ]
    .filter(Boolean)
    .join(' ');
}

const outside = (value: number, { above, min, below, max }: Limits): boolean =>
  (above !== undefined && !(value > above)) ||
  (min !== undefined && !(value >= min)) ||
  (below !== undefined && !(value < below)) ||
  (max !== undefined && !(value <= max));

function dateGuess(typed: number): string | undefined {
  const fraction = fractionOfDate(typed);
  return fraction && `${fraction} was read as a date. Type ${plainNumber(fraction)}`;
}

const NO_LIMITS: Limits = {};

function numeric(kind: 'number' | 'integer', name: string, spec: NumberSpec): Parameter<number> {
  const { dimension, limits = NO_LIMITS, lookalike } = spec;
  // Strictly between these a number is within its limits whatever their kind.
  const low = limits.min ?? limits.above ?? -Infinity;
  const high = limits.max ?? limits.below ?? Infinity;
  const takes = (units: UnitSystem): string => {
    const shown = (value: number): string =>
      String(dimension && units === 'mm-kg' ? Number((value / toInch(1, dimension, units)).toPrecision(6)) : value);
    const what = dimension
      ? unitWords(dimension, units)
      : (spec.of ?? (kind === 'integer' ? 'a whole number' : 'a number'));
    return [kind === 'integer' && spec.of ? `a whole number of ${spec.of}` : what, limitWords(limits, shown)]
      .filter(Boolean)
      .join(' ');
  };
  return {
    name,
    help: spec.help,
    kind,
    shape: 'cell',
    optional: false,
    ...(dimension ? { dimension } : {}),
    ...(spec.limits ? { limits } : {}),
    zeroIsNoValue: outside(0, limits),
    quick: { low, high, whole: kind === 'integer' },
    takes,
    // eslint-disable-next-line complexity -- reading a long column is a hot path, kept in one piece; not measured against a split
    read(cell, units) {
      if (kind === 'number' && units === 'in-lb' && typeof cell === 'number' && cell > low && cell < high) return cell;
      const typed = typeof cell === 'number' ? cell : readNumber(name, cell, dimension, units, takes);
      const value = dimension === undefined ? typed : toInch(typed, dimension, units);
      if (!Number.isFinite(value) || outside(value, limits) || (kind === 'integer' && !Number.isInteger(value))) {
        // A length looks like another inch measure; in millimetres nobody types one.
        const guess =
          (dimension === 'length' && typeof cell === 'number' ? dateGuess(typed) : undefined) ??
          ((dimension === undefined || units === 'in-lb') && lookalike?.when(value)
            ? lookalike.guess(typed)
            : undefined);
        throw new InputError(name, typed, takes(units), guess);
      }
      return value;
    },
  };
}

/** A number, with a dimension and limits. */
export const number = (name: string, spec: NumberSpec): Parameter<number> => numeric('number', name, spec);

/** A whole number. */
export const integer = (name: string, spec: NumberSpec): Parameter<number> => numeric('integer', name, spec);

/** A text; a number in the cell is taken as its digits (a part or gauge number). */
export const text = (name: string, spec: Common & { readonly of?: string }): Parameter<string> => ({
  name,
  help: spec.help,
  kind: 'text',
  shape: 'cell',
  optional: false,
  zeroIsNoValue: true,
  takes: () => spec.of ?? 'a text',
  read: (cell) => String(cell).trim(),
});

/** One of a few words, in any case. */
export function choice<const C extends readonly string[]>(
  name: string,
  spec: Common & { readonly choices: C },
): Parameter<C[number]> {
  const takes = (): string => alternatives(spec.choices.map((word) => `"${word}"`));
  return {
    name,
    help: spec.help,
    kind: 'choice',
    shape: 'cell',
    optional: false,
    choices: spec.choices,
    zeroIsNoValue: true,
    takes,
    read(cell) {
      const wanted = String(cell).trim().toLowerCase();
      return spec.choices.find((word) => word.toLowerCase() === wanted) ?? refuse(name, cell, takes());
    },
  };
}

/** TRUE or FALSE; 1, 0 and "yes"/"no" serve too. */
export const flag = (name: string, spec: Common): Parameter<boolean> => ({
  name,
  help: spec.help,
  kind: 'flag',
  shape: 'cell',
  optional: false,
  zeroIsNoValue: false,
  takes: () => 'TRUE or FALSE',
  read(cell) {
    if (typeof cell === 'boolean') return cell;
    const word = String(cell).trim().toLowerCase();
    if (word === '1' || word === 'true' || word === 'yes') return true;
    if (word === '0' || word === 'false' || word === 'no') return false;
    throw new InputError(name, cell, 'TRUE or FALSE');
  },
});

interface CustomSpec<T> extends Common {
  readonly takes: string | ((units: UnitSystem) => string);
  readonly dimension?: Dimension;
  readonly zeroIsNoValue?: boolean;
  readonly read: (cell: Exclude<Cell, null | CellError>, units: UnitSystem) => T;
  readonly readBlock?: (cells: Matrix, units: UnitSystem) => T;
}

/** A cell that is read in its own way: a material, an outline. With readBlock it takes a wide block too. */
export function custom<T>(name: string, spec: CustomSpec<T>): Parameter<T> {
  const { takes } = spec;
  return {
    name,
    help: spec.help,
    kind: spec.readBlock ? 'cells' : 'text',
    shape: spec.readBlock ? 'either' : 'cell',
    optional: false,
    ...(spec.dimension ? { dimension: spec.dimension } : {}),
    zeroIsNoValue: spec.zeroIsNoValue ?? true,
    takes: typeof takes === 'string' ? () => takes : takes,
    read: spec.read,
    ...(spec.readBlock ? { readBlock: spec.readBlock } : {}),
  };
}

interface BlockSpec<T> extends Common {
  readonly takes: string | ((units: UnitSystem) => string);
  readonly dimension?: Dimension;
  readonly read: (cells: Matrix, units: UnitSystem) => T;
}

/** Cells taken as a whole, read in their own way: a table with a header row, a list of points. */
export function block<T>(name: string, spec: BlockSpec<T>): Parameter<T> {
  const { takes, read } = spec;
  return {
    name,
    help: spec.help,
    kind: 'cells',
    shape: 'block',
    optional: false,
    ...(spec.dimension ? { dimension: spec.dimension } : {}),
    zeroIsNoValue: false,
    takes: typeof takes === 'string' ? () => takes : takes,
    read: (cell, units) => read([[cell]], units),
    readBlock: read,
  };
}

/** Reads the cells of a column (or a row) with `one`; blanks give null; what is wrong is named with its place. */
function readLine<T>(name: string, cells: Matrix, one: Parameter<T>, units: UnitSystem): (T | null)[] {
  const across = cells.length === 1;
  const count = across ? cells[0]!.length : cells.length;
  const values: (T | null)[] = new Array(count);
  for (let index = 0; index < count; index++) {
    const row = cells[across ? 0 : index]!;
    if (!across && row.length > 1) throw new InputError(name, cells, 'one column or one row of cells');
    values[index] = readAt(name, row[across ? index : 0] ?? null, index, one, units);
  }
  return values;
}

function readAt<T>(name: string, cell: Cell, index: number, one: Parameter<T>, units: UnitSystem): T | null {
  if (typeof cell !== 'number') {
    if (isBlank(cell)) return null;
    if (cell instanceof CellError) throw new InputError(`${name}, row ${index + 1}`, cell.code, one.takes(units));
  }
  try {
    return one.read(cell, units);
  } catch (error) {
    throw error instanceof InputError ? error.at(`${name}, row ${index + 1}`) : error;
  }
}

/** A column or row of cells as a whole, each of them as `one` takes it; a blank cell gives null. */
const column = <T>(one: Parameter<T>, takes = one.takes): Parameter<(T | null)[]> =>
  block(one.name, {
    help: one.help,
    takes: (units) => `a column of ${takes(units)}`,
    ...(one.dimension ? { dimension: one.dimension } : {}),
    read: (cells, units) => readLine(one.name, cells, one, units),
  });

/** A column or row of numbers as a whole; a blank cell gives null. */
export const numbers = (name: string, spec: NumberSpec): Parameter<(number | null)[]> => column(number(name, spec));

/** A column or row of texts as a whole; a blank cell gives null. */
export const texts = (name: string, spec: Common & { readonly of?: string }): Parameter<(string | null)[]> =>
  column(text(name, spec), () => spec.of ?? 'texts');

/** Rows of coordinates, each `widths` wide (say 2, or 1 or 3); a wholly blank row gives null. */
export function rows(
  name: string,
  spec: NumberSpec & { readonly widths: readonly number[] },
): Parameter<(number[] | null)[]> {
  const one = number(name, spec);
  const takes = (units: UnitSystem): string =>
    `rows of ${alternatives(spec.widths.map(String))} cells, each ${one.takes(units)}`;
  return block(name, {
    help: spec.help,
    takes,
    ...(spec.dimension ? { dimension: spec.dimension } : {}),
    // eslint-disable-next-line complexity -- reading a long column is a hot path, kept in one piece; not measured against a split
    read(cells, units) {
      // A single row of cells is a list of one-cell rows where one-cell rows are allowed.
      const wide = cells[0]?.length ?? 0;
      const given =
        cells.length === 1 && wide > 1 && spec.widths.includes(1) && !spec.widths.includes(wide)
          ? cells[0]!.map((cell) => [cell])
          : cells;
      if (!spec.widths.includes(given[0]?.length ?? 0)) throw new InputError(name, cells, takes(units));
      // Rows that need no reading are taken as they are: a long list has one array a row.
      const asTyped = units === 'in-lb' || !spec.dimension;
      const { low, high } = one.quick!;
      const fits = (cell: Cell): boolean => typeof cell === 'number' && cell > low && cell < high;
      // Arrays of their length at once: one that grows takes many times the room, and a long list has one a row.
      const values: (number[] | null)[] = new Array(given.length);
      for (let index = 0; index < given.length; index++) {
        const row = given[index]!;
        if (typeof row[0] !== 'number' && row.every(isBlank)) {
          values[index] = null;
          continue;
        }
        if (asTyped && row.every(fits)) {
          values[index] = row as number[];
          continue;
        }
        const read: number[] = new Array(row.length);
        for (let column = 0; column < row.length; column++) {
          const value =
            readAt(name, row[column]!, index, one, units) ??
            refuse(`${name}, row ${index + 1}`, null, one.takes(units));
          read[column] = value;
        }
        values[index] = read;
      }
      return values;
    },
  });
}

/** The parameter made optional; what it stands for when omitted, if anything, in inch-pound units. */
export function optional<T>(parameter: Parameter<T>): Parameter<T | undefined>;
export function optional<T>(parameter: Parameter<T>, standsFor: T): Parameter<T>;
export function optional<T>(parameter: Parameter<T>, standsFor?: T): Parameter<T | undefined> {
  return { ...parameter, optional: true, ...(standsFor === undefined ? {} : { default: standsFor }) };
}

// A number in a text, and what is meant by one in another unit.

/**
 * The number in a text or truth value that stands where a number belongs.
 * Decimals and fractions of a whole (3/32, 1 1/4) are read; a unit written behind the number is
 * accepted when it is the parameter's own and named in the error when it is another.
 */
function readNumber(
  name: string,
  cell: string | boolean,
  dimension: Dimension | undefined,
  units: UnitSystem,
  takes: (units: UnitSystem) => string,
): number {
  const typed =
    (typeof cell === 'boolean' ? undefined : typedNumber(cell)) ??
    refuse(
      name,
      cell,
      takes(units),
      typeof cell === 'string' && hasDecimalComma(cell) ? 'Write the decimal point as a dot' : undefined,
    );
  const { value, sign, known } = typed;
  if (sign === undefined) return value;
  if (!known) throw new InputError(name, cell, takes(units));
  if (sign !== unitSign(dimension, units))
    throw new InputError(name, cell, takes(units), inAnotherUnit(value, sign, dimension, units));
  return value;
}

/** Of the units that a number may be written with, each measures one of these. */
const MEASURED = ['length', 'weight'] as const;

/** What to do with a number in a unit that is not the parameter's own. */
function inAnotherUnit(value: number, sign: string, dimension: Dimension | undefined, units: UnitSystem): string {
  const other = units === 'in-lb' ? 'mm-kg' : 'in-lb';
  if (sign === unitSign(dimension, other)) return `For ${sign} give the units "${other}"`;
  const written = dimension && readUnit(sign, dimension);
  if (!written) return `${sign} is a unit of ${MEASURED.find((one) => readUnit(sign, one))}`;
  const own = unitIn(dimension, units);
  return `Convert from ${sign} first: ${value} ${sign} is ${inUnit(fromUnit(value, written), own)} ${own.sign}`;
}

// The fraction that a spreadsheet may have read as a date: 1/8 as January 8, 3/32 as March 1932.

const DAY = 86_400_000;
/** Day 0 of spreadsheets' dates (ECMA-376 part 1, 18.17.4.1), from March 1900 on. */
const DAY_0 = Date.UTC(1899, 11, 30);
/** Denominators that are a day of a month, and those that can only have been a year. */
const AS_DAY = [2, 4, 8, 16];
const AS_YEAR = [32, 64];

/** "1/8" for a date's number; undefined where no fraction of an inch reads as that date. @internal */
export function fractionOfDate(serial: number): string | undefined {
  if (!Number.isInteger(serial) || serial < 10_000 || serial > 80_000) return undefined;
  const date = new Date(DAY_0 + serial * DAY);
  const [month, day, year] = [date.getUTCMonth() + 1, date.getUTCDate(), date.getUTCFullYear() % 100];
  const bottom = AS_DAY.includes(day) ? day : day === 1 && AS_YEAR.includes(year) ? year : undefined;
  return bottom !== undefined && month < bottom ? `${month}/${bottom}` : undefined;
}
