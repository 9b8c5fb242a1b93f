/** The airplane on its scales: empty weight, arm and moment. */
import { Tally } from '../mass';
import { percentMac, type Load } from './arms';

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

export interface WeighingSum {
  readonly weight: number;
  readonly arm: number;
  readonly moment: number;
}

export interface WeighingResult extends WeighingSum {
  readonly points: readonly WeighedPoint[];
  /** Before corrections. */
  readonly asWeighed: WeighingSum;
  readonly percentMac: number | undefined;
}

/** Undefined where there is no weight to have an arm. */
function sumOf(loads: Iterable<Load>): WeighingSum | undefined {
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
  if (!asWeighed || !empty) return undefined;
  return { points: weighed, asWeighed, ...empty, percentMac: chord && percentMac(empty.arm, chord.lemac, chord.mac) };
}
