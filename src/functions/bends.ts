/** Bends in sheet: allowance, setback, least radius. */
import {
  angleWidth,
  developedWidth,
  hatWidth,
  webWidth,
  bendAllowance,
  bendDeduction,
  CHARTS,
  checkBend,
  minimumBendRadius,
  setback,
  spreadText,
  type ShownUnit,
} from '../core/geometry';
import { InputError, refuse } from '../core/input-error';
import {
  defineRowWise,
  defineWhole,
  numbers,
  optional,
  unitsParameter,
  choice,
  DIMENSIONS,
  text,
  type Definition,
  type UnitSystem,
} from './define';
import { inOwnUnit, angle, length, lengthOrZero, thickness } from './parameters';

// Developed widths of bent sections from their outside dimensions.

const flatWidth = { kind: 'number', dimension: 'length', help: 'width of the flat strip' } as const;
const flatSource =
  'FAA-H-8083-31, chapter 4, flat pattern layout (mold line dimensions less setbacks, plus bend allowances)';
const commonRadius = lengthOrZero('radius', 'inside radius of the bends');

const flatLimits = [
  'Dimensions are outside ones, to the mold lines: where the outer faces would meet if the corner were sharp.',
  'Every side must hold the setback of its bends; whether the metal takes the radius is for BEND.MINRADIUS or BEND.CHECK.',
  'A curved flange keeps its area: shrinking and stretching move metal, not mass. Take the width here times the length of the flat blank.',
  'The bend allowance is empirical; the width is good to a few thousandths a bend, the weight to about 0.2 %.',
];

const LONGEST_PROFILE = 200;

