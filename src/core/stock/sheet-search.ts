/** The search for a plan of sheets: relaxation, whole plans from it, the number of sheets, improvement. */
import { attainable } from './knapsack';
import { random, type Control, type LinearSolver } from './control';
import { SheetMaster, type SheetRelaxation } from './sheet-master';
import { areas, once, solutionOf, type SheetProblem, type SheetSolution, type Strip } from './sheet-problem';
import { dive, type DiveTools } from './sheet-dive';
import { SheetFiller, repair } from './sheet-fill';

// How many sheets of each stock: a search over whole numbers of sheets, with the pieces still in
// fractions. It lifts the lower bound to what whole sheets cost, and names the numbers worth a try.

export interface SheetCounts {
  /** Sheets of each stock. */
  readonly counts: readonly number[];
  readonly cost: number;
}

interface Node {
  readonly ranges: readonly (readonly [number, number])[];
  readonly bound: number;
  readonly used: readonly number[];
}

const SLACK = 1e-5;

class CountSearch {
  private readonly open: Node[];
  /** Numbers of sheets that hold all pieces in fractions, cheapest first. */
  readonly found: SheetCounts[] = [];
  nodes = 0;

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

  /** Branches until the bound reaches `upTo`, or for `nodes` relaxations. */
  async run(upTo: number, nodes: number): Promise<void> {
    const last = this.nodes + nodes;
    for (;;) {
      this.open.sort((a, b) => a.bound - b.bound);
      const node = this.open[0];
      if (!node || node.bound >= upTo - SLACK || this.nodes >= last || this.control.stopped()) break;
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

export interface SheetSearchResult {
  /** Of as many pieces as the sheets suffice for. */
  readonly solution: SheetSolution;
  readonly bound: number;
}

const FILLS = 8;
const DIVES = 4;
const COUNT_NODES = 40;
const CANDIDATES = 4;
const REPAIRS = 1_500;
/** Rounds of repair that a plan from a dive is given, also where it is not the best. */
const FEW_REPAIRS = 10;
const MIP_NODES = 60;
/** Sheets from which on the patterns at hand make good whole plans by themselves. */
const MANY_SHEETS = 30;
const EPS = 1e-6;

/** The best plan found, and a proven lower bound. The same seed gives the same plan unless time ends it. */
export async function searchSheets(
  problem: SheetProblem,
  solver: LinearSolver,
  control: Control,
  seed: number,
): Promise<SheetSearchResult> {
  const master = new SheetMaster(problem, solver, control);
  try {
    return await search(problem, master, solver, control, seed);
  } finally {
    master.dispose();
  }
}

async function search(
  problem: SheetProblem,
  master: SheetMaster,
  solver: LinearSolver,
  control: Control,
  seed: number,
): Promise<SheetSearchResult> {
  const filler = new SheetFiller(problem, master.classes);
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
  const tools: DiveTools = { solver, control, filler, seed };
  if (many) keep(integerStep(master, { solver, control, seed }));
  const attempt = async (limits: readonly number[] | undefined, shaken: boolean): Promise<void> => {
    if (done()) return;
    const found = await diveWithin(master, tools, shaken ? dice : () => 0, limits);
    keep(found);
    if (found && !done())
      await repair(filler, found, values, { bound, rounds: FEW_REPAIRS, control, dice, better: keep });
  };
  await attempt(undefined, false);
  if (!done()) {
    await counts.run(upTo(), COUNT_NODES);
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
  { solver, control, seed }: Omit<DiveTools, 'filler'>,
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
