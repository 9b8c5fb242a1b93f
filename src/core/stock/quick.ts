/**
 * Plans for the worksheet: no solver, little time whatever is asked, and a proven lower bound beside the
 * result. The pane and the command line make the full plan.
 */
import { bestFit, fullestFirst, FIT, type BarProblem } from './bar-problem';
import type { Lie } from './lie';
import type { Way as StripWay } from './sheet-problem';

// Lower bounds without a solver, from dual feasible functions: a function u of the share that a piece
// takes of a bar, such that pieces which fit one bar sum to 1 or less. The sum over all pieces is then
// a number of bars that no plan goes below. For sheets a product of one function for each direction does
// the same. Source: S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin packing
// problems", Mathematical Programming 91 (2001), theorems 1 and 2 and section 4.

/** A share of 1 or less, to a value of 1 or less. */
export type DualFeasible = (share: number) => number;

/** Shares come from divisions: as near to a limit as this they are on it. */
const EDGE = 1e-9;

/** The share itself: the area bound. */
const identity: DualFeasible = (share) => share;

/** u(k): rounds shares to k-ths, those between a whole number of (k+1)-ths down. */
const rounding =
  (k: number): DualFeasible =>
  (share) => {
    const parts = (k + 1) * share;
    return Math.abs(parts - Math.round(parts)) < EDGE ? share : Math.floor(parts) / k;
  };

/** U(ε): what is larger than 1 − ε fills a bar, what is smaller than ε counts nothing. */
const extremes =
  (epsilon: number): DualFeasible =>
  (share) =>
    share > 1 - epsilon + EDGE ? 1 : share < epsilon - EDGE ? 0 : share;

/** φ(ε): counts how many of the small pieces' limit ε a share excludes. */
const counting = (epsilon: number): DualFeasible => {
  const most = Math.floor(1 / epsilon + EDGE);
  return (share) =>
    share > 0.5 + EDGE ? 1 - Math.floor((1 - share) / epsilon + EDGE) / most : share < epsilon - EDGE ? 0 : 1 / most;
};

/** Functions that are worth a try for these shares: their limits are the shares themselves. @internal */
export function dualFeasible(shares: readonly number[], most = 40): DualFeasible[] {
  const limits = [
    ...new Set(
      shares
        .flatMap((share) => [share, 1 - share])
        .filter((share) => share > EDGE && share <= 0.5)
        .map((share) => Number(share.toFixed(12))),
    ),
  ].sort((a, b) => a - b);
  const step = Math.max(1, Math.ceil(limits.length / most));
  const chosen = limits.filter((_, index) => index % step === 0 || index === limits.length - 1);
  return [identity, ...[1, 2, 3, 4, 5].map(rounding), ...chosen.map(extremes), ...chosen.map(counting)];
}

/** Bars that pieces of these sizes need at least. @internal */
export function barBound(sizes: readonly number[], quantities: readonly number[], capacity: number): number {
  const shares = sizes.map((size) => size / capacity);
  const bounds = dualFeasible(shares, 120).map((u) =>
    shares.reduce((sum, share, kind) => sum + quantities[kind]! * u(share), 0),
  );
  return Math.ceil(Math.max(0, ...bounds) - 1e-7);
}

type Way = Pick<StripWay, 'along' | 'across'>;

/**
 * Sheets that the pieces need at least, however they are cut. A piece that may be turned counts its lesser way.
 * @param pieces with the ways in which each may lie, by its shares of the sheet's length and width @internal
 */
export function sheetBound(pieces: readonly { readonly ways: readonly Way[]; readonly quantity: number }[]): number {
  const along = dualFeasible(pieces.flatMap(({ ways }) => ways.map((way) => way.along)));
  const across = dualFeasible(pieces.flatMap(({ ways }) => ways.map((way) => way.across)));
  let bound = 0;
  for (const u of along) {
    for (const v of across) {
      let sum = 0;
      for (const { ways, quantity } of pieces) {
        let least = Infinity;
        for (const way of ways) least = Math.min(least, u(way.along) * v(way.across));
        sum += quantity * least;
      }
      bound = Math.max(bound, sum);
    }
  }
  return Math.ceil(bound - 1e-7);
}

export interface QuickPlan {
  /** Bars or sheets of the one size. */
  readonly needed: number;
  /** Proven: fewer do not suffice. */
  readonly lowerBound: number;
  /** What the pieces are of the stock, in per cent. */
  readonly usePercent: number;
}

/** @param used size of all pieces @param bought size of the bars or sheets */
const quickPlan = (needed: number, lowerBound: number, used: number, bought: number): QuickPlan => ({
  needed,
  lowerBound: Math.min(lowerBound, needed),
  usePercent: needed > 0 ? (100 * used) / bought : 0,
});

