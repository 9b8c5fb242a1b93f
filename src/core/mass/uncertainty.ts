/** How far a listed weight may be off: tolerances rolled up, mill tolerances, and what the scale says of the list. */
import { ByName, nameKey } from '../names';
import { NO_GROUP, TOTAL } from './roll-up';
import { refuseUnlisted } from '../input-error';

// How far a rolled-up weight may be off: tolerances of the rows carried through to the component.
//
// The rule. Equal pieces of one row come from the same sheet and share its error, so the tolerance of
// a row grows with its quantity. Rows are independent of each other unless they name a common lot (one
// sheet, one batch); a lot's rows share their error and are added. Independent tolerances are combined
// as the root of the sum of squares and for comparison added up ("worst"). A root-sum-square
// of mill limits is a band of the same kind as the limits; it is no guarantee.

export interface TolerancedRow {
  readonly group: string;
  /** Of one piece, lb; negative for what is taken off. */
  readonly weight: number;
  readonly quantity?: number;
  /** ± of one piece, as a fraction of its weight or in pounds. */
  readonly tolerance: { readonly fraction: number } | { readonly pounds: number };
  /** What the row has in common with others; blank or absent: nothing. */
  readonly lot?: string;
}

export interface WeightBand {
  readonly group: string;
  readonly weight: number;
  /** ± root-sum-square over independent errors, lb. */
  readonly rootSum: number;
  /** ± with every error the same way, lb. */
  readonly worst: number;
}

class ErrorSum {
  weight = 0;
  private squares = 0;
  private linear = 0;
  private readonly lots = new Map<string, number>();

  add(weight: number, error: number, lot: string): void {
    this.weight += weight;
    if (lot) this.lots.set(lot, (this.lots.get(lot) ?? 0) + error);
    else this.addIndependent(error);
  }

  private addIndependent(error: number): void {
    this.squares += error * error;
    this.linear += Math.abs(error);
  }

  band(group: string): WeightBand {
    for (const error of this.lots.values()) this.addIndependent(error);
    this.lots.clear();
    return { group, weight: this.weight, rootSum: Math.sqrt(this.squares), worst: this.linear };
  }
}

/** Weight and band of each group in order of first appearance, then of all. A lot may reach over groups. */
export function weightBands(rows: Iterable<TolerancedRow>): WeightBand[] {
  const groups = new ByName(() => new ErrorSum(), NO_GROUP);
  const total = new ErrorSum();
  for (const { group, weight, quantity = 1, tolerance, lot = '' } of rows) {
    const all = weight * quantity;
    const error = 'fraction' in tolerance ? all * tolerance.fraction : Math.sign(weight) * quantity * tolerance.pounds;
    const key = nameKey(lot);
    groups.get(group).add(all, error, key);
    total.add(all, error, key);
  }
  return [...groups.entries().map(({ name, value }) => value.band(name)), total.band(TOTAL)];
}

// How much thicker or thinner than its nominal thickness a sheet may come from the mill.

export const THICKNESS_TOLERANCE_SOURCE =
  'Mill tolerances of flat aluminium sheet over 36 to 54 in wide, in steps of FED-STD-245 (later editions: ANSI H35.2); from memory, verify: neither was seen';

/**
 * ± in inches, by steps with the greatest nominal thickness of each. Sheet from .011 to .125 in thick, over 36 to 54 in wide. From memory, verify against the edition your sheet is sold
 * to. The thinnest step has the figure of the one above it, which is at least as wide as the tables print: no source.
 * Lists that were read contradict each other, and none says for which width: for .032 in a fabricator prints ±.003 and
 * an article on ASTM B209 ±.0015; for .063 in ±.004 and ±.002. These lie between, so that they stay.
 * @internal
 */
export const THICKNESS_TOLERANCES: readonly { readonly upTo: number; readonly plusMinus: number }[] = [
  { upTo: 0.017, plusMinus: 0.0025 },
  { upTo: 0.028, plusMinus: 0.0025 },
  { upTo: 0.036, plusMinus: 0.0025 },
  { upTo: 0.045, plusMinus: 0.003 },
  { upTo: 0.068, plusMinus: 0.004 },
  { upTo: 0.076, plusMinus: 0.004 },
  { upTo: 0.096, plusMinus: 0.004 },
  { upTo: 0.108, plusMinus: 0.005 },
  { upTo: 0.125, plusMinus: 0.005 },
];

const THINNEST = 0.0105;
/** The steps are named to three decimals; a gauge with a fourth (.0453) stays in the step that it rounds to. */
const SLACK = 0.0005;

/**
 * ± of a sheet's thickness in inches.
 * @param thickness nominal, in; NotListedError outside the table
 */
export function thicknessTolerance(thickness: number): number {
  const step =
    (thickness < THINNEST ? undefined : THICKNESS_TOLERANCES.find(({ upTo }) => thickness <= upTo + SLACK)) ??
    refuseUnlisted('thickness', thickness, 'a sheet thickness in the table, .011 to .125 in');
  return step.plusMinus;
}

// What the parts that have been weighed say of those that have not: does the list run light or heavy?
//
// Model: weighed = ratio × computed + scatter, the variance of the scatter in proportion to the computed
// weight (a part twice as heavy scatters √2 times as much). The best ratio is then the sum of the weighed
// weights over the sum of the computed ones, and its confidence follows Student's t with one degree of
// freedom less than there are parts (weighted least squares through the origin).

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

/**
 * What the parts' weights as computed for the list and on the scale, lb, say; undefined where no part has both. Parts
 * with a computed weight of 0 or less are left out.
 */
export function weighingBias(
  parts: Iterable<{ readonly computed: number; readonly weighed: number }>,
): Bias | undefined {
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

/** The two-sided 95 % point; beyond the table by the expansion in 1/degrees (Abramowitz and Stegun 26.7.5). @internal */
export function student95(degrees: number): number {
  const listed = T95[degrees - 1];
  if (listed !== undefined) return listed;
  const z = 1.959964;
  return z + (z ** 3 + z) / (4 * degrees) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * degrees ** 2);
}
