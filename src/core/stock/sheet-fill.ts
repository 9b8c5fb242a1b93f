/** Plans of sheets without a solver: filled sheet by sheet, repaired, and moved to offcuts. */
import { Knapsack } from './knapsack';
import {
  addPieces,
  areas,
  eachSheet,
  once,
  solutionOf,
  stockBeside,
  stripBounds,
  stripKinds,
  takeLeft,
  timesWithin,
  type CutSheet,
  type SheetProblem,
  type SheetSolution,
  type Strip,
  type StripClass,
} from './sheet-problem';
import type { Control } from './control';

// Plans sheet by sheet: each is filled for the most value of its pieces, and the stock that gives the
// most for its cost is taken. With values from the relaxation, a little shaken, this gives many good plans
// in little time.

/** Steps of the grid where no grid of moderate size is exact. They are few, because a plan needs many fills and a fill proves nothing. */
const ROUGH = 1_500;

export class SheetFiller {
  private readonly tools: readonly {
    /** Its one capacity is the class's length. */
    readonly strips: Knapsack;
    /** One knapsack over the heights for each source. */
    readonly sheets: ReadonlyMap<number, Knapsack>;
  }[];

  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
  ) {
    const demands = problem.kinds.map(({ demand }) => demand);
    this.tools = classes.map((one) => {
      const bounds = stripBounds(one, demands);
      const heights = one.heights.map((size, height) => ({ size, bound: bounds[height]! }));
      return {
        strips: new Knapsack(
          one.entries.map(({ along, kind }) => ({ size: along, bound: demands[kind]! })),
          [one.length],
          ROUGH,
        ),
        sheets: new Map(
          one.sources.map((source) => [source, new Knapsack(heights, [problem.sources[source]!.width], ROUGH)]),
        ),
      };
    });
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
      const times = Math.min(sheetsLeft[taken]!, timesWithin(made, left));
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
    for (const { group, counts } of strips) addPieces(made, this.classes[group]!, counts);
    return made;
  }

  /** What the pieces of a sheet are worth. */
  worth(sheet: CutSheet, values: readonly number[]): number {
    return this.made(sheet).reduce((sum, count, kind) => sum + count * values[kind]!, 0);
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
    const { strips, sheets } = this.tools[group]!;
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
        prefixes.map((prefix) => strips.upper(prefix, 0)),
        stripBounds(this.classes[group]!, left),
      );
      const chosen = stack.bestIn(room);
      const before = cut.length;
      // Widest first: wide pieces have the fewest places.
      for (let height = heights.length - 1; height >= 0; height--) {
        for (let copy = 0; copy < chosen[height]!; copy++) {
          const { counts, value } = strips.best(prefixes[height]!, 0);
          const taken = stripKinds(this.classes[group]!, counts, left.length);
          if (value <= 0 || taken.some((count, kind) => count > left[kind]!)) break;
          addPieces(left, this.classes[group]!, counts, -1);
          cut.push({ group, height, counts });
          total += value;
          room -= heights[height]!;
        }
      }
      if (cut.length === before) return { strips: cut, worth: total };
    }
  }
}

// Improvement of a plan of sheets: a few sheets are taken out and their pieces laid anew.

/** Tries of one repair. */
const TRIES = 6;
/** How far a repair that costs the same may fall behind in gathering the waste. */
const LENIENCE = 0.002;

interface Repairs {
  /** No plan costs less: the repair is done where this is reached. */
  readonly bound: number;
  readonly rounds: number;
  readonly control: Control;
  readonly dice: () => number;
  readonly better: (solution: SheetSolution) => void;
}

interface Candidate {
  readonly sheets: CutSheet[];
  readonly cost: number;
  readonly score: number;
}

/** The cheapest; of those that cost the same, the one with the higher score. */
const bestOf = (candidates: readonly (Candidate | undefined)[]): Candidate | undefined =>
  candidates.reduce((best, candidate) => {
    if (!candidate || !best) return best ?? candidate;
    const cheaper = candidate.cost < best.cost - 1e-9;
    return cheaper || (candidate.cost <= best.cost + 1e-9 && candidate.score > best.score) ? candidate : best;
  }, undefined);

/**
 * Repairs the plan until its cost reaches `bound` or for `rounds`. Of plans that cost the same the one with
 * fuller full sheets and emptier empty ones is kept: that is how a sheet becomes free.
 */
