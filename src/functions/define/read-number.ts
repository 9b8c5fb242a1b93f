import { InputError } from '../../core/input-error';
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
  const typed = typeof cell === 'boolean' ? undefined : typedNumber(cell);
  if (!typed)
    throw new InputError(
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
