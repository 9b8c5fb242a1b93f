/** The heaviest parts, and what share of the whole they are together. */
import {
  EDGE,
  picture,
  scale,
  settingsOf,
  INCH_POUND,
  placesFor,
  type PictureOptions,
  type Shown,
  type Words,
} from './frame';
import { LINE, wrapText } from './labels';
import { FILL, gridLine, INK, line, lines, pointMark, solidBar, text } from './marks';
import { node, pickable, type SvgNode } from '../core/markup';
import type { Quantities } from '../core/quantity';
import { textWidth } from '../core/text-width';

export interface ParetoPart {
  /** What is picked with the bar. */
  readonly id: string;
  readonly name: string;
  /** Said behind the name where there is room for it: the component. */
  readonly of?: string;
  /** lb */
  readonly weight: number;
  /** This and all heavier parts, per cent of the whole. */
  readonly together: number | undefined;
}

export interface ParetoPictureData extends Shown {
  /** Heaviest first. */
  readonly parts: readonly ParetoPart[];
  /** How many parts there are in all. */
  readonly count: number;
}

const BAR = 10;

export function paretoPicture(
  { parts, count, quantities: say = INCH_POUND }: ParetoPictureData,
  options: PictureOptions,
): SvgNode {
  const { width, size, words } = settingsOf(options);
  const places = placesFor(Math.max(0, ...parts.map(({ weight }) => weight)));
  const percentWidth = textWidth('100 %', size) + 10;
  const shareWidth = Math.max(70, Math.min(180, width * 0.22)) + percentWidth;
  const left = width - shareWidth - 14;
  const widest = Math.max(...parts.map(({ weight }) => textWidth(say.say(weight, 'weight', places), size)), 0);
  const bars = scale(0, Math.max(...parts.map(({ weight }) => weight), 1e-6), 0, left - widest - 6);
  const share = scale(0, 100, width - shareWidth + 6, width - percentWidth);
  const heading = lines(share.at(0) - 6, size, [words('together,'), words('% of all')], { size });
  const nodes: SvgNode[] = [];
  const dots: { x: number; y: number; percent: number }[] = [];
  let y = size * LINE * 2 + 4;
  const top = y;
  for (const { id, name, of, weight, together } of parts) {
    const named = wrapText(of ? `${name} (${of})` : name, left, size);
    const barTop = y + named.length * size * LINE + 2;
    const said = say.say(weight, 'weight', places);
    const bar = bars.at(Math.max(0, weight));
    if (together !== undefined) dots.push({ x: share.at(together), y: barTop + BAR / 2, percent: together });
    const values = { part: of ? `${name}, ${of}` : name, weight: said };
    const title =
      together === undefined
        ? `${values.part}: ${said}`
        : words('{part}: {weight}, together {percent} % of all', { ...values, percent: say.write(together, 0) });
    nodes.push(
      pickable(
        id,
        title,
        node('rect', { x: 0, y, width: left, height: barTop + BAR - y, fill: 'transparent', stroke: 'none' }),
        lines(EDGE, y + size, named, { size }),
        solidBar(0.5, barTop, bar, BAR),
        text(bar + 6, barTop + BAR / 2 + size * 0.36, said, { size }),
      ),
    );
    y = barTop + BAR + size * 0.7;
  }
  const bottom = y;
  const grid = [0, 50, 100].map((percent) => gridLine(share.at(percent), top, share.at(percent), bottom));
  const curve = node('polyline', {
    points: [`${share.at(0)},${top}`, ...dots.map(({ x, y: at }) => `${x},${at}`)].join(' '),
    fill: 'none',
    stroke: FILL,
    'stroke-width': 1.5,
  });
  const marks = dots.flatMap(({ x, y: at, percent }) => [
    pointMark('filled', x, at, 4),
    text(x + 8, at + size * 0.1, `${say.write(percent, 0)} %`, { size }),
  ]);
  const foot = [0, 50, 100].map((percent) =>
    text(share.at(percent), bottom + size + 3, String(percent), { size, align: 'middle' }),
  );
  return picture(
    options,
    bottom + size * 1.6,
    words('Heaviest parts'),
    describe(parts, count, { say, places, words }),
    heading,
    grid,
    curve,
    nodes,
    marks,
    line(share.at(0), bottom, share.at(100), bottom, { stroke: INK }),
    foot,
  );
}

function describe(
  parts: readonly ParetoPart[],
  count: number,
  { say, places, words }: { say: Quantities; places: number; words: Words },
): string {
  const [first] = parts;
  const last = parts.at(-1);
  if (!first || !last) return words('No part has a weight.');
  return [
    words('Bars of the heaviest parts, with their share of all the weight.'),
    words('The heaviest is {name}, {weight}.', { name: first.name, weight: say.say(first.weight, 'weight', places) }),
    ...(last.together === undefined
      ? []
      : [
          words('The {shown} heaviest of {count} parts are {percent} % of the weight.', {
            shown: parts.length,
            count,
            percent: say.write(last.together, 0),
          }),
        ]),
  ].join(' ');
}
