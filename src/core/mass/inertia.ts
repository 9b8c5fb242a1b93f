/** Inertia: of lists of parts, of simple parts about themselves, and of parts on both sides. */
import { Tally, type Point } from './roll-up';

// Moments and products of inertia in three axes, in lb·in² (weight times distance squared; divide by
// 386.09 in/s² for slug-type units).
//
// Sign convention: a product of inertia is the sum itself, Ixy = +Σ w·x·y. The off-diagonal elements of
// the inertia tensor are its negatives; some books call those the products.

export interface Inertia {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

/** @internal */
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
const ofPoint = (weight: number, [x, y, z]: Point): Inertia => ({
  xx: weight * (y * y + z * z),
  yy: weight * (x * x + z * z),
  zz: weight * (x * x + y * y),
  xy: weight * x * y,
  xz: weight * x * z,
  yz: weight * y * z,
});

const addInertia = (a: Inertia, b: Inertia): Inertia => ({
  xx: a.xx + b.xx,
  yy: a.yy + b.yy,
  zz: a.zz + b.zz,
  xy: a.xy + b.xy,
  xz: a.xz + b.xz,
  yz: a.yz + b.yz,
});

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

// Inertia of simple parts about their own centre of gravity, lb·in², axes along the part.
// Formulas: the tables of mass moments of inertia of homogeneous solids in the mechanics handbooks
// (rectangular prism, slender rod, solid and hollow circular cylinder).

export type Axis = 'x' | 'y' | 'z';
export const AXES = ['x', 'y', 'z'] as const;

/** A plate or block with its edges along the axes; sizes in inches, the thickness may be 0. */
export function plateInertia(weight: number, alongX: number, alongY: number, alongZ: number): Inertia {
  const [a, b, c] = [alongX ** 2, alongY ** 2, alongZ ** 2];
  return { ...NO_INERTIA, xx: (weight * (b + c)) / 12, yy: (weight * (a + c)) / 12, zz: (weight * (a + b)) / 12 };
}

/** A round rod whose length runs along `axis`; with diameter 0, a slender one. */
export const rodInertia = (weight: number, length: number, axis: Axis, diameter = 0): Inertia =>
  roundInertia(weight, length, diameter, 0, axis);

/**
 * A round tube whose length runs along `axis`.
 * @param wall in; at half the outside diameter it is a solid rod
 */
export const tubeInertia = (
  weight: number,
  length: number,
  outsideDiameter: number,
  wall: number,
  axis: Axis,
): Inertia => roundInertia(weight, length, outsideDiameter, outsideDiameter - 2 * wall, axis);

function roundInertia(weight: number, length: number, outside: number, inside: number, axis: Axis): Inertia {
  const radii = (outside ** 2 + inside ** 2) / 4;
  const along = (weight * radii) / 2;
  const across = (weight * (3 * radii + length ** 2)) / 12;
  const about = (one: Axis): number => (one === axis ? along : across);
  return { ...NO_INERTIA, xx: about('x'), yy: about('y'), zz: about('z') };
}

// Left and right parts: the list holds one side, the airplane has both.

/** "pair": a left and a right one. "single": the one that is listed. */
export const SIDES = ['pair', 'single'] as const;
export type Sides = (typeof SIDES)[number];

/** The same part on the other side of the plane of symmetry (y = 0): the products that hold y once change sign. */
const mirror = ({ weight, at, own }: Body): Body => ({
  weight,
  at: [at[0], at[1] === 0 ? 0 : -at[1], at[2]],
  ...(own ? { own: { ...own, xy: -own.xy, yz: -own.yz } } : {}),
});

/**
 * The part, and its mirror image where it has one.
 * @param sides where not given, a part off the plane of symmetry is one of a pair and a part on it is single
 */
export const bothSides = (body: Body, sides: Sides = body.at[1] === 0 ? 'single' : 'pair'): readonly Body[] =>
  sides === 'pair' ? [body, mirror(body)] : [body];
