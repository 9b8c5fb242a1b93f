/** Components against the design budget: weight now, forecast and budget of each, said in words too. */
import {
  EDGE,
  axisAcross,
  picture,
  scale,
  ticksFor,
  settingsOf,
  INCH_POUND,
  placesFor,
  inEnglish,
  type PictureOptions,
  type Scale,
  type Shown,
  type Words,
} from './frame';
import { LINE, wrapText } from './labels';
import { ALERT, budgetMark, hatchedBar, INK, line, lines, solidBar, text } from './marks';
import { keyed, node, pickable, type Child, type SvgNode } from '../core/markup';
import type { Quantities } from '../core/quantity';
import { textWidth } from '../core/text-width';

export interface BudgetBar {
  /** What is picked with the bar. */
  readonly id: string;
  readonly name: string;
  /** lb */
  readonly current: number;
  readonly forecast: number;
  /** Undefined: it has none. */
  readonly budget: number | undefined;
  /** ± of the weight now, lb; 0 or left out: not known. */
  readonly plusMinus?: number;
}

export interface BudgetPictureData extends Shown {
  readonly bars: readonly BudgetBar[];
  /** Drawn first, on a scale of its own. */
  readonly total?: BudgetBar;
}

const BAR = 14;
const SIDE = 6;

/** "over by 0.36 lb", "1.81 lb left", "no budget" */
export function marginWords(
  { current, forecast, budget }: Omit<BudgetBar, 'id' | 'name'>,
  say: Quantities,
  places: number,
  words: Words = inEnglish,
): string {
  if (budget === undefined) return words('no budget');
  const margin = rounded(budget - forecast, say, places);
  if (margin > 0) return words('{weight} left', { weight: say.say(budget - forecast, 'weight', places) });
  if (margin === 0) return words('just on budget');
  const over = say.say(forecast - budget, 'weight', places);
  const already = rounded(current - budget, say, places);
  return already > 0
    ? words('over by {over}, {already} already', { over, already: say.bare(current - budget, 'weight', places) })
    : words('over by {over}', { over });
}

/** As it is shown, so that words and numbers agree. */
const rounded = (weight: number, say: Quantities, places: number): number =>
  Number(say.to(weight, 'weight').toFixed(say.places('weight', places)));

const isOver = ({ forecast, budget }: BudgetBar, { say, places }: Pick<Layout, 'say' | 'places'>): boolean =>
  budget !== undefined && rounded(budget - forecast, say, places) < 0;

export function budgetPicture(
  { bars, total, quantities: say = INCH_POUND }: BudgetPictureData,
  options: PictureOptions,
): SvgNode {
  const { width, size, words } = settingsOf(options);
  const layout: Layout = { width, size, say, places: placesFor(Math.max(0, ...bars.map(largest))), words };
  const children: SvgNode[] = [];
  let y = 2;
  if (total) {
    const block = barsBlock([total], y, { ...layout, places: placesFor(largest(total)) });
    children.push(keyed('total', node('g', {}, block.nodes)));
    y = block.bottom + size;
  }
  if (bars.length > 0) {
    const block = barsBlock(bars, y, layout);
    children.push(keyed('components', node('g', {}, block.nodes)));
    y = block.bottom;
  }
  return picture(options, y + 2, words('Weight against the budget'), describe(bars, total, layout), children);
}

interface Layout {
  readonly width: number;
  readonly size: number;
  readonly say: Quantities;
  /** Decimals in pounds. */
  readonly places: number;
  readonly words: Words;
}

const largest = ({ current, forecast, budget = 0, plusMinus = 0 }: BudgetBar): number =>
  Math.max(current + plusMinus, forecast, budget);

/** Bars over one common axis. */
function barsBlock(bars: readonly BudgetBar[], top: number, layout: Layout): { nodes: SvgNode[]; bottom: number } {
  const { width, size, say } = layout;
  const unit = say.sign('weight');
  const range = { from: 0, to: Math.max(...bars.map(largest), 1e-6) * 1.03 };
  const across = scale(range.from, range.to, SIDE, width - SIDE);
  const rows: SvgNode[] = [];
  const barTops: number[] = [];
  let y = top;
  for (const bar of bars) {
    const row = barRow(bar, y, across, layout);
    rows.push(row.node);
    barTops.push(row.barTop);
    y = row.bottom + size * 0.7;
  }
  const axisY = y - size * 0.2;
  const unitWidth = textWidth(unit, size) + 6;
  const ticks = ticksFor(range, width - 2 * SIDE - unitWidth, size, 'across', { quantities: say, dimension: 'weight' });
  // The grid runs behind the bars only, so that no line crosses a word.
  const grid = barTops.flatMap((barTop) =>
    ticks.map(({ value }) =>
      line(across.at(value), barTop - 3, across.at(value), barTop + BAR + 3, { 'stroke-opacity': 0.25 }),
    ),
  );
  const shown = ticks.filter(({ value }) => across.at(value) < width - SIDE - unitWidth);
  return {
    nodes: [
      ...grid,
      line(SIDE, axisY, width - SIDE, axisY),
      ...axisAcross(across, shown, { top: axisY, bottom: axisY, size, left: 0, right: width - unitWidth }),
      text(width - 1, axisY + 4 + size, unit, { size, align: 'end' }),
      ...rows,
    ],
    bottom: axisY + 6 + size * 1.3,
  };
}

