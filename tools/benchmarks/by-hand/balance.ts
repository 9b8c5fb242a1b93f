/** The airplane on its wheels and surfaces on their hinges, by hand. */
import type { Matrix } from '../../../src/sheet';
import { among, between, isLength, isLengthOrZero, isStation, isWeight, or, otherwise, type Job } from './cells';

const ENVELOPE: Matrix = [
  [35, 1000],
  [47, 1000],
  [47, 2100],
  [41, 2100],
  [35, 1600],
];
const ARMS = between(30, 50);
const WEIGHTS = between(1010, 2090);

/** Corners as numbers, ahead of the loop. */
const cornersOf = (block: Matrix): { readonly arm: number; readonly weight: number }[] =>
  block.map(([arm, weight]) => ({ arm: Number(arm), weight: Number(weight) }));

/** Least and greatest arm of a convex envelope at a weight within it. */
function limitsAt(corners: ReturnType<typeof cornersOf>, weight: number): { from: number; to: number } {
  let from = Infinity;
  let to = -Infinity;
  for (let i = 0; i < corners.length; i++) {
    const a = corners[i]!;
    const b = corners[i + 1 < corners.length ? i + 1 : 0]!;
    if (a.weight <= weight === b.weight <= weight) continue;
    const arm = a.arm + ((weight - a.weight) / (b.weight - a.weight)) * (b.arm - a.arm);
    if (arm < from) from = arm;
    if (arm > to) to = arm;
  }
  return { from, to };
}

/** A number with its decimals, a typed half rounded up, and a comma behind the thousands. */
function said(value: number, decimals = 2): string {
  const digits = (value + 1e-9).toFixed(decimals);
  return value < 999 ? digits : digits.replace(/\B(?=(?:\d{3})+\.)/g, ',');
}

