/** A cutting plan: what it is asked for and what it is, its leftovers, and its list of cuts. */
import type { ControlOptions, LinearSolver } from './control';
import type { Lie } from './lie';

// What a cutting plan is asked for and what it is: plain data, from which it can be drawn, checked and printed. Lengths in any one unit.

export interface BarPart {
  readonly name: string;
  readonly length: number;
  readonly quantity: number;
}

export interface SheetPart extends BarPart {
  readonly width: number;
  /** 'along' where it is not given. */
  readonly lie?: Lie;
}

export interface BarStock {
  readonly name: string;
  readonly length: number;
  readonly cost?: number | undefined;
  /** Pieces on hand or to be had; undefined: as many as are needed. */
  readonly available?: number;
  /** A leftover on the shelf: it costs the plan nothing and is spent first. */
  readonly offcut?: boolean;
}

export interface SheetStock extends BarStock {
  readonly width: number;
}

export interface PlanOptions extends ControlOptions {
  readonly solver: LinearSolver;
  /** What a cut takes away; 0 for a shear. */
  readonly kerf?: number;
  readonly seed?: number;
  /** Parts with no side longer than this are cut from scrap: no stock, no cost. */
  readonly scrapBelow?: number;
  /** Leftovers shorter or narrower than this are waste. */
  readonly keepFrom?: number;
}

export interface SheetPlanOptions extends PlanOptions {
  /** Direction of the strips, the first cuts: along the sheet's length (the default), across it, or whichever is better. */
  readonly strips?: 'along' | 'across' | 'either';
}

/**
 * optimal: no plan costs less. feasible: the search ended with the gap that is given. time limit and
 * cancelled: it was ended. short: the stock does not suffice, `missing` says for what.
 */
export type PlanStatus = 'optimal' | 'feasible' | 'time limit' | 'cancelled' | 'short';

export interface StockUse {
  readonly name: string;
  readonly length: number;
  readonly width?: number;
  readonly used: number;
  /** Cost of one, 0 for an offcut. */
  readonly costEach: number;
  readonly cost: number;
  readonly offcut: boolean;
}

export interface PartCount {
  readonly part: string;
  readonly quantity: number;
}

/** What plans of bars and of sheets have in common. */
export interface PlanHead {
  readonly status: PlanStatus;
  readonly cost: number;
  /** Proven: no plan of this kind costs less. */
  readonly lowerBound: number;
  /** (cost − lowerBound) / lowerBound; 0 where both are 0. */
  readonly gap: number;
  /** What the parts are of the stock that is used, in per cent. */
  readonly usePercent: number;
  readonly kerf: number;
  readonly seconds: number;
  readonly stockUsed: readonly StockUse[];
  readonly missing: readonly PartCount[];
  /** Small parts that need no stock of their own. */
  readonly fromScrap: readonly PartCount[];
}

export interface BarPatternUse {
  readonly stock: string;
  readonly length: number;
  readonly offcut: boolean;
  /** Bars that are cut like this. */
  readonly times: number;
  /** In cutting order from one end. */
  readonly cuts: readonly { readonly part: string; readonly from: number; readonly length: number }[];
  /** What is left behind the last cut, its kerf taken off. */
  readonly left: number;
  /** True where the leftover is worth keeping. */
  readonly keep: boolean;
}

export interface BarPlan extends PlanHead {
  readonly kind: 'bars';
  readonly patterns: readonly BarPatternUse[];
}

export interface Piece {
  readonly part: string;
  /** From the strip's start, along it. */
  readonly from: number;
  /** Along the strip. */
  readonly length: number;
  /** Across the strip, the strip's width or less: the rest is trimmed off. */
  readonly width: number;
  /** True where the part's own length lies across the strip. */
  readonly turned: boolean;
}

export interface StripUse {
  /** From the sheet's edge, across the strips. */
  readonly from: number;
  readonly width: number;
  readonly pieces: readonly Piece[];
}

