/** Areas of plane figures, polygons among them. */
import { InputError } from '../input-error';

// Areas of flat patterns. Lengths in inches, areas in square inches (any one unit serves: the
// relations are pure geometry). Source: definition.

export const rectangle = (length: number, width: number): number => length * width;

export const triangle = (base: number, height: number): number => (base * height) / 2;

/** Trapezoid with parallel sides `sideA` and `sideB`, `height` apart. */
export const trapezoid = (sideA: number, sideB: number, height: number): number => ((sideA + sideB) / 2) * height;

export const circle = (diameter: number): number => (Math.PI * diameter * diameter) / 4;

/** Slot with round ends: a rectangle between two half circles of diameter `width`. */
export function slot(overallLength: number, width: number): number {
  if (overallLength < width) {
    throw new InputError(
      'overall_length',
      overallLength,
      `the width (${width}) or more`,
      'A slot with round ends is at least as long as it is wide',
    );
  }
  return (overallLength - width) * width + circle(width);
}

/** Ellipse with full axes `major` and `minor` (not half axes). */
export const ellipse = (major: number, minor: number): number => (Math.PI * major * minor) / 4;

/**
 * Metal that equal round holes take out. With a flange formed at the rim the hole is cut smaller by the flange's
 * width all round: that metal stays in the part.
 * @param diameter where the sheet ends flat: of the plain hole, or where the flange leaves the sheet
 * @param flange   width of the flange, measured along the metal
 */
export function holes(diameter: number, quantity: number, flange = 0): number {
  const cut = diameter - 2 * flange;
  if (cut < 0)
    throw new InputError(
      'flange',
      flange,
      `at most half the diameter (${Number((diameter / 2).toPrecision(5))})`,
      'The flange is formed of the metal inside the diameter',
    );
  return quantity * circle(cut);
}

// Polygons given by their corners in order, in either direction. Any one unit of length serves.

export type Point = readonly [x: number, y: number];

/** A corner with its place in the list that it came from, counted from 1. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly place: number;
}

/** Two edges that meet where they should not, each named by the places of its ends. */
export interface Meeting {
  readonly first: readonly [number, number];
  readonly second: readonly [number, number];
  readonly how: 'crosses' | 'touches';
}

/** Below this share of the lengths involved, a corner counts as lying on a line: rounding of typed decimals. */
const ON_LINE = 1e-12;

/**
 * Area inside a polygon (the shoelace relation). Blank entries are skipped; the first corner may be
 * repeated at the end.
 * @param parameter the name that errors carry
 * @throws InputError where fewer than three corners differ, or an edge crosses or touches another
 */
export function polygonArea(points: readonly (Point | readonly number[] | null)[], parameter = 'points'): number {
  const takes = 'three or more points in order around the outline, no edge crossing or touching another';
  const corners = cornersOf(points);
  if (corners.length < 3) throw new InputError(parameter, points, takes, `Only ${corners.length} of them differ`);
  const meeting = findMeeting(corners);
  if (meeting) throw new InputError(parameter, points, takes, describe(meeting));
  return Math.abs(signedArea(corners));
}

/** "The edge from point 1 to point 2 crosses the edge from point 3 to point 4". */
const describe = ({ first, second, how }: Meeting): string =>
  `The edge from point ${first[0]} to point ${first[1]} ${how} the edge from point ${second[0]} to point ${second[1]}`;

/** Edges of a closed polygon that cross; those that only touch are let pass. */
export const findCrossing = (points: readonly (Point | readonly number[] | null)[]): Meeting | undefined =>
  findMeeting(cornersOf(points), true);