const flatPatterns: readonly Definition[] = [
  defineRowWise({
    name: 'FLAT.ANGLE',
    family: 'Bends',
    summary: 'Flat width of an angle from its two outside legs.',
    parameters: [
      length('leg_a', 'one leg, outside'),
      length('leg_b', 'other leg, outside'),
      thickness(),
      commonRadius,
      optional(angle('angle', 'bend angle in degrees, turned from flat: 90 when omitted'), 90),
      unitsParameter,
    ],
    result: flatWidth,
    formula: 'leg_a + leg_b − 2 × setback + bend allowance',
    source: flatSource,
    limits: flatLimits,
    examples: [
      { args: [1, 1, 0.04, 0.16], gives: 1.879072 },
      {
        args: [0.75, 0.75, 0.032, 0.125, 60],
        gives: 1.46441,
        within: 1e-5,
        note: 'an open angle: turned 60 from flat',
      },
    ],
    compute: (a, b, t, r, turned, units) =>
      inOwnUnit(units, 1, (unit) => angleWidth(a * unit, b * unit, t * unit, r * unit, turned)),
  }),
  defineRowWise({
    name: 'FLAT.CHANNEL',
    family: 'Bends',
    summary: 'Flat width of a channel: a web with a leg turned at each edge, both the same way.',
    parameters: [
      length('web', 'web, outside to outside of the legs'),
      length('leg_a', 'one leg, outside of the web to its edge'),
      length('leg_b', 'other leg, outside of the web to its edge'),
      thickness(),
      commonRadius,
      unitsParameter,
    ],
    result: flatWidth,
    formula: 'web + leg_a + leg_b − 4 × setback + 2 × bend allowance',
    source: flatSource,
    limits: flatLimits,
    examples: [
      {
        args: [2, 1, 1, 0.04, 0.16],
        gives: 3.758,
        within: 5e-4,
        source: 'FAA-H-8083-31, U-channel example (prints 3.74, its allowance being cut off at .27)',
      },
    ],
    compute: (w, a, b, t, r, units) =>
      inOwnUnit(units, 1, (unit) => webWidth(w * unit, a * unit, b * unit, t * unit, r * unit)),
  }),
  defineRowWise({
    name: 'FLAT.ZEE',
    family: 'Bends',
    summary: 'Flat width of a zee: a web with a leg turned at each edge, one each way.',
    parameters: [
      length('web', 'depth over both legs, outside to outside'),
      length('leg_a', 'one leg, from the far face of the web to its edge'),
      length('leg_b', 'other leg, from the far face of the web to its edge'),
      thickness(),
      commonRadius,
      unitsParameter,
    ],
    result: flatWidth,
    formula: 'web + leg_a + leg_b − 4 × setback + 2 × bend allowance',
    source: flatSource,
    limits: flatLimits,
    examples: [{ args: [1.5, 0.625, 0.625, 0.032, 0.125], gives: 2.559103, within: 1e-6 }],
    compute: (w, a, b, t, r, units) =>
      inOwnUnit(units, 1, (unit) => webWidth(w * unit, a * unit, b * unit, t * unit, r * unit)),
  }),
  defineRowWise({
    name: 'FLAT.HAT',
    family: 'Bends',
    summary: 'Flat width of a hat section: crown, two upright sides, two feet.',
    parameters: [
      length('crown', 'width of the crown, outside to outside of the sides'),
      length('side', 'depth of the hat, top of the crown to underside of the feet'),
      length('foot', 'each foot, from the inner face of the side to its edge'),
      thickness(),
      commonRadius,
      unitsParameter,
    ],
    result: flatWidth,
    formula: 'crown + 2 × side + 2 × foot − 8 × setback + 4 × bend allowance',
    source: flatSource,
    limits: [...flatLimits, 'The sides are at right angles to the crown; for leaning sides use FLAT.PROFILE.'],
    examples: [{ args: [1, 0.75, 0.625, 0.025, 0.125], gives: 3.40455, within: 1e-6 }],
    compute: (c, s, f, t, r, units) =>
      inOwnUnit(units, 1, (unit) => hatWidth(c * unit, s * unit, f * unit, t * unit, r * unit)),
  }),
  defineWhole({
    name: 'FLAT.PROFILE',
    family: 'Bends',
    summary: 'Flat width of any section bent from sheet, from its outside dimensions and bend angles in order.',
    parameters: [
      numbers('mold_line_lengths', {
        help: 'outside dimensions of the sides in order, mold point to mold point',
        dimension: 'length',
        limits: { above: 0, max: 12_000 },
      }),
      numbers('bend_angles', {
        help: 'bend angles in order, one fewer than the sides, in degrees turned from flat, whichever way',
        of: 'degrees',
        limits: { above: -180, below: 180 },
      }),
      thickness(),
      commonRadius,
      unitsParameter,
    ],
    result: flatWidth,
    formula: 'Σ lengths − 2 × Σ setbacks + Σ bend allowances',
    source: flatSource,
    limits: [
      ...flatLimits,
      'One inside radius for all bends. A hem turned right back (180°) has no mold point: add its metal by hand.',
    ],
    examples: [
      { args: [[[1], [2], [1]], [[90], [90]], 0.04, 0.16], gives: 3.758144, note: 'the channel of FLAT.CHANNEL' },
      {
        args: [[[0.5, 1, 0.5]], [[45, -45]], 0.032, 0.125],
        gives: 1.95843,
        within: 1e-5,
        note: 'a joggle-like step, one bend each way',
      },
    ],
    compute: (lengths, angles, t, r, units) => {
      const sides = filled('mold_line_lengths', lengths);
      const turns = filled('bend_angles', angles);
      if (sides.length > LONGEST_PROFILE)
        throw new InputError('mold_line_lengths', sides.length, `up to ${LONGEST_PROFILE} sides`);
      if (turns.length !== sides.length - 1) {
        throw new InputError(
          'bend_angles',
          turns.length,
          `${Math.max(0, sides.length - 1)} angles, one fewer than the sides`,
        );
      }
      return inOwnUnit(units, 1, (unit) =>
        developedWidth(
          sides.map((_, i) => `mold_line_lengths, row ${i + 1}`),
          sides.map((side) => side * unit),
          turns.map(Math.abs),
          t * unit,
          r * unit,
        ),
      );
    },
  }),
];

