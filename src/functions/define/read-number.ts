import { InputError } from '../../core/input-error';
import { hasDecimalComma, typedNumber, unitSign, type Dimension, type UnitSystem } from '../../core/quantity';

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
  if (sign !== unitSign(dimension, units)) {
    const other = units === 'in-lb' ? 'mm-kg' : 'in-lb';
    const guess =
      sign === unitSign(dimension, other) ? `For ${sign} give the units "${other}"` : `Convert from ${sign} first`;
    throw new InputError(name, cell, takes(units), guess);
  }
  return value;
}
