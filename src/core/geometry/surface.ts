/** The two surfaces of an airfoil as curves on a unit chord, each from leading to trailing edge. */
import { halfThickness, type NacaSection } from './naca';
import type { Point } from './polygon';
import { splineThrough } from './spline';

/** Point and direction on a surface. */
export interface SurfacePoint {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

export interface Surface {
  /** The parameter runs from 0 at the leading edge to this at the trailing edge. */
  readonly end: number;
  /** Parameters in rising order at which a derivative jumps. */
  readonly breaks: readonly number[];
  /** Parameters in rising order, from 0 to end, close enough to bracket a station between two of them. */
  readonly samples: readonly number[];
  at(s: number): SurfacePoint;
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
