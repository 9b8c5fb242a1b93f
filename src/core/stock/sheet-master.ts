/**
 * The linear relaxation of two-stage cutting by column generation, kept alive: a dive settles strips one
 * after the other and solves what is left from where it stands.
 */
import { ROUGH, FINE, Knapsack } from './knapsack';
import {
  stripBounds,
  layoutKey,
  stripClasses,
  stripKey,
  stripKinds,
  plainColumns,
  SheetRows,
  type Layout,
  type SheetProblem,
  type Strip,
  type StripClass,
  type SheetColumns,
} from './sheet-problem';
import { gathered } from '../names';
import { dualBound, shortages, type StockRange } from './bar-relaxation';
import type { Control, Column, LinearModel, LinearSolution, LinearSolver } from './control';

// Prices strips and layouts: what the best strip of every height and the best sheet are worth for given values of the kinds.

export interface PricedLayout {
  readonly layout: Layout;
  readonly group: number;
  readonly value: number;
  /** No layout of this source is worth more. */
  readonly upper: number;
}

export class SheetPricer {
  /** True where every grid holds its lengths. */
  readonly exact: boolean;
  /** One knapsack for all classes of a direction: its capacities are their lengths. */
  private readonly strips: ReadonlyMap<number, Knapsack>;
  /** The capacity of each class in the knapsack of its direction. */
  private readonly which: readonly number[];
  private readonly sheets: readonly Knapsack[];
  /** The best layout of every source. */
  layouts: readonly PricedLayout[] = [];

  /** @param rough steps of the grid of lengths where no grid of moderate size is exact */
  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
    rough = ROUGH,
  ) {
    const byDirection = gathered(classes, ({ direction }) => direction);
    this.which = classes.map((one) => byDirection.get(one.direction)!.indexOf(one));
    this.strips = new Map(
      [...byDirection].map(([direction, alike]) => [
        direction,
        new Knapsack(
          alike[0]!.entries.map(({ along, kind }) => ({ size: along, bound: problem.kinds[kind]!.demand })),
          alike.map(({ length }) => length),
          rough,
        ),
      ]),
    );
    this.sheets = this.classes.map(({ heights, sources }) => {
      const widest = Math.max(...sources.map((source) => problem.sources[source]!.width));
      return new Knapsack(
        heights.map((size) => ({ size, bound: Math.floor((widest + 1e-9) / size) })),
        sources.map((source) => problem.sources[source]!.width),
        rough,
      );
    });
    this.exact = [...this.strips.values(), ...this.sheets].every(({ exact }) => exact);
  }

  /**
   * Computes for these values of the kinds.
   * @param demands pieces of each kind that are still to be cut
   * @param settled strips by class and height that are settled already and need their place in a sheet
   * @param rents   by class and height, what a place for a strip is worth at least, because settled strips need it
   */
  solve(
    values: readonly number[],
    demands: readonly number[],
    settled: readonly (readonly number[])[],
    rents?: readonly (readonly number[])[],
  ): void {
    for (const [direction, knapsack] of this.strips) {
      const { entries } = this.classes.find((one) => one.direction === direction)!;
      knapsack.solve(
        entries.map(({ kind }) => values[kind]!),
        entries.map(({ kind }) => demands[kind]!),
      );
    }
    this.layouts = this.classes.flatMap((one, group) =>
      this.priceClass(
        group,
        stripBounds(one, demands).map((bound, height) => bound + settled[group]![height]!),
        rents?.[group],
      ),
    );
  }

  /** The best layouts of a class: every height's strip is settled, then the heights are stacked. */
  private priceClass(group: number, bounds: readonly number[], rents: readonly number[] | undefined): PricedLayout[] {
    const { heights, prefixes, sources, direction } = this.classes[group]!;
    const strips = this.strips.get(direction)!;
    const which = this.which[group]!;
    const sheets = this.sheets[group]!;
    const useful = (height: number, worth: number): number =>
      bounds[height] === 0 ? 0 : Math.max(worth, rents?.[height] ?? 0);
    const worth = prefixes.map((prefix, height) =>
      useful(
        height,
        strips.exact || bounds[height] === 0 ? strips.upper(prefix, which) : strips.best(prefix, which).value,
      ),
    );
    sheets.solve(
      strips.exact ? worth : prefixes.map((prefix, height) => useful(height, strips.upper(prefix, which))),
      bounds,
    );
    return sources.map((source, place) => {
      const { counts } = sheets.best(heights.length, place);
      return {
        layout: { source, counts },
        group,
        value: counts.reduce((sum, count, height) => sum + count * worth[height]!, 0),
        upper: sheets.upper(heights.length, place),
      };
    });
  }

  bestStrip(group: number, height: number): { strip: Strip; value: number } {
    const { prefixes, direction } = this.classes[group]!;
    const { counts, value } = this.strips.get(direction)!.best(prefixes[height]!, this.which[group]!);
    return { strip: { group, height, counts }, value };
  }

  /** At least what the best strip of a height is worth, without a search for it. */
  stripUpper(group: number, height: number): number {
    const { prefixes, direction } = this.classes[group]!;
    return this.strips.get(direction)!.upper(prefixes[height]!, this.which[group]!);
  }

  /** At least what the best sheet of a stock is worth. */
  upper(stock: number): number {
    return this.layouts.reduce(
      (most, { layout, upper }) =>
        this.problem.sources[layout.source]!.stock === stock ? Math.max(most, upper) : most,
      0,
    );
  }
}

