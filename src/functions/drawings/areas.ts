/** Drawings of plane areas. */
import type { Point } from '../../core/geometry';
import { above, arc, atLeft, atRight, below, leader, line, named, or, part, type Draw } from './figure';

const rectangle: Draw = ([length, width]) => {
  const [l, w] = [or(length, 3), or(width, 1.6)];
  return {
    title: 'Rectangle',
    description: 'A rectangle with its length along the bottom and its width at the left.',
    strokes: [
      part([
        [0, 0],
        [l, 0],
        [l, w],
        [0, w],
      ]),
    ],
    notes: [below(named('length', length), [0, 0], [l, 0]), atLeft(named('width', width), [0, 0], [0, w])],
  };
};

const triangle: Draw = ([base, height]) => {
  const [b, h] = [or(base, 3), or(height, 1.7)];
  return {
    title: 'Triangle',
    description: 'A triangle on its base, with the height at a right angle to the base.',
    strokes: [
      part([
        [0, 0],
        [b, 0],
        [b * 0.35, h],
      ]),
      line('hidden', [b * 0.35, 0], [b * 0.35, h]),
    ],
    notes: [below(named('base', base), [0, 0], [b, 0]), atRight(named('height', height), [b, 0], [b * 0.35, h])],
  };
};

const trapezoid: Draw = ([sideA, sideB, height]) => {
  const [a, b, h] = [or(sideA, 1.6), or(sideB, 1), or(height, 3)];
  return {
    title: 'Trapezoid',
    description: 'A tapered strip: side_a and side_b are its parallel ends, height the distance between them.',
    strokes: [
      part([
        [0, 0],
        [h, 0],
        [h, b],
        [0, a],
      ]),
    ],
    notes: [
      atLeft(named('side_a', sideA), [0, 0], [0, a]),
      atRight(named('side_b', sideB), [h, 0], [h, b]),
      below(named('height', height), [0, 0], [h, 0]),
    ],
  };
};

const circle: Draw = ([diameter]) => {
  const r = or(diameter, 2) / 2;
  return {
    title: 'Disc or round hole',
    description: 'A circle with its diameter.',
    strokes: [part(arc([0, 0], r, [0, 360], 96))],
    notes: [below(named('diameter', diameter), [-r, 0], [r, 0])],
  };
};

const slot: Draw = ([overall, width]) => {
  const [l, w] = [or(overall, 3), or(width, 1.1)];
  const r = w / 2;
  return {
    title: 'Slot with round ends',
    description: 'A slot: its overall length over the round ends, its width the diameter of the ends.',
    strokes: [part([...arc([l - r, 0], r, [-90, 90]), ...arc([r, 0], r, [90, 270])])],
    notes: [below(named('overall_length', overall), [0, 0], [l, 0]), atLeft(named('width', width), [r, -r], [r, r])],
  };
};

const ellipse: Draw = ([major, minor]) => {
  const [a, b] = [or(major, 3) / 2, or(minor, 1.7) / 2];
  return {
    title: 'Ellipse',
    description: 'An ellipse with its whole longer and shorter axes.',
    strokes: [part(arc([0, 0], a, [0, 360], 96, b))],
    notes: [below(named('major', major), [-a, 0], [a, 0]), atLeft(named('minor', minor), [0, -b], [0, b])],
  };
};

const holes: Draw = ([diameter, quantity, flange]) => {
  const d = or(diameter, 2);
  const f = Math.min(or(flange, diameter === undefined ? 0.15 * d : 0), d / 2);
  const [r, step] = [d / 2, 1.5 * d];
  const centres: Point[] = [0, 1, 2].map((i) => [i * step, 0]);
  const end = 2 * step;
  return {
    title: 'Lightening holes',
    description: 'A web with a row of equal round holes. Dashed: the hole as it was cut, before the flange was formed.',
    strokes: [
      part([
        [-d, -0.85 * d],
        [end + d, -0.85 * d],
        [end + d, 0.85 * d],
        [-d, 0.85 * d],
      ]),
      ...centres.map((c) => line('line', ...arc(c, r, [0, 360], 72))),
      ...(f > 0 ? centres.map((c) => line('hidden', ...arc(c, r - f, [0, 360], 72))) : []),
    ],
    notes: [
      below(named('diameter', diameter), [-r, 0], [r, 0]),
      leader(named('quantity', quantity), [end + 0.7 * r, 0.7 * r], [44, 52]),
      ...(f > 0 ? [above(named('flange', flange), [-r, 0], [f - r, 0])] : []),
    ],
  };
};

const GUSSET: readonly Point[] = [
  [0, 0],
  [3, 0],
  [3, 0.8],
  [1.2, 1.2],
  [0.8, 2],
  [0, 2],
];

const polygon: Draw = (values) => {
  const given = values.filter((value) => value !== undefined);
  const typed = given.length >= 6 && given.length % 2 === 0;
  const points: readonly Point[] = typed
    ? Array.from({ length: given.length / 2 }, (_, i): Point => [given[2 * i]!, given[2 * i + 1]!])
    : GUSSET;
  return {
    title: 'Polygon',
    description: `A flat shape with ${points.length} corners, numbered in order around the outline.`,
    strokes: [part(points), { points, look: 'dots' }],
    notes: points.map((point, i) => leader(String(i + 1), point, outOfCorner(points, i, 12))),
  };
};

/** Away from the metal at a corner, `length` long. */
function outOfCorner(points: readonly Point[], i: number, length: number): Point {
  const turning = Math.sign(
    points.reduce(
      (sum, [x, y], k) => sum + x * points[(k + 1) % points.length]![1] - points[(k + 1) % points.length]![0] * y,
      0,
    ),
  );
  const unit = (from: Point, to: Point): Point => {
    const size = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
    return [(to[0] - from[0]) / size, (to[1] - from[1]) / size];
  };
  const here = points[i]!;
  const [before, after] = [unit(points.at(i - 1)!, here), unit(here, points[(i + 1) % points.length]!)];
  // The edges' own normals point out of the metal on their right, seen along a counter-clockwise outline.
  const out: Point = [turning * (before[1] + after[1]), -turning * (before[0] + after[0])];
  const size = Math.hypot(...out) || 1;
  return [(out[0] / size) * length, (out[1] / size) * length];
}

export const areaDrawings: Readonly<Record<string, Draw>> = {
  'AREA.RECT': rectangle,
  'AREA.TRIANGLE': triangle,
  'AREA.TRAPEZOID': trapezoid,
  'AREA.CIRCLE': circle,
  'AREA.SLOT': slot,
  'AREA.ELLIPSE': ellipse,
  'AREA.HOLES': holes,
  'AREA.POLYGON': polygon,
};
