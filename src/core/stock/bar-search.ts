/**
 * From the relaxation to whole numbers of bars: rounding, dives with patterns priced anew for what is
 * left, the integer programme over the patterns at hand, and, where the gap is narrow, over all
 * patterns that a better plan could use.
 */
import {
  FIT,
  bestFit,
  fullestFirst,
  longestFirst,
  patternKey,
  tally,
  type BarPattern,
  type BarProblem,
  type BarSolution,
  type BarUse,
} from './bar-problem';
import { attainable } from './knapsack';
import { barPricer, dualBound, barColumn, barRows, moneyUnit, relaxBars, type BarRelaxation } from './bar-relaxation';
import { random, type SearchTools } from './control';

// All patterns that a plan of a given cost could use. By weak duality a pattern whose reduced cost is
// more than that cost less the bound can stand in no such plan; where the gap is narrow few are left.

/** Beyond so many patterns the integer programme is no help. */
const MOST_PATTERNS = 6_000;
const MOST_STEPS = 3_000_000;

/**
 * Patterns that are full (no further piece fits) and could stand in a plan that costs `cost` or less;
 * undefined where they are too many. `values` are the kinds' values in the relaxation.
 */
function patternsWithin(problem: BarProblem, values: readonly number[], cost: number): BarPattern[] | undefined {
  const { kinds, sources } = problem;
  const pricer = barPricer(problem);
  pricer.solve(values);
  const upper = (source: number): number => pricer.upper(kinds.length, source);
  const unlimited = sources.map((source, index) =>
    source.available === Infinity ? source.cost / upper(index) : Infinity,
  );
  const scale = Math.min(1, ...unlimited);
  const scaled = values.map((value) => value * scale);
  const gap =
    cost -
    dualBound(
      values,
      kinds.map(({ demand }) => demand),
      sources,
      upper,
    );
  const patterns: BarPattern[] = [];
  const order = longestFirst(problem).filter((kind) => kinds[kind]!.demand > 0);
  let steps = MOST_STEPS;

  for (const [source, { capacity, cost: price, available }] of sources.entries()) {
    const rent = available === Infinity ? 0 : Math.max(0, scale * upper(source) - price);
    const least = price + rent - gap;
    // Most value of one unit of length among the kinds from a place on: bounds what the rest can add.
    const density: number[] = new Array<number>(order.length + 1).fill(0);
    for (let place = order.length - 1; place >= 0; place--)
      density[place] = Math.max(density[place + 1]!, scaled[order[place]!]! / kinds[order[place]!]!.size);
    const counts = kinds.map(() => 0);
    const search = (place: number, left: number, worth: number): boolean => {
      if ((steps -= 1) < 0) return false;
      if (worth + density[place]! * left < least - 1e-9) return true;
      if (place === order.length) {
        const full = order.every((kind) => counts[kind]! >= kinds[kind]!.demand || kinds[kind]!.size > left + FIT);
        if (full) patterns.push({ source, counts: counts.slice() });
        return patterns.length <= MOST_PATTERNS;
      }
      const kind = order[place]!;
      const { size, demand } = kinds[kind]!;
      const most = Math.min(demand, Math.floor((left + FIT) / size));
      for (let count = most; count >= 0; count--) {
        counts[kind] = count;
        if (!search(place + 1, left - count * size, worth + count * scaled[kind]!)) return false;
      }
      counts[kind] = 0;
      return true;
    };
    if (!search(0, capacity, 0)) return undefined;
  }
  return patterns;
}

const DIVES = 12;
const MIP_NODES = 400;
const EPS = 1e-6;

const isShort = ({ short }: BarSolution): boolean => short.some((count) => count > 0);

/** The best plan found, and a proven lower bound. The same seed gives the same plan unless time ends it. */
export async function searchBars(
  problem: BarProblem,
  tools: SearchTools,
): Promise<{ solution: BarSolution; bound: number }> {
  const { solver, control, seed } = tools;
  let best = better(bestFit(problem), fullestFirst(problem));
  const keep = (candidate: BarSolution): void => {
    best = better(best, candidate);
    if (!isShort(best)) control.report({ cost: best.cost });
  };
  keep(best);
  const pool = new Map<string, BarPattern>();
  const gather = (patterns: readonly BarPattern[]): void =>
    patterns.forEach((pattern) => pool.set(patternKey(pattern), pattern));
  gather(best.uses.map(({ pattern }) => pattern));
  const relaxation = await relaxBars(problem, [...pool.values()], solver, control);
  gather(relaxation.patterns);
  const bound = attainable(relaxation.bound, problem.sources);
  control.report({ bound });
  const done = (): boolean => (!isShort(best) && best.cost <= bound + EPS * Math.max(1, bound)) || control.stopped();

  const dice = random(seed);
  for (let dive = 0; dive < DIVES && !done(); dive++) {
    const found = await diveBars(problem, relaxation, tools, dive === 0 ? () => 0 : dice);
    gather(found.patterns);
    found.solutions.forEach(keep);
    if (dive === 1 && !done()) keep(integerStep(problem, [...pool.values()], best, tools));
  }
  if (!done()) keep(integerStep(problem, [...pool.values()], best, tools));
  if (!done()) {
    const all = patternsWithin(problem, relaxation.values, bound + EPS * Math.max(1, bound));
    if (all) keep(integerStep(problem, all, best, tools, 20 * MIP_NODES));
  }
  return {
    solution: best,
    bound: isShort(best) ? 0 : Math.min(bound, best.cost),
  };
}

