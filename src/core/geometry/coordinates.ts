/**
 * An airfoil outline from coordinates, in the orders that coordinate files have them: one loop (from the
 * trailing edge over the top and back below, or from the leading edge round) or two lists, each from the
 * leading edge aft.
 */
import { InputError } from '../input-error';
import { outlineOf, type Outline } from './outline';
import { findCrossing, type Point } from './polygon';
import { loopSurfaces } from './surface';

const TAKES = 'rows of x and y on a chord of 1, from x = 0 at the leading edge to x = 1 at the trailing edge';

/** How far the ends of the chord may be off 0 and 1. */
const SLACK = 0.05;
const FEWEST = 6;

/**
 * @param rows x and y on a unit chord; blanks are skipped, and so is a first row of two counts (two lists with their lengths ahead)
 * @throws InputError where the chord is not 1, there are fewer than six points, or the outline crosses itself
 */
export function outlineFromCoordinates(rows: readonly (readonly number[] | null)[], parameter = 'outline'): Outline {
  const refuse = (guess: string): never => {
    throw new InputError(parameter, rows, TAKES, guess);
  };
  const points = withoutCounts(rows.filter((row) => row !== null).map((row): Point => [row[0]!, row[1]!]));
  if (points.length < FEWEST) refuse(`${points.length} points are too few for an outline`);
  const xs = points.map(([x]) => x);
  const [least, most] = [Math.min(...xs), Math.max(...xs)];
  if (Math.abs(least) > SLACK || Math.abs(most - 1) > SLACK) {
    refuse(
      Math.abs(most - 100) < 100 * SLACK
        ? 'x up to 100 looks like percent of chord: divide both columns by 100'
        : `Here x runs from ${least} to ${most}`,
    );
  }
  let loop = withoutRepeats(asLoop(points));
  if (turning(loop) < 0) loop = loop.reverse();
  if (loop.length < FEWEST) refuse('The points repeat each other');
  const crossing = findCrossing(loop);
  if (crossing) refuse(`The outline crosses itself near x = ${Number(loop[crossing.first[0] - 1]![0].toPrecision(3))}`);
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
  if (isBase(around(aft - 1), around(aft))) return round(aft);
  return [...round(aft), around(aft)];
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
