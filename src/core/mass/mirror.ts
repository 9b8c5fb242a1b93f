/** Left and right parts: the list holds one side, the airplane has both. */
import type { Body, Inertia } from './inertia';

/** "pair": a left and a right one. "single": the one that is listed. */
export const SIDES = ['pair', 'single'] as const;
export type Sides = (typeof SIDES)[number];

/** Mirrored in the plane of symmetry (y = 0), the products that hold y once change sign. */
function mirrorInertia({ xx, yy, zz, xy, xz, yz }: Inertia): Inertia {
  return { xx, yy, zz, xy: -xy, xz, yz: -yz };
}

/** The same part on the other side of the plane of symmetry. */
function mirror(body: Body): Body {
  const { weight, at, own } = body;
  return { weight, at: [at[0], at[1] === 0 ? 0 : -at[1], at[2]], ...(own ? { own: mirrorInertia(own) } : {}) };
}

/**
 * The part, and its mirror image where it has one.
 * @param sides where not given, a part off the plane of symmetry is one of a pair and a part on it is single
 */
export function bothSides(body: Body, sides: Sides = body.at[1] === 0 ? 'single' : 'pair'): readonly Body[] {
  return sides === 'pair' ? [body, mirror(body)] : [body];
}
