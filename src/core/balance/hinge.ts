/**
 * Static balance of a hinged control surface, in lb·in about its hinge line, the surface level.
 * Arms are positive aft of the hinge line, so that a positive moment is trailing-edge heavy.
 */
import type { Load } from './arms';

/** Moment of parts about the hinge line. */
export function hingeMoment(parts: Iterable<Load>): number {
  let moment = 0;
  for (const { weight, arm } of parts) moment += weight * arm;
  return moment;
}

/**
 * Moment from the weight that a scale carries at the trailing edge. The reading while the edge is raised
 * slowly holds the hinges' friction on top, the reading while it is lowered holds it off: their mean is without it.
 * @param arm from the hinge line to the scale, in
 */
export const measuredMoment = (raising: number, lowering: number, arm: number): number =>
  ((raising + lowering) / 2) * arm;

/**
 * Counterweight ahead of the hinge that takes up a trailing-edge-heavy moment.
 * @param armAhead from the hinge line forward to the counterweight, above 0
 * @param share    of the moment to be taken up: 1 is full static balance
 */
export const counterweight = (moment: number, armAhead: number, share = 1): number => (share * moment) / armAhead;

export interface SurfaceBalance {
  readonly moment: number;
  readonly heavy: 'trailing edge' | 'leading edge' | 'neither';
}

/** Which edge hangs down. @param within lb·in that count as balanced */
export function surfaceBalance(moment: number, within = 0): SurfaceBalance {
  return { moment, heavy: moment > within ? 'trailing edge' : moment < -within ? 'leading edge' : 'neither' };
}
