/** Costs that whole numbers of stock can add up to: a lower bound is rounded up to the next of them. */

export interface Priced {
  readonly cost: number;
  /** Infinity where it is not limited. */
  readonly available: number;
}

/** Sums that are looked at; beyond it the bound is left as it is. */
const MOST_STATES = 2_000_000;
const SLACK = 1e-7;

/**
 * The lowest cost of `bound` or more that whole numbers of stock add up to. Every plan's cost is such a sum, so that this
 * is a lower bound, too. (A cost that is less than `bound` by rounding alone counts.)
 */
export function attainable(bound: number, stock: readonly Priced[], upTo = Infinity): number {
  const priced = stock.filter(({ cost, available }) => cost > 0 && available > 0);
  const floor = bound - SLACK * Math.max(1, Math.abs(bound));
  if (floor <= 0) return 0;
  if (priced.length === 0) return bound;
  const scale = scaleOf(priced.map(({ cost }) => cost));
  if (scale === undefined) return bound;
  const costs = priced.map(({ cost }) => Math.round(cost * scale));
  const step = costs.reduce(gcd);
  const units = costs.map((cost) => cost / step);
  const target = Math.ceil((floor * scale) / step - 1e-9);
  const top = target + Math.max(...units);
  if (top > MOST_STATES) return bound;
  // reach[v] is 1 where the stock that has been looked at so far can add up to v.
  let reach = new Uint8Array(top + 1);
  reach[0] = 1;
  units.forEach((unit, index) => {
    const most = priced[index]!.available;
    const next = reach.slice();
    if (most === Infinity) {
      for (let v = unit; v <= top; v++) if (next[v - unit] === 1) next[v] = 1;
    } else {
      const used = new Float64Array(top + 1);
      for (let v = unit; v <= top; v++) {
        if (next[v] === 1 || next[v - unit] !== 1 || used[v - unit]! >= most) continue;
        next[v] = 1;
        used[v] = used[v - unit]! + 1;
      }
    }
    reach = next;
  });
  for (let v = target; v <= top; v++) if (reach[v] === 1) return Math.min((v * step) / scale, Math.max(bound, upTo));
  return bound;
}

/** The power of ten that makes all costs whole; undefined where none up to a millionth does. */
function scaleOf(costs: readonly number[]): number | undefined {
  for (let scale = 1; scale <= 1e6; scale *= 10) {
    if (costs.every((cost) => Math.abs(cost * scale - Math.round(cost * scale)) < 1e-6)) return scale;
  }
  return undefined;
}

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
