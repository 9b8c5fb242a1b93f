/** Cutting sheets as a problem in numbers, and as a linear model. */
import { gathered } from '../names';
import type { Column, RowBounds } from './control';
import type { Priced } from './knapsack';

// Cutting sheets in two stages as a problem in numbers: strips across the whole sheet, then pieces from
// the strip, the last cut trimming a piece that is narrower than its strip. Lengths and widths count one
// kerf more than the piece or sheet has, as for bars.

/** A way in which a kind of piece may lie in a strip. */
export interface Way {
  /** Along the strip, with its kerf. */
  readonly along: number;
  /** Across the strip, with its kerf. */
  readonly across: number;
  /** True where the piece's own length lies across the strip. */
  readonly turned: boolean;
}

export interface SheetKind {
  readonly demand: number;
  /** By direction of the strips: the ways that its grain allows. */
  readonly ways: readonly (readonly Way[])[];
}

/** A stock with the direction in which its strips run. */
export interface SheetSource {
  readonly stock: number;
  /** 0: strips along the sheet's length; 1: along its width. */
  readonly direction: number;
  /** Length of a strip and width over all strips, each with one kerf. */
  readonly length: number;
  readonly width: number;
}

export interface SheetProblem {
  readonly kinds: readonly SheetKind[];
  /** Sheets of one size on hand or to be bought. */
  readonly stocks: readonly Priced[];
  readonly sources: readonly SheetSource[];
}

/** One kind in one way, as a strip takes it. */
export interface Entry extends Way {
  readonly kind: number;
}

/** Strips of one length and direction: all sources with it can take them. */
export interface StripClass {
  readonly length: number;
  readonly direction: number;
  /** Narrowest first. */
  readonly entries: readonly Entry[];
  /** The widths that a strip can sensibly have, narrowest first: those of its entries. */
  readonly heights: readonly number[];
  /** Entries that a strip of each height takes: the first so many. */
  readonly prefixes: readonly number[];
  readonly sources: readonly number[];
}

/** A strip: its class, the index of its height, and copies by entry. */
export interface Strip {
  readonly group: number;
  readonly height: number;
  readonly counts: readonly number[];
}

/** A sheet cut into strips: strips by height. */
export interface Layout {
  readonly source: number;
  readonly counts: readonly number[];
}

/** A whole sheet with its strips. */
export interface CutSheet {
  readonly source: number;
  readonly strips: readonly Strip[];
}

export interface SheetUse {
  readonly sheet: CutSheet;
  readonly times: number;
}

export interface SheetSolution {
  readonly cost: number;
  readonly sheets: readonly SheetUse[];
}

/** Sheets that are left of each stock beside those that are cut. */
export const stockBeside = ({ stocks, sources }: SheetProblem, cut: readonly CutSheet[]): number[] =>
  stocks.map(({ available }, stock) => available - cut.filter(({ source }) => sources[source]!.stock === stock).length);

/** The sheets of a solution, each by itself. */
export const eachSheet = ({ sheets }: Pick<SheetSolution, 'sheets'>): CutSheet[] =>
  sheets.flatMap(({ sheet, times }) => new Array<CutSheet>(times).fill(sheet));

/** Sheets each by itself as the uses of a solution. */
export const once = (sheets: readonly CutSheet[]): SheetUse[] => sheets.map((sheet) => ({ sheet, times: 1 }));

/** The solution of these sheets with its cost. */
export const solutionOf = ({ stocks, sources }: SheetProblem, sheets: readonly SheetUse[]): SheetSolution => ({
  sheets,
  cost: sheets.reduce((sum, { sheet, times }) => sum + times * stocks[sources[sheet.source]!.stock]!.cost, 0),
});

/** Lengths closer than this are the same: sums of decimals are not exact. */
export const FIT = 1e-9;

/** The strip classes of a problem; kinds without demand are left out of the strips. */
export function stripClasses(problem: SheetProblem): StripClass[] {
  const there = problem.sources
    .map((source, index) => ({ ...source, index }))
    .filter(({ stock }) => problem.stocks[stock]!.available > 0);
  const list = [...gathered(there, ({ direction, length }) => `${direction}:${length}`).values()].map((alike) => ({
    length: alike[0]!.length,
    direction: alike[0]!.direction,
    sources: alike.map(({ index }) => index),
  }));
  const byDirection = new Map(
    [0, 1].map((direction) => [
      direction,
      entriesOf(
        problem,
        direction,
        list.filter((one) => one.direction === direction),
      ),
    ]),
  );
  return list.map((one) => ({ ...one, ...byDirection.get(one.direction)! }));
}

