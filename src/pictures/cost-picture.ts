/** Options by weight and cost: each a point, so that it is seen what a pound saved costs. */
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
  placesFor,
  type PictureOptions,
  type Shown,
  type Words,
} from './frame';
import { placeLabels, placesAround, wrapText, type Box, type LabelRequest } from './labels';
import { label, line, pointMark, text } from './marks';
import { node, pickable, type SvgNode } from '../core/markup';
import { textWidth } from '../core/text-width';

export interface CostOption {
  /** What is picked with the point. */
  readonly id: string;
  readonly name: string;
  /** lb */
  readonly weight: number;
  readonly cost: number;
  /** The option that is in the sheet now. */
  readonly current?: boolean;
}

export interface CostPictureData extends Shown {
  readonly options: readonly CostOption[];
  readonly currency: string;
  readonly title?: string;
}

export function costPicture(
  { options: choices, currency, title: given, quantities: say = INCH_POUND }: CostPictureData,
  options: PictureOptions,
): SvgNode {
  const { width, size, words } = settingsOf(options);
  const title = given ?? words('Weight against cost');
  if (choices.length === 0)
    return picture(
      options,
      size * 3,
      title,
      words('No options yet.'),
      text(EDGE, size * 1.5, words('No options yet.'), { size }),
    );
  const [costs, weights] = [
    widened(
      choices.map(({ cost }) => cost),
      0.2,
    ),
    widened(
      choices.map(({ weight }) => weight),
      0.2,
    ),
  ];
  const [top, bottom] = [size * 1.8, size * 1.8 + Math.round(Math.min(320, Math.max(200, width * 0.6)))];
  const ticksY = ticksFor(weights, bottom - top, size, 'up', { quantities: say, dimension: 'weight' });
  const left = upWidth(ticksY, size);
  const right = width - 8;
  const x = scale(costs.from, costs.to, left, right);
  const y = scale(weights.from, weights.to, bottom, top);
  const places = placesFor(Math.max(...choices.map(({ weight }) => weight)));
  const spoken = ({ name, weight, cost, current }: CostOption): string => {
    const values = { name, weight: say.say(weight, 'weight', places), cost: say.write(cost, 2), currency };
    return current
      ? words('{name}, as it is now: {weight}, {cost} {currency}', values)
      : words('{name}: {weight}, {cost} {currency}', values);
  };
  const bounds: Box = { x: left + 2, y: top, width: right - left - 2, height: bottom - top };
  const obstacles = choices.map((one): Box => ({
    x: x.at(one.cost) - 6,
    y: y.at(one.weight) - 6,
    width: 12,
    height: 12,
  }));
  const requests = choices.map((one): LabelRequest => ({
    lines: [
      ...wrapText(one.current ? words('{name} (now)', { name: one.name }) : one.name, bounds.width * 0.45, size),
      ...superlatives(one, choices, words),
    ],
    size,
    bold: one.current === true,
    places: placesAround(x.at(one.cost), y.at(one.weight), 9),
  }));
  const labels = placeLabels(requests, obstacles, bounds);
  const points = choices.map((one, index) => {
    const [px, py, { box, place }] = [x.at(one.cost), y.at(one.weight), labels[index]!];
    const leader =
      Math.hypot(place.x - px, place.y - py) > 12
        ? line(
            px,
            py,
            Math.min(box.x + box.width, Math.max(box.x, px)),
            Math.min(box.y + box.height, Math.max(box.y, py)),
            { 'stroke-opacity': 0.5 },
          )
        : undefined;
    return pickable(
      one.id,
      spoken(one),
      leader,
      pointMark(one.current ? 'filled' : 'square', px, py, 5),
      label(labels[index]!),
    );
  });
  const [costName, better] = [words('cost, {currency}', { currency }), words('↙ lighter and cheaper')];
  const axes = [
    ...axisUp(y, ticksY, { left, right, size }),
    ...axisAcross(x, ticksFor(costs, right - left, size, 'across', { quantities: say }), {
      top,
      bottom,
      size,
      left,
      right: width,
    }),
    line(left, bottom, right, bottom),
    text(EDGE, size, words('weight, {unit}', { unit: say.sign('weight') }), { size }),
    text(width - 1, bottom + size * 2.6, costName, { size, align: 'end' }),
    // Which corner is the better one; left out where it would touch the axis' name.
    textWidth(better, size) + textWidth(costName, size) + left + size < width
      ? text(left, bottom + size * 2.6, better, { size })
      : undefined,
  ];
  return picture(
    options,
    bottom + size * 3.1,
    title,
    [words('{count} options.', { count: choices.length }), ...choices.map((one) => `${spoken(one)}.`)].join(' '),
    axes,
    node('g', {}, points),
  );
}

/** "lightest", "cheapest": said where it sets an option apart. */
function superlatives(one: CostOption, all: readonly CostOption[], words: Words): string[] {
  if (all.length < 2) return [];
  const least = (key: 'weight' | 'cost'): boolean => all.every((other) => other === one || other[key] > one[key]);
  const said = [...(least('weight') ? [words('lightest')] : []), ...(least('cost') ? [words('cheapest')] : [])];
  return said.length > 0 ? [said.join(', ')] : [];
}
