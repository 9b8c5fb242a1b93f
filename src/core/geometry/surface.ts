/** The two surfaces of an airfoil as curves on a unit chord, each from leading to trailing edge. */
import type { Point } from './plane-areas';
import { halfThickness, type NacaSection } from './naca';

// A smooth curve through points: cubic splines of x and y over the summed chord length, free at the ends.

const DEGREE = Math.PI / 180;
/** A sharper turn than a round nose makes even where its points are far apart: a wedge. */
const WEDGE = 140 * DEGREE;
/** A turn that stands alone between straight runs: at least this much, and so many times its neighbours. */
const KINK = 5 * DEGREE;
const ALONE = 8;

/**
 * The curve through `points`, of which no two neighbours coincide, with the parameter of each from 0 upwards. It is not
 * smoothed across a corner. @internal
 */
export function splineThrough(points: readonly Point[]): Pick<Surface, 'at'> & { readonly knots: readonly number[] } {
  const knots: number[] = [0];
  for (let i = 1; i < points.length; i++) {
    knots.push(knots[i - 1]! + Math.hypot(points[i]![0] - points[i - 1]![0], points[i]![1] - points[i - 1]![1]));
  }
  const turns = points.map((_, i) =>
    i === 0 || i === points.length - 1 ? Number.POSITIVE_INFINITY : turnAt(points, i),
  );
  const corners = turns.map(
    (turn, i) => turn > WEDGE || (turn > KINK && turn > ALONE * Math.max(turns[i - 1]!, turns[i + 1]!)),
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [mx, my] = [secondDerivatives(knots, xs, corners), secondDerivatives(knots, ys, corners)];
  return {
    knots,
    at(s) {
      const i = segmentOf(knots, s);
      const h = knots[i + 1]! - knots[i]!;
      const b = (s - knots[i]!) / h;
      const a = 1 - b;
      const value = (v: readonly number[], m: readonly number[]): number =>
        a * v[i]! + b * v[i + 1]! + (((a ** 3 - a) * m[i]! + (b ** 3 - b) * m[i + 1]!) * h * h) / 6;
      const slope = (v: readonly number[], m: readonly number[]): number =>
        (v[i + 1]! - v[i]!) / h + (((3 * b * b - 1) * m[i + 1]! - (3 * a * a - 1) * m[i]!) * h) / 6;
      return { x: value(xs, mx), y: value(ys, my), dx: slope(xs, mx), dy: slope(ys, my) };
    },
  };
}

function turnAt(points: readonly Point[], i: number): number {
  const [[x0, y0], [x1, y1], [x2, y2]] = [points[i - 1]!, points[i]!, points[i + 1]!];
  const [ux, uy, vx, vy] = [x1 - x0, y1 - y0, x2 - x1, y2 - y1];
  return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
}

/** Second derivatives at the knots: continuous slope at each, none at a corner or an end (tridiagonal equations). */
function secondDerivatives(knots: readonly number[], values: readonly number[], free: readonly boolean[]): number[] {
  const n = knots.length;
  const upper = new Array<number>(n).fill(0);
  const m = new Array<number>(n).fill(0);
  for (let i = 1; i < n - 1; i++) {
    if (free[i]) continue;
    const [h0, h1] = [knots[i]! - knots[i - 1]!, knots[i + 1]! - knots[i]!];
    const right = 6 * ((values[i + 1]! - values[i]!) / h1 - (values[i]! - values[i - 1]!) / h0);
    const pivot = 2 * (h0 + h1) - h0 * upper[i - 1]!;
    upper[i] = h1 / pivot;
    m[i] = (right - h0 * m[i - 1]!) / pivot;
  }
  for (let i = n - 2; i > 0; i--) m[i] = m[i]! - upper[i]! * m[i + 1]!;
  return m;
}

function segmentOf(knots: readonly number[], s: number): number {
  let [low, high] = [0, knots.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (knots[middle]! <= s) low = middle;
    else high = middle;
  }
  return low;
}

export interface Surface {
  /** The parameter runs from 0 at the leading edge to this at the trailing edge. */
  readonly end: number;
  /** Parameters in rising order at which a derivative jumps. */
  readonly breaks: readonly number[];
  /** Parameters in rising order, from 0 to end, close enough to bracket a station between two of them. */
  readonly samples: readonly number[];
  /** Point and direction. */
  at(s: number): { readonly x: number; readonly y: number; readonly dx: number; readonly dy: number };
}

const SAMPLES = 64;

/**
 * Surface of a NACA section. The parameter b sets the fraction of chord as x = (1 - cos b)/2, so that
 * √x = sin(b/2) and the round nose, where y grows as √x, is smooth in b.
 * @param side 1 for the upper surface, -1 for the lower
 */
export function nacaSurface(section: NacaSection, side: 1 | -1): Surface {
  const joint = section.joint;
  return {
    end: Math.PI,
    breaks: joint === undefined ? [] : [Math.acos(1 - 2 * joint)],
    samples: Array.from({ length: SAMPLES + 1 }, (_, index) => (Math.PI * index) / SAMPLES),
    at(b) {
      const root = Math.sin(b / 2);
      const x = root * root;
      const xByB = Math.sin(b) / 2;
      const line = section.meanLine(x);
      const [t, tByRoot] = halfThickness(section, root);
      const tByB = (tByRoot * Math.cos(b / 2)) / 2;
      const secant = Math.hypot(1, line.slope);
      const [sin, cos] = [line.slope / secant, 1 / secant];
      const turnByB = (line.curvature / secant ** 2) * xByB;
      return {
        x: x - side * t * sin,
        y: line.y + side * t * cos,
        dx: xByB - side * (tByB * sin + t * cos * turnByB),
        dy: line.slope * xByB + side * (tByB * cos - t * sin * turnByB),
      };
    },
  };
}

/**
 * The two surfaces of a loop of points that runs from the trailing edge over the top, round the leading edge and back
 * below. One smooth curve is laid through all points, so that the nose between two of them is round.
 * @param nose place in the loop of the leading-edge point
 */
export function loopSurfaces(
  loop: readonly Point[],
  nose: number,
): { readonly upper: Surface; readonly lower: Surface } {
  const curve = splineThrough(loop);
  const turn = curve.knots[nose]!;
  const last = curve.knots.at(-1)!;
  const piece = (end: number, place: (s: number) => number, sign: 1 | -1): Surface => {
    const samples = curve.knots
      .map((knot) => (knot - turn) * sign)
      .filter((s) => s >= 0 && s <= end)
      .sort((a, b) => a - b);
    return {
      end,
      breaks: samples.slice(1, -1),
      samples,
      at(s) {
        const { x, y, dx, dy } = curve.at(place(s));
        return { x, y, dx: dx * sign, dy: dy * sign };
      },
    };
  };
  return { upper: piece(turn, (s) => turn - s, -1), lower: piece(last - turn, (s) => turn + s, 1) };
}
