/**
 * What the parts that have been weighed say of those that have not: does the list run light or heavy?
 *
 * Model: weighed = ratio × computed + scatter, the variance of the scatter in proportion to the computed
 * weight (a part twice as heavy scatters √2 times as much). The best ratio is then the sum of the weighed
 * weights over the sum of the computed ones, and its confidence follows Student's t with one degree of
 * freedom less than there are parts (weighted least squares through the origin).
 */

export interface WeighedPart {
  /** As computed for the list, lb, above 0. */
  readonly computed: number;
  /** On the scale, lb. */
  readonly weighed: number;
}

export interface Bias {
  readonly parts: number;
  readonly computed: number;
  readonly weighed: number;
  /** Weighed over computed, less 1: 0.03 means that the parts come out 3 % heavier than listed. */
  readonly fraction: number;
  /** ± of the fraction with 95 % confidence; undefined for a single part, which tells nothing of scatter. */
  readonly plusMinus: number | undefined;
  /** Scatter variance over computed weight, lb. */
  readonly scatter: number | undefined;
}

/** True where the bias is larger than its own uncertainty, so that applying it to the rest is more than guessing. */
export const isBiasCertain = ({ fraction, plusMinus }: Bias): boolean =>
  plusMinus !== undefined && Math.abs(fraction) > plusMinus;

/** Undefined where no part has both weights. Parts with a computed weight of 0 or less are left out. */
export function weighingBias(parts: Iterable<WeighedPart>): Bias | undefined {
  const both = [...parts].filter((part) => part.computed > 0);
  if (both.length === 0) return undefined;
  const computed = both.reduce((sum, part) => sum + part.computed, 0);
  const weighed = both.reduce((sum, part) => sum + part.weighed, 0);
  const ratio = weighed / computed;
  const fraction = ratio - 1;
  if (both.length === 1) return { parts: 1, computed, weighed, fraction, plusMinus: undefined, scatter: undefined };
  const degrees = both.length - 1;
  const scatter =
    both.reduce((sum, part) => sum + (part.weighed - ratio * part.computed) ** 2 / part.computed, 0) / degrees;
  return {
    parts: both.length,
    computed,
    weighed,
    fraction,
    plusMinus: student95(degrees) * Math.sqrt(scatter / computed),
    scatter,
  };
}

export interface Corrected {
  readonly weight: number;
  /** ± with 95 % confidence: of the bias, and of the scatter of the parts still to be weighed. */
  readonly plusMinus: number | undefined;
}

/** The weight to expect of the parts that are not weighed yet, from the sum of their computed weights (lb) and the bias. */
export function applyBias(bias: Bias, rest: number): Corrected {
  const weight = rest * (1 + bias.fraction);
  if (bias.scatter === undefined) return { weight, plusMinus: undefined };
  const variance = bias.scatter * (rest ** 2 / bias.computed + rest);
  return { weight, plusMinus: student95(bias.parts - 1) * Math.sqrt(variance) };
}

/** Student's t: two-sided 95 % points for 1 to 30 degrees of freedom, as statistics handbooks print them. */
const T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
] as const;
const Z95 = 1.959964;

/** The two-sided 95 % point; beyond the table by the expansion in 1/degrees (Abramowitz and Stegun 26.7.5). @internal */
export function student95(degrees: number): number {
  const listed = T95[degrees - 1];
  if (listed !== undefined) return listed;
  const z = Z95;
  return z + (z ** 3 + z) / (4 * degrees) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * degrees ** 2);
}
