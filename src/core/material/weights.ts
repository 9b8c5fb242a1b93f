/** Weight of stock and parts, lb, from lengths in inches and a density in lb/in³. All are volume × density. */
import { InputError } from '../input-error';

/** @param area flat pattern, in² */
export const sheetWeight = (area: number, thickness: number, density: number, quantity = 1): number =>
  area * thickness * density * quantity;

/** @param area cross-section, in² */
export const sectionWeight = (area: number, length: number, density: number, quantity = 1): number =>
  area * length * density * quantity;

/** @param volume in³ */
export const volumeWeight = (volume: number, density: number, quantity = 1): number => volume * density * quantity;

/** Weight of a round bar, rod or wire. */
export const barWeight = (diameter: number, length: number, density: number, quantity = 1): number =>
  ((Math.PI * diameter ** 2) / 4) * length * density * quantity;

/**
 * Weight of a round tube: π · wall · (outside_diameter − wall) · length · density.
 * @throws InputError where the wall leaves no bore.
 */
export function tubeWeight(
  outsideDiameter: number,
  wall: number,
  length: number,
  density: number,
  quantity = 1,
): number {
  if (!(wall < outsideDiameter / 2)) {
    throw new InputError(
      'wall',
      wall,
      'less than half of outside_diameter, so that there is a bore',
      'A solid rod is weighed by WEIGHT.BAR',
    );
  }
  return Math.PI * wall * (outsideDiameter - wall) * length * density * quantity;
}

const SQUARE_INCHES_IN_A_SQUARE_FOOT = 144;

/** Weight of sheet, lb/ft². */
export const weightPerArea = (thickness: number, density: number): number =>
  thickness * density * SQUARE_INCHES_IN_A_SQUARE_FOOT;
