/** A plan as a list in cutting order: for each sheet the strips from its edge, then the pieces of each strip. */
import type { BarPlan, CuttingPlan, SheetPlan } from './plan';

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

export function cutList(plan: CuttingPlan): CutStep[] {
  return plan.kind === 'bars' ? barSteps(plan) : sheetSteps(plan);
}

function barSteps({ patterns }: BarPlan): CutStep[] {
  return patterns.flatMap(({ stock, times, cuts, left, keep, length }, index) => {
    const head = { pattern: index + 1, times, stock, strip: 0, turned: false };
    const steps: CutStep[] = cuts.map((cut) => ({
      ...head,
      action: 'piece',
      part: cut.part,
      size: cut.length,
      at: cut.from + cut.length,
    }));
    if (keep) steps.push({ ...head, action: 'leftover', part: '', size: left, at: length - left });
    return steps;
  });
}

function sheetSteps({ patterns }: SheetPlan): CutStep[] {
  return patterns.flatMap(({ stock, times, strips, leftovers, direction, length, width }, index) => {
    const head = { pattern: index + 1, times, stock };
    const along = direction === 'along' ? length : width;
    const steps = strips.flatMap((strip, place): CutStep[] => [
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
        const cut: CutStep = {
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
          ? [cut, { ...cut, action: 'trim', size: piece.width, by: piece.length, at: piece.width }]
          : [cut];
      }),
    ]);
    for (const { length: size, width: by, x } of leftovers)
      steps.push({ ...head, strip: 0, action: 'leftover', part: '', size, by, at: x, turned: false });
    return steps;
  });
}

/** A length as a list shows it: three decimals at most. */
export const lengthText = (value: number): string => String(Number(value.toFixed(3)));
