import { InputError } from '../../core/input-error';
import { unitSign, type Dimension, type UnitSystem } from '../../core/quantity';

/** "3/32", "1 1/4", "-0.5", "1e-3", with a dot. */
const PLAIN = /^([+-]?)(?:(\d+)[ -])?(\d+)\/(\d+)$|^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/** Signs of a unit that may stand behind a typed number, by the sign that units.ts uses. */
const SIGNS: Readonly<Record<string, string>> = {
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  mm: 'mm',
  lb: 'lb',
  lbs: 'lb',
  'lb.': 'lb',
  kg: 'kg',
  cm: 'cm',
  ft: 'ft',
  "'": 'ft',
  g: 'g',
  oz: 'oz',
};

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
  if (typeof cell === 'boolean') throw new InputError(name, cell, takes(units));
  const typed = cell.trim();
  const unit = /[a-z"'″][a-z.]*$/i.exec(typed)?.[0];
  const bare = unit && !/^e[+-]?\d*$/i.test(unit) ? typed.slice(0, -unit.length).trim() : typed;
  const value = plainNumber(bare);
  if (value === undefined)
    throw new InputError(
      name,
      cell,
      takes(units),
      /^\d+,\d+$/.test(typed) ? 'Write the decimal point as a dot' : undefined,
    );
  if (bare === typed) return value;
  const written = unit!.toLowerCase();
  // Own ones alone: every object has a "constructor".
  const sign = Object.hasOwn(SIGNS, written) ? SIGNS[written] : undefined;
  if (sign === undefined) throw new InputError(name, cell, takes(units));
  if (sign !== unitSign(dimension, units)) {
    const other = units === 'in-lb' ? 'mm-kg' : 'in-lb';
    const guess =
      sign === unitSign(dimension, other) ? `For ${sign} give the units "${other}"` : `Convert from ${sign} first`;
    throw new InputError(name, cell, takes(units), guess);
  }
  return value;
}

/** Decimal, or fraction with an optional whole part; undefined where it is neither, or larger than any number. */
export function plainNumber(typed: string): number | undefined {
  const match = PLAIN.exec(typed);
  if (!match) return undefined;
  const [, sign, whole, top, bottom] = match;
  const value =
    top === undefined || bottom === undefined
      ? Number(typed)
      : (sign === '-' ? -1 : 1) * (Number(whole ?? 0) + Number(top) / Number(bottom));
  return Number.isFinite(value) ? value : undefined;
}
