/**
 * For relations between lengths alone, which hold in any one unit: computed in the unit that the user typed, so that
 * a message of the trade shows the numbers as they stand in the cells.
 */
import { InputError } from '../core/input-error';
import { DIMENSIONS, type UnitSystem } from './define';

/**
 * @param power    of length in the result: 1 for a length, 2 for an area
 * @param relation receives the user's units in an inch, with which it multiplies each of its lengths
 */
export function inOwnUnit(units: UnitSystem, power: 1 | 2, relation: (unit: number) => number): number {
  if (units === 'in-lb') return relation(1);
  const unit = DIMENSIONS.length.factor;
  try {
    return relation(unit) / unit ** power;
  } catch (error) {
    // What compute refuses, it refuses in inches: the machinery turns it into the user's unit.
    if (!(error instanceof InputError) || typeof error.got !== 'number') throw error;
    throw new InputError(error.parameter, error.got / unit, error.takes, error.guess);
  }
}
