/** Weights and their arms: the airplane on its scales, what moving weight does, and surfaces on their hinges. */
import { Tally } from '../mass';

// Arms, per cent of the chord, and what moving or adding weight does to them. Inches, pounds, pound-inches.

/** A weight and where its centre of gravity is. */
export interface Load {
  readonly weight: number;
  readonly arm: number;
}

export interface LoadedPoint extends Load {
  readonly moment: number;
}

/** Per cent of the mean aerodynamic chord (MAC). @param lemac arm of its leading edge */
export const percentMac = (arm: number, lemac: number, mac: number): number => (100 * (arm - lemac)) / mac;

export const armFromMac = (percent: number, lemac: number, mac: number): number => lemac + (percent / 100) * mac;

/** The arm after a part of the weight has been moved. */
export const shiftedArm = ({ weight, arm }: Load, moved: number, from: number, to: number): number =>
  arm + (moved * (to - from)) / weight;

/**
 * Ballast that brings the centre of gravity to `target`: weight × (target − arm) / (ballast arm − target).
 * Undefined where no weight at that arm can do it (it would have to be taken away).
 */
export function ballastWeight({ weight, arm }: Load, target: number, ballastArm: number): number | undefined {
  if (arm === target) return 0;
  const needed = (weight * (target - arm)) / (ballastArm - target);
  return Number.isFinite(needed) && needed >= 0 ? needed : undefined;
}

// The airplane on its scales: empty weight, arm and moment.

export type Gear = 'tailwheel' | 'nosewheel';

export interface WeighingPoint {
  readonly name: string;
  /** On the scale, lb. */
  readonly reading: number;
  /** Chocks, blocks, stands on the scale, lb. */
  readonly tare: number;
  /** Of the wheel's axle or the jack point, in from the datum, with the airplane level. */
  readonly arm: number;
}

/** What was aboard and does not belong to the empty weight (negative), or was absent and does (positive). */
export interface Correction extends Load {
  readonly name: string;
}

export interface WeighingRecord {
  readonly gear: Gear;
  readonly points: readonly WeighingPoint[];
  readonly corrections?: readonly Correction[];
  readonly chord?: { readonly lemac: number; readonly mac: number };
  readonly date?: string;
  /** How level was found: the longeron, the sill, the plumb line. */
  readonly levelNote?: string;
  readonly scales?: string;
}

export interface WeighedPoint extends WeighingPoint {
  readonly net: number;
  readonly moment: number;
}

export interface WeighingResult extends LoadedPoint {
  readonly points: readonly WeighedPoint[];
  /** Before corrections. */
  readonly asWeighed: LoadedPoint;
  readonly percentMac: number | undefined;
}

/** Undefined where there is no weight to have an arm. */
function sumOf(loads: Iterable<Load>): LoadedPoint | undefined {
  const tally = new Tally();
  for (const { weight, arm } of loads) tally.add(weight, arm);
  const { center } = tally;
  return center && { weight: tally.weight, arm: center[0], moment: tally.momentX };
}

/** Works a weighing out; undefined where the scales show no weight net of tare. */
export function weigh({ points, corrections = [], chord }: WeighingRecord): WeighingResult | undefined {
  const weighed = points.map((point) => ({
    ...point,
    net: point.reading - point.tare,
    moment: (point.reading - point.tare) * point.arm,
  }));
  const loads = weighed.map(({ net, arm }) => ({ weight: net, arm }));
  const asWeighed = sumOf(loads);
  const empty = sumOf([...loads, ...corrections]);
  return (
    asWeighed &&
    empty && {
      points: weighed,
      asWeighed,
      ...empty,
      percentMac: chord && percentMac(empty.arm, chord.lemac, chord.mac),
    }
  );
}

// Static balance of a hinged control surface, in lb·in about its hinge line, the surface level.
// Arms are positive aft of the hinge line, so that a positive moment is trailing-edge heavy.

/** Moment of parts about the hinge line. */
export const hingeMoment = (parts: Iterable<Load>): number =>
  [...parts].reduce((moment, { weight, arm }) => moment + weight * arm, 0);

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
export const surfaceBalance = (moment: number, within = 0): SurfaceBalance => ({
  moment,
  heavy: moment > within ? 'trailing edge' : moment < -within ? 'leading edge' : 'neither',
});
