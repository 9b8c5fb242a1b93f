/** Cutting plans for bars, extrusions and tubes: several lengths with their prices, offcuts first, least cost. */
import { tally, bestFit, FIT, type BarPattern, type BarProblem, type BarSolution } from './bar-problem';
import { Knapsack } from './knapsack';
import { InputError } from '../input-error';
import { searchBars } from './bar-search';
import { Control } from './control';
import type { BarPart, BarPatternUse, BarPlan, BarStock, PlanOptions } from './plan';
import { availableOf, checkedStock, Dealer, gather, patternsOf, planCosts, planHead, type CutFrom } from './plan-input';

// Offcuts first: what a plan left unused of them takes pieces from the emptiest of the other bars.

/**
 * Moves pieces to the offcuts that are left, the shortest first, each filled as full as may be from the
 * emptiest bar. The cost never rises; a bar that loses all its pieces is not needed.
 */
function spendBarOffcuts(problem: BarProblem, solution: BarSolution, offcuts: readonly number[]): BarSolution {
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

/**
 * The plan that costs least, or the best found in the time allowed, with a proven lower bound.
 * Where no stock has a cost the plan is for least length, and its cost and bound are lengths.
 * @throws InputError for a part that is longer than every bar, and for what cannot be a part or a bar
 */
export async function planBars(
  parts: readonly BarPart[],
  stock: readonly BarStock[],
  options: PlanOptions,
): Promise<BarPlan> {
  const { solver, kerf = 0, seed = 1, scrapBelow = 0, keepFrom = 0 } = options;
  const bars = checkedStock(parts, stock, kerf, 'bar');
  const longest = Math.max(...bars.map(({ length }) => length));
  const scrap = parts.filter(({ length }) => length <= scrapBelow);
  const cut = parts.filter(({ length }) => length > scrapBelow);
  for (const { name, length, quantity } of cut) {
    if (quantity > 0 && length > longest + FIT)
      throw new InputError(`length of part "${name}"`, length, `up to ${longest}, the longest bar of the stock`);
  }
  const control = new Control(options);
  const kinds = gather(cut, ({ length }) => String(length));
  const size = (index: number): number => bars[index]!.length;
  const costs = planCosts(bars, size);
  const problem: BarProblem = {
    kinds: kinds.map(({ part, demand }) => ({ size: part.length + kerf, demand })),
    sources: bars.map(({ length }, index) => ({
      capacity: length + kerf,
      cost: costs[index]!,
      available: availableOf(bars[index]!),
    })),
  };
  const found =
    kinds.length === 0
      ? { solution: bestFit(problem), bound: 0 }
      : await searchBars(problem, { solver, control, seed });
  const solution = spendBarOffcuts(
    problem,
    found.solution,
    bars.flatMap(({ offcut }, index) => (offcut ? [index] : [])),
  );
  const dealer = new Dealer(kinds, kerf);
  const cutBars = solution.uses
    .flatMap(({ pattern, times }) =>
      Array.from({ length: times }, () => barUse(pattern, bars[pattern.source]!, kinds, dealer, keepFrom)),
    )
    .filter((bar) => bar !== undefined);
  return {
    kind: 'bars',
    ...planHead(
      {
        stock: bars,
        cut: cutBars,
        costs,
        size,
        cutSize: cutBars.reduce((sum, { use }) => sum + use.cuts.reduce((all, { length }) => all + length, 0), 0),
        bound: found.bound,
        missing: dealer.rest(),
        scrap,
      },
      kerf,
      control,
    ),
    patterns: patternsOf(cutBars, ({ stock: from, use }) => [from, use.cuts.map(({ part }) => part)]),
  };
}

/** One bar with the names of its pieces, longest first; undefined where all of them were over and above. */
function barUse(
  { source: stock, counts }: BarPattern,
  { name, length, offcut = false }: BarStock,
  kinds: readonly { readonly part: BarPart }[],
  dealer: Dealer,
  keepFrom: number,
): CutFrom<BarPatternUse> | undefined {
  const order = counts
    .flatMap((count, kind) => new Array<number>(count).fill(kind))
    .sort((a, b) => kinds[b]!.part.length - kinds[a]!.part.length || a - b);
  const cuts = dealer.row(order.map((kind) => ({ kind, piece: { length: kinds[kind]!.part.length } })));
  const last = cuts.at(-1);
  if (!last) return undefined;
  const left = Math.max(0, length - dealer.behind(last));
  return { stock, use: { stock: name, length, offcut, times: 1, cuts, left, keep: left > FIT && left >= keepFrom } };
}
