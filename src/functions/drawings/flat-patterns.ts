/** Drawings of bent sections with their outside dimensions, and of the flat strip below. */
import {
  angleSection,
  bentSection,
  develop,
  hatSection,
  setback,
  webSection,
  type Development,
  type Leg,
  type Point,
} from '../../core/geometry';
import {
  above,
  away,
  below,
  bounds,
  leader,
  line,
  named,
  or,
  part,
  span,
  type Draw,
  type Figure,
  type Note,
  type Stroke,
} from './figure';

interface Section {
  readonly flat: Development;
  /** Both faces turned to the drawing's direction. */
  readonly left: readonly Point[];
  readonly right: readonly Point[];
}

const CHORDS = 24;

function sectionOf(legs: readonly Leg[], bends: readonly number[], t: number, r: number, turnedBy: number): Section {
  const flat = develop(legs, bends.map(Math.abs), t, r);
  const at = bentSection(flat.flats, bends, t, r, CHORDS);
  const [sin, cos] = [Math.sin((turnedBy * Math.PI) / 180), Math.cos((turnedBy * Math.PI) / 180)];
  const spun = ([x, y]: Point): Point => [x * cos - y * sin, x * sin + y * cos];
  return { flat, left: at.left.map(spun), right: at.right.map(spun) };
}

const body = ({ left, right }: Section): Stroke => part([...left, ...[...right].reverse()]);
const whole = ({ left, right }: Section) => bounds([...left, ...right]);
/** A point of a face at the end (1) or start (0) of a flat, by the number of the flat. */
const onFace = (face: readonly Point[], flat: number, end: 0 | 1): Point => face[flat * (CHORDS + 1) + end]!;
/** Middle of a bend on a face, by the number of the bend. */
const onArc = (face: readonly Point[], bend: number): Point => face[bend * (CHORDS + 1) + 1 + CHORDS / 2]!;

/** The strip laid flat under the section, bends tinted between their tangent lines. */
function strip(
  { flat }: Section,
  under: { left: number; right: number; low: number },
  gap: number,
  known: boolean,
): { strokes: Stroke[]; note: Note } {
  const height = 0.07 * flat.width;
  const left = (under.left + under.right - flat.width) / 2;
  const [top, bottom] = [under.low - gap, under.low - gap - height];
  const strokes: Stroke[] = [
    line('line', [left, bottom], [left + flat.width, bottom], [left + flat.width, top], [left, top], [left, bottom]),
  ];
  let x = left;
  for (const [i, length] of flat.flats.entries()) {
    x += length;
    const bend = flat.allowances[i];
    if (bend === undefined) break;
    strokes.push(
      part([
        [x, bottom],
        [x + bend, bottom],
        [x + bend, top],
        [x, top],
      ]),
    );
    x += bend;
  }
  return {
    strokes,
    note: below(
      known ? `flat width = ${Number(flat.width.toPrecision(4))}` : 'flat width',
      [left, bottom],
      [left + flat.width, bottom],
    ),
  };
}

const GAP = 0.3;

const sheet = (thickness: number | undefined, radius: number | undefined): { t: number; r: number } => ({
  t: or(thickness, 0.12),
  r: or(radius, 0.25),
});

interface Drawn {
  readonly title: string;
  readonly what: string;
  readonly section: Section;
  /** True where the sizes are given, so that the width is said too. */
  readonly known: boolean;
  readonly notes: readonly Note[];
  /** What is drawn besides the section. */
  readonly besides?: readonly Stroke[];
  /** Between section and strip, of the strip's width. */
  readonly gap?: number;
  /** What the strip stands below. */
  readonly over?: { left: number; right: number; low: number };
}

/** A section and the strip below it. */
function withStrip({
  title,
  what,
  section,
  known,
  notes,
  besides = [],
  gap = GAP,
  over = whole(section),
}: Drawn): Figure {
  const flat = strip(section, over, gap * section.flat.width, known);
  return {
    title,
    tall: true,
    description: `${what} in section with its outside (mold line) dimensions, and below it the strip laid flat, with the metal of the bends tinted.`,
    strokes: [body(section), ...besides, ...flat.strokes],
    notes: [...notes, flat.note],
  };
}

const channel: Draw = ([web, legA, legB, thickness, radius]): Figure => {
  const { t, r } = sheet(thickness, radius);
  const section = sectionOf(webSection(or(web, 3), or(legA, 1.4), or(legB, 1.4)), [90, 90], t, r, -90);
  const { left, right, low: deep } = whole(section);
  return withStrip({
    title: 'Channel',
    what: 'A channel',
    section,
    known: web !== undefined,
    notes: [
      span(named('web', web), [left, deep], [right, deep], { heading: 0, side: -1, clear: 'points' }),
      span(named('leg_a', legA), [left, deep], section.right[0]!, { heading: 90, side: 1, clear: 'points' }),
      span(named('leg_b', legB), [right, deep], section.right.at(-1)!, { heading: 90, side: -1, clear: 'points' }),
      leader(named('radius', radius), onArc(section.left, 0), [-38, -36]),
      leader(named('thickness', thickness), section.left[0]!, [24, 14]),
    ],
  });
};

