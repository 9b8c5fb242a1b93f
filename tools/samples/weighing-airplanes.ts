/** The two airplanes of weighing.xlsx. Invented: no figure belongs to any airplane that exists. */
import type { NewAirplane, NewSurface } from '../../src/project';

export interface SampleAirplane extends NewAirplane {
  readonly facts: {
    readonly airplane: string;
    readonly date: string;
    readonly level: string;
    readonly scales: string;
    readonly lemac: number;
    readonly mac: number;
  };
  readonly points: readonly (readonly [reading: number, tare: number, arm: number])[];
  readonly corrections: readonly (readonly [name: string, weight: number, arm: number])[];
  /** What the corners of the envelope are, in their order. */
  readonly corners: readonly string[];
  readonly limitsFrom: string;
  readonly now: readonly number[];
  readonly cases: readonly (readonly [name: string, loads: readonly number[], note?: string])[];
}

export const TAILWHEEL: SampleAirplane = {
  name: 'tailwheel',
  gear: 'tailwheel',
  facts: {
    airplane: 'Corncrake, invented two-seater',
    date: '2026-09-19',
    level: 'Door sill, spirit level, tail on a stand',
    scales: 'Three platform scales, checked with 50 lb before',
    lemac: 60,
    mac: 54,
  },
  points: [
    [374.5, 4, 58.25],
    [379, 4, 58.25],
    [61.5, 15.5, 243.5],
  ],
  corrections: [
    ['Fuel left in the tanks, 2 gal', -12, 69],
    ['Ferry cushion', -3.5, 78],
    ['Propeller spinner, not fitted yet', 2.8, -6],
  ],
  stations: [
    { name: 'Pilot', arm: 78, min: 110, max: 250 },
    { name: 'Passenger', arm: 78, min: 0, max: 250 },
    { name: 'Baggage', arm: 118, min: 0, max: 80 },
    { name: 'Left tank', arm: 69, min: 9, max: 72, fuel: true },
    { name: 'Right tank', arm: 69, min: 9, max: 72, fuel: true },
  ],
  envelope: [
    { arm: 66.5, weight: 800 },
    { arm: 66.5, weight: 1050 },
    { arm: 69, weight: 1320 },
    { arm: 74.5, weight: 1320 },
    { arm: 74.5, weight: 800 },
  ],
  corners: [
    'lightest, forward',
    'forward limit begins to slope',
    'highest weight, forward',
    'highest weight, aft',
    'lightest, aft',
  ],
  limitsFrom: 'Designer’s sheet 12, limits of the Corncrake (invented)',
  now: [172, 0, 20, 54, 54],
  cases: [
    ['Solo, full tanks', [172, 0, 0, 72, 72]],
    ['Solo and light, on reserve', [115, 0, 0, 9, 9], 'the lightest that it flies'],
    ['Two, half tanks', [172, 145, 15, 36, 36]],
    ['Two and baggage, full tanks', [172, 165, 60.2, 72, 72], 'on the highest weight: an edge counts as inside'],
    ['Two with the locker full', [195, 195, 76, 36, 36], 'watch the burn'],
    ['Two heavy, full tanks', [235, 220, 40, 72, 72], 'over the highest weight'],
  ],
};

export const NOSEWHEEL: SampleAirplane = {
  name: 'nosewheel',
  gear: 'nosewheel',
  facts: {
    airplane: 'Whinchat, invented tandem two-seater',
    date: '2026-10-03',
    level: 'Upper longeron, digital level to 0.1°',
    scales: 'Three platform scales, readings taken twice',
    lemac: 36.5,
    mac: 56,
  },
  points: [
    [397, 3, 62.5],
    [401.5, 3, 62.5],
    [236.5, 3, 4.25],
  ],
  corrections: [
    ['Tool roll in the rear locker', -6.5, 104],
    ['Wheel fairings, not fitted yet', 9, 58],
  ],
  stations: [
    { name: 'Front seat', arm: 52, min: 110, max: 250 },
    { name: 'Rear seat', arm: 82, min: 0, max: 230 },
    { name: 'Locker', arm: 104, min: 0, max: 60 },
    { name: 'Tank', arm: 46, min: 24, max: 150, fuel: true },
  ],
  envelope: [
    { arm: 47.5, weight: 1000 },
    { arm: 47.5, weight: 1250 },
    { arm: 51, weight: 1600 },
    { arm: 55.5, weight: 1600 },
    { arm: 55.5, weight: 1000 },
  ],
  corners: [
    'lightest, forward',
    'forward limit begins to slope',
    'highest weight, forward',
    'highest weight, aft',
    'lightest, aft',
  ],
  limitsFrom: 'Designer’s loading sheet of the Whinchat (invented)',
  now: [180, 165, 0, 96],
  cases: [
    ['Solo, full tank', [180, 0, 0, 150]],
    ['Solo, on reserve', [180, 0, 0, 24]],
    ['Two, half tank', [180, 165, 0, 75]],
    ['Two and locker, full tank', [180, 165, 40, 150]],
    ['Heavy in front, alone, full tank', [250, 0, 0, 150], 'forward of the limit until some fuel has burnt'],
    ['Two heavy, locker full, low tank', [200, 220, 60, 30], 'aft of the limit'],
  ],
};

/** Three surfaces on their hinges: lb on a scale under the trailing edge, in from the hinge line. */
export const SURFACES: readonly NewSurface[] = [
  {
    name: 'Left aileron',
    hinge: 98.34,
    raising: 0.62,
    lowering: 0.54,
    scaleArm: 9.5,
    ahead: 3.2,
    note: 'painted, without its counterweight',
  },
  { name: 'Elevator', hinge: 214.5, raising: 0.9, lowering: 0.8, scaleArm: 10.25, ahead: 6.5 },
  {
    name: 'Rudder',
    hinge: 221,
    raising: -0.05,
    lowering: -0.11,
    scaleArm: 12,
    ahead: 5,
    note: 'nose-heavy: none needed',
  },
];