/** The corners without blanks and without repeats of the one before (or, at the end, of the first). */
function cornersOf(points: readonly (Point | readonly number[] | null)[]): Corner[] {
  const corners: Corner[] = [];
  for (const [index, point] of points.entries()) {
    if (!point) continue;
    const corner = { x: point[0], y: point[1], place: index + 1 };
    const last = corners.at(-1);
    if (!last || last.x !== corner.x || last.y !== corner.y) corners.push(corner);
  }
  const [first, last] = [corners[0], corners.at(-1)];
  if (corners.length > 1 && first!.x === last!.x && first!.y === last!.y) corners.pop();
  return corners;
}

/** Positive where the corners run counter-clockwise. Taken about the first corner, so that a far datum costs no digits. */
function signedArea(corners: readonly Corner[]): number {
  const { x: x0, y: y0 } = corners[0]!;
  let twice = 0;
  for (let i = 0; i < corners.length; i++) {
    const a = corners[i]!;
    const b = corners[(i + 1) % corners.length]!;
    twice += (a.x - x0) * (b.y - y0) - (b.x - x0) * (a.y - y0);
  }
  return twice / 2;
}

interface Edge {
  readonly index: number;
  readonly from: Corner;
  readonly to: Corner;
  readonly left: number;
  readonly right: number;
}

/** The first two edges found to meet. Edges are swept from left to right, so that long outlines stay quick. */
function findMeeting(corners: readonly Corner[], crossingOnly = false): Meeting | undefined {
  const count = corners.length;
  const edges = corners
    .map((from, index): Edge => {
      const to = corners[(index + 1) % count]!;
      return { index, from, to, left: Math.min(from.x, to.x), right: Math.max(from.x, to.x) };
    })
    .sort((a, b) => a.left - b.left);
  for (const [rank, one] of edges.entries()) {
    for (let next = rank + 1; next < count; next++) {
      const other = edges[next]!;
      if (other.left > one.right) break;
      const [first, second] = one.index < other.index ? [one, other] : [other, one];
      const how = meet(first, second, count);
      if (how && !(crossingOnly && how === 'touches')) {
        return { first: [first.from.place, first.to.place], second: [second.from.place, second.to.place], how };
      }
    }
  }
  return undefined;
}

function meet(a: Edge, b: Edge, count: number): Meeting['how'] | undefined {
  if (b.index - a.index === 1) return foldsBack(a.from, a.to, b.to);
  if (a.index === 0 && b.index === count - 1) return foldsBack(b.from, b.to, a.to);
  const [s1, s2] = [side(a.from, a.to, b.from), side(a.from, a.to, b.to)];
  const [s3, s4] = [side(b.from, b.to, a.from), side(b.from, b.to, a.to)];
  if (s1 * s2 < 0 && s3 * s4 < 0) return 'crosses';
  return (s1 === 0 && within(a, b.from)) ||
    (s2 === 0 && within(a, b.to)) ||
    (s3 === 0 && within(b, a.from)) ||
    (s4 === 0 && within(b, a.to))
    ? 'touches'
    : undefined;
}

/** Neighbouring edges share a corner; they meet elsewhere only where the second runs back over the first. */
function foldsBack(from: Corner, corner: Corner, to: Corner): Meeting['how'] | undefined {
  const back = (corner.x - from.x) * (to.x - corner.x) + (corner.y - from.y) * (to.y - corner.y) < 0;
  return back && side(from, corner, to) === 0 ? 'touches' : undefined;
}

/** 1, -1 or 0: to which side of the line from `a` to `b` the corner lies. */
function side(a: Corner, b: Corner, c: Corner): number {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const cross = ux * vy - uy * vx;
  return Math.abs(cross) <= ON_LINE * Math.hypot(ux, uy) * Math.hypot(vx, vy) ? 0 : Math.sign(cross);
}

/** For a corner on the edge's line: whether it lies between the ends. */
const within = ({ from, to }: Edge, c: Corner): boolean =>
  Math.min(from.x, to.x) <= c.x &&
  c.x <= Math.max(from.x, to.x) &&
  Math.min(from.y, to.y) <= c.y &&
  c.y <= Math.max(from.y, to.y);
