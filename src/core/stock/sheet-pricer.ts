/** Prices strips and layouts: what the best strip of every height and the best sheet are worth for given values of the kinds. */
import { ROUGH } from './grid';
import { Knapsack } from './knapsack';
import { stripBounds, type Layout, type SheetProblem, type Strip, type StripClass } from './sheet-problem';

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
  private priced: readonly PricedLayout[] = [];

  /** @param rough steps of the grid of lengths where no grid of moderate size is exact */
  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
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
      if (!strips.has(direction))
        strips.set(
          direction,
          new Knapsack(
            entries.map(({ along, kind }) => ({ size: along, bound: problem.kinds[kind]!.demand })),
            lengths.get(direction)!,
            rough,
          ),
        );
    }
    this.strips = strips;
    this.sheets = this.classes.map(({ heights, sources }) => {
      const widest = Math.max(...sources.map((source) => problem.sources[source]!.width));
      return new Knapsack(
        heights.map((size) => ({ size, bound: Math.floor((widest + 1e-9) / size) })),
        sources.map((source) => problem.sources[source]!.width),
        rough,
      );
    });
    this.exact = [...strips.values(), ...this.sheets].every(({ exact }) => exact);
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
    this.priced = this.classes.flatMap((one, group) =>
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
    return this.priced.reduce(
      (most, { layout, upper }) =>
        this.problem.sources[layout.source]!.stock === stock ? Math.max(most, upper) : most,
      0,
    );
  }

  /** The best layout of every source. */
  layouts(): readonly PricedLayout[] {
    return this.priced;
  }
}
