/** Prices strips and layouts: what the best strip of every height and the best sheet are worth for given values of the kinds. */
import { ROUGH } from './grid';
import { Knapsack } from './knapsack';
import type { Layout, SheetProblem, Strip, StripClass } from './sheet-problem';

export interface PricedLayout {
  readonly layout: Layout;
  readonly group: number;
  readonly value: number;
  /** No layout of this source is worth more. */
  readonly upper: number;
}

/** Rounds of settling the strips of a best layout; each round is one small knapsack. */
const SETTLING = 30;

export class SheetPricer {
  /** True where every grid holds its lengths. */
  readonly exact: boolean;
  /** One knapsack for all classes of a direction: its capacities are their lengths. */
  private readonly strips: ReadonlyMap<number, Knapsack>;
  /** The capacity of each class in the knapsack of its direction. */
  private readonly which: readonly number[];
  private readonly sheets: readonly Knapsack[];
  private priced: readonly PricedLayout[] = [];

  /**
   * @param demands pieces of each kind that are still to be cut
   * @param settled strips by class and height that are settled already and need their place in a sheet
   * @param rough   steps of the grid of lengths where none of moderate size is exact
   */
  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
    private readonly demands: readonly number[],
    private readonly settled: readonly (readonly number[])[],
    rough = ROUGH,
  ) {
    const strips = new Map<number, Knapsack>();
    const lengths = new Map<number, number[]>();
    this.which = this.classes.map(({ direction, length }) => {
      const list = lengths.get(direction) ?? [];
      lengths.set(direction, list);
      return list.push(length) - 1;
    });
    for (const { direction, entries } of this.classes) {
      if (!strips.has(direction)) strips.set(direction, new Knapsack(entries.map(({ along, kind }) => ({ size: along, bound: demands[kind]! })), lengths.get(direction)!, rough));
    }
    this.strips = strips;
    this.sheets = this.classes.map(({ heights, sources }, group) => {
      const bounds = this.stripBounds(group);
      return new Knapsack(heights.map((size, height) => ({ size, bound: bounds[height]! })), sources.map((source) => problem.sources[source]!.width), rough);
    });
    this.exact = [...strips.values(), ...this.sheets].every(({ exact }) => exact);
  }

  /** Most strips of each height that can be of use: one for every piece that is just as wide. */
  private stripBounds(group: number): number[] {
    const { entries, prefixes } = this.classes[group]!;
    return prefixes.map((end, height) => {
      let pieces = this.settled[group]![height]!;
      for (let entry = height === 0 ? 0 : prefixes[height - 1]!; entry < end; entry++) pieces += this.demands[entries[entry]!.kind]!;
      return pieces;
    });
  }

  /**
   * Computes for these values of the kinds.
   * @param rents by class and height, what a place for a strip is worth at least, because settled strips need it
   */
  solve(values: readonly number[], rents?: readonly (readonly number[])[]): void {
    for (const [direction, knapsack] of this.strips) knapsack.solve(this.classes.find((one) => one.direction === direction)!.entries.map(({ kind }) => values[kind]!));
    this.priced = this.classes.flatMap((_, group) => this.priceClass(group, rents?.[group]));
  }

  /**
   * The best layouts of a class. Strips' values start as upper bounds; those that a best layout uses are
   * settled by search, and the layout is sought again, until it stands on settled values alone.
   */
  private priceClass(group: number, rents: readonly number[] | undefined): PricedLayout[] {
    const { heights, prefixes, sources, direction } = this.classes[group]!;
    const strips = this.strips.get(direction)!;
    const which = this.which[group]!;
    const sheets = this.sheets[group]!;
    for (let round = 0; ; round++) {
      sheets.solve(prefixes.map((prefix, height) => Math.max(strips.upper(prefix, which), rents?.[height] ?? 0)));
      const found = sources.map((source, place) => ({ source, place, ...sheets.best(heights.length, place) }));
      const open = new Set(found.flatMap(({ counts }) => counts.flatMap((count, height) => (count > 0 && !strips.settled(prefixes[height]!, which) && strips.upper(prefixes[height]!, which) > (rents?.[height] ?? 0) ? [height] : []))));
      for (const height of open) strips.best(prefixes[height]!, which);
      if (open.size > 0 && round < SETTLING) continue;
      return found.map(({ source, place, counts }) => ({
        layout: { source, counts },
        group,
        value: counts.reduce((sum, count, height) => (count > 0 ? sum + count * Math.max(strips.best(prefixes[height]!, which).value, rents?.[height] ?? 0) : sum), 0),
        upper: sheets.upper(heights.length, place),
      }));
    }
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
    return this.priced.reduce((most, { layout, upper }) => (this.problem.sources[layout.source]!.stock === stock ? Math.max(most, upper) : most), 0);
  }

  /** The best layout of every source. */
  layouts(): readonly PricedLayout[] {
    return this.priced;
  }
}
