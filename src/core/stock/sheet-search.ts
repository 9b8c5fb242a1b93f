/** The search for a plan of sheets: relaxation, whole plans from it, the number of sheets, improvement. */
import type { Control } from './control';
import { SheetRows } from './sheet-columns';
import { CountSearch } from './sheet-counts';
import { dive, type DiveTools } from './sheet-dive';
import { SheetFiller } from './sheet-fill';
import { SheetMaster, type SheetRelaxation } from './sheet-master';
import { solutionOf, type CutSheet, type Layout, type SheetProblem, type SheetSolution, type Strip } from './sheet-problem';
import { random } from './random';
import { repair } from './sheet-repair';
import type { LinearSolver } from './solver';

export interface SheetSearchResult {
  /** Undefined where the sheets do not suffice. */
  readonly solution: SheetSolution | undefined;
  readonly bound: number;
}

const FILLS = 8;
const COUNT_NODES = 40;
const CANDIDATES = 6;
const REPAIRS = 1_500;
const MIP_NODES = 60;
/** Sheets from which on the patterns at hand make good whole plans by themselves. */
const MANY_SHEETS = 30;
const EPS = 1e-6;

/** The best plan found, and a proven lower bound. The same seed gives the same plan unless time ends it. */
export async function searchSheets(problem: SheetProblem, solver: LinearSolver, control: Control, seed: number): Promise<SheetSearchResult> {
  const master = new SheetMaster(problem, solver, control);
  try {
    return await search(problem, master, solver, control, seed);
  } finally {
    master.dispose();
  }
}

async function search(problem: SheetProblem, master: SheetMaster, solver: LinearSolver, control: Control, seed: number): Promise<SheetSearchResult> {
  const filler = new SheetFiller(problem, master.classes);
  const dice = random(seed);
  const demands = problem.kinds.map(({ demand }) => demand);
  const stock = problem.stocks.map(({ available }) => available);
  let best: SheetSolution | undefined;
  let bound = 0;
  const keep = (solution: SheetSolution | undefined): void => {
    if (!solution || (best && solution.cost >= best.cost - 1e-9)) return;
    best = solution;
    control.report('sheets', { cost: best.cost });
  };
  const lift = (proven: number): void => {
    bound = Math.max(bound, proven);
    control.report('sheets', { bound });
  };
  const upTo = (): number => best?.cost ?? Infinity;
  const done = (): boolean => upTo() <= bound * (1 + EPS) + EPS || control.stopped();

  keep(filler.plan(areas(problem), demands, stock, () => 1));
  const root = await master.relax();
  if (root.short > EPS) return { solution: best, bound: 0 };
  const counts = new CountSearch(master, root, control);
  lift(counts.bound);
  const values = root.values.map((value, kind) => Math.max(value, 1e-4 * areas(problem)[kind]!));
  for (let fill = 0; fill < FILLS && !done(); fill++) {
    const shake = fill === 0 ? 0 : 0.02 * fill;
    keep(filler.plan(values.map((value) => value * (1 + shake * (2 * dice() - 1))), demands, stock, () => 1 + shake * (dice() - 0.5), upTo()));
  }
  const many = root.stockTimes.reduce((sum, times) => sum + times, 0) >= MANY_SHEETS;
  const tools: DiveTools = { solver, control, filler, seed };
  if (!done()) await diveWithin(master, root, tools, () => 0, upTo(), undefined, keep);
  if (many && !done()) keep(integerStep(problem, master, best, solver, control, seed));
  if (!done()) {
    await counts.run(upTo(), COUNT_NODES);
    lift(Math.min(counts.bound, upTo()));
  }
  // Whole numbers of sheets that hold everything in fractions, cheapest first: a plan may keep to one of them.
  for (const { counts: numbers } of candidates(problem, counts, upTo()).slice(0, CANDIDATES)) {
    if (done()) break;
    await diveWithin(master, undefined, tools, dice, upTo(), numbers, keep);
  }
  if (best && !done()) await repair(filler, best, values, bound, REPAIRS, control, dice, keep);
  return { solution: best, bound: Math.min(bound, upTo()) };
}

const areas = ({ kinds }: SheetProblem): number[] => kinds.map(({ ways }) => ways.flat().reduce((most, { along, across }) => Math.max(most, along * across), 0));

/** A dive on a copy of the master, with so many sheets of each stock and no more where `numbers` say so. */
async function diveWithin(master: SheetMaster, start: SheetRelaxation | undefined, tools: DiveTools, dice: () => number, upTo: number, numbers: readonly number[] | undefined, keep: (solution: SheetSolution | undefined) => void): Promise<void> {
  const copy = master.copy();
  try {
    numbers?.forEach((count, stock) => copy.limit(stock, 0, count));
    const relaxation = await copy.relax();
    void start;
    keep(await dive(copy, relaxation, tools, dice, upTo));
  } finally {
    copy.dispose();
  }
}

/** Numbers of sheets from the count search, and each with one stock more or less, that cost less than `upTo`. */
function candidates({ stocks }: SheetProblem, { found }: CountSearch, upTo: number): { counts: readonly number[]; cost: number }[] {
  void stocks;
  return found.filter(({ cost }) => cost < upTo - EPS);
}

/** The integer programme over the strips and layouts at hand. */
function integerStep(problem: SheetProblem, master: SheetMaster, best: SheetSolution | undefined, solver: LinearSolver, control: Control, seed: number): SheetSolution | undefined {
  const rows = new SheetRows(problem, master.classes);
  const { layouts, strips } = master;
  const columns = [...layouts.map((layout) => rows.layout(layout)), ...strips.map((strip) => rows.strip(strip))];
  const found = solver.solveInteger({ rows: rows.bounds(), columns }, { nodes: MIP_NODES, stop: control.stopped, seed });
  if (!found) return best;
  return assemble(problem, master, layouts.map((layout, index) => ({ layout, times: found.values[index]! })), strips.map((strip, index) => ({ strip, times: found.values[layouts.length + index]! })));
}

/** Sheets from whole numbers of layouts and strips. */
function assemble(problem: SheetProblem, { classes }: SheetMaster, layouts: readonly { layout: Layout; times: number }[], strips: readonly { strip: Strip; times: number }[]): SheetSolution {
  const waiting = classes.map(({ heights }) => heights.map(() => [] as Strip[]));
  for (const { strip, times } of strips) for (let time = 0; time < times; time++) waiting[strip.group]![strip.height]!.push(strip);
  const sheets: { sheet: CutSheet; times: number }[] = [];
  for (const { layout, times } of layouts) {
    const group = classes.findIndex(({ sources }) => sources.includes(layout.source));
    for (let time = 0; time < times; time++) {
      const cut = layout.counts.flatMap((count, height) => waiting[group]![height]!.splice(0, count));
      if (cut.length > 0) sheets.push({ sheet: { source: layout.source, strips: cut }, times: 1 });
    }
  }
  return solutionOf(problem, sheets);
}
