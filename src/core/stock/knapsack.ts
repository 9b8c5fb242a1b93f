/**
 * The bounded knapsack with lengths as they are. A dynamic programme over a grid gives the best value
 * for every prefix of the items and every capacity, exactly where the grid holds all lengths; elsewhere
 * its values are upper bounds that guide a short search over the true lengths.
 */
import { entryOf } from '../memoized';

// Lengths on an integer grid, for dynamic programming. Where a grid of moderate size holds every length
// exactly (sixteenths, tenths, millimetres…) it is used. Otherwise lengths are rounded down on a rough
// one: what fits in truth fits there too, so that values computed on it are upper bounds.

export interface Grid {
  /** True where every length is a whole number of steps. */
  readonly exact: boolean;
  /** Steps in one unit of length. */
  readonly scale: number;
}

/** Steps that an exact grid may have over the longest capacity: the work of one pricing is in proportion. */
const MOST_EXACT_STEPS = 10_000;
/** Steps of a rough grid, and of one for the last rounds, where the rough one leaves a gap. */
export const ROUGH = 4_000;
export const FINE = 24_000;
const SCALES = [1, 2, 4, 5, 8, 10, 16, 20, 25, 32, 40, 50, 64, 100, 125, 128, 200, 250, 400, 500, 1000];
/** Relative to one step: lengths that come from sums and unit conversions are not whole to the last bit. */
const WHOLE = 1e-6;

/** The coarsest grid that holds `lengths` exactly up to `longest`, else a rough one. */
function gridFor(lengths: readonly number[], longest: number, rough = ROUGH): Grid {
  for (const scale of SCALES) {
    if (!lengths.every((length) => isWhole(length * scale))) continue;
    const step =
      lengths.reduce((common, length) => gcd(common, Math.round(length * scale)), Math.round(longest * scale)) || 1;
    if ((longest * scale) / step <= MOST_EXACT_STEPS) return { exact: true, scale: scale / step };
  }
  return { exact: false, scale: rough / longest };
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) <= WHOLE;

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Whole steps in a length; a length a little short of a whole number of steps is taken as that. */
const steps = ({ scale }: Grid, length: number): number => Math.floor(length * scale + WHOLE);

export interface Packing {
  readonly value: number;
  /** Copies by item. */
  readonly counts: readonly number[];
}

const FIT = 1e-9;
const EPS = 1e-12;
/** Steps that one search over true lengths may take before its best so far is taken. */
const SEARCH_STEPS = 20_000;

export class Knapsack {
  /** True where the grid holds every length. */
  readonly exact: boolean;
  private readonly grid: Grid;
  private readonly sizes: readonly number[];
  private readonly mostBounds: readonly number[];
  private bounds: readonly number[];
  private readonly width: number;
  /** Best value on the grid by prefix (rows) and steps of capacity. */
  private readonly table: Float64Array;
  private values: readonly number[] = [];
  private readonly searched = new Map<number, { packing: Packing; upper: number }>();

  /**
   * @param items      with the most copies of each
   * @param capacities the capacities that will be asked for, in the unit of the sizes
   * @param rough      steps of the grid where no grid of moderate size is exact
   */
  constructor(
    private readonly items: readonly { readonly size: number; readonly bound: number }[],
    private readonly capacities: readonly number[],
    rough = ROUGH,
  ) {
    const longest = Math.max(...capacities);
    this.grid = gridFor([...items.map(({ size }) => size), ...capacities], longest, rough);
    this.exact = this.grid.exact;
    this.sizes = items.map(({ size }) => Math.max(1, steps(this.grid, size)));
    this.mostBounds = items.map(({ size, bound }) => Math.min(bound, Math.floor((longest + FIT) / size)));
    this.bounds = this.mostBounds;
    this.width = steps(this.grid, longest) + 1;
    this.table = new Float64Array(this.width * (items.length + 1));
  }

