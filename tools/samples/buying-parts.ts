/** The parts and joints of the tail that is bought in the sample. Invented: sizes and counts stand for nobody's airplane. */

export interface TailPart {
  readonly component: string;
  readonly part: string;
  readonly quantity: number;
  /** Sheet: thickness in inches. */
  readonly gauge?: number;
  readonly item?: string;
  /** Rectangle or bar that one is cut from, inches; a fitting has none. */
  readonly cut?: readonly [length: number, width?: number];
  /** Of the rectangle, what the flat pattern takes. */
  readonly fill?: number;
  /** Weight of one, lb, where it is no sheet. */
  readonly each?: number;
  readonly arm: number;
}

const sheet = (
  component: string,
  part: string,
  quantity: number,
  gauge: number,
  length: number,
  width: number,
  arm: number,
  fill = 0.92,
): TailPart => ({ component, part, quantity, gauge, cut: [length, width], arm, fill });

/** By gauge, so that the sheet's quick plans have their ranges in one piece. */
export const TAIL: readonly TailPart[] = [
  sheet('Elevator', 'Skins', 4, 0.016, 52, 15.5, 208, 0.97),
  sheet('Elevator', 'Ribs', 12, 0.016, 14, 4.25, 209),
  sheet('Rudder', 'Skins', 2, 0.016, 56, 19, 214, 0.95),
  sheet('Rudder', 'Ribs', 6, 0.016, 17.5, 4.5, 214),
  sheet('Stabilizer', 'Skins', 2, 0.02, 104, 34, 195, 0.98),
  sheet('Stabilizer', 'Nose ribs', 10, 0.02, 8.5, 5, 189),
  sheet('Stabilizer', 'Main ribs', 10, 0.02, 16.5, 5.5, 196),
  sheet('Fin', 'Skins', 2, 0.02, 54, 26, 203, 0.9),
  sheet('Fin', 'Ribs', 5, 0.02, 22, 5.5, 203),
  sheet('Stabilizer', 'Front spar', 1, 0.025, 104, 6.25, 191, 0.95),
  sheet('Stabilizer', 'Rear spar', 1, 0.025, 104, 6, 202, 0.95),
  sheet('Elevator', 'Spars', 2, 0.025, 51, 5.25, 205, 0.95),
  sheet('Fin', 'Front spar', 1, 0.025, 55, 6, 198),
  sheet('Rudder', 'Spar', 1, 0.025, 56, 5, 211, 0.95),
  sheet('Fin', 'Rear spar', 1, 0.032, 60, 7, 208),
  sheet('Stabilizer', 'Root doublers', 4, 0.032, 18, 5, 197),
  sheet('Stabilizer', 'Hinge brackets', 8, 0.05, 4.5, 3, 203, 0.8),
  { component: 'Elevator', part: 'Push rod', quantity: 2, item: 'Tube 3/4 x .049', cut: [41.5], each: 0.36, arm: 180 },
  { component: 'Elevator', part: 'Torque tube', quantity: 1, item: 'Tube 3/4 x .049', cut: [22], each: 0.19, arm: 205 },
  { component: 'Rudder', part: 'Horn tube', quantity: 1, item: 'Tube 3/4 x .049', cut: [9.25], each: 0.08, arm: 211 },
  {
    component: 'Elevator',
    part: 'Hinge halves',
    quantity: 4,
    item: 'Hinge 1-1/4 wide',
    cut: [16],
    each: 0.21,
    arm: 203,
  },
  { component: 'Rudder', part: 'Hinge halves', quantity: 3, item: 'Hinge 1-1/4 wide', cut: [12], each: 0.16, arm: 209 },
  { component: 'Stabilizer', part: 'Attach bolts', quantity: 22, item: 'Bolt AN4-7A', each: 0.021, arm: 194 },
  { component: 'Elevator', part: 'Rod ends', quantity: 2, item: 'Rod end 1/4', each: 0.07, arm: 181 },
];

export type TailJoint = readonly [
  joint: string,
  component: string,
  sheets: readonly [number, number],
  style: 'universal' | 'flush' | 'blind',
  diameter: number,
  run: number,
  pitch: number,
  edge: number,
  rows: number,
  repeats: number,
  arm: number,
];

export const TAIL_JOINTS: readonly TailJoint[] = [
  ['Skins to ribs', 'Stabilizer', [0.02, 0.02], 'universal', 3 / 32, 32, 1, 0.35, 1, 20, 195],
  ['Skins to spars', 'Stabilizer', [0.02, 0.025], 'universal', 3 / 32, 104, 1, 0.35, 1, 4, 196],
  ['Root doublers', 'Stabilizer', [0.025, 0.032], 'universal', 1 / 8, 18, 1, 0.375, 2, 4, 197],
  ['Hinge brackets', 'Stabilizer', [0.025, 0.05], 'universal', 1 / 8, 3, 0.75, 0.375, 2, 8, 203],
  ['Skins to ribs', 'Elevator', [0.016, 0.016], 'blind', 1 / 8, 13, 1.25, 0.5, 1, 24, 209],
  ['Skins to ribs', 'Fin', [0.02, 0.02], 'universal', 3 / 32, 22, 1, 0.35, 1, 10, 203],
  ['Skins to ribs', 'Rudder', [0.016, 0.016], 'blind', 1 / 8, 16, 1.25, 0.5, 1, 12, 214],
];
