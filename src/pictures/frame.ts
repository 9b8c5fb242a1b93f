/** What every picture has: the SVG element with its words for screen readers, scales and axes. */
import { quantities, type Quantities, type Dimension } from '../core/quantity';
import { gridLine, line, text } from './marks';
import { node, type Child, type SvgNode } from '../core/markup';
import { textWidth } from '../core/text-width';

// The words and numbers of a picture, which whoever draws it can have in another language and other units.

/** Gives a text, known by its English, with values in its {places}. */
export type Words = (english: string, values?: Readonly<Record<string, string | number>>) => string;

/** The text as it stands. */
export const inEnglish: Words = (english, values = {}) =>
  english.replace(/\{(\w+)\}/g, (place, name: string) => String(values[name] ?? place));

/** What every picture's data may say: how its weights and arms, given in lb and in, are shown. */
export interface Shown {
  /** Inches and pounds in English, where it is left out. */
  readonly quantities?: Quantities;
}

export const INCH_POUND = quantities('in-lb');

/** Decimals that tell weights of a size (lb) apart: two below 100, one below 1,000, none above. */
export const placesFor = (largest: number): number => (largest < 100 ? 2 : largest < 1000 ? 1 : 0);

// Round ticks for an axis.

export interface Ticks {
  readonly values: readonly number[];
  /** Decimals that show every tick as it is. */
  readonly places: number;
}

/** Steps of 1, 2 or 5 times a power of ten: the multiples in a range, at most `most` and as many as fit in. */
export function roundTicks(from: number, to: number, most: number): Ticks {
  if (!(to > from)) return { values: [from], places: 0 };
  const rough = (to - from) / Math.max(1, most - 1);
  let finer: Ticks | undefined;
  for (let exponent = Math.floor(Math.log10(rough)) - 1; ; exponent++) {
    for (const factor of [1, 2, 5]) {
      const ticks = multiples(from, to, factor, exponent);
      // An axis with one number on it has no scale: rather one too many.
      if (ticks.values.length <= Math.max(2, most)) return ticks.values.length < 2 && finer ? finer : ticks;
      finer = ticks;
    }
  }
}

/** Multiples of factor × 10^exponent in a range. */
function multiples(from: number, to: number, factor: number, exponent: number): Ticks {
  const step = factor * 10 ** exponent;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  const places = Math.max(0, -exponent);
  // Multiplied and rounded, not added up: 0.1 + 0.1 + 0.1 is not 0.3.
  return {
    values: Array.from({ length: Math.max(0, count) }, (_, index) => Number(((first + index) * step).toFixed(places))),
    places,
  };
}

export interface DateTick {
  /** Days since 1 January 1970. */
  readonly day: number;
  readonly label: string;
}

const DAY = 86_400_000;

const monthsOf = (words: Words): readonly string[] => [
  ...[words('Jan'), words('Feb'), words('Mar'), words('Apr'), words('May'), words('Jun')],
  ...[words('Jul'), words('Aug'), words('Sep'), words('Oct'), words('Nov'), words('Dec')],
];

/** Days since 1 January 1970 of "2026-03-31". */
export const dayOf = (iso: string): number => Math.round(Date.parse(`${iso}T00:00:00Z`) / DAY);

/** Firsts of months, quarters or years in a range of days, at most `most`; days where the range is short. */
export function dateTicks(from: number, to: number, most: number, words: Words = inEnglish): DateTick[] {
  if (to - from < 62) return dayTicks(from, to, most, words);
  const months = monthsOf(words);
  const start = new Date(from * DAY);
  for (const step of [1, 2, 3, 6, 12, 24, 60, 120]) {
    const ticks: DateTick[] = [];
    const firstMonth = Math.floor((start.getUTCFullYear() * 12 + start.getUTCMonth()) / step) * step;
    for (let month = firstMonth; ; month += step) {
      const day = Date.UTC(Math.floor(month / 12), month % 12, 1) / DAY;
      if (day > to) break;
      if (day >= from)
        ticks.push({
          day,
          label: month % 12 === 0 || step >= 12 ? String(Math.floor(month / 12)) : months[month % 12]!,
        });
    }
    if (ticks.length <= most) return withYear(ticks, words);
  }
  return [];
}

function dayTicks(from: number, to: number, most: number, words: Words): DateTick[] {
  const months = monthsOf(words);
  const { values } = roundTicks(0, Math.max(1, to - from), most);
  return values.filter(Number.isInteger).map((offset) => {
    const date = new Date((from + offset) * DAY);
    return {
      day: from + offset,
      label: words('{day} {month}', { day: date.getUTCDate(), month: months[date.getUTCMonth()]! }),
    };
  });
}

/** The first tick says its year, so that no axis is without one. */
function withYear(ticks: DateTick[], words: Words): DateTick[] {
  const [first, ...rest] = ticks;
  if (!first || /\d{4}/.test(first.label) || rest.some(({ label }) => /\d{4}/.test(label))) return ticks;
  return [
    {
      ...first,
      label: words('{month} {year}', { month: first.label, year: String(new Date(first.day * DAY).getUTCFullYear()) }),
    },
    ...rest,
  ];
}