/** The entries of a direction and their heights; all its classes share them, though not all fit in each. */
function entriesOf(
  problem: SheetProblem,
  direction: number,
  classes: readonly { length: number; sources: readonly number[] }[],
): Pick<StripClass, 'entries' | 'heights' | 'prefixes'> {
  const fits = ({ along, across }: Way): boolean =>
    classes.some(
      ({ length, sources }) =>
        along <= length + FIT && sources.some((source) => across <= problem.sources[source]!.width + FIT),
    );
  const entries = problem.kinds
    .flatMap(({ demand, ways }, kind) => (demand === 0 ? [] : (ways[direction] ?? []).map((way) => ({ ...way, kind }))))
    .filter(fits)
    .sort((a, b) => a.across - b.across || b.along - a.along || a.kind - b.kind);
  const heights: number[] = [];
  const prefixes: number[] = [];
  entries.forEach(({ across }, index) => {
    if (heights.length === 0 || across > heights[heights.length - 1]! + FIT) {
      heights.push(across);
      prefixes.push(index + 1);
    } else {
      prefixes[prefixes.length - 1] = index + 1;
    }
  });
  return { entries, heights, prefixes };
}

/** Most strips of each height that can be of use: one for every piece that is just as wide. */
export const stripBounds = ({ entries, prefixes }: StripClass, demands: readonly number[]): number[] =>
  prefixes.map((end, height) => {
    let pieces = 0;
    for (let entry = height === 0 ? 0 : prefixes[height - 1]!; entry < end; entry++)
      pieces += demands[entries[entry]!.kind]!;
    return pieces;
  });

/** Adds the pieces of a strip to a list by kind, or takes them off it. */
export function addPieces(to: number[], { entries }: StripClass, counts: readonly number[], sign: 1 | -1 = 1): void {
  counts.forEach((count, entry) => {
    if (count > 0) to[entries[entry]!.kind] = to[entries[entry]!.kind]! + sign * count;
  });
}

/** How often so many pieces of each kind can be cut before they are more than are left. */
export const timesWithin = (made: readonly number[], left: readonly number[]): number =>
  made.reduce((most, count, kind) => (count > 0 ? Math.min(most, Math.floor(left[kind]! / count)) : most), Infinity);

/** Pieces by kind in a strip. */
export function stripKinds(group: StripClass, counts: readonly number[], kinds: number): number[] {
  const made = new Array<number>(kinds).fill(0);
  addPieces(made, group, counts);
  return made;
}

/** The copies by entry of a strip, as far as `left` has pieces of their kinds. They are taken off it. */
export const takeLeft = (left: number[], { entries }: StripClass, counts: readonly number[]): number[] =>
  counts.map((count, entry) => {
    const { kind } = entries[entry]!;
    const taken = Math.min(count, left[kind]!);
    left[kind] = left[kind]! - taken;
    return taken;
  });

/** What the largest way of each kind takes of a sheet. */
export const areas = ({ kinds }: SheetProblem): number[] =>
  kinds.map(({ ways }) => ways.flat().reduce((most, { along, across }) => Math.max(most, along * across), 0));

export const stripKey = ({ group, height, counts }: Strip): string => `${group}/${height}/${counts.join(',')}`;
export const layoutKey = ({ source, counts }: Layout): string => `${source}/${counts.join(',')}`;

// Two-stage cutting as a linear model. Layouts say how many strips of each height a sheet gives, strips
// which pieces they give; linking rows say that no more strips of a height are used than are cut. So one
// strip goes with any layout, which serves the integer step.

export interface SheetColumns {
  readonly layouts: readonly Layout[];
  readonly strips: readonly Strip[];
}

/** Where each row of the model stands: kinds, then heights by class, then stocks. */
export class SheetRows {
  private readonly firstHeight: number[] = [];
  /** Pieces and places of strips may be short, stocks not. */
  readonly firstStock: number;
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
      const counts = entries.map((_, other) => (other === entry ? fit : 0));
      return fit < 1 ? [] : [{ group, height: prefixes.findIndex((end) => entry < end), counts }];
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