export const balance: Readonly<Record<string, Job>> = {
  'BALANCE.MAC': {
    columns: [ARMS, among(30, 30.5), among(48, 52.5)],
    loop(arms, edges, chords) {
      const out: Matrix = new Array(arms.length);
      for (let r = 0; r < arms.length; r++) {
        const arm = arms[r]![0];
        const lemac = edges[r]![0];
        const mac = chords[r]![0];
        out[r] = isStation(arm) && isStation(lemac) && isLength(mac) ? [(100 * (arm - lemac)) / mac] : otherwise(arm);
      }
      return out;
    },
  },
  'BALANCE.FROMMAC': {
    columns: [between(10, 35), among(30, 30.5), among(48, 52.5)],
    loop(percents, edges, chords) {
      const out: Matrix = new Array(percents.length);
      for (let r = 0; r < percents.length; r++) {
        const percent = percents[r]![0];
        const lemac = edges[r]![0];
        const mac = chords[r]![0];
        const isSound =
          typeof percent === 'number' && percent >= -1000 && percent <= 1000 && isStation(lemac) && isLength(mac);
        out[r] = isSound ? [lemac + (percent / 100) * mac] : otherwise(percent);
      }
      return out;
    },
  },
  'BALANCE.SHIFT': {
    columns: [WEIGHTS, ARMS, between(5, 60), between(20, 90), between(20, 90)],
    loop(weights, arms, moves, froms, tos) {
      const out: Matrix = new Array(weights.length);
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const arm = arms[r]![0];
        const moved = moves[r]![0];
        const from = froms[r]![0];
        const to = tos[r]![0];
        const isSound =
          isWeight(weight) && weight > 0 && isStation(arm) && isWeight(moved) && isStation(from) && isStation(to);
        out[r] = isSound ? [arm + (moved * (to - from)) / weight] : otherwise(weight);
      }
      return out;
    },
  },
  'BALANCE.BALLAST': {
    columns: [WEIGHTS, between(30, 33), between(33, 36), between(150, 230)],
    loop(weights, arms, targets, places) {
      const out: Matrix = new Array(weights.length);
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const arm = arms[r]![0];
        const target = targets[r]![0];
        const place = places[r]![0];
        if (isWeight(weight) && weight > 0 && isStation(arm) && isStation(target) && isStation(place)) {
          const needed = arm === target ? 0 : (weight * (target - arm)) / (place - target);
          out[r] = Number.isFinite(needed) && needed >= 0 ? [needed] : ['#VALUE!'];
        } else out[r] = otherwise(weight);
      }
      return out;
    },
  },
  'BALANCE.INSIDE': {
    columns: [WEIGHTS, ARMS, ENVELOPE],
    loop(weights, arms, envelope) {
      const out: Matrix = new Array(weights.length);
      const corners = cornersOf(envelope);
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const arm = arms[r]![0];
        if (isWeight(weight) && weight > 0 && isStation(arm)) {
          // Point in polygon, and the share of the envelope within which a point counts as on its edge.
          let isInside = false;
          let isOnEdge = false;
          for (let i = 0; i < corners.length; i++) {
            const a = corners[i]!;
            const b = corners[i + 1 < corners.length ? i + 1 : 0]!;
            const x1 = (a.arm - arm) / 12;
            const y1 = (a.weight - weight) / 1100;
            const dx = (b.arm - a.arm) / 12;
            const dy = (b.weight - a.weight) / 1100;
            const along = Math.min(1, Math.max(0, -(x1 * dx + y1 * dy) / (dx * dx + dy * dy)));
            if ((x1 + along * dx) ** 2 + (y1 + along * dy) ** 2 <= 1e-18) isOnEdge = true;
            if (y1 > 0 !== y1 + dy > 0 && x1 - (y1 / dy) * dx > 0) isInside = !isInside;
          }
          out[r] = [isInside || isOnEdge];
        } else out[r] = otherwise(weight);
      }
      return out;
    },
  },
  'BALANCE.JUDGE': {
    columns: [WEIGHTS, between(36, 46.5), ENVELOPE],
    loop(weights, arms, envelope) {
      const out: Matrix = new Array(weights.length);
      const corners = cornersOf(envelope);
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const arm = arms[r]![0];
        if (isWeight(weight) && weight > 0 && isStation(arm)) {
          const { from, to } = limitsAt(corners, weight);
          if (arm >= from && arm <= to)
            out[r] = [
              `inside, ${said(arm - from)} in aft of the forward limit and ${said(to - arm)} in forward of the aft limit`,
            ];
          else if (arm < from)
            out[r] = [
              `outside: ${said(from - arm)} in forward of the forward limit, ${said(from)} in at ${said(weight, 1)} lb`,
            ];
          else out[r] = [`outside: ${said(arm - to)} in aft of the aft limit, ${said(to)} in at ${said(weight, 1)} lb`];
        } else out[r] = otherwise(weight);
      }
      return out;
    },
  },
  'HINGE.MEASURED': {
    columns: [between(0.3, 2), between(0.2, 1.5), between(8, 14)],
    loop(raisings, lowerings, arms) {
      const out: Matrix = new Array(raisings.length);
      for (let r = 0; r < raisings.length; r++) {
        const raising = raisings[r]![0];
        const lowering = lowerings[r]![0];
        const arm = arms[r]![0];
        const isSound =
          typeof raising === 'number' &&
          Math.abs(raising) <= 1e4 &&
          typeof lowering === 'number' &&
          Math.abs(lowering) <= 1e4 &&
          isLength(arm);
        out[r] = isSound ? [((raising + lowering) / 2) * arm] : otherwise(raising);
      }
      return out;
    },
  },
  'HINGE.COUNTERWEIGHT': {
    columns: [between(2, 9), between(1, 5), between(2, 6), among(100, 80)],
    loop(weights, afts, aheads, percents) {
      const out: Matrix = new Array(weights.length);
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const aft = afts[r]![0];
        const ahead = aheads[r]![0];
        const percent = or(percents[r]![0], 100);
        const isSound =
          isWeight(weight) &&
          isLengthOrZero(aft) &&
          isLength(ahead) &&
          typeof percent === 'number' &&
          percent >= 0 &&
          percent <= 200;
        out[r] = isSound ? [((percent / 100) * (weight * aft)) / ahead] : otherwise(weight);
      }
      return out;
    },
  },
};