const zee: Draw = ([web, legA, legB, thickness, radius]): Figure => {
  const { t, r } = sheet(thickness, radius);
  const section = sectionOf(webSection(or(web, 2.2), or(legA, 1.2), or(legB, 1.2)), [90, -90], t, r, 180);
  const box = whole(section);
  // Walked from the tip of leg_a to the left, down the web, on to the left: the right face of the web is on its left.
  const [webLeft, webRight] = [onFace(section.right, 1, 0)[0], onFace(section.left, 1, 0)[0]];
  return withStrip({
    title: 'Zee',
    what: 'A zee',
    section,
    known: web !== undefined,
    notes: [
      span(named('web', web), [box.left, box.low], [webLeft, box.high], { heading: 90, side: 1, clear: 'points' }),
      above(named('leg_a', legA), [webLeft, box.high], [box.right, box.high]),
      span(named('leg_b', legB), [box.left, box.low], [webRight, box.low], { heading: 0, side: -1, clear: 'points' }),
      leader(named('radius', radius), onArc(section.left, 0), [-36, 34]),
      leader(named('thickness', thickness), section.left[0]!, [20, -22]),
    ],
  });
};

const hat: Draw = ([crown, side, foot, thickness, radius]): Figure => {
  const { t, r } = sheet(thickness, radius);
  const section = sectionOf(hatSection(or(crown, 2), or(side, 1.5), or(foot, 1.2)), [90, -90, -90, 90], t, r, 0);
  const box = whole(section);
  const [outerLeft, innerLeft] = [onFace(section.left, 1, 0)[0], onFace(section.right, 1, 0)[0]];
  const outerRight = onFace(section.left, 3, 0)[0];
  return withStrip({
    title: 'Hat section',
    what: 'A hat section',
    section,
    known: crown !== undefined,
    gap: GAP * 0.7,
    notes: [
      above(named('crown', crown), [outerLeft, box.high], [outerRight, box.high]),
      span(named('side', side), [box.left, box.low], [outerLeft, box.high], { heading: 90, side: 1, clear: 'points' }),
      span(named('foot', foot), [box.left, box.low], [innerLeft, box.low], { heading: 0, side: -1, clear: 'points' }),
      leader(named('radius', radius), onArc(section.left, 3), [26, 38]),
      leader(named('thickness', thickness), section.left.at(-1)!, [22, 10]),
    ],
  });
};

const angle: Draw = ([legA, legB, thickness, radius, turned]): Figure => {
  const { t, r } = sheet(thickness, radius);
  const [a, b, bend] = [or(legA, 1.8), or(legB, 1.8), or(turned, 90)];
  const section = sectionOf(angleSection(a, b), [bend], t, r, -90);
  const [start, end] = [section.right[0]!, section.right.at(-1)!];
  const mold = away(start, -90, a);
  return withStrip({
    title: 'Angle',
    what: 'An angle',
    section,
    known: legA !== undefined,
    besides: [line('hidden', onFace(section.right, 0, 1), mold, onFace(section.right, 1, 0))],
    over: bounds([...section.left, ...section.right, mold]),
    notes: [
      span(named('leg_a', legA), start, mold, { heading: -90, side: -1, clear: 'points' }),
      span(named('leg_b', legB), mold, end, { heading: bend - 90, side: bend < 80 ? 1 : -1, clear: 'points' }),
      leader(named('radius', radius), onArc(section.left, 0), away([0, 0], bend / 2 - 180, 50)),
      leader(named('thickness', thickness), section.left[0]!, [24, -8]),
      ...(turned === undefined || turned === 90
        ? []
        : [{ kind: 'turn', centre: mold, from: -90, to: bend - 90, label: `${named('angle', turned)}°` } as const]),
    ],
  });
};

const PROFILE: readonly [sides: readonly number[], bends: readonly number[]] = [
  [1, 1.4, 1.2],
  [50, -70],
];

const profile: Draw = (): Figure => {
  const { t, r } = sheet(undefined, undefined);
  const [sides, bends] = PROFILE;
  const section = sectionOf(
    sides.map((length) => ({ parameter: 'side', length })),
    bends,
    t,
    r,
    -10,
  );
  const setbacks = bends.map((bend) => setback(r, t, Math.abs(bend)));
  const placed: readonly (1 | -1)[] = [-1, 1, 1];
  let heading = -10;
  const notes = sides.map((_, i): Note => {
    const from = away(onFace(section.left, i, 0), heading, -(setbacks[i - 1] ?? 0));
    const to = away(onFace(section.left, i, 1), heading, setbacks[i] ?? 0);
    const note = span(`length ${i + 1}`, from, to, { heading, side: placed[i]!, clear: 'points' });
    heading += bends[i] ?? 0;
    return note;
  });
  return withStrip({
    title: 'Section of several bends',
    what: 'A section with two bends, one each way,',
    section,
    known: false,
    notes: [
      ...notes,
      leader('angle 1', onArc(section.right, 0), [30, -34]),
      leader('angle 2', onArc(section.right, 1), [-4, -40]),
    ],
  });
};

export const flatDrawings: Readonly<Record<string, Draw>> = {
  'FLAT.CHANNEL': channel,
  'FLAT.ZEE': zee,
  'FLAT.HAT': hat,
  'FLAT.ANGLE': angle,
  'FLAT.PROFILE': profile,
};
