/**
 * Straight bends in sheet, and the developed (flat) widths of bent sections from their outside (mold line)
 * dimensions. Angles in degrees, turned from flat; lengths in any one unit.
 *
 * Source: FAA-H-8083-31, Aviation Maintenance Technician Handbook - Airframe, chapter 4, "Forming Process" to
 * "Using a J-Chart" (setback, bend allowance by formula, the U-channel layout); the same relations in AC 43.13-1B,
 * chapter 4. The empirical bend allowance puts the neutral line about .445 T from the inside of the bend.
 */
import { InputError } from '../input-error';
import type { Point } from './plane-areas';

/** The formula's constants as they are printed: .01743 is π/180 rounded low by 0.13 %. */
const PER_RADIUS = 0.01743;
const PER_THICKNESS = 0.0078;

/** The commonest bend, whose K is 1. */
const RIGHT = 90;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Metal used by a bend, along the neutral line: (.01743 R + .0078 T) N. */
export const bendAllowance = (radius: number, thickness: number, angle: number): number =>
  (PER_RADIUS * radius + PER_THICKNESS * thickness) * angle;

/** From the bend's tangent line to the mold point, where the two outer faces would meet: K (R + T), K = tan(N/2). */
export const setback = (radius: number, thickness: number, angle: number): number =>
  (angle === RIGHT ? 1 : Math.tan(radians(angle) / 2)) * (radius + thickness);

/** What a bend takes off the sum of the two outside dimensions: 2 setbacks less the allowance. */
export const bendDeduction = (radius: number, thickness: number, angle: number): number =>
  2 * setback(radius, thickness, angle) - bendAllowance(radius, thickness, angle);

/** One straight side of a bent section, by its outside dimension. */
export interface Leg {
  /** The parameter that errors name. */
  readonly parameter: string;
  readonly length: number;
}

/** A bent section laid flat. */
export interface Development {
  /** Straight metal between the tangent lines, one figure for each side. */
  readonly flats: readonly number[];
  /** Metal of each bend. */
  readonly allowances: readonly number[];
  readonly width: number;
}

/**
 * Lays a bent section flat: `legs` in order with a bend of `angles[i]` between leg i and i + 1.
 * @throws InputError where a leg is shorter than the setbacks of its bends
 */
export function develop(
  legs: readonly Leg[],
  angles: readonly number[],
  thickness: number,
  radius: number,
): Development {
  const names = legs.map(({ parameter }) => parameter);
  const lengths = legs.map(({ length }) => length);
  const setbacks = angles.map((angle) => setback(radius, thickness, angle));
  return {
    flats: lengths.map((_, i) => flatOf(names, lengths, i, (setbacks[i - 1] ?? 0) + (setbacks[i] ?? 0))),
    allowances: angles.map((angle) => bendAllowance(radius, thickness, angle)),
    width: developedWidth(names, lengths, angles, thickness, radius),
  };
}

/**
 * The width alone, without the lists of a development: a long column of sections is laid flat row by row.
 * @param names the parameters that errors name, one for each side
 */
export function developedWidth(
  names: readonly string[],
  lengths: readonly number[],
  angles: readonly number[],
  thickness: number,
  radius: number,
): number {
  let width = 0;
  let before = 0;
  for (let i = 0; i < angles.length; i++) {
    const angle = angles[i]!;
    const behind = setback(radius, thickness, angle);
    width += flatOf(names, lengths, i, before + behind) + bendAllowance(radius, thickness, angle);
    before = behind;
  }
  return width + flatOf(names, lengths, angles.length, before);
}

/** What the setbacks of its bends leave of side `i`. */
function flatOf(names: readonly string[], lengths: readonly number[], i: number, needed: number): number {
  const length = lengths[i]!;
  // Rounding alone must not refuse a leg of just the setback.
  if (length < needed * (1 - 1e-12)) {
    throw new InputError(
      names[i]!,
      length,
      `${shown(needed)} or more, the setback (radius + thickness) × tan(angle / 2) of ${i === 0 || i === lengths.length - 1 ? 'its bend' : 'its two bends'}`,
      'A shorter side leaves no flat metal beside the bend: take a smaller radius or a longer side',
    );
  }
  return Math.max(0, length - needed);
}