function better(one: BarSolution, other: BarSolution): BarSolution {
  const lacking = (solution: BarSolution): number => solution.short.reduce((sum, count) => sum + count, 0);
  const difference = lacking(one) - lacking(other) || one.cost - other.cost;
  return difference <= 1e-9 ? one : other;
}

/** Fixes whole parts and one fraction after the other, solving the relaxation of what is left each time. */
async function diveBars(
  problem: BarProblem,
  start: BarRelaxation,
  { solver, control }: SearchTools,
  dice: () => number,
): Promise<{ solutions: BarSolution[]; patterns: BarPattern[] }> {
  const solutions: BarSolution[] = [];
  const patterns: BarPattern[] = [];
  const fixed: BarUse[] = [];
  let relaxation = start;
  for (;;) {
    const choice = roundSome(relaxation, dice);
    if (choice.length === 0) break;
    for (const { pattern, times: wanted } of choice) {
      const { kinds, sources } = residualProblem(problem, fixed);
      const times = Math.min(wanted, sources[pattern.source]!.available);
      if (times > 0 && pattern.counts.some((count, kind) => count > 0 && kinds[kind]!.demand > 0))
        fixed.push({ pattern, times });
    }
    const residual = residualProblem(problem, fixed);
    if (residual.kinds.every(({ demand }) => demand === 0)) {
      solutions.push(finish(problem, fixed, undefined));
      break;
    }
    solutions.push(finish(problem, fixed, bestFit(residual)), finish(problem, fixed, fullestFirst(residual)));
    if (control.stopped()) break;
    const usable = relaxation.patterns
      .map(({ source, counts }) => ({
        source,
        counts: counts.map((count, kind) => Math.min(count, residual.kinds[kind]!.demand)),
      }))
      .filter(({ counts }) => counts.some((count) => count > 0));
    relaxation = await relaxBars(residual, usable, solver, control);
    patterns.push(...relaxation.patterns);
    await control.pause();
  }
  return { solutions, patterns };
}

/** Whole parts where there are any, else the fraction that is nearest to one (with the dice, one of the near). */
function roundSome({ patterns, times }: BarRelaxation, dice: () => number): BarUse[] {
  const whole = patterns.flatMap((pattern, index) =>
    times[index]! >= 1 - EPS ? [{ pattern, times: Math.floor(times[index]! + EPS) }] : [],
  );
  if (whole.length > 0) return whole;
  const ranks = times.map((value) => value * (1 - 0.5 * dice()));
  const highest = Math.max(...ranks);
  return highest > EPS ? [{ pattern: patterns[ranks.indexOf(highest)]!, times: 1 }] : [];
}

/** What is left to be cut, and of what, when the patterns are cut so often. */
function residualProblem({ kinds, sources }: BarProblem, uses: readonly BarUse[]): BarProblem {
  const taken = (of: (pattern: BarPattern) => number): number =>
    uses.reduce((sum, { pattern, times }) => sum + times * of(pattern), 0);
  return {
    kinds: kinds.map(({ size, demand }, kind) => ({
      size,
      demand: Math.max(0, demand - taken(({ counts }) => counts[kind]!)),
    })),
    sources: sources.map((source, index) => ({
      ...source,
      available: source.available - taken((pattern) => (pattern.source === index ? 1 : 0)),
    })),
  };
}

const finish = (problem: BarProblem, fixed: readonly BarUse[], rest: BarSolution | undefined): BarSolution =>
  tally(problem, [...fixed, ...(rest?.uses ?? [])], rest?.short ?? problem.kinds.map(() => 0));

/** The integer programme over `patterns`, with so many branches at most; `best` where it finds nothing better. */
function integerStep(
  problem: BarProblem,
  patterns: readonly BarPattern[],
  best: BarSolution,
  { solver, control, seed }: SearchTools,
  nodes = MIP_NODES,
): BarSolution {
  if (isShort(best)) return best;
  const unit = moneyUnit(problem);
  const list = [
    ...new Map(
      [...patterns, ...best.uses.map(({ pattern }) => pattern)].map((pattern) => [patternKey(pattern), pattern]),
    ).values(),
  ];
  const times = new Map(best.uses.map(({ pattern, times: some }) => [patternKey(pattern), some]));
  const found = solver.solveInteger(
    {
      rows: barRows(problem),
      columns: list.map((pattern) => barColumn(problem, pattern, unit)),
      start: list.map((pattern) => times.get(patternKey(pattern)) ?? 0),
    },
    { nodes, stop: control.stopped, seed },
  );
  return found
    ? tally(
        problem,
        list.map((pattern, index) => ({ pattern, times: found[index]! })),
        problem.kinds.map(() => 0),
      )
    : best;
}
