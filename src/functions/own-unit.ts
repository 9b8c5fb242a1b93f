/**
 * For relations between lengths alone, which hold in any one unit: computed in the unit that the user typed, so that
 * a message of the trade shows the numbers as they stand in the cells.
 */
import { InputError } from '../core/input-error';
import { DIMENSIONS, type UnitSystem } from './define';

/**
 * @param lengths  in inches, as compute receives them
 * @param relation receives the lengths in the user's unit
 * @param power    of length in the result: 1 for a length, 2 for an area
 */
export function inOwnUnit<const L extends readonly number[]>(
  units: UnitSystem,
  lengths: L,
  power: 1 | 2,
  relation: (...lengths: { -readonly [K in keyof L]: number }) => number,
): number {
  const unit = units === 'mm-kg' ? DIMENSIONS.length.factor : 1;
  const typed = lengths.map((length) => length * unit) as { -readonly [K in keyof L]: number };
  try {
    return relation(...typed) / unit ** power;
  } catch (error) {
    // What compute refuses, it refuses in inches: the machinery turns it into the user's unit.
    if (unit === 1 || !(error instanceof InputError) || typeof error.got !== 'number') throw error;
    throw new InputError(error.parameter, error.got / unit, error.takes, error.guess);
  }
}
