/** Moments and products of inertia, and parts that stand on both sides. */
import {
  AXES,
  bothSides,
  inertiaAbout,
  massProperties,
  plateInertia,
  rodInertia,
  SIDES,
  tubeInertia,
  type Axis,
  type Body,
  type Inertia,
} from '../core/mass';
import { alternatives, InputError, refuse } from '../core/input-error';
import {
  defineRowWise,
  defineWhole,
  number,
  numbers,
  optional,
  rows,
  texts,
  type Definition,
  type ResultShape,
} from './define';
import type { Cell, Matrix } from '../sheet/cell';
import { at, positions, rowCount, rowWeights, weights, type Column } from './mass-columns';
import { weight } from './parameters';

const MOST = 1e14;
const SIGNS =
  'Products are the sums themselves, Ixy = +Σ w·x·y; the off-diagonal elements of the inertia tensor are their negatives. Axes: x aft, y to the right, z up.';
const WEIGHT_UNITS = 'Weight times distance squared (lb·in²); divide by 386.09 in/s² for slug-type units.';

/** Bodies from columns; a row without a weight is skipped, one with a weight and no place is an error. */
function bodiesOf(weights: Column<number>, places: Column<readonly number[]>, own?: Column<readonly number[]>): Body[] {
  // Equal parts may share their own inertia; parts of different weights cannot.
  const count = rowCount(
    { weights, positions: places, own },
    weights.length > 1 ? ['positions', 'own'] : ['positions'],
  );
  const bodies: Body[] = [];
  for (let row = 0; row < count; row++) {
    const weight = at(weights, row);
    const place = at(places, row);
    if (weight === null || (place === null && (weight === 0 || weights.length < count))) continue;
    const [x, y, z] = place ?? refuse(`positions, row ${row + 1}`, null, 'three arms wherever there is a weight');
    const about = own ? at(own, row) : null;
    bodies.push({ weight, at: [x!, y!, z!], ...(about ? { own: inertiaOf(about) } : {}) });
  }
  return bodies;
}

const inertiaOf = ([xx = 0, yy = 0, zz = 0, xy = 0, xz = 0, yz = 0]: readonly number[]): Inertia => ({
  xx,
  yy,
  zz,
  xy,
  xz,
  yz,
});

const place = positions(
  'positions',
  'x, y and z of each part’s own centre of gravity: aft, to the right and up from the datum',
);

/** A weight and where it is. */
const PLACED = [
  { name: 'weight', dimension: 'weight' },
  { name: 'x', dimension: 'length' },
  { name: 'y', dimension: 'length' },
  { name: 'z', dimension: 'length' },
] as const;

const own: ResultShape = {
  kind: 'table',
  columns: [
    { name: 'Ixx', dimension: 'inertia' },
    { name: 'Iyy', dimension: 'inertia' },
    { name: 'Izz', dimension: 'inertia' },
  ],
  help: 'Ixx, Iyy and Izz of each part about its own centre of gravity: the `own` of TARE.INERTIA',
};
const size = (name: string, help: string) =>
  numbers(name, { help, dimension: 'length', limits: { min: 0, max: 12_000 } });
const axes = texts('axes', {
  help: 'axis that the length runs along: "x", "y" or "z"; one cell stands for all',
  of: '"x", "y" or "z"',
});
const plain = rowWeights('weights', 'weight of each part');

/** A row of Ixx, Iyy, Izz for each row of the columns; blank where all of them are, an error where one is missing. */
function ownRows(
  columns: Readonly<Record<string, Column<number>>>,
  axes: Column<string> | undefined,
  inertia: (sizes: readonly number[], axis: Axis) => Inertia,
): Matrix {
  const count = rowCount({ ...columns, axes });
  return Array.from({ length: count }, (_, row): Cell[] => {
    const cells = Object.entries(columns).map(([name, column]) => ({ name, value: at(column, row) }));
    if (cells[0]!.value === null) return ['', '', ''];
    const sizes = cells.map(
      ({ name, value }) => value ?? refuse(`${name}, row ${row + 1}`, null, 'a number wherever there is a weight'),
    );
    const { xx, yy, zz } = inertia(sizes, axes ? wordAt('axes', AXES, at(axes, row), row) : 'x');
    return [xx, yy, zz];
  });
}

