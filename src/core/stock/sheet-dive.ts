/**
 * From the relaxation to whole strips and sheets: strips are settled one after the other, patterns being
 * priced anew for what is left; then the strips are laid in sheets, which is a problem of bars. What finds
 * no place is cut from further sheets.
 */
import type { BarProblem } from './bar-problem';
import { searchBars } from './bar-search';
import { Control, type LinearSolver } from './control';
import type { SheetFiller } from './sheet-fill';
import type { SheetMaster, SheetRelaxation } from './sheet-master';
import {
  addPieces,
  once,
  solutionOf,
  stockBeside,
  stripKinds,
  takeLeft,
  type CutSheet,
  type SheetSolution,
  type Strip,
} from './sheet-problem';

const EPS = 1e-6;
/** Fractions from here on are rounded up together. */
const NEARLY_WHOLE = 0.75;
/** Of the strips with smaller fractions so many are settled at a time, the largest first. */
const SHARE = 0.04;
/** Rounds of pricing between two settlements. */
const ROUNDS = 4;

export interface DiveTools {
  readonly solver: LinearSolver;
  readonly control: Control;
  readonly filler: SheetFiller;
  readonly seed: number;
}

/**
 * One whole plan by diving from the master's present state (its limits on stocks are kept to as far as
 * they suffice); undefined where sheets run out or time is up.
 */
export async function dive(
  master: SheetMaster,
  start: SheetRelaxation,
  tools: DiveTools,
  dice: () => number,
): Promise<SheetSolution | undefined> {
  const strips = await settleStrips(master, start, tools.control, dice);
  if (!strips) return undefined;
  const { sheets, rest } = await layStrips(master, strips, tools);
  const left = master.demands.slice();
  for (const { group, counts } of rest) addPieces(left, master.classes[group]!, counts);
  // Further sheets are taken beyond any limit that a search put on a stock.
  const more = left.some((count) => count > 0)
    ? tools.filler.plan(start.values, left, stockBeside(master.problem, sheets), () => 1)
    : { sheets: [] };
  return more && solutionOf(master.problem, [...once(sheets), ...more.sheets]);
}

/** Strips that hold all pieces but those that no sheet is left for (they stay in the master's demands). */
async function settleStrips(
  master: SheetMaster,
  start: SheetRelaxation,
  control: Control,
  dice: () => number,
): Promise<Strip[] | undefined> {
  const settled: Strip[] = [];
  let relaxation = start;
  for (;;) {
    let any = false;
    for (const { strip, times } of chooseStrips(master, relaxation, dice)) {
      const fitted = properStrip(master, strip);
      const some = fitted ? Math.min(times, timesLeft(master, fitted)) : 0;
      if (!fitted || some < 1) continue;
      any = true;
      master.settle(fitted, some);
      for (let time = 0; time < some; time++) settled.push(fitted);
    }
    if (!any || master.demands.every((demand) => demand === 0)) return settled;
    if (control.stopped()) return undefined;
    master.barImproper();
    relaxation = await master.relax(ROUNDS);
  }
}

function chooseStrips(
  { strips }: SheetMaster,
  { stripTimes }: SheetRelaxation,
  dice: () => number,
): { strip: Strip; times: number }[] {
  const whole: { strip: Strip; times: number }[] = [];
  const parts: { strip: Strip; rank: number }[] = [];
  stripTimes.forEach((times, index) => {
    if (times <= EPS) return;
    const strip = strips[index]!;
    if (times >= NEARLY_WHOLE) whole.push({ strip, times: Math.max(1, Math.floor(times + EPS)) });
    else parts.push({ strip, rank: times * (1 - 0.4 * dice()) });
  });
  if (whole.length > 0) return whole;
  parts.sort((a, b) => b.rank - a.rank);
  return parts.slice(0, Math.max(1, Math.floor(parts.length * SHARE))).map(({ strip }) => ({ strip, times: 1 }));
}

/** The strip with no more pieces than are still to be cut, and no wider than they need; undefined where none is left in it. */
function properStrip({ demands, classes }: SheetMaster, strip: Strip): Strip | undefined {
  const { entries, heights } = classes[strip.group]!;
  const counts = takeLeft(demands.slice(), classes[strip.group]!, strip.counts);
  const widest = Math.max(0, ...entries.filter((_, entry) => counts[entry]! > 0).map(({ across }) => across));
  return widest > 0
    ? { group: strip.group, height: heights.findIndex((size) => size >= widest - 1e-9), counts }
    : undefined;
}

/** How often the strip can be cut before it holds more of a kind than is left. */
const timesLeft = ({ demands, classes, problem }: SheetMaster, { group, counts }: Strip): number =>
  stripKinds(classes[group]!, counts, problem.kinds.length).reduce(
    (most, count, kind) => (count > 0 ? Math.min(most, Math.floor(demands[kind]! / count)) : most),
    Infinity,
  );

/** Lays strips in sheets, class by class; strips without a place come back in `rest`. */
async function layStrips(
  { problem, classes, ranges }: SheetMaster,
  settled: readonly Strip[],
  { solver, control, seed }: DiveTools,
): Promise<{ sheets: CutSheet[]; rest: Strip[] }> {
  const left = ranges.map(({ available }) => available);
  const sheets: CutSheet[] = [];
  const rest: Strip[] = [];
  for (const [group, { sources, heights }] of classes.entries()) {
    const byHeight = heights.map((_, height) =>
      settled.filter((strip) => strip.group === group && strip.height === height),
    );
    if (byHeight.every((list) => list.length === 0)) continue;
    const bars: BarProblem = {
      kinds: heights.map((size, height) => ({ size, demand: byHeight[height]!.length })),
      sources: sources.map((source) => {
        const { stock, width } = problem.sources[source]!;
        return { capacity: width, cost: problem.stocks[stock]!.cost, available: left[stock]! };
      }),
    };
    const { solution } = await searchBars(
      bars,
      solver,
      new Control({
        signal: {
          get aborted() {
            return control.stopped();
          },
        },
      }),
      seed,
    );
    for (const { pattern, times } of solution.uses) {
      const source = sources[pattern.source]!;
      for (let time = 0; time < times; time++) {
        const strips = pattern.counts.flatMap((count, height) => byHeight[height]!.splice(0, count));
        if (strips.length === 0) continue;
        left[problem.sources[source]!.stock] = left[problem.sources[source]!.stock]! - 1;
        sheets.push({ source, strips });
      }
    }
    rest.push(...byHeight.flat());
  }
  return { sheets, rest };
}
