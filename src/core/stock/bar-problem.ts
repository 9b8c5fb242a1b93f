/** Cutting bars as a problem in numbers, and quick plans for it. */
import { entryOf } from '../memoized';
import type { Priced } from './knapsack';

// Cutting bars as a problem in numbers: kinds of piece, kinds of bar, patterns. A cut takes the kerf
// away, so a piece is counted with one kerf and a bar gains one (its last piece needs none behind it).

export interface BarProblem {
  readonly kinds: readonly {
    /** Length with its kerf. */
    readonly size: number;
    readonly demand: number;
  }[];
  readonly sources: readonly (Priced & {
    /** Length with one kerf. */
    readonly capacity: number;
  })[];
}

/** Pieces by kind, cut from one bar of a source. */
export interface BarPattern {
  readonly source: number;
  readonly counts: readonly number[];
}

/** A pattern and how often it is cut. */
export interface BarUse {
  readonly pattern: BarPattern;
  readonly times: number;
}

/** Pieces by kind that no bar was left for stand in `short`. */
export interface BarSolution {
  readonly cost: number;
  readonly uses: readonly BarUse[];
  readonly short: readonly number[];
}

/** Lengths closer than this are the same: sums of decimals are not exact. */
export const FIT = 1e-9;

// Quick cutting plans for bars: each bar in turn is filled as full as can be, or the pieces go one by
// one, longest first, where they fit tightest. They start the planner and serve the worksheet.

interface OpenBar {
  readonly source: number;
  readonly counts: number[];
  left: number;
}

/** The problem's kinds by their places, the longest first. */
export const longestFirst = ({ kinds }: BarProblem): number[] =>
  kinds.map((_, kind) => kind).sort((a, b) => kinds[b]!.size - kinds[a]!.size || a - b);

/** Best fit decreasing; a new bar is the one with the lowest cost for its length that holds the piece. */
export function bestFit(problem: BarProblem): BarSolution {
  const { kinds, sources } = problem;
  const left = sources.map(({ available }) => available);
  const open: OpenBar[] = [];
  const short: number[] = kinds.map(() => 0);
  const preferred = sources
    .map((_, source) => source)
    .sort((a, b) => sources[a]!.cost / sources[a]!.capacity - sources[b]!.cost / sources[b]!.capacity || a - b);
  for (const kind of longestFirst(problem).flatMap((one) => new Array<number>(kinds[one]!.demand).fill(one))) {
    const { size } = kinds[kind]!;
    let target: OpenBar | undefined;
    for (const bar of open) if (bar.left >= size - FIT && (!target || bar.left < target.left)) target = bar;
    if (!target) {
      const source = preferred.find((one) => left[one]! > 0 && sources[one]!.capacity >= size - FIT);
      if (source === undefined) {
        short[kind] = short[kind]! + 1;
        continue;
      }
      left[source] = left[source]! - 1;
      target = { source, counts: kinds.map(() => 0), left: sources[source]!.capacity };
      open.push(target);
    }
    target.counts[kind] = target.counts[kind]! + 1;
    target.left -= size;
  }
  return collect(problem, open, short);
}

/** Steps that the search for the fullest bar may take. */
const FILL_STEPS = 3_000;

/**
 * Fills bar by bar, each as full as a search of so many steps can (minimum slack). Each begins with the longest piece that
 * is left, so that pieces that are hard to place go first.
 */
export function fullestFirst(problem: BarProblem): BarSolution {
  const { kinds, sources } = problem;
  const order = longestFirst(problem);
  const left = kinds.map(({ demand }) => demand);
  const stock = sources.map(({ available }) => available);
  const short: number[] = kinds.map(() => 0);
  const bars: OpenBar[] = [];
  for (;;) {
    const seed = order.find((kind) => left[kind]! > 0);
    if (seed === undefined) return collect(problem, bars, short);
    let best: (OpenBar & { worth: number }) | undefined;
    sources.forEach((source, index) => {
      if (stock[index]! <= 0 || source.capacity < kinds[seed]!.size - FIT) return;
      const counts = fill(problem, order, left, seed, source.capacity);
      const used = counts.reduce((sum, count, kind) => sum + count * kinds[kind]!.size, 0);
      const worth = source.cost / used;
      if (!best || worth < best.worth - 1e-12) best = { source: index, counts, left: source.capacity - used, worth };
    });
    if (!best) {
      short[seed] = left[seed]!;
      left[seed] = 0;
      continue;
    }
    const { counts } = best;
    stock[best.source] = stock[best.source]! - 1;
    counts.forEach((count, kind) => (left[kind] = left[kind]! - count));
    bars.push(best);
  }
}

function fill(
  { kinds }: BarProblem,
  order: readonly number[],
  left: readonly number[],
  seed: number,
  capacity: number,
): number[] {
  const counts = kinds.map(() => 0);
  counts[seed] = 1;
  let best = counts.slice();
  let bestUsed = kinds[seed]!.size;
  let steps = FILL_STEPS;
  const search = (place: number, used: number): boolean => {
    if (used > bestUsed + FIT) {
      bestUsed = used;
      best = counts.slice();
      if (capacity - used <= FIT) return true;
    }
    for (let index = place; index < order.length && steps > 0; index++) {
      const kind = order[index]!;
      const { size } = kinds[kind]!;
      if (counts[kind]! >= left[kind]! || used + size > capacity + FIT) continue;
      steps -= 1;
      counts[kind] = counts[kind]! + 1;
      if (search(index, used + size)) return true;
      counts[kind] = counts[kind] - 1;
    }
    return false;
  };
  search(order.indexOf(seed), bestUsed);
  return best;
}

/** Like bars gathered into patterns with their number of times. */
const collect = (problem: BarProblem, bars: readonly OpenBar[], short: readonly number[]): BarSolution =>
  tally(
    problem,
    bars.map(({ source, counts }) => ({ pattern: { source, counts }, times: 1 })),
    short,
  );

/** The solution of these uses: equal patterns made one, empty ones dropped, the cost summed. */
export function tally(problem: BarProblem, uses: readonly BarUse[], short: readonly number[]): BarSolution {
  const merged = new Map<string, { pattern: BarPattern; times: number }>();
  for (const { pattern, times } of uses) {
    if (times <= 0 || pattern.counts.every((count) => count === 0)) continue;
    entryOf(merged, patternKey(pattern), () => ({ pattern, times: 0 })).times += times;
  }
  const list = [...merged.values()];
  return {
    uses: list,
    short,
    cost: list.reduce((sum, { pattern, times }) => sum + times * problem.sources[pattern.source]!.cost, 0),
  };
}

/** A text that two patterns share when they are the same. */
export const patternKey = ({ source, counts }: BarPattern): string => `${source}:${counts.join(',')}`;
