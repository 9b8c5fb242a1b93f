/** What a cut plan leaves that is worth keeping. */
import type { CuttingPlan } from './plan';

export interface Leftover {
  /** Name of the stock that it is cut from. */
  readonly stock: string;
  /** Of a sheet: along the stock's length, as its grain runs. */
  readonly length: number;
  /** Of a sheet. */
  readonly width?: number;
  readonly count: number;
}

/** Sizes closer than this are the same leftover: sums of decimals are not exact. */
const SAME = 1e-6;

/** The leftovers of all sheets or bars, those of one size counted together, in the order in which they are cut. */
export function planLeftovers(plan: CuttingPlan): Leftover[] {
  const found: { stock: string; length: number; width?: number; count: number }[] = [];
  const add = (stock: string, length: number, width: number | undefined, count: number): void => {
    const same = found.find(
      (one) =>
        one.stock === stock && Math.abs(one.length - length) < SAME && Math.abs((one.width ?? 0) - (width ?? 0)) < SAME,
    );
    if (same) same.count += count;
    else found.push({ stock, length, ...(width === undefined ? {} : { width }), count });
  };
  for (const pattern of plan.patterns) {
    const { stock, times } = pattern;
    if ('strips' in pattern) for (const { length, width } of pattern.leftovers) add(stock, length, width, times);
    else if (pattern.keep) add(stock, pattern.left, undefined, times);
  }
  return found;
}

/** What a pattern's parts take of the stock that is cut like it: in² of sheet, in of bar. */
export function partsOf(pattern: CuttingPlan['patterns'][number]): number {
  const once =
    'strips' in pattern
      ? pattern.strips.flatMap(({ pieces }) => pieces).reduce((sum, { length, width }) => sum + length * width, 0)
      : pattern.cuts.reduce((sum, { length }) => sum + length, 0);
  return once * pattern.times;
}