function barRow(
  bar: BudgetBar,
  top: number,
  across: Scale,
  layout: Layout,
): { node: SvgNode; barTop: number; bottom: number } {
  const { width, size, say, places } = layout;
  const verdict = marginWords(bar, say, places, layout.words);
  const over = isOver(bar, layout);
  const beside = textWidth(bar.name, size, true) + textWidth(verdict, size, over) + size * 1.5 <= width - 2;
  const name = beside ? [bar.name] : wrapText(bar.name, width - 2, size, true);
  const y = top + name.length * size * LINE;
  const wrapped = beside ? [] : wrapText(verdict, width - 2, size, over);
  const style = { size, bold: over, fill: over ? ALERT : INK };
  const heading = [
    lines(EDGE, top + size, name, { size, bold: true }),
    beside ? text(width - 1, top + size, verdict, { ...style, align: 'end' }) : lines(EDGE, y + size, wrapped, style),
  ];
  const barTop = y + wrapped.length * size * LINE + 8;
  const values = valueItems(bar, barTop + BAR + (bar.plusMinus ? 10 : 6), layout);
  const title = `${bar.name}: ${figures(bar, layout)}; ${verdict}`;
  return {
    node: pickable(
      bar.id,
      title,
      hitArea(top, values.bottom, width),
      heading,
      barMarks(bar, barTop, across),
      values.nodes,
    ),
    barTop,
    bottom: values.bottom,
  };
}

/** An unseen ground, so that a click between the words counts too. */
const hitArea = (top: number, bottom: number, width: number): SvgNode =>
  node('rect', { x: 0, y: top, width, height: bottom - top, fill: 'transparent', stroke: 'none' });

function barMarks({ current, forecast, budget, plusMinus = 0 }: BudgetBar, y: number, across: Scale): Child {
  const [zero, now, end] = [across.at(0), across.at(Math.max(0, current)), across.at(Math.max(0, forecast))];
  const limit = budget === undefined ? Infinity : across.at(budget);
  const past = Math.max(zero, limit);
  return [
    solidBar(zero, y, now - zero, BAR),
    end > now && hatchedBar(now, y, end - now, BAR),
    // What lies past the budget is crossed, so that it stands out without its colour.
    end > limit && hatchedBar(past, y, end - past, BAR, { color: ALERT, both: true, step: 4 }),
    plusMinus > 0 && whisker(across.at(Math.max(0, current - plusMinus)), across.at(current + plusMinus), y + BAR + 5),
    budget !== undefined && budgetMark(limit, y - 4, BAR + 8),
  ];
}

/** ± about the end of the bar, below it, where it is not lost among the hatching. */
const whisker = (from: number, to: number, y: number): SvgNode =>
  node(
    'g',
    { stroke: INK, 'stroke-width': 1.5 },
    [from, to].map((x) => node('line', { x1: x, y1: y - 3, x2: x, y2: y + 3 })),
    node('line', { x1: from, y1: y, x2: to, y2: y }),
  );

/** "now 10.79 ± 0.20 · forecast 11.36 · budget 11.00 lb", each behind the mark that it belongs to. */
function valueItems(
  { current, forecast, budget, plusMinus = 0 }: BudgetBar,
  top: number,
  { width, size, say, places, words }: Layout,
): { nodes: SvgNode[]; bottom: number } {
  const small = Math.max(11, size - 1);
  const weight = (value: number): string => say.bare(value, 'weight', places);
  // The last one says the unit.
  const last = (value: number): string => say.say(value, 'weight', places);
  const items: { mark: (x: number, y: number) => SvgNode; said: string }[] = [
    {
      mark: (x, y) => solidBar(x, y, 8, 8),
      said: words('now {weight}', {
        weight: plusMinus > 0 ? `${weight(current)} ± ${weight(plusMinus)}` : weight(current),
      }),
    },
    {
      mark: (x, y) => hatchedBar(x, y, 8, 8, { step: 4 }),
      said: words('forecast {weight}', { weight: budget === undefined ? last(forecast) : weight(forecast) }),
    },
    ...(budget === undefined
      ? []
      : [
          {
            mark: (x: number, y: number) => budgetMark(x + 4, y, 9),
            said: words('budget {weight}', { weight: last(budget) }),
          },
        ]),
  ];
  const nodes: SvgNode[] = [];
  let [x, y] = [0, top];
  for (const { mark, said } of items) {
    const needed = 12 + textWidth(said, small);
    if (x > 0 && x + needed > width) [x, y] = [0, y + small * LINE + 1];
    nodes.push(mark(x, y + small * 0.5 - 3), text(x + 12, y + small, said, { size: small }));
    x += needed + 10;
  }
  return { nodes, bottom: y + small * LINE + 1 };
}

/** "now 10.79, forecast 11.36, budget 11.00 lb" */
function figures({ current, forecast, budget }: BudgetBar, { say, places, words }: Layout): string {
  const weight = (value: number): string => say.bare(value, 'weight', places);
  const values = { now: weight(current), forecast: weight(forecast), unit: say.sign('weight') };
  return budget === undefined
    ? words('now {now}, forecast {forecast} {unit}', values)
    : words('now {now}, forecast {forecast}, budget {budget} {unit}', { ...values, budget: weight(budget) });
}

function describe(bars: readonly BudgetBar[], total: BudgetBar | undefined, layout: Layout): string {
  const { say, places, words } = layout;
  const margin = (bar: BudgetBar): string => marginWords(bar, say, places, words);
  const over = bars.filter((bar) => isOver(bar, layout));
  return [
    ...(total
      ? [words('Total: {figures}, {margin}.', { figures: figures(total, layout), margin: margin(total) })]
      : []),
    words(
      '{count} components as bars: weight now solid, the growth to the forecast hatched, the budget a stroke across.',
      { count: bars.length },
    ),
    over.length === 0
      ? words('No component is over its budget.')
      : words('Over budget: {list}.', { list: over.map((bar) => `${bar.name}, ${margin(bar)}`).join('; ') }),
  ].join(' ');
}
