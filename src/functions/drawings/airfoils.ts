/** Drawings of airfoil outlines: NACA 2412 stands for any. Numbers are those behind the outline: chord, from, to or at. */
import { nacaOutline, type Outline, type Point } from '../../core/geometry';
import { below, leader, line, named, or, part, type Draw, type Figure, type Span } from './figure';

const SECTION = '2412';
const POINTS = 61;

/** The surfaces between two stations, on a chord of 1. */
function between(outline: Outline, from: number, to: number): { upper: Point[]; lower: Point[] } {
  const side = (which: 'upper' | 'lower'): Point[] => {
    const inner = outline.points(which, POINTS).filter(([x]) => x > from && x < to);
    return [[from, from === 0 ? 0 : outline.ordinate(which, from)], ...inner, [to, outline.ordinate(which, to)]];
  };
  return { upper: side('upper'), lower: side('lower') };
}

const loop = ({ upper, lower }: { upper: Point[]; lower: Point[] }): Point[] => [...[...upper].reverse(), ...lower];

/** Chord and stations below the outline, the nearer station on the inner line. */
const stations = (
  chord: number | undefined,
  from: number | undefined,
  to: number | undefined,
  shown: { from: number; to: number },
): Span[] => [
  below(from === undefined ? 'from × chord' : `from = ${from}`, [0, 0], [shown.from, 0], 1),
  below(to === undefined ? 'to × chord' : `to = ${to}`, [0, 0], [shown.to, 0], 2),
  below(named('chord', chord), [0, 0], [1, 0], 3),
];

/** A part that can be seen: that which is given, or one with both ends inside the chord. */
const partOf = (from: number | undefined, to: number | undefined): { from: number; to: number } => {
  const given = { from: or(from, to === undefined ? 0.15 : 0), to: or(to, from === undefined ? 0.65 : 1) };
  return given.from < given.to ? given : { from: 0.15, to: 0.65 };
};

const area: Draw = ([chord, from, to]): Figure => {
  const outline = nacaOutline(SECTION);
  const shown = partOf(from, to);
  return {
    title: 'Area of part of an airfoil',
    description:
      'An airfoil outline. The part between the stations from and to, measured along the chord from the leading edge, is tinted.',
    strokes: [
      line('line', ...loop(between(outline, 0, 1))),
      part(loop(between(outline, shown.from, shown.to))),
      line('hidden', [0, 0], [1, 0]),
    ],
    notes: stations(chord, from, to, shown),
  };
};

const girth: Draw = ([chord, from, to]): Figure => {
  const outline = nacaOutline(SECTION);
  const shown = partOf(from, to);
  const { upper, lower } = between(outline, shown.from, shown.to);
  const middle = (shown.from + shown.to) / 2;
  return {
    title: 'Girth of part of an airfoil',
    description:
      'An airfoil outline. The skin between the stations from and to is drawn heavy on the upper and the lower surface.',
    strokes: [
      line('line', ...loop(between(outline, 0, 1))),
      line('heavy', ...upper),
      line('heavy', ...lower),
      line('hidden', [0, 0], [1, 0]),
    ],
    notes: [
      leader('upper surface', [middle, outline.ordinate('upper', middle)], [22, 20]),
      ...stations(chord, from, to, shown),
    ],
  };
};

const height: Draw = ([chord, at]): Figure => {
  const outline = nacaOutline(SECTION);
  const place = or(at, 0.3);
  const [top, bottom]: [Point, Point] = [
    [place, outline.ordinate('upper', place)],
    [place, outline.ordinate('lower', place)],
  ];
  return {
    title: 'Depth of an airfoil',
    description:
      'An airfoil outline with the distance between its surfaces at a station, at a right angle to the chord.',
    strokes: [part(loop(between(outline, 0, 1))), line('hidden', [0, 0], [1, 0]), line('heavy', bottom, top)],
    notes: [
      leader('height', top, [22, 20]),
      below(at === undefined ? 'at × chord' : `at = ${at}`, [0, 0], [place, 0], 1),
      below(named('chord', chord), [0, 0], [1, 0], 2),
    ],
  };
};

const points: Draw = ([chord, count]): Figure => {
  const outline = nacaOutline(SECTION);
  const each = Math.min(or(count, 11), 21);
  const loose = loop({ upper: outline.points('upper', each), lower: outline.points('lower', each) });
  return {
    title: 'Points of an airfoil outline',
    description: 'An airfoil outline with the points that are listed, close together at the leading edge.',
    strokes: [line('line', ...loop(between(outline, 0, 1))), { points: loose, look: 'dots' }],
    notes: [below(named('chord', chord), [0, 0], [1, 0])],
  };
};

export const airfoilDrawings: Readonly<Record<string, Draw>> = {
  'AIRFOIL.AREA': area,
  'AIRFOIL.GIRTH': girth,
  'AIRFOIL.HEIGHT': height,
  'AIRFOIL.POINTS': points,
};