/** Where lengths are rounded, a relaxation may stop once it is within this share of its bound. */
const CLOSE = 5e-4;
const LAST_ROUNDS = 6;
const ROUNDS = 3_000;

export interface SheetRelaxation {
  /** Proven: no plan costs less, whole or in fractions (of what is left, where strips are settled). */
  readonly bound: number;
  readonly values: readonly number[];
  /** How often each strip of `master.strips` is cut, fractions allowed. */
  readonly stripTimes: readonly number[];
  /** How many sheets of each stock are used, fractions allowed. */
  readonly stockTimes: readonly number[];
  /** Pieces and settled strips without a sheet. */
  readonly short: number;
}

export class SheetMaster {
  readonly classes: readonly StripClass[];
  readonly layouts: Layout[] = [];
  readonly strips: Strip[] = [];
  readonly rows: SheetRows;
  /** Pieces by kind that are still to be cut. */
  readonly demands: number[];
  /** Strips by class and height that are settled. */
  readonly settled: number[][];
  /** How many sheets of each stock may be used. */
  readonly ranges: StockRange[];
  private readonly model: LinearModel;
  /** Columns of the model before these are shortages. */
  private readonly firstColumn: number;
  /** Columns of the model behind the shortages: ≥ 0 a layout, else −1 − a strip. */
  private readonly order: number[] = [];
  private readonly pricer: SheetPricer;
  private finePricer: SheetPricer | undefined;
  private readonly known = new Set<string>();
  /** Pieces by kind of each strip. */
  private readonly made: number[][] = [];
  private readonly barred: boolean[] = [];

  constructor(
    readonly problem: SheetProblem,
    private readonly solver: LinearSolver,
    private readonly control: Control,
    start: SheetColumns = { layouts: [], strips: [] },
    pricer?: SheetPricer,
  ) {
    this.classes = stripClasses(problem);
    this.rows = new SheetRows(problem, this.classes);
    this.pricer = pricer ?? new SheetPricer(problem, this.classes);
    this.demands = problem.kinds.map(({ demand }) => demand);
    this.settled = this.classes.map(({ heights }) => heights.map(() => 0));
    this.ranges = problem.stocks.map(({ cost, available }) => ({ cost, available }));
    const first = [...this.columns(plainColumns(problem, this.classes)), ...this.columns(start)];
    this.firstColumn = this.rows.firstStock;
    this.model = solver.model(this.rows.bounds(), [...shortages(this.firstColumn), ...first]);
  }

  dispose(): void {
    this.model.dispose();
  }

  /** A master of the same problem with all columns of this one. */
  copy(): SheetMaster {
    return new SheetMaster(
      this.problem,
      this.solver,
      this.control,
      { layouts: this.layouts, strips: this.strips },
      this.pricer,
    );
  }

  private columns(more: SheetColumns): Column[] {
    const fresh: Column[] = [];
    const isNew = (key: string): boolean => !this.known.has(key) && this.known.add(key) !== undefined;
    for (const layout of more.layouts) {
      if (!isNew(`L${layoutKey(layout)}`)) continue;
      this.order.push(this.layouts.push(layout) - 1);
      fresh.push(this.rows.layout(layout));
    }
    for (const strip of more.strips) {
      if (!isNew(`S${stripKey(strip)}`)) continue;
      this.order.push(-this.strips.push(strip));
      this.made.push(stripKinds(this.classes[strip.group]!, strip.counts, this.problem.kinds.length));
      this.barred.push(false);
      fresh.push(this.rows.strip(strip));
    }
    return fresh;
  }

  /** Limits how many sheets of a stock are used. */
  limit(stock: number, atLeast: number, available: number): void {
    this.ranges[stock] = { ...this.ranges[stock]!, atLeast, available };
    this.model.setRow(this.rows.stock(stock), { lower: atLeast, upper: available });
  }

  /** Settles a strip so many times: its pieces are taken from what is to be cut. */
  settle(strip: Strip, times: number): void {
    stripKinds(this.classes[strip.group]!, strip.counts, this.problem.kinds.length).forEach((made, kind) => {
      if (made === 0) return;
      this.demands[kind] = Math.max(0, this.demands[kind]! - made * times);
      this.model.setRow(kind, { lower: this.demands[kind], upper: Infinity });
    });
    const count = (this.settled[strip.group]![strip.height]! += times);
    this.model.setRow(this.rows.height(strip.group, strip.height), { lower: count, upper: Infinity });
  }

