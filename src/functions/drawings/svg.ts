/** A figure on paper: laid out, and written as a self-contained SVG. */
import type { Point } from '../../core/geometry';
import { away, bounds, radians, type Figure, type Leader, type Span, type Stroke, type Turn } from './figure';
import { node, toSvgText, type SvgNode } from '../../core/markup';

// From a figure to paper: scaled lines, dimension lines and labels with their places.

/** Everything on paper has y downwards, as SVG does. */
export interface PaperLine {
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly look: Stroke['look'] | 'dimension';
}

export interface PaperLabel {
  readonly text: string;
  /** Foot of the text at its anchor. */
  readonly at: Point;
  readonly anchor: 'start' | 'middle' | 'end';
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Layout {
  readonly lines: readonly PaperLine[];
  readonly labels: readonly PaperLabel[];
  readonly box: Box;
}

/** Width and height in units of the SVG, which are pixels where it is not scaled. */
export interface Space {
  readonly width: number;
  readonly height: number;
}

/** Space for the part itself; dimensions come around it. */
const WIDTH = 320;
const HEIGHT = 180;
const TALL = 270;
/** A part is drawn no smaller than this for the sake of its labels. */
const LEAST = 48;
const SMALLER = 0.94;
const FIRST_TIER = 20;
const TIER = 24;
const TICK = 4;
const FONT = 13;
/** Widest ordinary letters at that size; labels must not collide in any common font. */
const LETTER = 7.4;
const CAP = 10;

const dot = ([a, b]: Point, [c, d]: Point): number => a * c + b * d;

/** The space that a label takes. @internal */
export function labelBox({ text, at: [x, y], anchor }: PaperLabel): Box {
  const width = text.length * LETTER;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { left, right: left + width, top: y - CAP, bottom: y + 3 };
}

const spaceOf = (figure: Figure): Space => ({ width: WIDTH, height: figure.tall ? TALL : HEIGHT });

/** @param space for the part itself, without its dimensions @internal */
export function layOut(figure: Figure, space: Space = spaceOf(figure)): Layout {
  const { left, right, low, high } = bounds(figure.strokes.flatMap(({ points }) => points));
  const scale = Math.min(space.width / Math.max(right - left, 1e-9), space.height / Math.max(high - low, 1e-9));
  /** On paper, still with y upwards; it is turned over at the end. */
  const place = ([x, y]: Point): Point => [(x - left) * scale, (y - low) * scale];

  const lines: PaperLine[] = figure.strokes.map(({ points, closed = false, look }) => ({
    points: points.map(place),
    closed,
    look,
  }));
  const labels: PaperLabel[] = [];
  const drawn = lines.flatMap(({ points }) => points);
  for (const note of figure.notes) {
    const { lines: more, label } =
      note.kind === 'span'
        ? drawSpan(note, place, drawn)
        : note.kind === 'leader'
          ? drawLeader(note, place)
          : drawTurn(note, place);
    lines.push(...more.map((points): PaperLine => ({ points, closed: false, look: 'dimension' })));
    labels.push(label);
  }
  const over = ([x, y]: Point): Point => [x, -y];
  const turned = {
    lines: lines.map((one) => ({ ...one, points: one.points.map(over) })),
    labels: labels.map((one) => ({ ...one, at: over(one.at) })),
  };
  return { ...turned, box: around(turned.lines, turned.labels) };
}

/** The figure with all its labels in a space, its letters as large as ever: the part is made smaller, down to a least size. */
function layOutWithin(figure: Figure, whole: Space): Layout {
  const usual = spaceOf(figure);
  let best: { readonly layout: Layout; readonly over: number } | undefined;
  // Labels move with the part, and some change their place: what stands around it is known only when it is drawn.
  for (let scale = 1; scale * Math.min(usual.width, usual.height) >= LEAST; scale *= SMALLER) {
    const layout = layOut(figure, { width: usual.width * scale, height: usual.height * scale });
    const { left, right, top, bottom } = layout.box;
    const over = Math.max((right - left) / whole.width, (bottom - top) / whole.height);
    if (over <= 1) return layout;
    if (!best || over < best.over) best = { layout, over };
  }
  return best!.layout;
}

function around(lines: readonly PaperLine[], labels: readonly PaperLabel[]): Box {
  const corners = labels.map(labelBox).flatMap(({ left, top, right, bottom }): Point[] => [
    [left, top],
    [right, bottom],
  ]);
  const { left, right, low: top, high: bottom } = bounds([...lines.flatMap(({ points }) => points), ...corners]);
  return { left, right, top, bottom };
}

interface Drawn {
  readonly lines: readonly (readonly Point[])[];
  readonly label: PaperLabel;
}

function drawSpan(
  { from, to, heading, side, tier = 1, clear = 'figure', label }: Span,
  place: (p: Point) => Point,
  figure: readonly Point[],
): Drawn {
  const along: Point = [Math.cos(radians(heading)), Math.sin(radians(heading))];
  const out: Point = [-along[1] * side, along[0] * side];
  const [a, b] = [place(from), place(to)];
  const reach =
    Math.max(...(clear === 'figure' ? figure : [a, b]).map((p) => dot(p, out))) + FIRST_TIER + (tier - 1) * TIER;
  /** The point carried out to the dimension line, and a little past it. */
  const carried = (p: Point, by = 0): Point => {
    const move = reach - dot(p, out) + by;
    return [p[0] + out[0] * move, p[1] + out[1] * move];
  };
  const away = (p: Point): Point => [p[0] + out[0] * 3, p[1] + out[1] * 3];
  const [p, q] = [carried(a), carried(b)];
  const tick = ([x, y]: Point): Point[] => {
    const [tx, ty] = [(along[0] + out[0]) * TICK, (along[1] + out[1]) * TICK];
    return [
      [x - tx, y - ty],
      [x + tx, y + ty],
    ];
  };
  const middle: Point = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  // A label wider than its dimension would run over the lines at both ends: it stands behind the right one.
  const tooWide = heading === 0 && label.length * LETTER > Math.abs(q[0] - p[0]) - 6;
  return {
    lines: [[away(a), carried(a, 4)], [away(b), carried(b, 4)], [p, q], tick(p), tick(q)],
    label: tooWide ? beside(label, [Math.max(p[0], q[0]), p[1]], [1, 0], 9) : beside(label, middle, out, 6),
  };
}

/** A label `gap` from a place, on the side of `out`, so that it does not cover the place. */
function beside(text: string, [x, y]: Point, out: Point, gap: number): PaperLabel {
  const anchor = Math.abs(out[0]) < 0.35 ? 'middle' : out[0] < 0 ? 'end' : 'start';
  const foot = anchor === 'middle' ? (out[1] > 0 ? 0 : -CAP) : out[1] * (CAP / 2 + 1) - CAP / 2 + 1;
  return { text, at: [x + out[0] * gap, y + out[1] * gap + foot], anchor };
}

function drawLeader({ at, by, from = at, label }: Leader, place: (p: Point) => Point): Drawn {
  const [a, start] = [place(at), place(from)];
  const end: Point = [start[0] + by[0], start[1] + by[1]];
  const length = Math.hypot(end[0] - a[0], end[1] - a[1]) || 1;
  const out: Point = [(end[0] - a[0]) / length, (end[1] - a[1]) / length];
  const [back, across]: [Point, Point] = [
    [out[0] * 7, out[1] * 7],
    [-out[1] * 2.5, out[0] * 2.5],
  ];
  const head: Point[] = [
    [a[0] + back[0] + across[0], a[1] + back[1] + across[1]],
    a,
    [a[0] + back[0] - across[0], a[1] + back[1] - across[1]],
  ];
  return { lines: [[a, end], head], label: beside(label, end, out, 4) };
}

const TURN = 40;

function drawTurn({ centre, from, to, label }: Turn, place: (p: Point) => Point): Drawn {
  const c = place(centre);
  const at = (degrees: number, r = TURN): Point => away(c, degrees, r);
  const middle = (from + to) / 2;
  const sweep = Array.from({ length: 25 }, (_, i) => at(from + ((to - from) * i) / 24));
  // In a narrow angle the label would lie on its second side: it stands at the foot of the first, on the other side.
  const narrow = Math.abs(to - from) < 80;
  const foot = at(from, TURN + 12);
  return {
    lines: [sweep, [c, at(from, TURN + 8)]],
    label: narrow
      ? { text: label, at: [foot[0] + 4, foot[1] - CAP], anchor: 'end' }
      : beside(label, at(middle), [Math.cos(radians(middle)), Math.sin(radians(middle))], 6),
  };
}

// A figure as a self-contained SVG that takes the colour of the text around it.

const LOOKS: Readonly<Record<PaperLine['look'], Readonly<Record<string, string | number>>>> = {
  part: { fill: 'currentColor', 'fill-opacity': 0.14, stroke: 'currentColor', 'stroke-width': 1.5 },
  line: { fill: 'none', stroke: 'currentColor', 'stroke-width': 1.5 },
  heavy: { fill: 'none', stroke: 'currentColor', 'stroke-width': 3.5 },
  hidden: { fill: 'none', stroke: 'currentColor', 'stroke-width': 1, 'stroke-dasharray': '5 4' },
  dimension: { fill: 'none', stroke: 'currentColor', 'stroke-width': 0.8, 'stroke-opacity': 0.75 },
  dots: { fill: 'currentColor' },
};

const PADDING = 8;

const n = (value: number): string => String(Math.round(value * 100) / 100);
const at = ([x, y]: Point): string => `${n(x)} ${n(y)}`;

const lineOf = ({ points, closed, look }: PaperLine): SvgNode[] =>
  look === 'dots'
    ? points.map(([cx, cy]) => node('circle', { cx, cy, r: 2.5, ...LOOKS.dots }))
    : [
        node('path', {
          d: `M${points.map(at).join('L')}${closed ? 'Z' : ''}`,
          ...LOOKS[look],
          'stroke-linejoin': 'round',
        }),
      ];

const sized = (x: number, y: number, { width, height }: Space): Readonly<Record<string, string | number>> => ({
  viewBox: [x, y, width, height].map(n).join(' '),
  width,
  height,
});

/** The shape alone in a small space, without a word: beside a text that names it. */
export function figureToThumbnail(figure: Figure, space: Space): string {
  const { width, height } = space;
  const strokes = figure.strokes.filter(({ look }) => look !== 'hidden' && look !== 'dots');
  const { lines, box } = layOut({ ...figure, strokes, notes: [] }, { width: width - 4, height: height - 4 });
  const [x, y] = [(box.left + box.right - width) / 2, (box.top + box.bottom - height) / 2];
  return toSvgText(
    node(
      'svg',
      { xmlns: 'http://www.w3.org/2000/svg', 'aria-hidden': 'true', ...sized(x, y, space) },
      lines.flatMap(lineOf),
    ),
  );
}

/**
 * @param id distinguishes the drawing from others on the same page, so that its title and description are found
 * @param within the space that it may take; its usual size where none is given
 */
export function figureToSvg(figure: Figure, id: string, within?: Space): string {
  const { lines, labels, box } = within
    ? layOutWithin(figure, { width: within.width - 2 * PADDING, height: within.height - 2 * PADDING })
    : layOut(figure);
  const space = { width: box.right - box.left + 2 * PADDING, height: box.bottom - box.top + 2 * PADDING };
  return toSvgText(
    node(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        role: 'img',
        'aria-labelledby': `${id}-title ${id}-desc`,
        ...sized(box.left - PADDING, box.top - PADDING, space),
        style: 'max-width:100%;height:auto',
      },
      node('title', { id: `${id}-title` }, figure.title),
      node('desc', { id: `${id}-desc` }, figure.description),
      lines.flatMap(lineOf),
      node(
        'g',
        { fill: 'currentColor', 'font-family': 'system-ui, sans-serif', 'font-size': FONT },
        labels.map(({ text, at: [x, y], anchor }) => node('text', { x, y, 'text-anchor': anchor }, text)),
      ),
    ),
  );
}
