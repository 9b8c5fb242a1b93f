/** Offcuts first: what a plan left unused of them takes pieces from the emptiest of the other bars. */
import { tally } from './bar-greedy';
import type { BarPattern, BarProblem, BarSolution } from './bar-problem';
import { Knapsack } from './knapsack';

/**
 * Moves pieces to the offcuts that are left, the shortest first, each filled as full as may be from the
 * emptiest bar. The cost never rises; a bar that loses all its pieces is not needed.
 */
export function spendBarOffcuts(problem: BarProblem, solution: BarSolution, offcuts: readonly number[]): BarSolution {
  const { kinds, sources } = problem;
  const isOffcut = new Set(offcuts);
  const bars = solution.uses.flatMap(({ pattern, times }) =>
    Array.from({ length: times }, () => ({ source: pattern.source, counts: pattern.counts.slice() })),
  );
  const usedOf = (bar: { counts: readonly number[] }): number =>
    bar.counts.reduce((sum, count, kind) => sum + count * kinds[kind]!.size, 0);
  const order = [...offcuts].sort((a, b) => sources[a]!.capacity - sources[b]!.capacity || a - b);
  offcuts: for (const source of order) {
    for (let left = sources[source]!.available - bars.filter((bar) => bar.source === source).length; left > 0; left--) {
      const emptiest = bars
        .filter((bar) => !isOffcut.has(bar.source) && usedOf(bar) > 0)
        .sort((a, b) => usedOf(a) / sources[a.source]!.capacity - usedOf(b) / sources[b.source]!.capacity)[0];
      if (!emptiest) break offcuts;
      const sack = new Knapsack(
        kinds.map(({ size }, kind) => ({ size, bound: emptiest.counts[kind]! })),
        [sources[source]!.capacity],
      );
      sack.solve(kinds.map(({ size }) => size));
      const moved = sack.best(kinds.length, 0).counts;
      if (moved.every((count) => count === 0)) break;
      moved.forEach((count, kind) => (emptiest.counts[kind] = emptiest.counts[kind]! - count));
      bars.push({ source, counts: moved.slice() });
    }
  }
  return tally(
    problem,
    bars.map((pattern: BarPattern) => ({ pattern, times: 1 })),
    solution.short,
  );
}
