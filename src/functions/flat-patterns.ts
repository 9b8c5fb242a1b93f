/** Developed widths of bent sections from their outside dimensions. */
import { angleWidth, developedWidth, hatWidth, webWidth } from '../core/geometry';
import { InputError } from '../core/input-error';
import { defineRowWise, defineWhole, numbers, optional, unitsParameter, type Definition } from './define';
import { inOwnUnit } from './own-unit';
import { angle, length, lengthOrZero, thickness } from './parameters';

const result = { kind: 'number', dimension: 'length', help: 'width of the flat strip' } as const;
const source =
  'FAA-H-8083-31, chapter 4, flat pattern layout (mold line dimensions less setbacks, plus bend allowances)';
const radius = lengthOrZero('radius', 'inside radius of the bends');

const limits = [
  'Dimensions are outside ones, to the mold lines: where the outer faces would meet if the corner were sharp.',
  'Every side must hold the setback of its bends; whether the metal takes the radius is for BEND.MINRADIUS or BEND.CHECK.',
  'A curved flange keeps its area: shrinking and stretching move metal, not mass. Take the width here times the length of the flat blank.',
  'The bend allowance is empirical; the width is good to a few thousandths a bend, the weight to about 0.2 %.',
];

const LONGEST_PROFILE = 200;

export const flatPatterns: readonly Definition[] = [
  defineRowWise({
    name: 'FLAT.ANGLE',
    family: 'Bends',
    summary: 'Flat width of an angle from its two outside legs.',
    parameters: [
      length('leg_a', 'one leg, outside'),
      length('leg_b', 'other leg, outside'),
      thickness(),
      radius,
      optional(angle('angle', 'bend angle in degrees, turned from flat: 90 when omitted'), 90),
      unitsParameter,
    ],
    result,
    formula: 'leg_a + leg_b − 2 × setback + bend allowance',
    source,
    limits,
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
      radius,
      unitsParameter,
    ],
    result,
    formula: 'web + leg_a + leg_b − 4 × setback + 2 × bend allowance',
    source,
    limits,
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
      radius,
      unitsParameter,
    ],
    result,
    formula: 'web + leg_a + leg_b − 4 × setback + 2 × bend allowance',
    source,
    limits,
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
      radius,
      unitsParameter,
    ],
    result,
    formula: 'crown + 2 × side + 2 × foot − 8 × setback + 4 × bend allowance',
    source,
    limits: [...limits, 'The sides are at right angles to the crown; for leaning sides use FLAT.PROFILE.'],
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
      radius,
      unitsParameter,
    ],
    result,
    formula: 'Σ lengths − 2 × Σ setbacks + Σ bend allowances',
    source,
    limits: [
      ...limits,
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
  return values.slice(0, end).map((value, i) => {
    if (value === null) throw new InputError(`${parameter}, row ${i + 1}`, null, 'a number, with no blank between two');
    return value;
  });
}