const shown = (value: number): string => String(Number(value.toPrecision(5)));

const legs = (names: readonly string[], lengths: readonly number[]): Leg[] =>
  names.map((parameter, i) => ({ parameter, length: lengths[i]! }));

const ANGLE = ['leg_a', 'leg_b'];
const WEB = ['leg_a', 'web', 'leg_b'];
const HAT = ['foot', 'side', 'crown', 'side', 'foot'];

/** Angle section: two legs, one bend. */
export const angleSection = (legA: number, legB: number): Leg[] => legs(ANGLE, [legA, legB]);
export const angleWidth = (legA: number, legB: number, thickness: number, radius: number, angle: number): number =>
  developedWidth(ANGLE, [legA, legB], [angle], thickness, radius);

/** Channel or zee: a leg on each side of the web, turned the same way or opposite ways. */
export const webSection = (web: number, legA: number, legB: number): Leg[] => legs(WEB, [legA, web, legB]);
/** With square bends. */
export const webWidth = (web: number, legA: number, legB: number, thickness: number, radius: number): number =>
  developedWidth(WEB, [legA, web, legB], TWO_SQUARE, thickness, radius);

/** Hat: a crown between two sides, each with a foot. */
export const hatSection = (crown: number, side: number, foot: number): Leg[] =>
  legs(HAT, [foot, side, crown, side, foot]);
/** With square bends. */
export const hatWidth = (crown: number, side: number, foot: number, thickness: number, radius: number): number =>
  developedWidth(HAT, [foot, side, crown, side, foot], FOUR_SQUARE, thickness, radius);

const TWO_SQUARE = [RIGHT, RIGHT];
const FOUR_SQUARE = [RIGHT, RIGHT, RIGHT, RIGHT];

// The cross-section of bent sheet as it stands: straight flats and round bends of constant thickness.

export interface BentSection {
  /** Left and right face seen along the walk from the first flat to the last, arcs in short chords. */
  readonly left: readonly Point[];
  readonly right: readonly Point[];
  /** Closed outline: the left face out, the right face back. */
  readonly outline: readonly Point[];
  /** Where the walk stands at the end of each piece (flat, bend, flat, …) on the middle of the sheet, and its heading in radians. */
  readonly stops: readonly { readonly at: Point; readonly heading: number }[];
  /** Area of the section by exact arcs: thickness times the length of the middle line. */
  readonly area: number;
}

/**
 * @param flats  straight lengths between tangent lines
 * @param bends  angle of the bend behind each flat but the last, degrees; positive turns left
 * @param radius inside radius
 * @param chords straight pieces that stand for one arc
 */
export function bentSection(
  flats: readonly number[],
  bends: readonly number[],
  thickness: number,
  radius: number,
  chords = 24,
): BentSection {
  const left: Point[] = [];
  const right: Point[] = [];
  const stops: { at: Point; heading: number }[] = [];
  let [x, y, heading, length] = [0, 0, 0, 0];
  const middle = radius + thickness / 2;
  const put = (): void => {
    const [nx, ny] = [(-Math.sin(heading) * thickness) / 2, (Math.cos(heading) * thickness) / 2];
    left.push([x + nx, y + ny]);
    right.push([x - nx, y - ny]);
  };
  put();
  for (const [i, flat] of flats.entries()) {
    x += flat * Math.cos(heading);
    y += flat * Math.sin(heading);
    length += flat;
    put();
    stops.push({ at: [x, y], heading });
    const bend = bends[i];
    if (bend === undefined) continue;
    const turn = (bend * Math.PI) / 180;
    const way = Math.sign(turn);
    const centre: Point = [x - way * middle * Math.sin(heading), y + way * middle * Math.cos(heading)];
    const start = heading;
    for (let step = 1; step <= chords; step++) {
      heading = start + (turn * step) / chords;
      x = centre[0] + way * middle * Math.sin(heading);
      y = centre[1] - way * middle * Math.cos(heading);
      put();
    }
    length += middle * Math.abs(turn);
    stops.push({ at: [x, y], heading });
  }
  return { left, right, outline: [...left, ...[...right].reverse()], stops, area: length * thickness };
}
