/**
 * Two-stage cutting as a linear model. Layouts say how many strips of each height a sheet gives, strips
 * which pieces they give; linking rows say that no more strips of a height are used than are cut. So one
 * strip goes with any layout, which serves the integer step.
 */
import { stripKinds, type Layout, type SheetProblem, type Strip, type StripClass } from './sheet-problem';
import type { Column, RowBounds } from './solver';

export interface SheetColumns {
  readonly layouts: readonly Layout[];
  readonly strips: readonly Strip[];
}

/** A piece without a sheet costs as much as so many of the dearest sheets, so that none is left out while sheets last. */
const SHORT_COSTS = 1_000;

/** Where each row of the model stands: kinds, then heights by class, then stocks. */
export class SheetRows {
  private readonly firstHeight: number[] = [];
  private readonly firstStock: number;
  readonly unit: number;

  constructor(
    readonly problem: SheetProblem,
    readonly classes: readonly StripClass[],
  ) {
    let next = problem.kinds.length;
    for (const { heights } of classes) {
      this.firstHeight.push(next);
      next += heights.length;
    }
    this.firstStock = next;
    this.unit = Math.max(...problem.stocks.map(({ cost }) => cost)) || 1;
  }

  bounds(): RowBounds[] {
    return [
      ...this.problem.kinds.map(({ demand }) => ({ lower: demand, upper: Infinity })),
      ...this.classes.flatMap(({ heights }) => heights.map(() => ({ lower: 0, upper: Infinity }))),
      ...this.problem.stocks.map(({ available }) => ({ lower: 0, upper: available })),
    ];
  }

  height(group: number, height: number): number {
    return this.firstHeight[group]! + height;
  }

  stock(stock: number): number {
    return this.firstStock + stock;
  }

  /** Columns of shortage, for where sheets run out: one for each kind of piece and for each place of a settled strip, none for the stocks. */
  shortage(): Column[] {
    return Array.from({ length: this.firstStock }, (_, row) => ({ cost: SHORT_COSTS, rows: [row], values: [1] }));
  }

  strip({ group, height, counts }: Strip): Column {
    const made = stripKinds(this.classes[group]!, counts, this.problem.kinds.length);
    const rows = made.flatMap((count, kind) => (count > 0 ? [kind] : []));
    return { cost: 0, rows: [...rows, this.height(group, height)], values: [...rows.map((kind) => made[kind]!), -1] };
  }

  layout({ source, counts }: Layout): Column {
    const { stock } = this.problem.sources[source]!;
    const group = this.classes.findIndex(({ sources }) => sources.includes(source));
    const heights = counts.flatMap((count, height) => (count > 0 ? [height] : []));
    return {
      cost: this.problem.stocks[stock]!.cost / this.unit,
      rows: [...heights.map((height) => this.height(group, height)), this.stock(stock)],
      values: [...heights.map((height) => counts[height]!), 1],
    };
  }
}

/** A strip of every kind alone, and a layout of every height alone: a first solution of the relaxation. */
export function plainColumns(problem: SheetProblem, classes: readonly StripClass[]): SheetColumns {
  const strips = classes.flatMap(({ entries, prefixes, length }, group) =>
    entries.flatMap(({ along, kind }, entry): Strip[] => {
      const fit = Math.min(problem.kinds[kind]!.demand, Math.floor((length + 1e-9) / along));
      const height = prefixes.findIndex((end) => entry < end);
      return fit < 1 ? [] : [{ group, height, counts: entries.map((_, other) => (other === entry ? fit : 0)) }];
    }),
  );
  const layouts = classes.flatMap(({ heights, sources }) =>
    sources.flatMap((source) =>
      heights.flatMap((size, height) => {
        const fit = Math.floor((problem.sources[source]!.width + 1e-9) / size);
        return fit < 1 ? [] : [{ source, counts: heights.map((_, other) => (other === height ? fit : 0)) }];
      }),
    ),
  );
  return { strips, layouts };
}
