/** The linear relaxation of cutting bars, by column generation: patterns are priced as they are needed. */
import { FIT, patternKey, type BarPattern, type BarProblem } from './bar-problem';
import type { Control, Column, LinearSolver, RowBounds } from './control';
import { Knapsack, type Priced } from './knapsack';

/** Prices patterns: the best bar of every source for given values of the kinds. */
export const barPricer = ({ kinds, sources }: BarProblem): Knapsack =>
  new Knapsack(
    kinds.map(({ size, demand }) => ({ size, bound: demand })),
    sources.map(({ capacity }) => capacity),
  );

export interface StockRange extends Priced {
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

export interface BarRelaxation {
  readonly patterns: readonly BarPattern[];
  /** How often each pattern is cut, fractions allowed. */
  readonly times: readonly number[];
  /** Value of one piece of a kind, in money. */
  readonly values: readonly number[];
  /** Proven: no plan costs less, whole or in fractions. */
  readonly bound: number;
}

/** A piece without stock costs as much as so many of the dearest of it, so that none is left out while stock lasts. */
const SHORT_COSTS = 1_000;

/** Columns of shortage, for where stock runs out: one for each of the first rows. */
export const shortages = (rows: number): Column[] =>
  Array.from({ length: rows }, (_, row) => ({ cost: SHORT_COSTS, rows: [row], values: [1] }));

const ROUNDS = 2_000;

/** The patterns as columns over the rows of `barRows`, with money in units of `unit`. */
export function barColumn(problem: BarProblem, { source, counts }: BarPattern, unit: number): Column {
  const used = counts.flatMap((count, kind) => (count > 0 ? [{ row: kind, value: count }] : []));
  const limited = limitedSources(problem).indexOf(source);
  const entries = limited < 0 ? used : [...used, { row: problem.kinds.length + limited, value: 1 }];
  return {
    cost: problem.sources[source]!.cost / unit,
    rows: entries.map(({ row }) => row),
    values: entries.map(({ value }) => value),
  };
}

const limitedSources = ({ sources }: BarProblem): number[] =>
  sources.flatMap(({ available }, source) => (available === Infinity ? [] : [source]));

/** One row a kind (its demand) and one a limited source. */
export const barRows = (problem: BarProblem): RowBounds[] => [
  ...problem.kinds.map(({ demand }) => ({ lower: demand, upper: Infinity })),
  ...limitedSources(problem).map((source) => ({ lower: -Infinity, upper: problem.sources[source]!.available })),
];

/** The unit that money is counted in while solving, so that tolerances are relative. */
export const moneyUnit = ({ sources }: BarProblem): number => Math.max(...sources.map(({ cost }) => cost)) || 1;

/** One pattern for every kind and source that it fits, filled with that kind alone. */
const plainPatterns = ({ kinds, sources }: BarProblem): BarPattern[] =>
  sources.flatMap(({ capacity, available }, source) =>
    kinds.flatMap(({ size, demand }, kind) => {
      const fit = Math.min(demand, Math.floor((capacity + FIT) / size));
      return fit < 1 || available === 0
        ? []
        : [{ source, counts: kinds.map((_, other) => (other === kind ? fit : 0)) }];
    }),
  );

/** Solves the relaxation, starting from `start`. */
export async function relaxBars(
  problem: BarProblem,
  start: readonly BarPattern[],
  solver: LinearSolver,
  control: Control,
): Promise<BarRelaxation> {
  const unit = moneyUnit(problem);
  const { kinds, sources } = problem;
  const demands = kinds.map(({ demand }) => demand);
  const limited = limitedSources(problem);
  const patterns: BarPattern[] = [];
  const known = new Set<string>();
  const fresh = (pattern: BarPattern): boolean => {
    const key = patternKey(pattern);
    if (known.has(key)) return false;
    known.add(key);
    patterns.push(pattern);
    return true;
  };
  const first = [...plainPatterns(problem), ...start].filter(fresh);
  const pricer = barPricer(problem);
  const model = solver.model(barRows(problem), [
    ...shortages(kinds.length),
    ...first.map((pattern) => barColumn(problem, pattern, unit)),
  ]);
  try {
    let bound = -Infinity;
    for (let round = 0; ; round++) {
      const solved = model.solve();
      const values = Array.from(solved.duals.subarray(0, kinds.length), (dual) => Math.max(0, dual) * unit);
      pricer.solve(values);
      bound = Math.max(
        bound,
        dualBound(values, demands, sources, (source) => pricer.upper(kinds.length, source)),
      );
      const found: BarPattern[] = [];
      sources.forEach(({ cost, available }, source) => {
        if (available === 0) return;
        const row = limited.indexOf(source);
        const rent = row < 0 ? 0 : Math.max(0, -solved.duals[kinds.length + row]!) * unit;
        const { counts, value } = pricer.best(kinds.length, source);
        if (value > cost + rent + unit * 1e-7 && fresh({ source, counts })) found.push({ source, counts });
      });
      if (found.length === 0 || round >= ROUNDS || control.stopped()) {
        return {
          patterns,
          times: Array.from(solved.values.subarray(kinds.length)),
          values,
          bound: Math.max(0, bound),
        };
      }
      model.addColumns(found.map((pattern) => barColumn(problem, pattern, unit)));
      if (round % 8 === 7) await control.pause();
    }
  } finally {
    model.dispose();
  }
}
