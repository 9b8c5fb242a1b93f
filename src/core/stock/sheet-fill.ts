/**
 * Plans sheet by sheet: each is filled for the most value of its pieces, and the stock that gives the
 * most for its cost is taken. With values from the relaxation, a little shaken, this gives many good plans
 * in little time.
 */
import { Knapsack } from './knapsack';
import {
  stripBounds,
  type CutSheet,
  type SheetProblem,
  type SheetSolution,
  type Strip,
  type StripClass,
} from './sheet-problem';

/** Steps of the grid where no grid of moderate size is exact. They are few, because a plan needs many fills and a fill proves nothing. */
const ROUGH = 1_500;

interface ClassTools {
  readonly strips: Knapsack;
  /** Capacity of the class in `strips`. */
  readonly which: number;
  /** One knapsack over the heights for each source. */
  readonly sheets: ReadonlyMap<number, Knapsack>;
}

export class SheetFiller {
  private readonly tools: readonly ClassTools[];

  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
  ) {
    this.tools = classes.map(({ entries, length, heights, sources, prefixes }) => ({
      strips: new Knapsack(
        entries.map(({ along, kind }) => ({ size: along, bound: problem.kinds[kind]!.demand })),
        [length],
        ROUGH,
      ),
      which: 0,
      sheets: new Map(
        sources.map((source) => {
          const bounds = prefixes.map((end, height) =>
            entries
              .slice(height === 0 ? 0 : prefixes[height - 1]!, end)
              .reduce((sum, { kind }) => sum + problem.kinds[kind]!.demand, 0),
          );
          return [
            source,
            new Knapsack(
              heights.map((size, height) => ({ size, bound: bounds[height]! })),
              [problem.sources[source]!.width],
              ROUGH,
            ),
          ];
        }),
      ),
    }));
  }

  /**
   * A whole plan; undefined where sheets run out (unless as much as can be cut is asked for) or the cost passes `upTo`.
   * @param values    of one piece of each kind, in money
   * @param demands   pieces to be cut
   * @param stock     sheets left by stock
   * @param taste     a factor near 1 on the worth of a choice, drawn anew each time
   */
  plan(
    values: readonly number[],
    demands: readonly number[],
    stock: readonly number[],
    taste: () => number,
    { upTo = Infinity, partly = false }: { readonly upTo?: number; readonly partly?: boolean } = {},
  ): SheetSolution | undefined {
    const left = demands.slice();
    const sheetsLeft = stock.slice();
    const sheets: { sheet: CutSheet; times: number }[] = [];
    let cost = 0;
    while (left.some((count) => count > 0)) {
      const best = this.bestSheet(values, left, sheetsLeft, taste);
      if (!best) return partly ? { sheets, cost } : undefined;
      const { stock: taken } = this.problem.sources[best.source]!;
      const made = this.made(best);
      let times = sheetsLeft[taken]!;
      made.forEach((count, kind) => {
        if (count > 0) times = Math.min(times, Math.floor(left[kind]! / count));
      });
      made.forEach((count, kind) => (left[kind] = left[kind]! - count * times));
      sheetsLeft[taken] = sheetsLeft[taken]! - times;
      sheets.push({ sheet: best, times });
      cost += times * this.problem.stocks[taken]!.cost;
      if (cost > upTo) return undefined;
    }
    return { sheets, cost };
  }

  /** Pieces by kind in a sheet. */
  made({ strips }: CutSheet): number[] {
    const made = this.problem.kinds.map(() => 0);
    for (const { group, counts } of strips) {
      const { entries } = this.classes[group]!;
      counts.forEach((count, entry) => {
        if (count > 0) made[entries[entry]!.kind] = made[entries[entry]!.kind]! + count;
      });
    }
    return made;
  }

  bestSheet(
    values: readonly number[],
    left: readonly number[],
    stock: readonly number[],
    taste: () => number,
  ): CutSheet | undefined {
    let best: CutSheet | undefined;
    let most = 0;
    this.classes.forEach(({ sources }, group) => {
      for (const source of sources) {
        const { stock: from } = this.problem.sources[source]!;
        if (stock[from]! <= 0) continue;
        const { strips, worth } = this.fill(group, source, values, left);
        const rank = (worth / Math.max(this.problem.stocks[from]!.cost, 1e-9)) * taste();
        if (strips.length > 0 && rank > most) {
          most = rank;
          best = { source, strips };
        }
      }
    });
    return best;
  }

  /** One sheet filled strip by strip; what a strip takes is not there for the next. */
  private fill(
    group: number,
    source: number,
    values: readonly number[],
    demands: readonly number[],
  ): { strips: Strip[]; worth: number } {
    const { entries, heights, prefixes } = this.classes[group]!;
    const { strips, which, sheets } = this.tools[group]!;
    const stack = sheets.get(source)!;
    const left = demands.slice();
    const worths = entries.map(({ kind }) => values[kind]!);
    const cut: Strip[] = [];
    let room = this.problem.sources[source]!.width;
    let total = 0;
    for (;;) {
      strips.solve(
        worths,
        entries.map(({ kind }) => left[kind]!),
      );
      stack.solve(
        prefixes.map((prefix) => strips.upper(prefix, which)),
        stripBounds(this.classes[group]!, left),
      );
      const chosen = stack.bestIn(room);
      const before = cut.length;
      // Widest first: wide pieces have the fewest places.
      for (let height = heights.length - 1; height >= 0; height--) {
        for (let copy = 0; copy < chosen[height]!; copy++) {
          const { counts, value } = strips.best(prefixes[height]!, which);
          if (value <= 0 || !fits(counts, entries, left)) break;
          counts.forEach((count, entry) => {
            if (count > 0) left[entries[entry]!.kind] = left[entries[entry]!.kind]! - count;
          });
          cut.push({ group, height, counts });
          total += value;
          room -= heights[height]!;
        }
      }
      if (cut.length === before) return { strips: cut, worth: total };
    }
  }
}

function fits(
  counts: readonly number[],
  entries: readonly { readonly kind: number }[],
  left: readonly number[],
): boolean {
  const need = new Map<number, number>();
  counts.forEach((count, entry) => {
    if (count > 0) need.set(entries[entry]!.kind, (need.get(entries[entry]!.kind) ?? 0) + count);
  });
  return [...need].every(([kind, count]) => count <= left[kind]!);
}
