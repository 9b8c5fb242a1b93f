/** The loading envelope with loading points, their burn lines and the limits that they have to keep. */
import type { Envelope, Load, Range } from '../core/balance';
import {
  EDGE,
  axisAcross,
  axisUp,
  picture,
  scale,
  ticksFor,
  upWidth,
  widened,
  settingsOf,
  INCH_POUND,
  roundTicks,
  type PictureOptions,
  type Scale,
  type Shown,
  type Words,
} from './frame';
import {
  alongLine,
  LINE,
  placeLabels,
  placesAround,
  wrapText,
  type Box,
  type LabelRequest,
  type Place,
} from './labels';
import { ALERT, FILL, INK, label, line, lines, pointMark, text, type PointMark } from './marks';
import { keyed, node, pickable, type SvgNode } from '../core/markup';
import type { Quantities } from '../core/quantity';
import { textWidth } from '../core/text-width';

export interface EnvelopeCase {
  /** What is picked with the point. */
  readonly id: string;
  readonly name: string;
  readonly takeoff: Load & { readonly inside: boolean };
  readonly landing: Load & { readonly inside: boolean };
  /** From take-off to landing. */
  readonly burn: readonly Load[];
  /** Verdict in words: "inside from take-off to landing", "outside: 0.50 in aft of …". */
  readonly words: string;
  readonly inside: boolean;
  /** Forward and aft limit at take-off weight, drawn where this is the only case. */
  readonly limits?: Range & { readonly at: number };
}

export interface EnvelopePictureData extends Shown {
  readonly envelope: Envelope;
  readonly cases: readonly EnvelopeCase[];
  /** Outline of all loadings that the stations' ranges allow. */
  readonly reach?: readonly Load[];
  /** Per cent of the chord at an arm, for a second axis above. */
  readonly toPercent?: (arm: number) => number;
  readonly title?: string;
}

interface Plot {
  readonly x: Scale;
  readonly y: Scale;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly size: number;
  readonly say: Quantities;
  readonly words: Words;
}

export function envelopePicture(data: EnvelopePictureData, options: PictureOptions): SvgNode {
  const { envelope, cases, reach = [], toPercent, quantities: say = INCH_POUND } = data;
  const { width, size, words } = settingsOf(options);
  const loads = [
    ...envelope.vertices,
    ...reach,
    ...cases.flatMap(({ takeoff, landing, burn }) => [takeoff, landing, ...burn]),
  ];
  const [arms, weights] = [
    widened(
      loads.map(({ arm }) => arm),
      0.12,
    ),
    widened(
      loads.map(({ weight }) => weight),
      0.08,
    ),
  ];
  const top = size * (toPercent ? 3.4 : 1.8);
  const bottom = top + Math.round(Math.min(360, Math.max(190, width * 0.6)));
  const ticksY = ticksFor(weights, bottom - top, size, 'up', { quantities: say, dimension: 'weight' });
  const left = upWidth(ticksY, size);
  const right = width - 8;
  const plot: Plot = {
    x: scale(arms.from, arms.to, left, right),
    y: scale(weights.from, weights.to, bottom, top),
    left,
    right,
    top,
    bottom,
    size,
    say,
    words,
  };
  const ticksX = ticksFor(arms, right - left, size, 'across', { quantities: say, dimension: 'length' });
  const axes = [
    ...axisUp(plot.y, ticksY, { left, right, size }),
    ...axisAcross(plot.x, ticksX, { top, bottom, size, left, right: width }),
    line(left, bottom, right, bottom),
    text(EDGE, size, words('weight, {unit}', { unit: say.sign('weight') }), { size }),
    ...armWords(plot, width),
    ...(toPercent ? percentAxis(plot, toPercent, width) : []),
  ];
  const { nodes: labels, numbers, notes } = labelsOf(data, plot);
  const body = [
    keyed(
      'envelope',
      outline(envelope.vertices, plot, {
        fill: FILL,
        'fill-opacity': 0.12,
        stroke: INK,
        'stroke-width': 2,
        'stroke-linejoin': 'round',
      }),
    ),
    reach.length > 2 && keyed('reach', outline(reach, plot, { fill: 'none', stroke: INK, 'stroke-dasharray': '2 4' })),
    cases.length === 1 && limitsOf(cases[0]!, plot),
    cases.map((one) => caseMarks(one, plot)),
    labels,
  ];
  if (reach.length > 2) notes.push(words('Dotted: everything that the stations’ ranges allow.'));
  const list = verdicts(cases, notes, { y: bottom + size * 3.4, width, size, numbers });
  return picture(
    options,
    list.bottom,
    data.title ?? words('Loading envelope'),
    describe(data, plot),
    axes,
    body,
    list.nodes,
  );
}