export interface PictureOptions {
  /** Pixels; the picture is laid out for it. 240 or more. */
  readonly width: number;
  /** Of labels, pixels; 12 where it is not given. */
  readonly fontSize?: number;
  /** True where parts can be picked: the picture is a group of parts then, and not one image. */
  readonly pickable?: boolean;
  /** The picture's words in the reader's language; English where it is not given. */
  readonly words?: Words;
}

const SMALLEST = 240;

/** What a picture is laid out by: its width, the size of its letters, and its words. */
export const settingsOf = ({ width, fontSize = 12, words = inEnglish }: PictureOptions) => ({
  width: Math.max(SMALLEST, width),
  size: fontSize,
  words,
});
/** Where texts at the left begin: at the very edge the outermost of their pixels would be cut off. */
export const EDGE = 1;

export const picture = (
  options: PictureOptions,
  height: number,
  title: string,
  description: string,
  ...children: readonly Child[]
): SvgNode => {
  const width = Math.round(settingsOf(options).width);
  return node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${Math.ceil(height)}`,
      width,
      height: Math.ceil(height),
      role: options.pickable ? 'group' : 'img',
      'aria-label': title,
      // Letters as wide as they are drawn, not rounded to pixels as some systems do: their room is worked out beforehand.
      'text-rendering': 'geometricPrecision',
    },
    node('title', {}, title),
    node('desc', {}, description),
    ...children,
  );
};

/** From values to pixels. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  at(value: number): number;
}

export function scale(from: number, to: number, pixelFrom: number, pixelTo: number): Scale {
  const span = to - from || 1;
  return { from, to, at: (value) => pixelFrom + ((value - from) / span) * (pixelTo - pixelFrom) };
}

/** A range with room on both sides of its values; not below 0 where none of them is. Values that are all one get room in proportion to their size. */
export function widened(values: readonly number[], share = 0.06): { readonly from: number; readonly to: number } {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const slack = Math.max((high - low) * share, Math.abs(low) * 0.01, Math.abs(high) * 0.01, 1e-3);
  return { from: low >= 0 ? Math.max(0, low - slack) : low - slack, to: high + slack };
}

/** A tick, where it stands in the data's own (inch-pound) unit, and what is written at it. */
export interface Tick {
  readonly value: number;
  readonly words: string;
}

/** What is measured along an axis, and how it is shown; without a dimension it is a plain number. */
export interface Measured {
  readonly quantities: Quantities;
  readonly dimension?: Dimension;
}

/** Ticks at round numbers of the unit that is shown, for so many pixels that their labels do not touch. */
export function ticksFor(
  range: { readonly from: number; readonly to: number },
  pixels: number,
  size: number,
  direction: 'across' | 'up',
  { quantities, dimension }: Measured,
): Tick[] {
  const factor = dimension ? quantities.to(1, dimension) : 1;
  const ticksOf = (most: number): Tick[] => {
    const { values, places } = roundTicks(range.from * factor, range.to * factor, most);
    return values.map((value) => ({ value: value / factor, words: quantities.write(value, places) }));
  };
  const most = Math.max(2, Math.floor(pixels / (size * 3)));
  if (direction === 'up') return ticksOf(most);
  for (let fewer = most; fewer > 2; fewer--) {
    const ticks = ticksOf(fewer);
    const widest = Math.max(...ticks.map(({ words }) => textWidth(words, size)));
    if (widest + size <= pixels / Math.max(1, ticks.length - 1)) return ticks;
  }
  return ticksOf(2);
}

/** Labels under a picture, with a grid above them. Labels at the ends stay inside [left, right]. */
export const axisAcross = (
  scaleX: Scale,
  ticks: readonly Tick[],
  { top, bottom, size, left, right }: { top: number; bottom: number; size: number; left: number; right: number },
): SvgNode[] =>
  ticks.flatMap(({ value, words }) => {
    const x = scaleX.at(value);
    const half = textWidth(words, size) / 2;
    return [
      gridLine(x, top, x, bottom),
      line(x, bottom, x, bottom + 4),
      text(Math.min(right - half, Math.max(left + half, x)), bottom + 4 + size, words, { size, align: 'middle' }),
    ];
  });

/** Labels left of a picture, with a grid to their right. */
export const axisUp = (
  scaleY: Scale,
  ticks: readonly Tick[],
  { left, right, size }: { left: number; right: number; size: number },
): SvgNode[] =>
  ticks.flatMap(({ value, words }) => {
    const y = scaleY.at(value);
    return [gridLine(left, y, right, y), text(left - 5, y + size * 0.36, words, { size, align: 'end' })];
  });

/** Room that the labels of an upright axis take. */
export const upWidth = (ticks: readonly Tick[], size: number): number =>
  Math.max(...ticks.map(({ words }) => textWidth(words, size)), 0) + 8;
