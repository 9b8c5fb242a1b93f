/**
 * Lengths on an integer grid, for dynamic programming. Where a grid of moderate size holds every length
 * exactly (sixteenths, tenths, millimetres…) it is used. Otherwise lengths are rounded down on a rough
 * one: what fits in truth fits there too, so that values computed on it are upper bounds.
 */

export interface Grid {
  /** True where every length is a whole number of steps. */
  readonly exact: boolean;
  /** Steps in one unit of length. */
  readonly scale: number;
}

/** Steps that an exact grid may have over the longest capacity: the work of one pricing is in proportion. */
const MOST_EXACT_STEPS = 10_000;
/** Steps of a rough grid, and of one for the last rounds, where the rough one leaves a gap. */
export const ROUGH = 4_000;
export const FINE = 24_000;
const SCALES = [1, 2, 4, 5, 8, 10, 16, 20, 25, 32, 40, 50, 64, 100, 125, 128, 200, 250, 400, 500, 1000];
/** Relative to one step: lengths that come from sums and unit conversions are not whole to the last bit. */
const WHOLE = 1e-6;

/** The coarsest grid that holds `lengths` exactly up to `longest`, else a rough one. */
export function gridFor(lengths: readonly number[], longest: number, rough = ROUGH): Grid {
  for (const scale of SCALES) {
    if (!lengths.every((length) => isWhole(length * scale))) continue;
    const step =
      lengths.reduce((common, length) => gcd(common, Math.round(length * scale)), Math.round(longest * scale)) || 1;
    if ((longest * scale) / step <= MOST_EXACT_STEPS) return { exact: true, scale: scale / step };
  }
  return { exact: false, scale: rough / longest };
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) <= WHOLE;

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Whole steps in a length; a length a little short of a whole number of steps is taken as that. */
export const steps = ({ scale }: Grid, length: number): number => Math.floor(length * scale + WHOLE);