export async function repair(
  filler: SheetFiller,
  start: SheetSolution,
  values: readonly number[],
  { bound, rounds, control, dice, better }: Repairs,
): Promise<void> {
  const { problem } = filler;
  const costOf = ({ source }: CutSheet): number => problem.stocks[problem.sources[source]!.stock]!.cost;
  const score = (sheets: readonly CutSheet[]): number =>
    sheets.reduce((sum, sheet) => sum + filler.worth(sheet, values) ** 2 / Math.max(costOf(sheet), 1e-9), 0);
  let sheets = eachSheet(start);
  let cost = start.cost;

  for (let round = 0; round < rounds && cost > bound + 1e-6 * bound && !control.stopped(); round++) {
    if (round % 4 === 3) await control.pause();
    const size = 2 + Math.floor(dice() * 3);
    const chosen = sheets
      .map((sheet, index) => ({
        index,
        rank: filler.worth(sheet, values) / Math.max(costOf(sheet), 1e-9) + 0.3 * dice(),
      }))
      .sort((a, b) => a.rank - b.rank)
      .slice(0, size)
      .map(({ index }) => index);
    const out = chosen.map((index) => sheets[index]!);
    const kept = sheets.filter((_, index) => !chosen.includes(index));
    const demands = problem.kinds.map(() => 0);
    for (const sheet of out) filler.made(sheet).forEach((count, kind) => (demands[kind] = demands[kind]! + count));
    const stock = stockBeside(problem, kept);
    const oldCost = out.reduce((sum, sheet) => sum + costOf(sheet), 0);
    const best = bestOf(
      Array.from({ length: TRIES }, (): Candidate | undefined => {
        const shake = 0.02 + 0.15 * dice();
        const plan = filler.plan(
          values.map((value) => value * (1 + shake * (2 * dice() - 1))),
          demands,
          stock,
          () => 1 + shake * (dice() - 0.5),
          { upTo: oldCost * (1 + 1e-9) },
        );
        if (!plan) return undefined;
        const list = eachSheet(plan);
        return { sheets: list, cost: plan.cost, score: score(list) };
      }),
    );
    if (!best) continue;
    const cheaper = best.cost < oldCost - 1e-9 * oldCost;
    if (!cheaper && best.score < score(out) * (1 - LENIENCE * dice())) continue;
    sheets = [...kept, ...best.sheets];
    if (!cheaper) continue;
    const solution = solutionOf(problem, once(sheets));
    cost = solution.cost;
    better(solution);
  }
}

// Offcuts first: what a plan left unused of them takes pieces from the emptiest of the other sheets.

/** Moves pieces to the offcuts that are left, the smallest first; the cost never rises. */
export function spendSheetOffcuts(
  problem: SheetProblem,
  classes: readonly StripClass[],
  solution: SheetSolution,
  offcuts: readonly number[],
): SheetSolution {
  if (offcuts.length === 0 || solution.sheets.length === 0) return solution;
  const filler = new SheetFiller(problem, classes);
  const values = areas(problem);
  const sizeOf = (stock: number): number =>
    Math.max(...problem.sources.filter((source) => source.stock === stock).map(({ length, width }) => length * width));
  const stockOf = ({ source }: CutSheet): number => problem.sources[source]!.stock;
  const fullness = (sheet: CutSheet): number => filler.worth(sheet, values) / sizeOf(stockOf(sheet));
  const isOffcut = new Set(offcuts);
  let sheets = eachSheet(solution);

  spending: for (const stock of [...offcuts].sort((a, b) => sizeOf(a) - sizeOf(b) || a - b)) {
    for (let left = stockBeside(problem, sheets)[stock]!; left > 0; left--) {
      const emptiest = sheets
        .filter((sheet) => !isOffcut.has(stockOf(sheet)))
        .sort((a, b) => fullness(a) - fullness(b))[0];
      if (!emptiest) break spending;
      const demands = filler.made(emptiest);
      const moved = filler.bestSheet(
        values,
        demands,
        problem.stocks.map((_, index) => (index === stock ? 1 : 0)),
        () => 1,
      );
      if (!moved) break;
      filler.made(moved).forEach((count, kind) => (demands[kind] = demands[kind]! - count));
      const rest = without(emptiest, filler.made(moved), classes);
      sheets = [
        ...sheets.filter((sheet) => sheet !== emptiest),
        ...sheets.filter((sheet) => sheet === emptiest).slice(1),
        moved,
        ...(rest ? [rest] : []),
      ];
    }
  }
  return solutionOf(problem, once(sheets));
}

/** The sheet without so many pieces of each kind; undefined where none is left. */
function without(sheet: CutSheet, taken: readonly number[], classes: readonly StripClass[]): CutSheet | undefined {
  const left = taken.slice();
  const strips = sheet.strips
    .map((strip) => {
      const out = takeLeft(left, classes[strip.group]!, strip.counts);
      return { ...strip, counts: strip.counts.map((count, entry) => count - out[entry]!) };
    })
    .filter(({ counts }) => counts.some((count) => count > 0));
  return strips.length > 0 ? { source: sheet.source, strips } : undefined;
}
