/**
 * Cutting bars as a problem in numbers: kinds of piece, kinds of bar, patterns. A cut takes the kerf
 * away, so a piece is counted with one kerf and a bar gains one (its last piece needs none behind it).
 */
import { Knapsack } from './knapsack';

export interface BarKind {
  /** Length with its kerf. */
  readonly size: number;
  readonly demand: number;
}

export interface BarSource {
  /** Length with one kerf. */
  readonly capacity: number;
  readonly cost: number;
  /** Infinity where it is not limited. */
  readonly available: number;
}

export interface BarProblem {
  readonly kinds: readonly BarKind[];
  readonly sources: readonly BarSource[];
}

/** Pieces by kind, cut from one bar of a source. */
export interface BarPattern {
  readonly source: number;
  readonly counts: readonly number[];
}

/** Patterns and how often each is cut. Pieces by kind that no bar was left for stand in `short`. */
export interface BarSolution {
  readonly cost: number;
  readonly uses: readonly { readonly pattern: BarPattern; readonly times: number }[];
  readonly short: readonly number[];
}

/** Lengths closer than this are the same: sums of decimals are not exact. */
export const FIT = 1e-9;

/** Prices patterns: the best bar of every source for given values of the kinds. */
export class BarPricer {
  private readonly knapsack: Knapsack;

  constructor(readonly problem: BarProblem) {
    this.knapsack = new Knapsack(
      problem.kinds.map(({ size, demand }) => ({ size, bound: demand })),
      problem.sources.map(({ capacity }) => capacity),
    );
  }

  solve(values: readonly number[]): void {
    this.knapsack.solve(values);
  }

  upper(source: number): number {
    return this.knapsack.upper(this.problem.kinds.length, source);
  }

  best(source: number): { pattern: BarPattern; value: number } {
    const { counts, value } = this.knapsack.best(this.problem.kinds.length, source);
    return { pattern: { source, counts }, value };
  }
}

export interface StockRange {
  readonly cost: number;
  /** Most that are used; Infinity where it is not limited. */
  readonly available: number;
  /** Fewest that are used, where a search says so. */
  readonly atLeast?: number;
}

/**
 * A lower bound of the cost from any values of the kinds (weak duality): what the demand is worth, plus,
 * for each stock, what its use costs above or below the worth that it can hold, at the number of uses that
 * makes this least. For a stock without limit the values are scaled down until it holds no more than it
 * costs. `upper` says the most that one of a stock can hold at these values.
 */
export function dualBound(
  values: readonly number[],
  demands: readonly number[],
  stocks: readonly StockRange[],
  upper: (stock: number) => number,
): number {
  let scale = 1;
  stocks.forEach(({ cost, available }, stock) => {
    const held = upper(stock);
    if (available === Infinity && held > cost) scale = Math.min(scale, cost / held);
  });
  let bound = scale * values.reduce((sum, value, kind) => sum + value * demands[kind]!, 0);
  stocks.forEach(({ cost, available, atLeast = 0 }, stock) => {
    const net = cost - scale * upper(stock);
    if (net > 0) bound += atLeast * net;
    else if (available !== Infinity) bound += available * net;
  });
  return bound;
}

/** Demand that is left when the patterns are cut so often; never below 0. */
export function remaining(problem: BarProblem, uses: readonly { pattern: BarPattern; times: number }[]): number[] {
  const left = problem.kinds.map(({ demand }) => demand);
  for (const { pattern, times } of uses)
    pattern.counts.forEach((count, kind) => (left[kind] = Math.max(0, left[kind]! - count * times)));
  return left;
}