export interface Rectangle {
  /** From the sheet's corner, along its length and its width. */
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

export interface SheetPatternUse {
  readonly stock: string;
  readonly length: number;
  readonly width: number;
  readonly offcut: boolean;
  /** Sheets that are cut like this. */
  readonly times: number;
  /** Direction of the strips on the sheet. */
  readonly direction: 'along' | 'across';
  readonly strips: readonly StripUse[];
  /** Leftovers worth keeping. */
  readonly leftovers: readonly Rectangle[];
}

export interface SheetPlan extends PlanHead {
  readonly kind: 'sheets';
  readonly patterns: readonly SheetPatternUse[];
}

export type CuttingPlan = BarPlan | SheetPlan;

/** A piece's place on its sheet, along the sheet's length and width. */
export interface Placement extends Rectangle {
  readonly part: string;
  readonly turned: boolean;
}

/** Where every piece of a pattern lies on the sheet. @internal */
export const placements = ({ direction, strips }: SheetPatternUse): Placement[] =>
  strips.flatMap(({ from, pieces }) =>
    pieces.map(({ part, from: start, length, width, turned }) =>
      direction === 'along'
        ? { part, turned, x: start, y: from, length, width }
        : { part, turned, x: from, y: start, length: width, width: length },
    ),
  );

/** Where every strip of a pattern lies on the sheet. */
const stripPlaces = ({ direction, strips, length, width }: SheetPatternUse): Rectangle[] =>
  strips.map(({ from, width: across }) =>
    direction === 'along' ? { x: 0, y: from, length, width: across } : { x: from, y: 0, length: across, width },
  );

/** A pattern as rectangles to be drawn. A bar has no width of its own: it is drawn so many times its length high. */
export function drawnPattern(
  pattern: BarPatternUse | SheetPatternUse,
  barHeight: number,
): { width: number; strips: Rectangle[]; pieces: Placement[]; leftovers: readonly Rectangle[] } {
  if ('strips' in pattern) {
    const { width, leftovers } = pattern;
    return { width, strips: stripPlaces(pattern), pieces: placements(pattern), leftovers };
  }
  const { cuts, length, left, keep } = pattern;
  const width = length * barHeight;
  return {
    width,
    strips: [],
    pieces: cuts.map(({ part, from, length: long }) => ({ part, turned: false, x: from, y: 0, length: long, width })),
    leftovers: keep ? [{ x: length - left, y: 0, length: left, width }] : [],
  };
}

// What a cut plan leaves that is worth keeping.

export interface Leftover {
  /** Name of the stock that it is cut from. */
  readonly stock: string;
  /** Of a sheet: along the stock's length, as its grain runs. */
  readonly length: number;
  /** Of a sheet. */
  readonly width?: number;
  readonly count: number;
}

/** Sizes closer than this are the same leftover: sums of decimals are not exact. */
const SAME = 1e-6;

/** The leftovers of all sheets or bars, those of one size counted together, in the order in which they are cut. */
export function planLeftovers(plan: CuttingPlan): Leftover[] {
  const found: { stock: string; length: number; width?: number; count: number }[] = [];
  for (const { stock, length, width, count } of plan.patterns.flatMap(leftoversOf)) {
    const same = found.find(
      (one) =>
        one.stock === stock && Math.abs(one.length - length) < SAME && Math.abs((one.width ?? 0) - (width ?? 0)) < SAME,
    );
    if (same) same.count += count;
    else found.push({ stock, length, ...(width === undefined ? {} : { width }), count });
  }
  return found;
}

function leftoversOf(pattern: CuttingPlan['patterns'][number]): Leftover[] {
  const { stock, times: count } = pattern;
  if ('strips' in pattern) return pattern.leftovers.map(({ length, width }) => ({ stock, length, width, count }));
  return pattern.keep ? [{ stock, length: pattern.left, count }] : [];
}

/** What a pattern's parts take of the stock that is cut like it: in² of sheet, in of bar. */
export function partsOf(pattern: CuttingPlan['patterns'][number]): number {
  return (
    pattern.times *
    ('strips' in pattern
      ? pattern.strips.flatMap(({ pieces }) => pieces).reduce((sum, { length, width }) => sum + length * width, 0)
      : pattern.cuts.reduce((sum, { length }) => sum + length, 0))
  );
}

// A plan as a list in cutting order: for each sheet the strips from its edge, then the pieces of each strip.

export interface CutStep {
  /** Number of the pattern, from 1. */
  readonly pattern: number;
  /** Sheets or bars that are cut like this. */
  readonly times: number;
  readonly stock: string;
  /** Number of the strip from the edge, from 1; 0 for bars. */
  readonly strip: number;
  /** strip: cut a strip off; piece: cut a piece off; trim: take a piece down to its width; leftover: what stays and is worth keeping. */
  readonly action: 'strip' | 'piece' | 'trim' | 'leftover';
  readonly part: string;
  /** Where the stop is set: the size that the cut gives. */
  readonly size: number;
  /** The other side of what is cut, where there is one. */
  readonly by?: number;
  /** From the edge of the sheet, or from the start of the strip or bar, to the cut's near side. */
  readonly at: number;
  /** True where the part's own length lies across the strip. */
  readonly turned: boolean;
}

const FIT = 1e-9;

export const cutList = (plan: CuttingPlan): CutStep[] => (plan.kind === 'bars' ? barSteps(plan) : sheetSteps(plan));

const barSteps = ({ patterns }: BarPlan): CutStep[] =>
  patterns.flatMap(({ stock, times, cuts, left, keep, length }, index) => {
    const head = { pattern: index + 1, times, stock, strip: 0, turned: false };
    const pieces = cuts.map(({ part, from, length: size }): CutStep => ({
      ...head,
      action: 'piece',
      part,
      size,
      at: from + size,
    }));
    return keep ? [...pieces, { ...head, action: 'leftover', part: '', size: left, at: length - left }] : pieces;
  });

const sheetSteps = ({ patterns }: SheetPlan): CutStep[] =>
  patterns.flatMap(({ stock, times, strips, leftovers, direction, length, width }, index) => {
    const head = { pattern: index + 1, times, stock };
    const along = direction === 'along' ? length : width;
    const cut = strips.flatMap((strip, place): CutStep[] => [
      {
        ...head,
        strip: place + 1,
        action: 'strip',
        part: '',
        size: strip.width,
        by: along,
        at: strip.from + strip.width,
        turned: false,
      },
      ...strip.pieces.flatMap((piece): CutStep[] => {
        const step: CutStep = {
          ...head,
          strip: place + 1,
          action: 'piece',
          part: piece.part,
          size: piece.length,
          by: strip.width,
          at: piece.from + piece.length,
          turned: piece.turned,
        };
        return piece.width < strip.width - FIT
          ? [step, { ...step, action: 'trim', size: piece.width, by: piece.length, at: piece.width }]
          : [step];
      }),
    ]);
    const kept = leftovers.map(({ length: size, width: by, x }): CutStep => ({
      ...head,
      strip: 0,
      action: 'leftover',
      part: '',
      size,
      by,
      at: x,
      turned: false,
    }));
    return [...cut, ...kept];
  });

/** A length as a list shows it: three decimals at most. */
export const lengthText = (value: number): string => String(Number(value.toFixed(3)));
