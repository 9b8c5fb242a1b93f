/** Airfoil outlines on a unit chord: area, skin length and depth of the whole or of any part of the chord. */
import { refuse } from '../input-error';
import { memoized } from '../memoized';
import { nacaSection } from './naca';
import { findCrossing, type Point } from './plane-areas';
import { nacaSurface, loopSurfaces, type Surface } from './surface';

// Integrals of smooth functions over an interval, to about the last digit.

const NODES = 16;

/** Abscissas and weights of Gauss-Legendre quadrature on -1..1: roots of the Legendre polynomial by Newton's method. */
const RULE: readonly (readonly [node: number, weight: number])[] = Array.from({ length: NODES }, (_, index) => {
  let x = Math.cos((Math.PI * (index + 0.75)) / (NODES + 0.5));
  let slope = 1;
  for (let step = 0; step < 8; step++) {
    let [before, value] = [1, x];
    for (let n = 2; n <= NODES; n++) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
    slope = (NODES * (x * value - before)) / (x * x - 1);
    x -= value / slope;
  }
  return [x, 2 / ((1 - x * x) * slope * slope)];
});

function panel(f: (s: number) => number, from: number, to: number): number {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  let sum = 0;
  for (const [node, weight] of RULE) sum += weight * f(middle + half * node);
  return sum * half;
}

/** Change between one panel and two that is taken as converged, of the value or of 1. */
const ENOUGH = 1e-12;
const DEEPEST = 20;

function refine(f: (s: number) => number, from: number, to: number, whole: number, depth: number): number {
  const middle = (from + to) / 2;
  const left = panel(f, from, middle);
  const right = panel(f, middle, to);
  return depth >= DEEPEST || Math.abs(left + right - whole) <= ENOUGH * Math.max(Math.abs(whole), 1e-3)
    ? left + right
    : refine(f, from, middle, left, depth + 1) + refine(f, middle, to, right, depth + 1);
}

/**
 * Integral of `f`, halving the interval until it no longer changes.
 * @param breaks places in rising order where f or a derivative jumps; no panel runs across one @internal
 */
export function integrate(f: (s: number) => number, from: number, to: number, breaks: readonly number[] = []): number {
  let sum = 0;
  let start = from;
  for (const end of [...breaks.filter((place) => place > from && place < to), to]) {
    if (end > start) sum += refine(f, start, end, panel(f, start, end), 0);
    start = end;
  }
  return sum;
}

export type Which = 'both' | 'upper' | 'lower';

/** Everything is for a chord of 1: lengths scale with the chord, areas with its square. */
export interface Outline {
  readonly name: string;
  readonly upper: Surface;
  readonly lower: Surface;
  /** Area between two lines at right angles to the chord, at fractions `from` and `to` of it. */
  area(from?: number, to?: number): number;
  /** Length along the surface between the same lines. The base of an open trailing edge is not skin and not counted. */
  girth(from?: number, to?: number, which?: Which): number;
  /** Height of a surface above the chord line at a fraction of chord. */
  ordinate(which: 'upper' | 'lower', at: number): number;
  /** Distance from lower to upper surface at a fraction of chord. */
  height(at: number): number;
  /** Points from leading to trailing edge on one surface, close where the nose curves. */
  points(which: 'upper' | 'lower', count: number): Point[];
}

/** @internal */
export function outlineOf(name: string, upper: Surface, lower: Surface): Outline {
  const findUpper = finder(upper);
  const findLower = finder(lower);
  const area = (from: number, to: number): number => {
    const [u0, u1, l0, l1] = [findUpper(from), findUpper(to), findLower(from), findLower(to)];
    const under = ({ at, breaks }: Surface, s0: number, s1: number): number =>
      integrate((s) => at(s).y * at(s).dx, s0, s1, breaks);
    // The ends of the part: at the trailing edge of a cambered section the base leans a little.
    const end = (u: number, l: number): number => {
      const [p, q] = [upper.at(u), lower.at(l)];
      return ((p.y + q.y) / 2) * (p.x - q.x);
    };
    return under(upper, u0, u1) - under(lower, l0, l1) - end(u1, l1) + end(u0, l0);
  };
  const length = (surface: Surface, s0: number, s1: number): number =>
    integrate(
      (s) => {
        const { dx, dy } = surface.at(s);
        return Math.hypot(dx, dy);
      },
      s0,
      s1,
      surface.breaks,
    );

  const girth = (from: number, to: number, which: Which): number =>
    (which === 'lower' ? 0 : length(upper, findUpper(from), findUpper(to))) +
    (which === 'upper' ? 0 : length(lower, findLower(from), findLower(to)));

  const ordinate = (which: 'upper' | 'lower', at: number): number =>
    (which === 'upper' ? upper.at(findUpper(at)) : lower.at(findLower(at))).y;

  const areas = memoized((from: number) => memoized((to: number) => area(checked(from, to), to), KEPT));
  const girths = memoized((which: Which) =>
    memoized((from: number) => memoized((to: number) => girth(checked(from, to), to, which), KEPT)),
  );

  return {
    name,
    upper,
    lower,
    area: (from = 0, to = 1) => areas(from)(to),
    girth: (from = 0, to = 1, which = 'both') => girths(which)(from)(to),
    ordinate,
    height: memoized((at) => ordinate('upper', at) - ordinate('lower', at)),
    points(which, count) {
      const [surface, find] = which === 'upper' ? [upper, findUpper] : [lower, findLower];
      return Array.from({ length: count }, (_, index): Point => {
        const { x, y } = surface.at(find((1 - Math.cos((Math.PI * index) / (count - 1))) / 2));
        return [x, y];
      });
    },
  };
}

