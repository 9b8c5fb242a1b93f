import { InputError, refuse } from '../../core/input-error';
import {
  fromUnit,
  hasDecimalComma,
  inUnit,
  readUnit,
  typedNumber,
  unitIn,
  unitSign,
  type Dimension,
  type UnitSystem,
} from '../../core/quantity';

/**
 * The number in a text or truth value that stands where a number belongs.
 * Decimals and fractions of a whole (3/32, 1 1/4) are read; a unit written behind the number is
 * accepted when it is the parameter's own and named in the error when it is another.
 */
export function readNumber(
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

/** "1/8" for a date's number; undefined where no fraction of an inch reads as that date. */
export function fractionOfDate(serial: number): string | undefined {
  if (!Number.isInteger(serial) || serial < 10_000 || serial > 80_000) return undefined;
  const date = new Date(DAY_0 + serial * DAY);
  const [month, day, year] = [date.getUTCMonth() + 1, date.getUTCDate(), date.getUTCFullYear() % 100];
  const bottom = AS_DAY.includes(day) ? day : day === 1 && AS_YEAR.includes(year) ? year : undefined;
  return bottom !== undefined && month < bottom ? `${month}/${bottom}` : undefined;
}
