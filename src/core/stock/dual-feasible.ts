/**
 * Lower bounds without a solver, from dual feasible functions: a function u of the share that a piece
 * takes of a bar, such that pieces which fit one bar sum to 1 or less. The sum over all pieces is then
 * a number of bars that no plan goes below. For sheets a product of one function for each direction does
 * the same. Source: S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin packing
 * problems", Mathematical Programming 91 (2001), theorems 1 and 2 and section 4.
 */

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

/** Bars that pieces of these sizes need at least. */
export function barBound(sizes: readonly number[], quantities: readonly number[], capacity: number): number {
  const shares = sizes.map((size) => size / capacity);
  let bound = 0;
  for (const u of dualFeasible(shares, 120))
    bound = Math.max(
      bound,
      shares.reduce((sum, share, kind) => sum + quantities[kind]! * u(share), 0),
    );
  return Math.ceil(bound - 1e-7);
}

export interface SheetShares {
  /** Ways in which the piece may lie: its share of the sheet's length and width. */
  readonly ways: readonly { readonly along: number; readonly across: number }[];
  readonly quantity: number;
}

/** Sheets that the pieces need at least, however they are cut. A piece that may be turned counts its lesser way. */
export function sheetBound(pieces: readonly SheetShares[]): number {
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
