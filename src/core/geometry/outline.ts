/** Airfoil outlines on a unit chord: area, skin length and depth of the whole or of any part of the chord. */
import { InputError } from '../input-error';
import { memoized } from '../memoized';
import { nacaSection, type NacaSection } from './naca';
import type { Point } from './polygon';
import { integrate } from './quadrature';
import { nacaSurface, type Surface } from './surface';

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
function checked(from: number, to: number): number {
  if (from < to) return from;
  throw new InputError('to', to, `a fraction of chord greater than from, which is ${from}`);
}

/** Ends that are kept for each start. */
const KEPT = 32;

/** Finds the parameter at which a surface stands at a fraction of chord; 0 and 1 are its very ends. */
function finder(surface: Surface): (x: number) => number {
  const { samples, end, at } = surface;
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

const known = new Map<string, Outline>();

/** The outline that a NACA 4- or 5-digit designation names. The latest are kept, since a column asks for the same one over and over. */
export function nacaOutline(designation: string, parameter = 'outline'): Outline {
  const before = known.get(designation);
  if (before) return before;
  const section: NacaSection = nacaSection(designation, parameter);
  const outline = outlineOf(section.name, nacaSurface(section, 1), nacaSurface(section, -1));
  if (known.size >= 32) known.clear();
  known.set(designation, outline);
  return outline;
}