  /** Computes for these values of one copy of each item, and for tighter bounds where they are given. */
  solve(values: readonly number[], bounds?: readonly number[]): void {
    const { table, width } = this;
    this.values = values;
    this.bounds = bounds ? this.mostBounds.map((most, item) => Math.min(most, bounds[item]!)) : this.mostBounds;
    this.searched.clear();
    for (let item = 0; item < this.items.length; item++) {
      const row = (item + 1) * width;
      table.copyWithin(row, row - width, row);
      const each = values[item]!;
      if (each <= EPS) continue;
      // Copies in bundles of 1, 2, 4… and the rest, each taken or not.
      for (let left = this.bounds[item]!, copies = 1; left > 0; copies *= 2) {
        const some = Math.min(copies, left);
        left -= some;
        place(table, row, width, some * this.sizes[item]!, some * each);
      }
    }
  }

  /** At least the value of the best packing of the first `prefix` items in capacity `which`. */
  upper(prefix: number, which: number): number {
    return (
      this.searched.get(prefix * this.capacities.length + which)?.upper ?? this.onGrid(prefix, this.capacities[which]!)
    );
  }

  /** The best packing (in rare cases of a long search the best that was found); `upper` is as sharp from then on. */
  best(prefix: number, which: number): Packing {
    const key = prefix * this.capacities.length + which;
    return entryOf(this.searched, key, () => this.search(prefix, this.capacities[which]!)).packing;
  }

  /** The best packing of all items in any capacity up to the largest. */
  bestIn(capacity: number): readonly number[] {
    return this.search(this.items.length, capacity).packing.counts;
  }

  private onGrid(prefix: number, capacity: number): number {
    return capacity < 0 ? 0 : this.table[prefix * this.width + Math.min(this.width - 1, steps(this.grid, capacity))]!;
  }

  /** Depth first over the items from the last, the most promising number of copies first. */
  private search(prefix: number, capacity: number): { packing: Packing; upper: number } {
    const { items, bounds, values } = this;
    const counts = new Array<number>(items.length).fill(0);
    let best: Packing = { value: 0, counts: counts.slice() };
    let left = SEARCH_STEPS;
    // Where the search was here before, before the same item and with the same room left, it goes on only with more value.
    const seen = new Map<number, number>();
    const visit = (place: number, room: number, worth: number): void => {
      if (worth > best.value + EPS) best = { value: worth, counts: counts.slice() };
      if (place === 0 || left <= 0) return;
      const state = Math.round(room * 1e6) * 1024 + place;
      if (worth <= (seen.get(state) ?? -1) + EPS) return;
      seen.set(state, worth);
      const item = place - 1;
      const { size } = items[item]!;
      const most = values[item]! > EPS ? Math.min(bounds[item]!, Math.floor((room + FIT) / size)) : 0;
      const choices: { copies: number; upper: number }[] = [];
      for (let copies = 0; copies <= most; copies++) {
        const upper = worth + copies * values[item]! + this.onGrid(place - 1, room - copies * size + FIT);
        if (upper > best.value + EPS) choices.push({ copies, upper });
      }
      choices.sort((a, b) => b.upper - a.upper);
      for (const { copies, upper } of choices) {
        left -= 1;
        if (upper <= best.value + EPS || left <= 0) break;
        counts[item] = copies;
        visit(place - 1, room - copies * size, worth + copies * values[item]!);
      }
      counts[item] = 0;
    };
    visit(prefix, capacity, 0);
    return { packing: best, upper: left > 0 ? best.value : this.onGrid(prefix, capacity) };
  }
}

/** One bundle, taken or not, at every capacity. */
function place(table: Float64Array, row: number, width: number, size: number, gain: number): void {
  for (let to = row + width - 1, from = to - size; from >= row; to--, from--) {
    const value = table[from]! + gain;
    if (value > table[to]!) table[to] = value;
  }
}

// Costs that whole numbers of stock can add up to: a lower bound is rounded up to the next of them.

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
export function attainable(bound: number, stock: readonly Priced[]): number {
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
  for (let v = target; v <= top; v++) if (reach[v] === 1) return (v * step) / scale;
  return bound;
}

/** The power of ten that makes all costs whole; undefined where none up to a millionth does. */
function scaleOf(costs: readonly number[]): number | undefined {
  for (let scale = 1; scale <= 1e6; scale *= 10) {
    if (costs.every((cost) => Math.abs(cost * scale - Math.round(cost * scale)) < 1e-6)) return scale;
  }
  return undefined;
}
