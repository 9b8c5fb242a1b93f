/** How much thicker or thinner than its nominal thickness a sheet may come from the mill. */
import { NotListedError } from '../input-error';

export interface ThicknessTolerance {
  /** Greatest nominal thickness of the step, in. */
  readonly upTo: number;
  /** ± in. */
  readonly plusMinus: number;
}

export const THICKNESS_TOLERANCE_SOURCE =
  'Mill tolerances of flat aluminium sheet over 36 to 54 in wide, in steps of FED-STD-245 (later editions: ANSI H35.2); from memory, verify: neither was seen';

/**
 * Sheet from .011 to .125 in thick, over 36 to 54 in wide. From memory, verify against the edition your sheet is sold
 * to. The thinnest step has the figure of the one above it, which is at least as wide as the tables print: no source.
 * Lists that were read contradict each other, and none says for which width: for .032 in a fabricator prints ±.003 and
 * an article on ASTM B209 ±.0015; for .063 in ±.004 and ±.002. These lie between, so that they stay.
 * @internal
 */
export const THICKNESS_TOLERANCES: readonly ThicknessTolerance[] = [
  { upTo: 0.017, plusMinus: 0.0025 },
  { upTo: 0.028, plusMinus: 0.0025 },
  { upTo: 0.036, plusMinus: 0.0025 },
  { upTo: 0.045, plusMinus: 0.003 },
  { upTo: 0.068, plusMinus: 0.004 },
  { upTo: 0.076, plusMinus: 0.004 },
  { upTo: 0.096, plusMinus: 0.004 },
  { upTo: 0.108, plusMinus: 0.005 },
  { upTo: 0.125, plusMinus: 0.005 },
];

const THINNEST = 0.0105;
/** The steps are named to three decimals; a gauge with a fourth (.0453) stays in the step that it rounds to. */
const SLACK = 0.0005;

/**
 * ± of a sheet's thickness in inches.
 * @param thickness nominal, in; NotListedError outside the table
 */
export function thicknessTolerance(thickness: number): number {
  const step = thickness < THINNEST ? undefined : THICKNESS_TOLERANCES.find(({ upTo }) => thickness <= upTo + SLACK);
  if (!step) throw new NotListedError('thickness', thickness, 'a sheet thickness in the table, .011 to .125 in');
  return step.plusMinus;
}
