/**
 * From the relaxation to whole numbers of bars: rounding, dives with patterns priced anew for what is
 * left, the integer programme over the patterns at hand, and, where the gap is narrow, over all
 * patterns that a better plan could use.
 */
import { attainable } from './attainable';
import { bestFit, fullestFirst, tally } from './bar-greedy';
import { remaining, type BarPattern, type BarProblem, type BarSolution } from './bar-problem';
import { barColumn, barRows, moneyUnit, relaxBars, type BarRelaxation } from './bar-relaxation';
import { patternsWithin } from './bar-enumerate';
import { random, type Control } from './control';
import type { LinearSolver } from './solver';

export interface SearchResult {
  readonly solution: BarSolution;
  readonly bound: number;
}

const DIVES = 12;
const MIP_NODES = 400;
const EPS = 1e-6;

const isShort = ({ short }: BarSolution): boolean => short.some((count) => count > 0);

/** The best plan found, and a proven lower bound. The same seed gives the same plan unless time ends it. */
export async function searchBars(
  problem: BarProblem,
  solver: LinearSolver,
  control: Control,
  seed: number,
): Promise<SearchResult> {
  let best = better(bestFit(problem), fullestFirst(problem));
  const keep = (candidate: BarSolution): void => {
    best = better(best, candidate);
    if (!isShort(best)) control.report({ cost: best.cost });
  };
  keep(best);
  const pool = new Map<string, BarPattern>();
  const gather = (patterns: readonly BarPattern[]): void =>
    patterns.forEach((pattern) => pool.set(`${pattern.source}:${pattern.counts.join()}`, pattern));
  gather(best.uses.map(({ pattern }) => pattern));
  const relaxation = await relaxBars(problem, [...pool.values()], solver, control);
  gather(relaxation.patterns);
  const bound = attainable(relaxation.bound, problem.sources);
  control.report({ bound });
  const done = (): boolean => (!isShort(best) && best.cost <= bound + EPS * Math.max(1, bound)) || control.stopped();

  const dice = random(seed);
  for (let dive = 0; dive < DIVES && !done(); dive++) {
    const found = await diveBars(problem, relaxation, solver, control, dive === 0 ? () => 0 : dice);
    gather(found.patterns);
    found.solutions.forEach(keep);
    if (dive === 1 && !done()) keep(integerStep(problem, [...pool.values()], best, { solver, control, seed }));
  }
  if (!done()) keep(integerStep(problem, [...pool.values()], best, { solver, control, seed }));
  if (!done()) {
    const all = patternsWithin(problem, relaxation.values, bound + EPS * Math.max(1, bound));
    if (all) keep(integerStep(problem, all, best, { solver, control, seed, nodes: 20 * MIP_NODES }));
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
  solver: LinearSolver,
  control: Control,
  dice: () => number,
): Promise<{ solutions: BarSolution[]; patterns: BarPattern[] }> {
  const solutions: BarSolution[] = [];
  const patterns: BarPattern[] = [];
  const fixed: { pattern: BarPattern; times: number }[] = [];
  let relaxation = start;
  for (;;) {
    const choice = roundSome(relaxation, dice);
    if (choice.length === 0) break;
    for (const use of choice) {
      const left = remaining(problem, fixed);
      const times = Math.min(use.times, stockLeft(problem, fixed)[use.pattern.source]!);
      if (times > 0 && use.pattern.counts.some((count, kind) => count > 0 && left[kind]! > 0))
        fixed.push({ pattern: use.pattern, times });
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
function roundSome({ patterns, times }: BarRelaxation, dice: () => number): { pattern: BarPattern; times: number }[] {
  const whole = patterns.flatMap((pattern, index) =>
    times[index]! >= 1 - EPS ? [{ pattern, times: Math.floor(times[index]! + EPS) }] : [],
  );
  if (whole.length > 0) return whole;
  let choice = -1;
  let highest = EPS;
  times.forEach((value, index) => {
    const rank = value * (1 - 0.5 * dice());
    if (value > EPS && rank > highest) {
      highest = rank;
      choice = index;
    }
  });
  return choice < 0 ? [] : [{ pattern: patterns[choice]!, times: 1 }];
}

function stockLeft({ sources }: BarProblem, uses: readonly { pattern: BarPattern; times: number }[]): number[] {
  const left = sources.map(({ available }) => available);
  for (const { pattern, times } of uses) left[pattern.source] = left[pattern.source]! - times;
  return left;
}

function residualProblem(problem: BarProblem, uses: readonly { pattern: BarPattern; times: number }[]): BarProblem {
  const left = remaining(problem, uses);
  const stock = stockLeft(problem, uses);
  return {
    kinds: problem.kinds.map(({ size }, kind) => ({ size, demand: left[kind]! })),
    sources: problem.sources.map((source, index) => ({ ...source, available: stock[index]! })),
  };
}

function finish(
  problem: BarProblem,
  fixed: readonly { pattern: BarPattern; times: number }[],
  rest: BarSolution | undefined,
): BarSolution {
  return tally(problem, [...fixed, ...(rest?.uses ?? [])], rest?.short ?? problem.kinds.map(() => 0));
}

interface IntegerTools {
  readonly solver: LinearSolver;
  readonly control: Control;
  readonly seed: number;
  /** Branches at most. */
  readonly nodes?: number;
}

/** The integer programme over `patterns`; `best` where it finds nothing better. */
function integerStep(
  problem: BarProblem,
  patterns: readonly BarPattern[],
  best: BarSolution,
  { solver, control, seed, nodes = MIP_NODES }: IntegerTools,
): BarSolution {
  if (isShort(best)) return best;
  const unit = moneyUnit(problem);
  const list = [
    ...new Map(
      [...patterns, ...best.uses.map(({ pattern }) => pattern)].map((pattern) => [
        `${pattern.source}:${pattern.counts.join()}`,
        pattern,
      ]),
    ).values(),
  ];
  const times = new Map(
    best.uses.map(({ pattern, times: some }) => [`${pattern.source}:${pattern.counts.join()}`, some]),
  );
  const found = solver.solveInteger(
    {
      rows: barRows(problem),
      columns: list.map((pattern) => barColumn(problem, pattern, unit)),
      start: list.map((pattern) => times.get(`${pattern.source}:${pattern.counts.join()}`) ?? 0),
    },
    { nodes, stop: control.stopped, seed },
  );
  if (!found) return best;
  return tally(
    problem,
    list.map((pattern, index) => ({ pattern, times: found.values[index]! })),
    problem.kinds.map(() => 0),
  );
}