/** `from`, where it is less than `to`. */
const checked = (from: number, to: number): number =>
  from < to ? from : refuse('to', to, `a fraction of chord greater than from, which is ${from}`);

/** Ends that are kept for each start. */
const KEPT = 32;

/** Finds the parameter at which a surface stands at a fraction of chord; 0 and 1 are its very ends. */
function finder({ samples, end, at }: Surface): (x: number) => number {
  const stations = samples.map((s) => at(s).x);
  return (x) => {
    if (x <= 0) return 0;
    if (x >= 1) return end;
    // A cambered nose reaches a little ahead of the leading edge, so a surface can cross a place twice. The last crossing is the one that counts.
    let i = samples.length - 2;
    while (i >= 0 && !(stations[i]! <= x && x < stations[i + 1]!)) i--;
    return i < 0 ? (x < stations[0]! ? 0 : end) : solve(at, x, samples[i]!, samples[i + 1]!);
  };
}

/** Newton's method, kept inside the bracket by halving it. */
function solve(at: Surface['at'], x: number, low: number, high: number): number {
  let s = (low + high) / 2;
  for (let step = 0; step < 80; step++) {
    const here = at(s);
    if (here.x > x) high = s;
    else low = s;
    const next = s - (here.x - x) / here.dx;
    const to = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(to - s) < 1e-15) return to;
    s = to;
  }
  return s;
}

/** The outline that a NACA 4- or 5-digit designation names. The latest are kept, since a column asks for the same one over and over. */
export const nacaOutline = memoized((designation: string): Outline => {
  const section = nacaSection(designation);
  return outlineOf(section.name, nacaSurface(section, 1), nacaSurface(section, -1));
}, 32);

// An airfoil outline from coordinates, in the orders that coordinate files have them: one loop (from the
// trailing edge over the top and back below, or from the leading edge round) or two lists, each from the
// leading edge aft.

const TAKES = 'rows of x and y on a chord of 1, from x = 0 at the leading edge to x = 1 at the trailing edge';

/** How far the ends of the chord may be off 0 and 1. */
const SLACK = 0.05;
const FEWEST = 6;

/**
 * @param rows x and y on a unit chord; blanks are skipped, and so is a first row of two counts (two lists with their lengths ahead)
 * @throws InputError where the chord is not 1, there are fewer than six points, or the outline crosses itself
 */
export function outlineFromCoordinates(rows: readonly (readonly number[] | null)[], parameter = 'outline'): Outline {
  const fail = (guess: string): never => refuse(parameter, rows, TAKES, guess);
  const points = withoutCounts(rows.filter((row) => row !== null).map((row): Point => [row[0]!, row[1]!]));
  if (points.length < FEWEST) fail(`${points.length} points are too few for an outline`);
  const xs = points.map(([x]) => x);
  const [least, most] = [Math.min(...xs), Math.max(...xs)];
  if (Math.abs(least) > SLACK || Math.abs(most - 1) > SLACK) {
    fail(
      Math.abs(most - 100) < 100 * SLACK
        ? 'x up to 100 looks like percent of chord: divide both columns by 100'
        : `Here x runs from ${least} to ${most}`,
    );
  }
  let loop = withoutRepeats(asLoop(points));
  if (turning(loop) < 0) loop = loop.reverse();
  if (loop.length < FEWEST) fail('The points repeat each other');
  const crossing = findCrossing(loop);
  if (crossing) fail(`The outline crosses itself near x = ${Number(loop[crossing.first[0] - 1]![0].toPrecision(3))}`);
  const { upper, lower } = loopSurfaces(loop, noseOf(loop));
  return outlineOf('coordinates', upper, lower);
}

/** Two lists may carry their lengths ahead: "18. 18." */
function withoutCounts(points: readonly Point[]): readonly Point[] {
  const [first] = points;
  return first && first[0] > 1.5 && first[0] + first[1] === points.length - 1 ? points.slice(1) : points;
}

/** The points from the trailing edge round to the trailing edge, whichever order they came in. */
function asLoop(points: readonly Point[]): Point[] {
  if (points[0]![0] > 0.5) return [...points];
  const second = points.findIndex(([x], i) => i > 0 && x - points[i - 1]![0] < -0.5);
  if (second > 0) return [...points.slice(0, second).reverse(), ...points.slice(second)];
  // One loop from the leading edge: cut it at the trailing edge, between two points where that is a base.
  const aft = points.reduce((best, [x], i) => (x > points[best]![0] ? i : best), 0);
  const around = (i: number): Point => points[(i + points.length) % points.length]!;
  const isBase = (a: Point, b: Point): boolean => Math.abs(a[1] - b[1]) > Math.abs(a[0] - b[0]);
  const round = (start: number): Point[] => points.map((_, i) => around(start + i));
  if (isBase(around(aft), around(aft + 1))) return round(aft + 1);
  return isBase(around(aft - 1), around(aft)) ? round(aft) : [...round(aft), around(aft)];
}

const withoutRepeats = (points: readonly Point[]): Point[] =>
  points.filter(([x, y], i) => i === 0 || x !== points[i - 1]![0] || y !== points[i - 1]![1]);

/** Positive where the loop runs counter-clockwise: over the top first. */
const turning = (loop: readonly Point[]): number =>
  loop.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = loop[(i + 1) % loop.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);

/** The leading-edge point: the origin where it is listed, or else the foremost. */
function noseOf(loop: readonly Point[]): number {
  const origin = loop.findIndex(([x, y]) => Math.abs(x) < 1e-9 && Math.abs(y) < 1e-9);
  const nose = origin >= 0 ? origin : loop.reduce((best, [x], i) => (x < loop[best]![0] ? i : best), 0);
  return Math.min(Math.max(nose, 1), loop.length - 2);
}
