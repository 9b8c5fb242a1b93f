/**
 * Weight added or used up at one station: the line that the loading point follows over the envelope.
 *
 * The moment grows evenly with the weight, so the arm follows a + k/W and not a straight line; where it
 * crosses an edge of the envelope is the root of a quadratic, found exactly.
 */
import type { Load } from './arms';
import { contains, type Envelope } from './envelope';

export interface LoadLine {
  readonly start: Load;
  /** Where the weight is added or used up. */
  readonly arm: number;
  /** Total weight at the other end; less than the start's where weight is used up. */
  readonly endWeight: number;
}

/** Arm on the line at a total weight. */
export const armOnLine = ({ start, arm }: LoadLine, weight: number): number =>
  arm + (start.weight * (start.arm - arm)) / weight;

export const endOf = (line: LoadLine): Load => ({ weight: line.endWeight, arm: armOnLine(line, line.endWeight) });

/** A part of a line, by total weight, that lies wholly inside the envelope or wholly outside. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly inside: boolean;
}

/** The line cut where it enters or leaves the envelope, from its start to its end. A line without length gives one stretch. */
export function stretches(envelope: Envelope, line: LoadLine): Stretch[] {
  const { start, endWeight } = line;
  const direction = Math.sign(endWeight - start.weight) || 1;
  const cuts = [start.weight, ...meetings(envelope, line), endWeight].sort((a, b) => direction * (a - b));
  const parts: { from: number; to: number; inside: boolean }[] = [];
  for (let index = 1; index < cuts.length; index++) {
    const [from, to] = [cuts[index - 1]!, cuts[index]!];
    if (from === to && cuts.length > 2) continue;
    const middle = (from + to) / 2;
    const inside = contains(envelope, middle, armOnLine(line, middle));
    const last = parts.at(-1);
    if (last && last.inside === inside) last.to = to;
    else parts.push({ from, to, inside });
  }
  return parts;
}

/** Total weights, strictly between the ends, at which the line meets an edge of the envelope. */
function meetings(envelope: Envelope, { start, arm, endWeight }: LoadLine): number[] {
  const [low, high] = [Math.min(start.weight, endWeight), Math.max(start.weight, endWeight)];
  const k = start.weight * (start.arm - arm);
  const found: number[] = [];
  for (const { from, to } of envelope.edges) {
    const slope = (to.arm - from.arm) / (to.weight - from.weight);
    // A level edge is met at its weight, if at all.
    const roots =
      from.weight === to.weight ? [from.weight] : quadraticRoots(slope, from.arm - slope * from.weight - arm, -k);
    found.push(...roots.filter((weight) => weight > low && weight < high));
  }
  return found;
}

/** Real roots of a·x² + b·x + c, without the loss of digits of the school formula. */
function quadraticRoots(a: number, b: number, c: number): number[] {
  if (a === 0) return b === 0 ? [] : [-c / b];
  const discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return q === 0 ? [0] : [q / a, c / q];
}

/** Points along the line for a drawing, ends included. */
export function pointsOn(line: LoadLine, count = 12): Load[] {
  if (line.endWeight === line.start.weight) return [line.start];
  return Array.from({ length: count }, (_, index) => {
    const weight = line.start.weight + ((line.endWeight - line.start.weight) * index) / (count - 1);
    return { weight, arm: armOnLine(line, weight) };
  });
}

/**
 * The least ballast at `ballastArm` that brings a loading into the envelope: 0 where it is inside already,
 * undefined where none does. (Unlike ballast for one target arm, this knows that the limits move with weight.)
 */
export function ballastIntoEnvelope(envelope: Envelope, load: Load, ballastArm: number): number | undefined {
  if (contains(envelope, load.weight, load.arm)) return 0;
  if (load.weight >= envelope.weights.to) return undefined;
  const entry = stretches(envelope, { start: load, arm: ballastArm, endWeight: envelope.weights.to }).find(
    (stretch) => stretch.inside,
  );
  return entry && entry.from - load.weight;
}
