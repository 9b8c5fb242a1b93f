/** The envelope of allowed weights and arms, and a loading judged against it. */
import { polygonArea } from '../geometry';
import { InputError } from '../input-error';
import type { Load } from './arms';
import { quantities, type Quantities } from '../quantity';

// The envelope of allowed weights and arms: a closed polygon of (arm, weight) corners, in order around
// it, either direction. Its edges and corners belong to it. The tolerance of that, TOLERANCE, is a share
// of the envelope's own width and height: it absorbs the rounding of typed decimals and nothing that a
// scale could show.

export const TOLERANCE = 1e-9;

export interface Edge {
  readonly from: Load;
  readonly to: Load;
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

export interface Envelope {
  readonly vertices: readonly Load[];
  readonly edges: readonly Edge[];
  readonly arms: Range;
  readonly weights: Range;
}

const rangeOf = (values: readonly number[]): Range => ({ from: Math.min(...values), to: Math.max(...values) });
const same = (a: Load, b: Load): boolean => a.arm === b.arm && a.weight === b.weight;

/**
 * An envelope from its corners; the first may be repeated at the end.
 * @throws InputError for fewer than three corners, a corner without weight, or edges that meet
 */
export function makeEnvelope(corners: readonly Load[], parameter = 'envelope'): Envelope {
  const vertices = corners.filter((corner, index) => index === 0 || !same(corner, corners[index - 1]!));
  if (vertices.length > 1 && same(vertices[0]!, vertices.at(-1)!)) vertices.pop();
  const weightless = corners.findIndex((corner) => !(corner.weight > 0));
  if (weightless >= 0)
    throw new InputError(
      `${parameter}, row ${weightless + 1}`,
      corners[weightless]!.weight,
      'an arm and then a weight above 0',
    );
  const [arms, weights] = [rangeOf(vertices.map((one) => one.arm)), rangeOf(vertices.map((one) => one.weight))];
  // Refuses edges that meet; on a common scale, so that "touches" means the same for inches as for pounds.
  polygonArea(
    vertices.map((one) => [
      (one.arm - arms.from) / (arms.to - arms.from || 1),
      (one.weight - weights.from) / (weights.to - weights.from || 1),
    ]),
    parameter,
  );
  return {
    vertices,
    edges: vertices.map((from, index) => ({ from, to: vertices[(index + 1) % vertices.length]! })),
    arms,
    weights,
  };
}

/** True where the point is inside the envelope or on its edge. */
export function contains(envelope: Envelope, weight: number, arm: number): boolean {
  const width = envelope.arms.to - envelope.arms.from;
  const height = envelope.weights.to - envelope.weights.from;
  let inside = false;
  for (const { from, to } of envelope.edges) {
    const x1 = (from.arm - arm) / width;
    const y1 = (from.weight - weight) / height;
    const x2 = (to.arm - arm) / width;
    const y2 = (to.weight - weight) / height;
    if (squareOfDistance(x1, y1, x2, y2) <= TOLERANCE * TOLERANCE) return true;
    if (y1 > 0 !== y2 > 0 && x1 + (y1 / (y1 - y2)) * (x2 - x1) > 0) inside = !inside;
  }
  return inside;
}

/** Of the origin from a line segment. */
function squareOfDistance(x1: number, y1: number, x2: number, y2: number): number {
  const dx = x2 - x1;
  const dy = y2 - y1;
  const along = Math.min(1, Math.max(0, -(x1 * dx + y1 * dy) / (dx * dx + dy * dy)));
  const x = x1 + along * dx;
  const y = y1 + along * dy;
  return x * x + y * y;
}

/**
 * The arms allowed at a weight, as ranges from forward to aft; more than one where the outline is notched,
 * none where the weight is outside the envelope's. A corner that stands alone at its weight gives a range without width.
 */
export function armsAt(envelope: Envelope, weight: number): Range[] {
  const slack = TOLERANCE * (envelope.weights.to - envelope.weights.from);
  const crossings: number[] = [];
  for (const edge of envelope.edges) {
    const { from, to } = edge;
    if (Math.abs(from.weight - weight) <= slack) insert(crossings, from.arm);
    if (Math.abs(to.weight - weight) <= slack) insert(crossings, to.arm);
    if (from.weight - weight > 0 !== to.weight - weight > 0) insert(crossings, armOnEdge(edge, weight));
  }
  const [first] = crossings;
  if (first === undefined) return [];
  let last = { from: first, to: first };
  const ranges = [last];
  for (const arm of crossings) {
    if (arm === last.to || contains(envelope, weight, (last.to + arm) / 2)) last.to = arm;
    else ranges.push((last = { from: arm, to: arm }));
  }
  return ranges;
}

/** Inserts a value in order. The general sort would take longer over two or four values than all the rest of judging does. */
function insert(sorted: number[], value: number): void {
  sorted.push(value);
  for (let i = sorted.length - 1; i > 0 && sorted[i - 1]! > value; i--) {
    sorted[i] = sorted[i - 1]!;
    sorted[i - 1] = value;
  }
}

/** The arm of an edge at a weight. The edge must not be level. */
export const armOnEdge = ({ from, to }: Edge, weight: number): number =>
  from.arm + ((weight - from.weight) / (to.weight - from.weight)) * (to.arm - from.arm);

/** The limits as straight lines between two weights at which the outline has corners. */
export interface LimitPiece {
  readonly weights: Range;
  readonly forward: Edge;
  readonly aft: Edge;
}

/** The outermost limits, lightest first, with a piece for every stretch of weights between corners. */
export function limitPieces(envelope: Envelope): LimitPiece[] {
  const levels = [...new Set(envelope.vertices.map((one) => one.weight))].sort((a, b) => a - b);
  return levels.slice(1).map((to, index) => {
    const from = levels[index]!;
    const middle = (from + to) / 2;
    const spanning = envelope.edges
      .filter(
        (edge) =>
          Math.min(edge.from.weight, edge.to.weight) <= from && Math.max(edge.from.weight, edge.to.weight) >= to,
      )
      .sort((a, b) => armOnEdge(a, middle) - armOnEdge(b, middle));
    return { weights: { from, to }, forward: spanning[0]!, aft: spanning.at(-1)! };
  });
}

// A loading against the envelope: inside or not, by how much, and in words.

/** A page that judges limits shows this once. */
export const LIMITS_CAUTION = 'Limits come from the aircraft’s own documents; an estimate is not a weighing.';

export interface Finding {
  readonly kind: 'forward' | 'aft' | 'between' | 'heavy' | 'light';
  /** How far out: inches for an arm, pounds for a weight. */
  readonly by: number;
}

export interface Judgement extends Load {
  readonly inside: boolean;
  /** Forward and aft limit at this weight, or at the nearest weight that the envelope covers where it does not cover this one. */
  readonly limits: Range;
  /** The weight that the limits are for. */
  readonly limitsAt: number;
  /** What is out, and by how much; empty where it is inside. */
  readonly findings: readonly Finding[];
}

/** Judges a loading. Edges and corners of the envelope count as inside. */
export function judge(envelope: Envelope, { weight, arm }: Load): Judgement {
  const { from: lightest, to: heaviest } = envelope.weights;
  const inside = contains(envelope, weight, arm);
  const limitsAt = Math.min(heaviest, Math.max(lightest, weight));
  const ranges = armsAt(envelope, limitsAt);
  const limits = { from: ranges[0]!.from, to: ranges.at(-1)!.to };
  const findings: Finding[] = inside
    ? []
    : (
        [
          { kind: 'heavy', by: weight - heaviest },
          { kind: 'light', by: lightest - weight },
          { kind: 'forward', by: limits.from - arm },
          { kind: 'aft', by: arm - limits.to },
        ] as const
      ).filter(({ by }) => by > 0);
  if (!inside && findings.length === 0)
    findings.push({
      kind: 'between',
      by: Math.min(...ranges.flatMap((range) => [Math.abs(arm - range.from), Math.abs(arm - range.to)])),
    });
  return { weight, arm, inside, limits, limitsAt, findings };
}

/** How a weight and an arm are said, with their unit. */
export interface Wording {
  weight(pounds: number): string;
  arm(inches: number): string;
}

/** Weights and arms in a unit system, with enough decimals that none of them reads 0. */
export const wordingOf = (say: Quantities): Wording => ({
  // A decimal is about what a scale for airplanes shows, in pounds and in kilograms.
  weight: (pounds) => say.tell(pounds, 'weight', say.system === 'mm-kg' ? 0 : 1),
  arm: (inches) => say.tell(inches, 'length', 2),
});

export const INCH_POUND: Wording = wordingOf(quantities('in-lb'));

/** "inside, 2.50 in aft of the forward limit and 0.40 in forward of the aft limit" */
export function judgementWords(judgement: Judgement, say: Wording = INCH_POUND): string {
  const { inside, findings, limitsAt, weight } = judgement;
  if (inside) return insideWords(judgement, say);
  const where =
    limitsAt === weight
      ? `at ${say.weight(weight)}`
      : `at the envelope’s ${weight > limitsAt ? 'highest' : 'lowest'} weight, ${say.weight(limitsAt)}`;
  return `outside: ${findings.map(({ kind, by }) => OUTSIDE[kind](by, judgement, where, say)).join('; ')}`;
}

/** What is out, in words; `where` says at which weight. */
const OUTSIDE: Readonly<
  Record<Finding['kind'], (by: number, judgement: Judgement, where: string, say: Wording) => string>
> = {
  heavy: (by, { limitsAt }, _where, say) => `${say.weight(by)} over the highest weight, ${say.weight(limitsAt)}`,
  light: (by, { limitsAt }, _where, say) => `${say.weight(by)} under the lowest weight, ${say.weight(limitsAt)}`,
  forward: (by, { limits }, where, say) =>
    `${say.arm(by)} forward of the forward limit, ${say.arm(limits.from)} ${where}`,
  aft: (by, { limits }, where, say) => `${say.arm(by)} aft of the aft limit, ${say.arm(limits.to)} ${where}`,
  between: (by, { arm }, where, say) =>
    `between two allowed ranges of arms ${where}, ${say.arm(by)} from the nearer at ${say.arm(arm)}`,
};

function insideWords({ arm, limits }: Judgement, say: Wording): string {
  const slack = TOLERANCE * Math.max(1, limits.to - limits.from);
  const from = (limit: 'forward' | 'aft', distance: number): string =>
    distance <= slack
      ? `on the ${limit} limit`
      : `${say.arm(distance)} ${limit === 'forward' ? 'aft' : 'forward'} of the ${limit} limit`;
  return `inside, ${from('forward', arm - limits.from)} and ${from('aft', limits.to - arm)}`;
}
