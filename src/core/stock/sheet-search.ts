/** The search for a plan of sheets: relaxation, whole plans from it, the number of sheets, improvement. */
import type { BarProblem } from './bar-problem';
import { searchBars } from './bar-search';
import { attainable } from './knapsack';
import { Control, random, type SearchTools } from './control';
import { SheetMaster, type SheetRelaxation } from './sheet-master';
import {
  addPieces,
  areas,
  once,
  solutionOf,
  stockBeside,
  stripKinds,
  takeLeft,
  timesWithin,
  type CutSheet,
  type SheetProblem,
  type SheetSolution,
  type Strip,
} from './sheet-problem';
import { SheetFiller, repair } from './sheet-fill';

// How many sheets of each stock: a search over whole numbers of sheets, with the pieces still in
// fractions. It lifts the lower bound to what whole sheets cost, and names the numbers worth a try.

interface Node {
  readonly ranges: readonly (readonly [number, number])[];
  readonly bound: number;
  readonly used: readonly number[];
}

/** Relaxations of the search for numbers of sheets. */
const COUNT_NODES = 40;
const SLACK = 1e-5;
const EPS = 1e-6;

class CountSearch {
  private readonly open: Node[];
  /** Numbers of sheets that hold all pieces in fractions, cheapest first. */
  readonly found: { readonly counts: readonly number[]; readonly cost: number }[] = [];
  private nodes = 0;

  constructor(
    private readonly master: SheetMaster,
    root: SheetRelaxation,
    private readonly control: Control,
  ) {
    const { stocks } = master.problem;
    const ranges = stocks.map(({ available }) => [0, available] as const);
    this.open = [{ ranges, bound: this.round(root.bound, ranges), used: root.stockTimes }];
  }

  /** Proven: no plan costs less. */
  get bound(): number {
    return Math.min(Infinity, ...this.open.map(({ bound }) => bound), ...this.found.map(({ cost }) => cost));
  }

  private round(bound: number, ranges: Node['ranges']): number {
    const { stocks } = this.master.problem;
    const fixed = ranges.reduce((sum, [least], stock) => sum + least * stocks[stock]!.cost, 0);
    return (
      fixed +
      attainable(
        bound - fixed,
        stocks.map(({ cost }, stock) => ({ cost, available: ranges[stock]![1] - ranges[stock]![0] })),
      )
    );
  }

  /** Branches until the bound reaches `upTo`, or for so many relaxations. */
  async run(upTo: number): Promise<void> {
    for (;;) {
      this.open.sort((a, b) => a.bound - b.bound);
      const node = this.open[0];
      if (!node || node.bound >= upTo - SLACK || this.nodes >= COUNT_NODES || this.control.stopped()) break;
      const cheapest = this.found[0];
      if (cheapest && cheapest.cost <= node.bound + SLACK) break;
      this.open.shift();
      await this.branch(node, upTo);
    }
    this.master.problem.stocks.forEach(({ available }, stock) => this.master.limit(stock, 0, available));
  }

  private async branch(node: Node, upTo: number): Promise<void> {
    const off = node.used.map((used) => Math.abs(used - Math.round(used)));
    const farthest = Math.max(...off);
    if (farthest <= SLACK) {
      const counts = node.used.map(Math.round);
      const cost = counts.reduce((sum, count, index) => sum + count * this.master.problem.stocks[index]!.cost, 0);
      this.found.push({ counts, cost });
      this.found.sort((a, b) => a.cost - b.cost);
      return;
    }
    const stock = off.indexOf(farthest);
    const used = node.used[stock]!;
    for (const range of [
      [node.ranges[stock]![0], Math.floor(used)],
      [Math.ceil(used), node.ranges[stock]![1]],
    ] as const) {
      const ranges = node.ranges.map((old, index) => (index === stock ? range : old));
      ranges.forEach(([least, most], index) => this.master.limit(index, least, most));
      const relaxation = await this.master.relax(undefined, upTo);
      this.nodes += 1;
      // Cut short: what was there before the cut still holds.
      const bound = Math.max(node.bound, this.round(relaxation.bound, ranges));
      if (bound < upTo - SLACK && (relaxation.short <= SLACK || this.control.stopped()))
        this.open.push({ ranges, bound, used: relaxation.stockTimes });
    }
  }
}

