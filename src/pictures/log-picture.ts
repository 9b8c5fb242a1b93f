/** Roll-ups over time against the budget. */
import {
  EDGE,
  axisUp,
  picture,
  scale,
  ticksFor,
  upWidth,
  widened,
  settingsOf,
  INCH_POUND,
  placesFor,
  dateTicks,
  dayOf,
  type PictureOptions,
  type Shown,
  type Words,
} from './frame';
import { LINE, spread } from './labels';
import { FILL, gridLine, INK, line, lines, pointMark, text } from './marks';
import { keyed, node, pickable, type SvgNode } from '../core/markup';
import type { Quantities } from '../core/quantity';
import { textWidth } from '../core/text-width';

export interface LogPoint {
  readonly id: string;
  /** "2026-03-31" */
  readonly date: string;
  /** lb */
  readonly weight: number;
  readonly forecast: number | undefined;
  readonly budget: number | undefined;
  readonly note?: string;
}

export interface LogPictureData extends Shown {
  /** Of what: "Total", a component. */
  readonly name: string;
  /** Earliest first. */
  readonly points: readonly LogPoint[];
}

type Series = 'weight' | 'forecast' | 'budget';
const DASHES: Readonly<Record<Series, string | undefined>> = { weight: undefined, forecast: '6 4', budget: '2 3' };

export function logPicture(
  { name, points, quantities: say = INCH_POUND }: LogPictureData,
  options: PictureOptions,
): SvgNode {
  const { width, size, words } = settingsOf(options);
  const title = words('{name}: weight over time', { name });
  if (points.length === 0)
    return picture(
      options,
      size * 3,
      title,
      words('The log has no entry yet.'),
      text(EDGE, size * 1.5, words('The log has no entry yet.'), { size }),
    );
  const values = points.flatMap(({ weight, forecast, budget }) => [weight, forecast ?? weight, budget ?? weight]);
  const places = placesFor(Math.max(...values));
  const range = widened(values);
  const height = Math.round(Math.min(340, Math.max(200, width * 0.55)));
  const series = (['weight', 'forecast', 'budget'] as const).flatMap((one) => lastOf(points, one) ?? []);
  const named: Readonly<Record<Series, string>> = {
    weight: words('listed'),
    forecast: words('forecast'),
    budget: words('budget'),
  };
  const ends = series.map(({ of, value }) => [named[of], say.say(value, 'weight', places)]);
  const gutter = Math.max(...ends.flat().map((said) => textWidth(said, size, true))) + 12;
  const top = size * 1.8;
  const bottom = height - size * 2.2;
  const ticksY = ticksFor(range, bottom - top, size, 'up', { quantities: say, dimension: 'weight' });
  const left = upWidth(ticksY, size);
  const right = width - gutter;
  const days = points.map(({ date }) => dayOf(date));
  const [first, last] = [days[0]!, days.at(-1)!];
  const x = scale(first, last > first ? last : first + 1, left + 6, right - 6);
  const y = scale(range.from, range.to, bottom, top);
  const labelY = spread(
    series.map(({ value }) => y.at(value)),
    size * LINE * 2 + 2,
    top + size,
    bottom - size * 0.4,
  );
  const labels = series.flatMap(({ of, value }, index) => {
    const at = labelY[index]!;
    return [
      line(right - 5, y.at(value), right + 6, at, { 'stroke-opacity': 0.5 }),
      ...lines(right + 9, at - size * 0.25, ends[index]!, { size, bold: of === 'weight' }),
    ];
  });
  const drawn = (['budget', 'forecast', 'weight'] as const).map((one) =>
    keyed(
      one,
      lineOf(
        one,
        points,
        (point) => x.at(dayOf(point.date)),
        (value) => y.at(value),
      ),
    ),
  );
  const marks = points.map((point) =>
    pointOf(point, x.at(dayOf(point.date)), (value) => y.at(value), { say, places, words }),
  );
  return picture(
    options,
    height,
    title,
    describe(points, { say, places, words }),
    text(left, size, `${say.sign('weight')}, ${name}`, { size }),
    axisUp(y, ticksY, { left, right, size }),
    dateAxis(first, last, x, { top, bottom, left, right, size }, words),
    drawn,
    marks,
    labels,
  );
}

