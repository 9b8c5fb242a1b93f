/**
 * Moments and products of inertia in three axes, in lb·in² (weight times distance squared; divide by
 * 386.09 in/s² for slug-type units).
 *
 * Sign convention: a product of inertia is the sum itself, Ixy = +Σ w·x·y. The off-diagonal elements of
 * the inertia tensor are its negatives; some books call those the products.
 */
import { Tally, type Point } from './tally';

export interface Inertia {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

export const NO_INERTIA: Inertia = { xx: 0, yy: 0, zz: 0, xy: 0, xz: 0, yz: 0 };

export interface Body {
  /** lb; may be negative for a hole or for what is taken off. */
  readonly weight: number;
  /** Where its own centre of gravity is. */
  readonly at: Point;
  /** About its own centre of gravity, in axes parallel to the datum's; a point without extent where not given. */
  readonly own?: Inertia;
}

export interface MassProperties {
  readonly weight: number;
  readonly center: Point;
  /** About the centre of gravity. */
  readonly inertia: Inertia;
}

/** Inertia of a weight at the end of an offset: what the parallel axis theorem adds. */
function ofPoint(weight: number, [x, y, z]: Point): Inertia {
  return {
    xx: weight * (y * y + z * z),
    yy: weight * (x * x + z * z),
    zz: weight * (x * x + y * y),
    xy: weight * x * y,
    xz: weight * x * z,
    yz: weight * y * z,
  };
}

function addInertia(a: Inertia, b: Inertia): Inertia {
  return { xx: a.xx + b.xx, yy: a.yy + b.yy, zz: a.zz + b.zz, xy: a.xy + b.xy, xz: a.xz + b.xz, yz: a.yz + b.yz };
}

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Inertia of bodies about a point (in from the datum). */
export function inertiaAbout(bodies: Iterable<Body>, point: Point): Inertia {
  let sum = NO_INERTIA;
  for (const { weight, at, own } of bodies) {
    const one = ofPoint(weight, minus(at, point));
    sum = addInertia(sum, own ? addInertia(one, own) : one);
  }
  return sum;
}

/**
 * Weight, centre of gravity and inertia about it; undefined where the weights cancel.
 * The bodies are gone through twice, so that nothing is lost by subtracting two large moments about the datum.
 */
export function massProperties(bodies: readonly Body[]): MassProperties | undefined {
  const tally = new Tally();
  for (const { weight, at } of bodies) tally.add(weight, at[0], at[1], at[2]);
  const { center } = tally;
  return center && { weight: tally.weight, center, inertia: inertiaAbout(bodies, center) };
}
