/** Airfoil outlines: what a rib weighs is its area, what a skin weighs is its girth. */
import { DESIGNATION, nacaOutline, outlineFromCoordinates, type Outline } from '../core/geometry';
import { choice, custom, defineRowWise, defineWhole, integer, number, optional, rows, type Definition } from './define';
import { CellError, isBlank, type Cell } from '../sheet/cell';
import { length } from './parameters';

const points = rows('outline', { help: 'coordinates', widths: [2], limits: { min: -1e6, max: 1e6 } });

/** The cells without a name or heading ahead of the numbers, as coordinate files have it. */
function withoutHeading(cells: readonly (readonly Cell[])[]): Cell[][] {
  const first = cells.findIndex((row) => row.some((cell) => cell !== null && cell !== ''));
  const isHeading =
    first >= 0 && cells[first]!.some((cell) => typeof cell === 'string' && cell !== '' && Number.isNaN(Number(cell)));
  return cells.slice(isHeading ? first + 1 : 0).map((row) => [...row]);
}

/** A cell that holds 0012 as a number has lost its zeros. */
const fromName = (cell: string | number | boolean): Outline =>
  nacaOutline(
    typeof cell === 'number' && Number.isInteger(cell) && cell > 0 ? String(cell).padStart(4, '0') : String(cell),
  );

const outline = custom<Outline>('outline', {
  help: 'a NACA 4- or 5-digit section ("2412", "23012", "0012 closed"), or its coordinates: a column of x and a column of y on a chord of 1, as one loop or as upper and then lower surface from the leading edge',
  takes: `${DESIGNATION}, or two columns of x and y on a chord of 1`,
  read: fromName,
  readBlock(cells, units) {
    const [only] = cells.flat();
    return cells.length === 1 && cells[0]?.length === 1 && !isBlank(only) && !(only instanceof CellError)
      ? fromName(only)
      : outlineFromCoordinates(points.readBlock!(withoutHeading(cells), units));
  },
});

const fraction = (name: string, help: string) =>
  number(name, { help, of: 'a fraction of chord', limits: { min: 0, max: 1 } });

const chord = length('chord', 'length of the chord');
const from = optional(
  fraction('from', 'where the part begins, as a fraction of chord from the leading edge: 0 when omitted'),
  0,
);
const to = optional(
  fraction('to', 'where the part ends, as a fraction of chord from the leading edge: 1 when omitted'),
  1,
);

const source =
  'NACA Report 460 (4-digit sections), 537 and 610 (5-digit), constructed as in Report 824; constants of the reflexed mean lines as in NASA TM 4741';

const limits = [
  'A NACA section has the thin open trailing edge that the published equation leaves (0.25 % of chord on a 12 % section); "2412 closed" closes it with the x⁴ coefficient −0.1036 (common practice, no source).',
  'Coordinates are joined by one smooth curve through all points; an outline that crosses itself is refused.',
  'Five-digit mean lines are those of the reports: second and third digits 10, 20, 30, 40, 50, and reflexed 21, 31, 41, 51. For every other section give its coordinates.',
  'from, to and at are measured along the chord; cuts are at right angles to it.',
];

export const airfoils: readonly Definition[] = [
  defineRowWise({
    name: 'AIRFOIL.AREA',
    family: 'Airfoils',
    summary: 'Area inside an airfoil outline, whole or between two stations of the chord.',
    parameters: [outline, chord, from, to],
    result: { kind: 'number', dimension: 'area', help: 'area of the rib blank without flanges' },
    formula: 'chord² × ∫ (upper − lower) dx, on a chord of 1',
    source,
    limits: [
      ...limits,
      'It is the area inside the outer line: a rib is smaller by the skin thickness, larger by its flanges, and lighter by its holes (AREA.HOLES).',
    ],
    examples: [
      { args: ['2412', 48], gives: 189.57794, within: 1e-5 },
      { args: ['23012', 54, 0.05, 0.6], gives: 173.60313, within: 1e-5, note: 'from 5 to 60 % of chord' },
    ],
    compute: (section, c, f, t) => section.area(f, t) * c * c,
  }),
  defineRowWise({
    name: 'AIRFOIL.GIRTH',
    family: 'Airfoils',
    summary: 'Length of skin around an airfoil, over both surfaces or one, whole or between two stations of the chord.',
    parameters: [
      outline,
      chord,
      from,
      to,
      optional(
        choice('surface', {
          help: 'which surface: "both" (the default), "upper" or "lower"',
          choices: ['both', 'upper', 'lower'],
        }),
        'both',
      ),
    ],
    result: { kind: 'number', dimension: 'length', help: 'developed width of the skin' },
    formula: 'chord × ∫ √(dx² + dy²), on a chord of 1',
    source,
    limits: [
      ...limits,
      'It is the outside length: a skin laid over ribs is shorter by about π × its thickness. Laps and the base of an open trailing edge are not in it.',
    ],
    examples: [
      { args: ['2412', 48], gives: 97.98728, within: 1e-5 },
      { args: ['2412', 48, 0, 0.3], gives: 30.46255, within: 1e-5, note: 'a nose skin back to the spar at 30 %' },
      { args: ['2412', 48, 0.3, 1, 'upper'], gives: 33.87112, within: 1e-5, note: 'the upper skin aft of it' },
    ],
    compute: (section, c, f, t, surface) => section.girth(f, t, surface) * c,
  }),
  defineRowWise({
    name: 'AIRFOIL.HEIGHT',
    family: 'Airfoils',
    summary: 'Depth of an airfoil at a station of the chord: how tall a spar is there.',
    parameters: [outline, chord, fraction('at', 'station, as a fraction of chord from the leading edge')],
    result: { kind: 'number', dimension: 'length', help: 'distance between the surfaces at right angles to the chord' },
    formula: 'chord × (upper − lower) at the station',
    source,
    limits: [...limits, 'It is the outside depth: a spar is lower by two skin thicknesses.'],
    examples: [
      { args: ['2412', 48, 0.3], gives: 5.76341, within: 1e-5, note: 'main spar' },
      { args: ['2412', 48, [[0.3], [0.7]]], gives: [[5.76341], [3.51928]], within: 1e-5 },
    ],
    compute: (section, c, at) => section.height(at) * c,
  }),
  defineWhole({
    name: 'AIRFOIL.POINTS',
    family: 'Airfoils',
    summary: 'Coordinates of an airfoil at full size, to draw a rib or to check it.',
    parameters: [
      outline,
      chord,
      optional(integer('count', { help: 'points on each surface', of: 'points', limits: { min: 3, max: 500 } }), 21),
      optional(
        choice('order', {
          help: '"loop" (the default): from the trailing edge over the top and back below; "lists": upper, then lower, each from the leading edge',
          choices: ['loop', 'lists'],
        }),
        'loop',
      ),
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'x', dimension: 'length' },
        { name: 'y', dimension: 'length' },
      ],
      help: 'x along the chord from the leading edge, y above it',
    },
    source,
    limits,
    examples: [
      {
        args: ['0012 closed', 10, 3],
        gives: [
          [10, 0],
          [5, 0.528615],
          [0, 0],
          [5, -0.528615],
          [10, 0],
        ],
        within: 1e-6,
      },
    ],
    compute(section, c, count, order) {
      const upper = section.points('upper', count);
      const lower = section.points('lower', count);
      const listed = order === 'loop' ? [...upper.reverse(), ...lower.slice(1)] : [...upper, ...lower];
      return listed.map(([x, y]) => [x * c, y * c]);
    },
  }),
];
