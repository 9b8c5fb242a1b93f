/** Drawings of one bend: radius, thickness, angle, setback, allowance. */
import { bentSection, setback, type Point } from '../../core/geometry';
import { away, leader, line, named, or, part, span, type Draw, type Figure, type Note, type Stroke } from './figure';

/** A bend turned to the left from heading -90, so that a right-angle one stands like an L. */
interface Bend {
  readonly angle: number;
  readonly strokes: readonly Stroke[];
  readonly notes: readonly Note[];
  /** Where the outer faces would meet. */
  readonly mold: Point;
  /** Outer face: start of the first leg, tangent points, end of the second leg. */
  readonly outer: { readonly start: Point; readonly first: Point; readonly second: Point; readonly end: Point };
  /** Middle of the sheet at the tangent lines, and of the arc between. */
  readonly neutral: readonly Point[];
  readonly headings: readonly [number, number];
}

const START = -90;
const NEUTRAL = 0.445;

function bendOf(
  radius: number | undefined,
  thickness: number | undefined,
  turned: number | undefined,
  legs?: readonly [number, number],
): Bend {
  const angle = or(turned, 90);
  const t = or(thickness, radius === undefined ? 0.3 : Math.max(radius / 3, 0.02));
  const r = or(radius, 2.5 * t);
  const far = setback(r, t, angle);
  const [a, b] = legs ?? [far + 1.4 * (r + t), far + 1.4 * (r + t)];
  const { outline, stops, left, right } = bentSection([Math.max(a - far, 0), Math.max(b - far, 0)], [angle], t, r, 32);
  const spun = ([x, y]: Point): Point => [y, -x];
  const second = START + angle;
  const centre = spun(away(stops[0]!.at, 90, r + t / 2));
  const [entry, leave] = [spun(right[1]!), spun(right[33]!)];
  const mold = away(entry, START, far);
  const bisector = (START + second) / 2 - 90;
  const inner = away(centre, bisector, r);
  const neutral = Array.from({ length: 33 }, (_, i): Point =>
    away(centre, START - 90 + (angle * i) / 32, r + NEUTRAL * t),
  );
  return {
    angle,
    mold,
    outer: { start: spun(right[0]!), first: entry, second: leave, end: spun(right[34]!) },
    neutral,
    headings: [START, second],
    strokes: [
      part(outline.map(spun)),
      // The tangent lines.
      line('hidden', spun(left[1]!), entry),
      line('hidden', spun(left[33]!), leave),
    ],
    notes: [
      // A sharp bend leaves no room for a label between its legs: it stands above them.
      angle > 100
        ? leader(named('radius', radius), inner, [6, 16], [inner[0], Math.max(...outline.map(spun).map(([, y]) => y))])
        : leader(named('radius', radius), inner, away([0, 0], bisector + 180, 36)),
      leader(named('thickness', thickness), spun(right[0]!), [-22, 16]),
    ],
  };
}

/** The angle, drawn at the mold point between the first leg carried on and the second. */
const angleNote = ({ mold, headings: [first, second] }: Bend, turned: number | undefined): Note => ({
  kind: 'turn',
  centre: mold,
  from: first,
  to: second,
  label: turned === undefined ? 'angle' : `${named('angle', turned)}°`,
});

const allowance: Draw = ([radius, thickness, angle]): Figure => {
  const bend = bendOf(radius, thickness, angle);
  return {
    title: 'Bend allowance',
    description:
      'A bend in section. The heavy line is the neutral line between the tangent lines: its length is the bend allowance.',
    strokes: [...bend.strokes, ...moldLines(bend), line('heavy', ...bend.neutral)],
    notes: [...bend.notes, angleNote(bend, angle), leader('bend allowance', bend.neutral[16]!, besideBend(bend))],
  };
};

/** Out of the bend to the left, on paper, clear of the first leg carried on. */
function besideBend({ headings }: Bend): Point {
  const [x, y] = away([0, 0], (headings[0] + headings[1]) / 2 - 90, 62);
  return [x - 40, y];
}

const moldLines = ({ mold, outer }: Bend): Stroke[] => [line('hidden', outer.first, mold, outer.second)];

const setbackDrawing: Draw = ([radius, thickness, angle]): Figure => {
  const bend = bendOf(radius, thickness, angle);
  return {
    title: 'Setback',
    description:
      'A bend in section. The outer faces, carried on, meet in the mold point; the setback runs from there to the tangent line.',
    strokes: [...bend.strokes, ...moldLines(bend)],
    notes: [
      ...bend.notes,
      angleNote(bend, angle),
      span('setback', bend.mold, bend.outer.first, { heading: bend.headings[0], side: -1, clear: 'points' }),
    ],
  };
};

const deduction: Draw = ([radius, thickness, angle]): Figure => {
  const bend = bendOf(radius, thickness, angle);
  return {
    title: 'Bend deduction',
    description:
      'A bend in section: two setbacks along the outer faces, less the neutral line, drawn heavy, is the bend deduction.',
    strokes: [...bend.strokes, ...moldLines(bend), line('heavy', ...bend.neutral)],
    notes: [
      ...bend.notes,
      span('setback', bend.mold, bend.outer.first, { heading: bend.headings[0], side: -1, clear: 'points' }),
      span('setback', bend.mold, bend.outer.second, { heading: bend.headings[1], side: -1, clear: 'points' }),
    ],
  };
};

const minimum: Draw = ([thickness]): Figure => {
  const bend = bendOf(undefined, thickness, undefined);
  return {
    title: 'Inside bend radius',
    description: 'A bend in section with its inside radius and the thickness of the sheet.',
    strokes: bend.strokes,
    notes: bend.notes,
  };
};

const check: Draw = ([leg, thickness, radius, angle]): Figure => {
  const far = setback(or(radius, 0.75), or(thickness, 0.3), or(angle, 90));
  const shorter = Math.max(or(leg, 2.2), far * 1.0001);
  const bend = bendOf(radius, thickness, angle, [shorter, 1.6 * shorter]);
  return {
    title: 'Bend to be checked',
    description:
      'A bend in section with the outside dimension of its shorter side, its inside radius and the thickness.',
    strokes: [...bend.strokes, ...moldLines(bend)],
    notes: [
      ...bend.notes,
      span(named('leg', leg), bend.mold, bend.outer.start, { heading: bend.headings[0], side: -1, clear: 'points' }),
    ],
  };
};

export const bendDrawings: Readonly<Record<string, Draw>> = {
  'BEND.ALLOWANCE': allowance,
  'BEND.SETBACK': setbackDrawing,
  'BEND.DEDUCTION': deduction,
  'BEND.MINRADIUS': minimum,
  'BEND.SPREAD': minimum,
  'BEND.CHECK': check,
};