interface Saying {
  readonly say: Quantities;
  readonly places: number;
  readonly words: Words;
}

function lastOf(points: readonly LogPoint[], of: Series): { of: Series; value: number } | undefined {
  const value = points.findLast((point) => point[of] !== undefined)?.[of];
  return value === undefined ? undefined : { of, value };
}

/** Straight from entry to entry; a budget stands until it is changed, so it goes in steps. */
function lineOf(
  of: Series,
  points: readonly LogPoint[],
  x: (point: LogPoint) => number,
  y: (value: number) => number,
): SvgNode {
  const known = points.filter((point) => point[of] !== undefined);
  const path = known.map((point, index) => {
    const [px, py] = [x(point).toFixed(1), y(point[of]!).toFixed(1)];
    if (index === 0) return `M${px} ${py}`;
    return of === 'budget' ? `H${px}V${py}` : `L${px} ${py}`;
  });
  return node('path', {
    d: path.join(''),
    fill: 'none',
    stroke: of === 'weight' ? FILL : INK,
    'stroke-width': of === 'forecast' ? 1.5 : 2,
    'stroke-dasharray': DASHES[of],
  });
}

function pointOf(
  { id, date, weight, forecast, budget, note }: LogPoint,
  x: number,
  y: (value: number) => number,
  { say, places, words }: Saying,
): SvgNode {
  const bare = (value: number): string => say.bare(value, 'weight', places);
  const figures = [
    words('listed {weight}', { weight: bare(weight) }),
    ...(forecast === undefined ? [] : [words('forecast {weight}', { weight: bare(forecast) })]),
    ...(budget === undefined ? [] : [words('budget {weight}', { weight: bare(budget) })]),
  ];
  return pickable(
    id,
    `${date}: ${figures.join(', ')} ${say.sign('weight')}${note ? `. ${note}` : ''}`,
    forecast === undefined ? undefined : pointMark('open', x, y(forecast), 4),
    pointMark('filled', x, y(weight), 5),
  );
}

function dateAxis(
  first: number,
  last: number,
  x: { at(value: number): number },
  { top, bottom, left, right, size }: { top: number; bottom: number; left: number; right: number; size: number },
  words: Words,
): SvgNode[] {
  // "Nov 2025" is the widest label.
  const most = Math.max(1, Math.floor((right - left) / (textWidth('Nov 2025', size) * 0.75)));
  let free = -Infinity;
  const ticks = dateTicks(first, Math.max(last, first + 1), most, words).flatMap(({ day, label }) => {
    const at = x.at(day);
    const half = textWidth(label, size) / 2;
    const middle = Math.min(right - half, Math.max(left + half, at));
    const grid = [gridLine(at, top, at, bottom), line(at, bottom, at, bottom + 4)];
    if (middle - half < free) return grid;
    free = middle + half + size * 0.4;
    return [...grid, text(middle, bottom + 5 + size, label, { size, align: 'middle' })];
  });
  return [line(left, bottom, right, bottom), ...ticks];
}

function describe(points: readonly LogPoint[], { say, places, words }: Saying): string {
  const said = (value: number): string => say.say(value, 'weight', places);
  const [first, last] = [points[0]!, points.at(-1)!];
  const now = { date: last.date, weight: said(last.weight) };
  const moved = { change: said(Math.abs(last.weight - first.weight)), date: first.date };
  return [
    words('{count} entries.', { count: points.length }),
    last.forecast === undefined
      ? words('On {date} listed {weight}.', now)
      : words('On {date} listed {weight}, forecast {forecast}.', { ...now, forecast: said(last.forecast) }),
    ...(last.budget === undefined ? [] : [words('Budget {weight}.', { weight: said(last.budget) })]),
    ...(points.length < 2
      ? []
      : [
          last.weight >= first.weight
            ? words('Up {change} since {date}.', moved)
            : words('Down {change} since {date}.', moved),
        ]),
  ].join(' ');
}