// From the relaxation to whole strips and sheets: strips are settled one after the other, patterns being
// priced anew for what is left; then the strips are laid in sheets, which is a problem of bars. What finds
// no place is cut from further sheets.

/** Fractions from here on are rounded up together. */
const NEARLY_WHOLE = 0.75;
/** Of the strips with smaller fractions so many are settled at a time, the largest first. */
const SHARE = 0.04;
/** Rounds of pricing between two settlements. */
const ROUNDS = 4;

interface DiveTools extends SearchTools {
  readonly filler: SheetFiller;
}

/**
 * One whole plan by diving from the master's present state (its limits on stocks are kept to as far as
 * they suffice); undefined where sheets run out or time is up.
 */
async function dive(
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
      if (!fitted) continue;
      const made = stripKinds(master.classes[fitted.group]!, fitted.counts, master.demands.length);
      const some = Math.min(times, timesWithin(made, master.demands));
      if (some < 1) continue;
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
  const used = strips.map((strip, index) => ({ strip, times: stripTimes[index]! })).filter(({ times }) => times > EPS);
  const parts = used
    .filter(({ times }) => times < NEARLY_WHOLE)
    .map(({ strip, times }) => ({ strip, rank: times * (1 - 0.4 * dice()) }))
    .sort((a, b) => b.rank - a.rank);
  if (parts.length < used.length)
    return used
      .filter(({ times }) => times >= NEARLY_WHOLE)
      .map(({ strip, times }) => ({ strip, times: Math.max(1, Math.floor(times + EPS)) }));
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

/** Lays strips in sheets, class by class; strips without a place come back in `rest`. */
async function layStrips(
  { problem, classes, ranges }: SheetMaster,
  settled: readonly Strip[],
  { solver, control, seed }: DiveTools,
): Promise<{ sheets: CutSheet[]; rest: Strip[] }> {
  const left = ranges.map(({ available }) => available);
  const sheets: CutSheet[] = [];
  const rest: Strip[] = [];
  // The cost of these bars is not that of the plan: it is not reported.
  const quiet = new Control({
    signal: {
      get aborted() {
        return control.stopped();
      },
    },
  });
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
    const { solution } = await searchBars(bars, { solver, control: quiet, seed });
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

// The search itself.

const FILLS = 8;
const DIVES = 4;
const CANDIDATES = 4;
const REPAIRS = 1_500;
/** Rounds of repair that a plan from a dive is given, also where it is not the best. */
const FEW_REPAIRS = 10;
const MIP_NODES = 60;
/** Sheets from which on the patterns at hand make good whole plans by themselves. */
const MANY_SHEETS = 30;

/**
 * The best plan found, of as many pieces as the sheets suffice for, and a proven lower bound. The same seed gives the
 * same plan unless time ends it.
 */
export async function searchSheets(
  problem: SheetProblem,
  tools: SearchTools,
): Promise<{ solution: SheetSolution; bound: number }> {
  const master = new SheetMaster(problem, tools.solver, tools.control);
  try {
    return await search(master, { ...tools, filler: new SheetFiller(problem, master.classes) });
  } finally {
    master.dispose();
  }
}

async function search(master: SheetMaster, tools: DiveTools): ReturnType<typeof searchSheets> {
  const { problem } = master;
  const { control, filler, seed } = tools;
  const dice = random(seed);
  const demands = problem.kinds.map(({ demand }) => demand);
  const stock = problem.stocks.map(({ available }) => available);
  let best: SheetSolution | undefined;
  let bound = 0;
  const keep = (solution: SheetSolution | undefined): void => {
    if (!solution || (best && solution.cost >= best.cost - 1e-9)) return;
    best = solution;
    control.report({ cost: best.cost });
  };
  const lift = (proven: number): void => {
    bound = Math.max(bound, proven);
    control.report({ bound });
  };
  const partial = (): SheetSolution => filler.plan(areas(problem), demands, stock, () => 1, { partly: true })!;
  const upTo = (): number => best?.cost ?? Infinity;
  const done = (): boolean => upTo() <= bound * (1 + EPS) + EPS || control.stopped();

  keep(filler.plan(areas(problem), demands, stock, () => 1));
  const root = await master.relax();
  if (root.short > EPS) return { solution: partial(), bound: 0 };
  const counts = new CountSearch(master, root, control);
  lift(counts.bound);
  const values = root.values.map((value, kind) => Math.max(value, 1e-4 * areas(problem)[kind]!));
  for (let fill = 0; fill < FILLS && !done(); fill++) {
    const shake = fill === 0 ? 0 : 0.02 * fill;
    keep(
      filler.plan(
        values.map((value) => value * (1 + shake * (2 * dice() - 1))),
        demands,
        stock,
        () => 1 + shake * (dice() - 0.5),
        { upTo: upTo() },
      ),
    );
  }
  const many = root.stockTimes.reduce((sum, times) => sum + times, 0) >= MANY_SHEETS;
  if (many) keep(integerStep(master, tools));
  const attempt = async (limits: readonly number[] | undefined, shaken: boolean): Promise<void> => {
    if (done()) return;
    const found = await diveWithin(master, tools, shaken ? dice : () => 0, limits);
    keep(found);
    if (found && !done())
      await repair(filler, found, values, { bound, rounds: FEW_REPAIRS, control, dice, better: keep });
  };
  await attempt(undefined, false);
  if (!done()) {
    await counts.run(upTo());
    lift(Math.min(counts.bound, upTo()));
  }
  // With one length of strip alone a dive loses least at its end; the repair then finds the smaller sheets.
  if (master.classes.length > 1)
    for (const { sources } of master.classes)
      await attempt(
        stock.map((count, index) => (sources.some((source) => problem.sources[source]!.stock === index) ? count : 0)),
        false,
      );
  for (let time = 1; time < DIVES; time++) await attempt(undefined, true);
  // Whole numbers of sheets that hold everything in fractions, cheapest first: a plan may keep to one of them.
  for (const { counts: limits } of counts.found.filter(({ cost }) => cost < upTo() - EPS).slice(0, CANDIDATES)) {
    if (done()) break;
    keep(await diveWithin(master, tools, dice, limits));
  }
  if (best && !done()) await repair(filler, best, values, { bound, rounds: REPAIRS, control, dice, better: keep });
  return { solution: best ?? partial(), bound: Math.min(bound, upTo()) };
}

/** A dive on a copy of the master, with so many sheets of each stock and no more where `limits` say so. */
async function diveWithin(
  master: SheetMaster,
  tools: DiveTools,
  dice: () => number,
  limits: readonly number[] | undefined,
): Promise<SheetSolution | undefined> {
  const copy = master.copy();
  try {
    limits?.forEach((count, stock) => copy.limit(stock, 0, count));
    return await dive(copy, await copy.relax(), tools, dice);
  } finally {
    copy.dispose();
  }
}

/** The sheets that the integer programme makes of the strips and layouts at hand; undefined where it finds none. */
function integerStep(
  { problem, classes, rows, layouts, strips }: SheetMaster,
  { solver, control, seed }: SearchTools,
): SheetSolution | undefined {
  const found = solver.solveInteger(
    {
      rows: rows.bounds(),
      columns: [...layouts.map((layout) => rows.layout(layout)), ...strips.map((strip) => rows.strip(strip))],
    },
    { nodes: MIP_NODES, stop: control.stopped, seed },
  );
  if (!found) return undefined;
  const waiting = classes.map(({ heights }) => heights.map(() => [] as Strip[]));
  strips.forEach((strip, index) =>
    waiting[strip.group]![strip.height]!.push(...new Array<Strip>(found[layouts.length + index]!).fill(strip)),
  );
  const sheets = layouts.flatMap(({ source, counts }, index) => {
    const group = classes.findIndex(({ sources }) => sources.includes(source));
    return Array.from({ length: found[index]! }, () => ({
      source,
      strips: counts.flatMap((count, height) => waiting[group]![height]!.splice(0, count)),
    }));
  });
  return solutionOf(problem, once(sheets.filter((sheet) => sheet.strips.length > 0)));
}
