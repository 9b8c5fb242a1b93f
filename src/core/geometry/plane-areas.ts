/**
 * Areas of flat patterns. Lengths in inches, areas in square inches (any one unit serves: the
 * relations are pure geometry). Source: definition.
 */
import { InputError } from '../input-error';

export const rectangle = (length: number, width: number): number => length * width;

export const triangle = (base: number, height: number): number => (base * height) / 2;

/** Trapezoid with parallel sides `sideA` and `sideB`, `height` apart. */
export const trapezoid = (sideA: number, sideB: number, height: number): number => ((sideA + sideB) / 2) * height;

export const circle = (diameter: number): number => (Math.PI * diameter * diameter) / 4;

/** Slot with round ends: a rectangle between two half circles of diameter `width`. */
export function slot(overallLength: number, width: number): number {
  if (overallLength < width) {
    throw new InputError(
      'overall_length',
      overallLength,
      `the width (${width}) or more`,
      'A slot with round ends is at least as long as it is wide',
    );
  }
  return (overallLength - width) * width + circle(width);
}

/** Ellipse with full axes `major` and `minor` (not half axes). */
export const ellipse = (major: number, minor: number): number => (Math.PI * major * minor) / 4;

/**
 * Metal that equal round holes take out. With a flange formed at the rim the hole is cut smaller by the flange's
 * width all round: that metal stays in the part.
 * @param diameter where the sheet ends flat: of the plain hole, or where the flange leaves the sheet
 * @param flange   width of the flange, measured along the metal
 */
export function holes(diameter: number, quantity: number, flange = 0): number {
  const cut = diameter - 2 * flange;
  if (cut < 0)
    throw new InputError(
      'flange',
      flange,
      `at most half the diameter (${Number((diameter / 2).toPrecision(5))})`,
      'The flange is formed of the metal inside the diameter',
    );
  return quantity * circle(cut);
}