const outline = (loads: readonly Load[], { x, y }: Plot, looks: Readonly<Record<string, string | number>>): SvgNode =>
  node('polygon', {
    points: loads.map(({ arm, weight }) => `${x.at(arm).toFixed(1)},${y.at(weight).toFixed(1)}`).join(' '),
    ...looks,
  });

/** "← forward   arm, in   aft →" */
function armWords({ left, right, bottom, size, say, words }: Plot, width: number): SvgNode[] {
  const unit = say.sign('length');
  const y = bottom + size * 2.6;
  const [forward, aft, full] = [words('← forward'), words('aft →'), words('arm, {unit} aft of datum', { unit })];
  const sides =
    Math.max(textWidth(forward, size), textWidth(aft, size)) * 2 + textWidth(full, size) + size < right - left;
  return [
    text((left + right) / 2, y, sides ? full : words('arm, {unit}', { unit }), { size, align: 'middle' }),
    text(left, y, forward, { size }),
    text(width - 1, y, aft, { size, align: 'end' }),
  ];
}

/** Round per cents of the chord along the upper edge. */
function percentAxis(
  { x, left, right, top, size, say, words }: Plot,
  toPercent: (arm: number) => number,
  width: number,
): SvgNode[] {
  const [from, to] = [toPercent(x.from), toPercent(x.to)];
  const ticks = roundTicks(
    Math.min(from, to),
    Math.max(from, to),
    Math.max(2, Math.floor((right - left) / (size * 4.5))),
  );
  const percent = scale(from, to, left, right);
  return [
    line(left, top, right, top, { 'stroke-opacity': 0.4 }),
    text(width - 1, size, words('% MAC'), { size, align: 'end' }),
    ...ticks.values.flatMap((value) => {
      const number = say.write(value, ticks.places);
      const half = textWidth(number, size) / 2;
      return [
        line(percent.at(value), top - 4, percent.at(value), top),
        text(Math.min(width - half, Math.max(left + half, percent.at(value))), top - 7, number, {
          size,
          align: 'middle',
        }),
      ];
    }),
  ];
}

/** The span between forward and aft limit at take-off weight. */
function limitsOf({ limits }: EnvelopeCase, { x, y }: Plot): SvgNode | undefined {
  if (!limits) return undefined;
  const [from, to, at] = [x.at(limits.from), x.at(limits.to), y.at(limits.at)];
  return keyed(
    'limits',
    node(
      'g',
      {},
      line(from, at, to, at, { 'stroke-dasharray': '4 3' }),
      line(from, at - 6, from, at + 6, { 'stroke-width': 2 }),
      line(to, at - 6, to, at + 6, { 'stroke-width': 2 }),
    ),
  );
}

const markOf = ({ inside }: { readonly inside: boolean }, kind: PointMark): PointMark => (inside ? kind : 'diamond');

function caseMarks(one: EnvelopeCase, plot: Plot): SvgNode {
  const { x, y } = plot;
  const { id, takeoff, landing, burn } = one;
  const at = (load: Load): readonly [number, number] => [x.at(load.arm), y.at(load.weight)];
  const [[tx, ty], [lx, ly]] = [at(takeoff), at(landing)];
  const moved = isBurnt(one, plot);
  const path = burn
    .map(
      (load, index) =>
        `${index === 0 ? 'M' : 'L'}${at(load)
          .map((value) => value.toFixed(1))
          .join(' ')}`,
    )
    .join('');
  return pickable(
    id,
    caseWords(one, plot, moved),
    moved && node('path', { d: path, fill: 'none', stroke: INK, 'stroke-width': 2 }),
    moved && pointMark(markOf(landing, 'open'), lx, ly, 5),
    pointMark(markOf(takeoff, 'filled'), tx, ty, 5),
  );
}