/** A column without the blanks behind its last number; a blank between numbers is refused. */
function filled(parameter: string, values: readonly (number | null)[]): number[] {
  const end = values.findLastIndex((value) => value !== null) + 1;
  return values
    .slice(0, end)
    .map((value, i) => value ?? refuse(`${parameter}, row ${i + 1}`, null, 'a number, with no blank between two'));
}

const HANDBOOK = 'FAA-H-8083-31, chapter 4 (layout and forming); AC 43.13-1B, chapter 4';

const radius = lengthOrZero('radius', 'inside radius of the bend');
const bendAngle = optional(angle('angle', 'bend angle in degrees, turned from flat: 90 when omitted'), 90);
const material = text('material', {
  help: 'alloy with its temper, such as "2024-T3" or "6061-T6"',
  of: 'an alloy with its temper, such as "2024-T3"',
});
const chart = optional(
  choice('chart', {
    help: 'which chart: "advisory", "association", "handbook", "practice" or "extract"; when omitted, the first of these that lists the metal',
    choices: CHARTS,
  }),
);

const { factor, inch, metric } = DIMENSIONS.length;
const SHOWN: Readonly<Record<UnitSystem, ShownUnit>> = {
  'in-lb': { factor: 1, sign: inch },
  'mm-kg': { factor, sign: metric },
};

const CHARTS_DISAGREE = [
  'The charts disagree. For 2024-T3 of .040 in: AC 43.13-1B table 4-6 gives 2 to 4 thicknesses at .032 and 3 to 5 at .064, so up to .20 in (used); the Aluminum Association 3 to 4 thicknesses, .12 to .16 in; FAA-H-8083-31 .16 in.',
  'For 6061-T6 of .032 in they give up to .048 in (AC 43.13-1B, used), .032 in (Aluminum Association), .06 in (FAA-H-8083-31) and .12 in (an extract of BAC5300). BEND.SPREAD says this for your sheet.',
  "AC 43.13-1B table 4-6 and the Aluminum Association's table were seen in copies (its rows of 7075 not); the chart of FAA-H-8083-31 is from memory, verify; the extract is second-hand; the steels are common practice, no source. Bend a test piece of the same sheet; the radius of every other function here is yours to type.",
  'The charts hold for cold bends across the grain, with smooth edges; they know no tool and no heat.',
];

