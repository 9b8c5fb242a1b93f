/**
 * All patterns that a plan of a given cost could use. By weak duality a pattern whose reduced cost is
 * more than that cost less the bound can stand in no such plan; where the gap is narrow few are left.
 */
import { BarPricer, dualBound, FIT, type BarPattern, type BarProblem } from './bar-problem';

/** Beyond so many patterns the integer programme is no help. */
const MOST_PATTERNS = 6_000;
const MOST_STEPS = 3_000_000;

/**
 * Patterns that are full (no further piece fits) and could stand in a plan that costs `cost` or less;
 * undefined where they are too many. `values` are the kinds' values in the relaxation.
 */
export function patternsWithin(problem: BarProblem, values: readonly number[], cost: number): BarPattern[] | undefined {
  const { kinds, sources } = problem;
  const pricer = new BarPricer(problem);
  pricer.solve(values);
  const unlimited = sources.map((source, index) =>
    source.available === Infinity ? source.cost / pricer.upper(index) : Infinity,
  );
  const scale = Math.min(1, ...unlimited);
  const scaled = values.map((value) => value * scale);
  const bound = dualBound(
    values,
    kinds.map(({ demand }) => demand),
    sources,
    (source) => pricer.upper(source),
  );
  const gap = cost - bound;
  const patterns: BarPattern[] = [];
  const order = kinds
    .map((_, kind) => kind)
    .filter((kind) => kinds[kind]!.demand > 0)
    .sort((a, b) => kinds[b]!.size - kinds[a]!.size || a - b);
  let steps = MOST_STEPS;

  for (const [source, { capacity, cost: price, available }] of sources.entries()) {
    const rent = available === Infinity ? 0 : Math.max(0, scale * pricer.upper(source) - price);
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
