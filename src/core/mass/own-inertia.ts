/**
 * Inertia of simple parts about their own centre of gravity, lb·in², axes along the part.
 * Formulas: the tables of mass moments of inertia of homogeneous solids in the mechanics handbooks
 * (rectangular prism, slender rod, solid and hollow circular cylinder).
 */
import { NO_INERTIA, type Inertia } from './inertia';

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
export function tubeInertia(
  weight: number,
  length: number,
  outsideDiameter: number,
  wall: number,
  axis: Axis,
): Inertia {
  return roundInertia(weight, length, outsideDiameter, outsideDiameter - 2 * wall, axis);
}

function roundInertia(weight: number, length: number, outside: number, inside: number, axis: Axis): Inertia {
  const radii = (outside ** 2 + inside ** 2) / 4;
  const along = (weight * radii) / 2;
  const across = (weight * (3 * radii + length ** 2)) / 12;
  const about = (one: Axis): number => (one === axis ? along : across);
  return { ...NO_INERTIA, xx: about('x'), yy: about('y'), zz: about('z') };
}