/** Bars of one length for pieces of these lengths; the caller has checked that each fits. */
export function quickBars(
  lengths: readonly number[],
  quantities: readonly number[],
  stockLength: number,
  kerf: number,
): QuickPlan {
  const problem: BarProblem = {
    kinds: lengths.map((length, kind) => ({ size: length + kerf, demand: quantities[kind]! })),
    sources: [{ capacity: stockLength + kerf, cost: 1, available: Infinity }],
  };
  const lowerBound = barBound(
    lengths.map((length) => length + kerf),
    quantities,
    stockLength + kerf,
  );
  const first = bestFit(problem);
  const needed = first.cost <= lowerBound ? first.cost : Math.min(first.cost, fullestFirst(problem).cost);
  return quickPlan(
    needed,
    lowerBound,
    lengths.reduce((sum, length, kind) => sum + length * quantities[kind]!, 0),
    needed * stockLength,
  );
}

export interface QuickPart {
  readonly length: number;
  readonly width: number;
  readonly quantity: number;
}

/** Sheets of one size for these parts, strips running along the sheet; the caller has checked that each fits. */
export function quickSheets(
  parts: readonly QuickPart[],
  length: number,
  width: number,
  kerf: number,
  grain: Lie,
): QuickPlan {
  const [along, across] = [length + kerf, width + kerf];
  const ways = parts.map((part) =>
    waysOf(part, kerf, grain).filter((way) => way.along <= along + FIT && way.across <= across + FIT),
  );
  const lowerBound = sheetBound(
    parts.map(({ quantity }, part) => ({
      quantity,
      ways: ways[part]!.map((way) => ({ along: way.along / along, across: way.across / across })),
    })),
  );
  let needed = Infinity;
  for (const prefer of PREFERENCES) {
    const strips = layStrips(parts, ways, along, prefer);
    const heights = [...new Set(strips)].sort((a, b) => b - a);
    const problem: BarProblem = {
      kinds: heights.map((size) => ({ size, demand: strips.filter((strip) => strip === size).length })),
      sources: [{ capacity: across, cost: 1, available: Infinity }],
    };
    needed = Math.min(needed, bestFit(problem).cost, fullestFirst(problem).cost);
    if (needed <= lowerBound) break;
  }
  return quickPlan(
    needed,
    lowerBound,
    parts.reduce((sum, part) => sum + part.length * part.width * part.quantity, 0),
    needed * length * width,
  );
}

function waysOf({ length, width }: QuickPart, kerf: number, grain: Lie): Way[] {
  const straight = { along: length + kerf, across: width + kerf };
  const turned = { along: width + kerf, across: length + kerf };
  return grain === 'along' ? [straight] : grain === 'across' ? [turned] : [straight, turned];
}

/** Of its ways a piece takes the one for which this is least: as it comes, the narrowest strip, the shortest length, or the least that is left of a full strip. */
const PREFERENCES: readonly ((way: Way, strip: number) => number)[] = [
  () => 0,
  ({ across }) => across,
  ({ along }) => along,
  ({ along }, strip) => 1 - (Math.floor((strip + FIT) / along) * along) / strip,
];

/** Widths of the strips that the parts are cut from: the widest piece opens a strip, what fits best follows. */
function layStrips(
  parts: readonly QuickPart[],
  ways: readonly (readonly Way[])[],
  along: number,
  prefer: (typeof PREFERENCES)[number],
): number[] {
  const chosen = ways.map((list) =>
    list.reduce((best, way) => (prefer(way, along) < prefer(best, along) ? way : best)),
  );
  const left = parts.map(({ quantity }) => quantity);
  const order = parts
    .map((_, part) => part)
    .sort((a, b) => chosen[b]!.across - chosen[a]!.across || chosen[b]!.along - chosen[a]!.along || a - b);
  const strips: number[] = [];
  for (;;) {
    const first = order.find((part) => left[part]! > 0);
    if (first === undefined) return strips;
    const height = chosen[first]!.across;
    let room = along;
    for (const part of order) {
      // In a strip that is already open a piece may lie either way: it takes the way that fits and uses less of its length.
      const fitting = ways[part]!.filter((way) => way.across <= height + FIT);
      if (left[part] === 0 || fitting.length === 0) continue;
      const each = part === first ? chosen[part]!.along : Math.min(...fitting.map((way) => way.along));
      const count = Math.min(left[part]!, Math.floor((room + FIT) / each));
      left[part] = left[part]! - count;
      room -= count * each;
    }
    strips.push(height);
  }
}