const loadWords = ({ weight, arm }: Load, { say, words }: Plot): string =>
  words('{weight} at {arm}', { weight: say.say(weight, 'weight', 1), arm: say.say(arm, 'length', 2) });

/** "Solo: take-off 1,095.0 lb at 70.20 in, landing 1,005.0 lb at 70.10 in; inside from take-off to landing" */
function caseWords({ name, takeoff, landing, words: verdict }: EnvelopeCase, plot: Plot, moved: boolean): string {
  const { words } = plot;
  const values = { name, takeoff: loadWords(takeoff, plot), verdict };
  return moved
    ? words('{name}: take-off {takeoff}, landing {landing}; {verdict}', {
        ...values,
        landing: loadWords(landing, plot),
      })
    : words('{name}: take-off {takeoff}; {verdict}', values);
}

interface Labelled {
  readonly nodes: SvgNode[];
  /** True where the cases are known by their numbers in the list below. */
  readonly numbers: boolean;
  /** What found no room beside its mark, to be said below. */
  readonly notes: string[];
}

function labelsOf({ envelope, cases }: EnvelopePictureData, plot: Plot): Labelled {
  const { x, y, left, right, top, bottom } = plot;
  const bounds: Box = { x: left + 2, y: top + 2, width: right - left - 4, height: bottom - top - 4 };
  const marks = cases.flatMap(({ takeoff, landing, burn }) =>
    [...burn, takeoff, landing].map((load): Box => ({
      x: x.at(load.arm) - 6,
      y: y.at(load.weight) - 6,
      width: 12,
      height: 12,
    })),
  );
  const edges = envelope.edges.flatMap(({ from, to }) =>
    alongLine(x.at(from.arm), y.at(from.weight), x.at(to.arm), y.at(to.weight)),
  );
  return cases.length > 1
    ? manyLabels(cases, plot, [...marks, ...edges], bounds)
    : cases[0]
      ? labelsOfOne(cases[0], plot, [...marks, ...edges], bounds)
      : { nodes: [], numbers: false, notes: [] };
}

/** Names beside the points where they fit, else numbers that the list below explains. */
function manyLabels(
  cases: readonly EnvelopeCase[],
  { x, y, size }: Plot,
  obstacles: readonly Box[],
  bounds: Box,
): Labelled {
  const request = (one: EnvelopeCase, said: readonly string[]): LabelRequest => ({
    lines: said,
    size,
    bold: !one.inside,
    places: placesAround(x.at(one.takeoff.arm), y.at(one.takeoff.weight), 9),
  });
  const near = ({ place }: { place: Place }, { takeoff }: EnvelopeCase): boolean =>
    Math.hypot(place.x - x.at(takeoff.arm), place.y - y.at(takeoff.weight)) < 26;
  const named = placeLabels(
    cases.map((one) => request(one, wrapText(one.name, Math.max(80, bounds.width * 0.3), size, true))),
    obstacles,
    bounds,
  );
  const fits = named.every((placed, index) => placed.free && near(placed, cases[index]!));
  const placed = fits
    ? named
    : placeLabels(
        cases.map((one, index) => request(one, [String(index + 1)])),
        obstacles,
        bounds,
      );
  return {
    nodes: placed.map((one, index) => label(one, cases[index]!.inside ? INK : ALERT)),
    numbers: !fits,
    notes: [],
  };
}

/** Take-off, landing and both limits of the only case: with their numbers where there is room, else the words alone and the numbers below. */
function labelsOfOne(one: EnvelopeCase, plot: Plot, obstacles: readonly Box[], bounds: Box): Labelled {
  const { say, words } = plot;
  const across = one.limits
    ? alongLine(
        plot.x.at(one.limits.from),
        plot.y.at(one.limits.at),
        plot.x.at(one.limits.to),
        plot.y.at(one.limits.at),
      )
    : [];
  const place = (full: boolean) => placeLabels(singleLabels(one, plot, full), [...obstacles, ...across], bounds);
  const full = place(true);
  if (full.every(({ free }) => free)) return { nodes: full.map((placed) => label(placed)), numbers: false, notes: [] };
  const limits = one.limits
    ? ` ${words('Limits at {weight}: {from} to {to}.', { weight: say.say(one.limits.at, 'weight', 1), from: say.bare(one.limits.from, 'length', 2), to: say.say(one.limits.to, 'length', 2) })}`
    : '';
  const takeoff = loadWords(one.takeoff, plot);
  const points = isBurnt(one, plot)
    ? words('Take-off {takeoff}, landing {landing}.', { takeoff, landing: loadWords(one.landing, plot) })
    : words('Take-off {takeoff}.', { takeoff });
  return { nodes: place(false).map((placed) => label(placed)), numbers: false, notes: [`${points}${limits}`] };
}