export const bends: readonly Definition[] = [
  defineRowWise({
    name: 'BEND.ALLOWANCE',
    family: 'Bends',
    summary: 'Length of metal that a bend uses, measured along its neutral line.',
    parameters: [radius, thickness(), bendAngle],
    result: { kind: 'number', dimension: 'length', help: 'length of metal between the tangent lines' },
    formula: '(0.01743 × radius + 0.0078 × thickness) × angle',
    source: HANDBOOK,
    limits: [
      'An empirical relation, good to a few thousandths; tools and metal vary. It puts the neutral line .445 thickness from the inside.',
    ],
    examples: [
      { args: [0.16, 0.04], gives: 0.279072, source: 'FAA-H-8083-31, U-channel example (prints .27)' },
      { args: [0.125, 0.032, 45], gives: 0.10927575 },
    ],
    compute: bendAllowance,
  }),
  defineRowWise({
    name: 'BEND.SETBACK',
    family: 'Bends',
    summary: 'Distance from the tangent line of a bend to the mold point, where the outer faces would meet.',
    parameters: [radius, thickness(), bendAngle],
    result: { kind: 'number', dimension: 'length', help: 'setback' },
    formula: 'tan(angle / 2) × (radius + thickness)',
    source: HANDBOOK,
    examples: [
      { args: [0.16, 0.04], gives: 0.2, source: 'FAA-H-8083-31, U-channel example' },
      { args: [0.25, 0.064, 45], gives: 0.13, within: 0.0005, source: 'AC 43.13-1B' },
    ],
    compute: setback,
  }),
  defineRowWise({
    name: 'BEND.DEDUCTION',
    family: 'Bends',
    summary: 'What one bend takes off the sum of the outside dimensions to give the flat width.',
    parameters: [radius, thickness(), bendAngle],
    result: { kind: 'number', dimension: 'length', help: 'length to take off for each bend' },
    formula: '2 × setback − bend allowance',
    source: HANDBOOK,
    examples: [{ args: [0.16, 0.04], gives: 0.120928 }],
    compute: bendDeduction,
  }),
  defineRowWise({
    name: 'BEND.MINRADIUS',
    family: 'Bends',
    summary: 'Least inside radius to which a sheet is bent cold, by published charts.',
    parameters: [material, thickness(), chart],
    result: {
      kind: 'number',
      dimension: 'length',
      help: 'least inside radius; BEND.SPREAD says how far the charts are apart',
    },
    source:
      'AC 43.13-1B table 4-6; Aluminum Association (Aluminum Design Manual, January 2005, part VII table 3-1); FAA-H-8083-31 chapter 4 (from memory, verify); an extract of BAC5300 (second-hand)',
    limits: CHARTS_DISAGREE,
    examples: [
      { args: ['2024-T3', 0.04], gives: 0.2, source: 'AC 43.13-1B table 4-6' },
      { args: ['2024-T3', 0.04, 'handbook'], gives: 0.16, source: 'FAA-H-8083-31, U-channel example' },
      { args: ['6061-T6', 0.032], gives: 0.048, source: 'AC 43.13-1B table 4-6' },
    ],
    compute: (metal, t, name) => minimumBendRadius(metal, t, name).radius,
  }),
  defineRowWise({
    name: 'BEND.SPREAD',
    family: 'Bends',
    summary: 'How far the published charts of bend radii are apart for a sheet, in words.',
    parameters: [material, thickness(), unitsParameter],
    result: { kind: 'text', help: 'the smallest and the greatest least radius with their charts' },
    source: 'charts of BEND.MINRADIUS',
    limits: CHARTS_DISAGREE,
    examples: [
      {
        args: ['6061-T6', 0.032],
        gives:
          'the charts go from 0.032 in (Aluminum Association, minimum radii for 90° cold forming) to 0.12 in (extract of BAC5300, second-hand): bend a test piece',
      },
    ],
    compute: (metal, t, units) => spreadText(metal, t, SHOWN[units]),
  }),
  defineRowWise({
    name: 'BEND.CHECK',
    family: 'Bends',
    summary: 'Looks a bend over: "ok", or what is wrong with it and by which rule.',
    parameters: [
      length('leg', 'shorter side beside the bend, by its outside dimension'),
      thickness(),
      radius,
      material,
      bendAngle,
      unitsParameter,
    ],
    result: { kind: 'text', help: '"ok", or the findings with their rules' },
    source: `${HANDBOOK}; charts of BEND.MINRADIUS`,
    limits: [
      "A radius within AC 43.13-1B table 4-6's range but under its upper end is a finding that says so: the lower end asks for the best tools and metal. Bend a test piece before you go below the minimum of BEND.MINRADIUS.",
      'It knows a side with one bend: with a bend at both ends the side takes two setbacks, which the FLAT functions check.',
      ...CHARTS_DISAGREE,
    ],
    examples: [
      { args: [1, 0.04, 0.2, '2024-T3'], gives: 'ok' },
      {
        args: [1, 0.04, 0.16, '2024-T3'],
        gives:
          'radius 0.16 in is in the range 0.12 in to 0.2 in of AC 43.13-1B table 4-6, under its upper end; the charts go from 0.16 in (Aluminum Association, minimum radii for 90° cold forming) to 0.2 in (AC 43.13-1B table 4-6, upper end of the range): bend a test piece',
      },
      {
        args: [0.15, 0.04, 0.09, '2024-T3'],
        gives:
          'radius 0.09 in is under the minimum 0.2 in (AC 43.13-1B table 4-6, upper end of the range); the charts go from 0.16 in (Aluminum Association, minimum radii for 90° cold forming) to 0.2 in (AC 43.13-1B table 4-6, upper end of the range): bend a test piece',
      },
    ],
    compute: (leg, t, r, metal, turned, units) =>
      checkBend({ leg, thickness: t, radius: r, angle: turned, material: metal }, SHOWN[units]),
  }),
  ...flatPatterns,
];
