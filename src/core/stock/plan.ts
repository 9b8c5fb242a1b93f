/** What a cutting plan is asked for and what it is: plain data, from which it can be drawn, checked and printed. Lengths in any one unit. */
import type { ControlOptions } from './control';
import type { Lie } from './lie';
import type { LinearSolver } from './solver';

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

export interface BarCut {
  readonly part: string;
  readonly from: number;
  readonly length: number;
}

export interface BarPatternUse {
  readonly stock: string;
  readonly length: number;
  readonly offcut: boolean;
  /** Bars that are cut like this. */
  readonly times: number;
  /** In cutting order from one end. */
  readonly cuts: readonly BarCut[];
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

/** Where every piece of a pattern lies on the sheet. */
export function placements({ direction, strips }: SheetPatternUse): Placement[] {
  return strips.flatMap(({ from, pieces }) =>
    pieces.map(({ part, from: start, length, width, turned }) =>
      direction === 'along'
        ? { part, turned, x: start, y: from, length, width }
        : { part, turned, x: from, y: start, length: width, width: length },
    ),
  );
}

/** Where every strip of a pattern lies on the sheet. */
export function stripPlaces({ direction, strips, length, width }: SheetPatternUse): Rectangle[] {
  return strips.map(({ from, width: across }) =>
    direction === 'along' ? { x: 0, y: from, length, width: across } : { x: from, y: 0, length: across, width },
  );
}
