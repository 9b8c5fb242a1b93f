/** Improvement of a plan of sheets: a few sheets are taken out and their pieces laid anew. */
import type { Control } from './control';
import type { SheetFiller } from './sheet-fill';
import { solutionOf, type CutSheet, type SheetSolution } from './sheet-problem';

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
  const worthOf = (sheet: CutSheet): number =>
    filler.made(sheet).reduce((sum, count, kind) => sum + count * values[kind]!, 0);
  const score = (sheets: readonly CutSheet[]): number =>
    sheets.reduce((sum, sheet) => sum + worthOf(sheet) ** 2 / Math.max(costOf(sheet), 1e-9), 0);
  let sheets = start.sheets.flatMap(({ sheet, times }) => new Array<CutSheet>(times).fill(sheet));
  let cost = start.cost;

  for (let round = 0; round < rounds && cost > bound + 1e-6 * bound && !control.stopped(); round++) {
    if (round % 4 === 3) await control.pause();
    const size = 2 + Math.floor(dice() * 3);
    const chosen = sheets
      .map((sheet, index) => ({ index, rank: worthOf(sheet) / Math.max(costOf(sheet), 1e-9) + 0.3 * dice() }))
      .sort((a, b) => a.rank - b.rank)
      .slice(0, size)
      .map(({ index }) => index);
    const out = chosen.map((index) => sheets[index]!);
    const kept = sheets.filter((_, index) => !chosen.includes(index));
    const demands = problem.kinds.map(() => 0);
    for (const sheet of out) filler.made(sheet).forEach((count, kind) => (demands[kind] = demands[kind]! + count));
    const stock = problem.stocks.map(
      ({ available }, index) =>
        available - kept.filter(({ source }) => problem.sources[source]!.stock === index).length,
    );
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
        const list = plan.sheets.flatMap(({ sheet, times }) => new Array<CutSheet>(times).fill(sheet));
        return { sheets: list, cost: plan.cost, score: score(list) };
      }),
    );
    if (!best) continue;
    const cheaper = best.cost < oldCost - 1e-9 * oldCost;
    if (!cheaper && best.score < score(out) * (1 - LENIENCE * dice())) continue;
    sheets = [...kept, ...best.sheets];
    if (!cheaper) continue;
    const solution = solutionOf(
      problem,
      sheets.map((sheet) => ({ sheet, times: 1 })),
    );
    cost = solution.cost;
    better(solution);
  }
}