  /** Bars the strips that hold more of a kind than is still to be cut: in fractions they would hide what is left. */
  barImproper(): void {
    this.order.forEach((place, column) => {
      if (place >= 0) return;
      const strip = -1 - place;
      if (this.barred[strip] || !this.made[strip]!.some((count, kind) => count > this.demands[kind]!)) return;
      this.barred[strip] = true;
      this.model.setColumn(this.firstColumn + column, 0, 0);
    });
  }

  /** What a solved relaxation takes of each stock and strip. */
  private relaxation(solved: LinearSolution, values: readonly number[], bound: number): SheetRelaxation {
    const stockTimes = this.problem.stocks.map(() => 0);
    const stripTimes = new Array<number>(this.strips.length).fill(0);
    this.order.forEach((place, column) => {
      const times = solved.values[this.firstColumn + column] ?? 0;
      if (place < 0) stripTimes[-1 - place] = times;
      else stockTimes[this.problem.sources[this.layouts[place]!.source]!.stock]! += times;
    });
    return {
      bound: Math.max(0, bound),
      values,
      stripTimes,
      stockTimes,
      short: solved.values.subarray(0, this.firstColumn).reduce((sum, some) => sum + some, 0),
    };
  }

  /** Generates columns until the relaxation is solved, for `rounds` at most, or until its bound reaches `upTo`. */
  // eslint-disable-next-line complexity -- column generation: its ends are named where they are met
  async relax(rounds = ROUNDS, upTo = Infinity): Promise<SheetRelaxation> {
    const {
      problem,
      control,
      rows: { unit },
    } = this;
    const kinds = problem.kinds.length;
    let pricer = this.pricer;
    // Settled strips have no value of their own, so that the bound from the kinds' values would leave them out.
    const diving = this.settled.some((group) => group.some((count) => count > 0));
    let last = Infinity;
    let bound = -Infinity;
    for (let round = 0; ; round++) {
      const solved = this.model.solve();
      const values = Array.from(solved.duals.subarray(0, kinds), (dual) => Math.max(0, dual) * unit);
      pricer.solve(
        values,
        this.demands,
        this.settled,
        diving
          ? this.classes.map(({ heights }, group) =>
              heights.map((_, height) => solved.duals[this.rows.height(group, height)]! * unit),
            )
          : undefined,
      );
      if (!diving)
        bound = Math.max(
          bound,
          dualBound(values, this.demands, this.ranges, (stock) => pricer.upper(stock)),
        );
      const found = this.priced(solved, pricer);
      this.model.addColumns(found);
      const gap = solved.objective * unit - bound;
      if (
        found.length === 0 &&
        !diving &&
        !pricer.exact &&
        last === Infinity &&
        gap > CLOSE * bound &&
        !control.stopped()
      ) {
        pricer = this.finePricer ??= new SheetPricer(problem, this.classes, FINE);
        last = round + LAST_ROUNDS;
        continue;
      }
      if (
        found.length === 0 ||
        bound >= upTo ||
        gap <= (pricer.exact ? 1e-9 : CLOSE) * bound ||
        round >= Math.min(rounds, last) ||
        control.stopped()
      ) {
        return this.relaxation(solved, values, bound);
      }
      if (round % 4 === 3) await control.pause();
    }
  }

  /** Columns with a negative reduced cost: the best layout of each source with its strips, and the best strips. */
  private priced(solved: LinearSolution, pricer: SheetPricer): Column[] {
    const { problem, rows } = this;
    const { unit } = rows;
    const found: Column[] = [];
    for (const { layout, value, group } of pricer.layouts) {
      const { stock } = problem.sources[layout.source]!;
      const rent = -solved.duals[rows.stock(stock)]! * unit;
      if (value <= problem.stocks[stock]!.cost + rent + unit * 1e-7) continue;
      const used = layout.counts.flatMap((count, height) => (count > 0 ? [pricer.bestStrip(group, height).strip] : []));
      found.push(
        ...this.columns({ layouts: [layout], strips: used.filter(({ counts }) => counts.some((count) => count > 0)) }),
      );
    }
    if (found.length === 0) return found;
    this.classes.forEach(({ heights }, group) =>
      heights.forEach((_, height) => {
        const dual = solved.duals[rows.height(group, height)]! * unit + unit * 1e-6;
        if (pricer.stripUpper(group, height) <= dual) return;
        const { strip, value } = pricer.bestStrip(group, height);
        if (value > dual) found.push(...this.columns({ layouts: [], strips: [strip] }));
      }),
    );
    return found;
  }
}