/** The word of a column's row, in any case. */
const wordAt = <W extends string>(name: string, words: readonly W[], given: string | null, row: number): W =>
  words.find((word) => word === given?.toLowerCase()) ??
  refuse(`${name}, row ${row + 1}`, given, alternatives(words.map((word) => `"${word}"`)));

export const inertias: readonly Definition[] = [
  defineWhole({
    name: 'INERTIA',
    family: 'Mass',
    summary: 'Weight, centre of gravity, moments and products of inertia of a list of parts.',
    parameters: [
      weights,
      place,
      optional(
        rows('own', {
          help: 'each part’s own inertia: Ixx, Iyy, Izz, and if wanted Ixy, Ixz, Iyz; left out, parts count as points',
          dimension: 'inertia',
          limits: { min: -MOST, max: MOST },
          widths: [3, 6],
        }),
      ),
      optional(positions('about', 'point to take the inertia about: x, y, z; left out, the centre of gravity')),
    ],
    result: {
      kind: 'table',
      columns: [
        ...PLACED,
        ...['Ixx', 'Iyy', 'Izz', 'Ixy', 'Ixz', 'Iyz'].map((name) => ({ name, dimension: 'inertia' as const })),
      ],
      help: 'one row: weight, centre of gravity x, y, z, then Ixx, Iyy, Izz, Ixy, Ixz, Iyz',
    },
    formula: 'Ixx = Σ (own + w × (y² + z²)), Ixy = Σ (own + w × x × y), x, y, z from the centre of gravity',
    source: 'definition (parallel axis theorem)',
    limits: [
      SIGNS,
      WEIGHT_UNITS,
      'A part without own inertia counts as a point: the sum is too small by what it leaves out.',
    ],
    examples: [
      {
        args: [
          [[4], [0.3], [0.3]],
          [
            [0, 0, 0],
            [0, -1, 0],
            [0, 1, 0],
          ],
          [
            [4 / 3, 0, 4 / 3],
            [0, 0, 0],
            [0, 0, 0],
          ],
        ],
        gives: [[4.6, 0, 0, 0, 4 / 3 + 0.6, 0, 4 / 3 + 0.6, 0, 0, 0]],
        note: 'a bar of 2 across the span, a weight at each end, about its middle: 1.933',
      },
      {
        args: [
          [[2], [2]],
          [
            [1, 1, 0],
            [-1, -1, 0],
          ],
        ],
        gives: [[4, 0, 0, 0, 4, 4, 8, 4, 0, 0]],
        note: 'a positive product: weight where x and y have the same sign',
      },
    ],
    compute(weights, places, own, about) {
      if (about && about.length !== 1) throw new InputError('about', about, 'one row of x, y and z');
      const bodies = bodiesOf(weights, places, own);
      const all = massProperties(bodies) ?? refuse('weights', weights, 'weights whose sum is not 0');
      const point = about?.[0];
      const { xx, yy, zz, xy, xz, yz } = point ? inertiaAbout(bodies, [point[0]!, point[1]!, point[2]!]) : all.inertia;
      return [[all.weight, ...all.center, xx, yy, zz, xy, xz, yz]];
    },
  }),
  defineWhole({
    name: 'INERTIA.PLATE',
    family: 'Mass',
    summary: 'Own inertia of plates and blocks from their sizes along the axes.',
    parameters: [
      plain,
      size('along_x', 'size fore and aft'),
      size('along_y', 'size across'),
      size('along_z', 'size up and down; a thickness may be 0'),
    ],
    result: own,
    formula: 'Ixx = w × (along_y² + along_z²) / 12, and so on',
    source: 'definition (rectangular prism)',
    limits: [WEIGHT_UNITS, 'Edges along the axes.'],
    examples: [{ args: [12, 3, 4, 0], gives: [[16, 9, 25]] }],
    compute: (weights, along_x, along_y, along_z) =>
      ownRows({ weights, along_x, along_y, along_z }, undefined, ([w, x, y, z]) => plateInertia(w!, x!, y!, z!)),
  }),
  defineWhole({
    name: 'INERTIA.ROD',
    family: 'Mass',
    summary: 'Own inertia of round rods, and of anything long and thin.',
    parameters: [
      plain,
      size('lengths', 'length of each'),
      axes,
      optional(size('diameters', 'diameter; left out, a slender rod'), [0]),
    ],
    result: own,
    formula: 'across: w × (3 × diameter² / 4 + length²) / 12; along: w × diameter² / 8',
    source: 'definition (circular cylinder)',
    limits: [WEIGHT_UNITS],
    examples: [{ args: [4, 2, 'y'], gives: [[4 / 3, 0, 4 / 3]] }],
    compute: (weights, lengths, axes, diameters) =>
      ownRows({ weights, lengths, diameters }, axes, ([w, l, d], axis) => rodInertia(w!, l!, axis, d)),
  }),
  defineWhole({
    name: 'INERTIA.TUBE',
    family: 'Mass',
    summary: 'Own inertia of round tubes.',
    parameters: [
      plain,
      size('lengths', 'length of each'),
      size('outside_diameters', 'outside diameter'),
      size('walls', 'wall thickness'),
      axes,
    ],
    result: own,
    formula: 'along: w × (D² + d²) / 8; across: w × (3 × (D² + d²) / 4 + length²) / 12; d = D − 2 × wall',
    source: 'definition (hollow circular cylinder)',
    limits: [WEIGHT_UNITS],
    examples: [
      { args: [2, 24, 1, 0.25, 'x'], gives: [[0.3125, (2 * (0.9375 + 576)) / 12, (2 * (0.9375 + 576)) / 12]] },
    ],
    compute: (weights, lengths, outside_diameters, walls, axes) =>
      ownRows({ weights, lengths, outside_diameters, walls }, axes, ([w, l, d, t], axis) => {
        if (2 * t! > d! * (1 + 1e-12))
          throw new InputError('walls', walls, 'walls of half the outside diameter or less');
        return tubeInertia(w!, l!, d!, t!, axis);
      }),
  }),
  defineRowWise({
    name: 'INERTIA.PARALLEL',
    family: 'Mass',
    summary: 'Inertia about an axis beside the centre of gravity: the parallel axis theorem.',
    parameters: [
      number('inertia', {
        help: 'about the parallel axis through the centre of gravity',
        dimension: 'inertia',
        limits: { min: 0, max: MOST },
      }),
      weight(),
      number('distance', { help: 'between the two axes', dimension: 'length', limits: { min: -12_000, max: 12_000 } }),
    ],
    result: { kind: 'number', dimension: 'inertia', help: 'inertia about the axis at that distance' },
    formula: 'inertia + weight × distance²',
    source: 'definition (parallel axis theorem)',
    limits: [WEIGHT_UNITS],
    examples: [{ args: [0, 4.6, 0.5], gives: 1.15, note: 'a slender bar about an axis beside it, along its length' }],
    compute: (inertia, weight, distance) => inertia + weight * distance ** 2,
  }),
  defineWhole({
    name: 'MIRROR',
    family: 'Mass',
    summary: 'A list of parts of one side, completed with their mirror images on the other.',
    parameters: [
      weights,
      place,
      optional(
        texts('sides', {
          help: '"pair" or "single" a row; blank: a pair unless it stands on the plane of symmetry',
          of: '"pair" or "single"',
        }),
      ),
    ],
    result: {
      kind: 'table',
      columns: PLACED,
      help: 'weight, x, y, z a part: each part of a pair is followed by its image, y with the other sign',
    },
    formula: '(w, x, y, z) and (w, x, −y, z)',
    source: 'definition',
    limits: ['A part at y = 0 is on the plane of symmetry and single unless it is called a pair.'],
    examples: [
      {
        args: [
          [[2.5], [4]],
          [
            [30, 40, 1],
            [60, 0, 2],
          ],
        ],
        gives: [
          [2.5, 30, 40, 1],
          [2.5, 30, -40, 1],
          [4, 60, 0, 2],
        ],
      },
    ],
    compute(weights, places, sides) {
      const count = rowCount({ weights, positions: places, sides }, ['positions']);
      return Array.from({ length: count }, (_, row) => {
        const [body] = bodiesOf([at(weights, row)], [at(places, row)]);
        return body ? bothSides(body, sideAt(sides, row)) : [];
      })
        .flat()
        .map((one) => [one.weight, ...one.at]);
    },
  }),
];

function sideAt(sides: Column<string> | undefined, row: number): (typeof SIDES)[number] | undefined {
  const given = sides ? at(sides, row) : null;
  return given === null || given === '0' ? undefined : wordAt('sides', SIDES, given, row);
}