/** True where landing is a point of its own. */
const isBurnt = ({ takeoff, landing }: EnvelopeCase, { x, y }: Plot): boolean =>
  Math.hypot(x.at(takeoff.arm) - x.at(landing.arm), y.at(takeoff.weight) - y.at(landing.weight)) > 1;

function singleLabels(one: EnvelopeCase, plot: Plot, full: boolean): LabelRequest[] {
  const { x, y, size, say, words } = plot;
  const { takeoff, landing, limits } = one;
  const point = (name: string, load: Load): LabelRequest => ({
    lines: full ? [name, say.say(load.weight, 'weight', 1), say.say(load.arm, 'length', 2)] : [name],
    size,
    bold: true,
    places: placesAround(x.at(load.arm), y.at(load.weight), 10),
  });
  const limit = (name: string, arm: number, forward: boolean): LabelRequest => {
    const [px, py] = [x.at(arm), y.at(limits!.at)];
    const out = forward ? ({ x: px - 6, align: 'end' } as const) : ({ x: px + 6, align: 'start' } as const);
    const within = forward ? ({ x: px + 6, align: 'start' } as const) : ({ x: px - 6, align: 'end' } as const);
    return {
      lines: full ? [name, say.say(arm, 'length', 2)] : [name],
      size,
      places: [out, within].flatMap((side): Place[] => [
        { ...side, y: py, side: 'beside' },
        ...[4, 12, 20].flatMap((off): Place[] => [
          { ...side, y: py + off, side: 'below' },
          { ...side, y: py - off, side: 'above' },
        ]),
      ]),
    };
  };
  return [
    point(words('take-off'), takeoff),
    ...(isBurnt(one, plot) ? [point(words('landing'), landing)] : []),
    ...(limits
      ? [
          limit(full ? words('forward limit') : words('forward'), limits.from, true),
          limit(full ? words('aft limit') : words('aft'), limits.to, false),
        ]
      : []),
  ];
}

/** Each case's verdict below the picture, behind its number or mark. */
function verdicts(
  cases: readonly EnvelopeCase[],
  notes: readonly string[],
  { y: top, width, size, numbers }: { y: number; width: number; size: number; numbers: boolean },
): { nodes: SvgNode[]; bottom: number } {
  const nodes: SvgNode[] = [];
  let y = top;
  const paragraph = (mark: string, said: string, bold: boolean): void => {
    const indent = mark ? 20 : EDGE;
    const wrapped = wrapText(said, width - indent - 2, size, bold);
    if (mark) nodes.push(text(4, y + size, mark, { size, bold: true }));
    nodes.push(...lines(indent, y + size, wrapped, { size, bold, fill: bold ? ALERT : INK }));
    y += wrapped.length * size * LINE + size * 0.4;
  };
  cases.forEach(({ name, words: verdict, inside }, index) =>
    paragraph(numbers ? String(index + 1) : '', `${name}: ${verdict}`, !inside),
  );
  for (const note of notes) paragraph('', note, false);
  return { nodes, bottom: y };
}

function describe({ envelope, cases }: EnvelopePictureData, plot: Plot): string {
  const { say, words } = plot;
  const { arms, weights } = envelope;
  const limits = words('Allowed from {lightest} to {heaviest} and from {forward} to {aft}.', {
    lightest: say.bare(weights.from, 'weight', 0),
    heaviest: say.say(weights.to, 'weight', 0),
    forward: say.bare(arms.from, 'length', 1),
    aft: say.say(arms.to, 'length', 1),
  });
  return [limits, ...cases.map((one) => `${caseWords(one, plot, true)}.`)].join(' ');
}
