/** What every picture has: the SVG element with its words for screen readers, scales and axes. */
import { gridLine, line, text } from './marks';
import { node, type Child, type SvgNode } from '../core/markup';
import type { Dimension, Quantities } from '../core/quantity';
import { textWidth } from '../core/text-width';
import { roundTicks } from './ticks';
import { inEnglish, type Words } from './picture-words';

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

export const fontSizeOf = ({ fontSize = 12 }: PictureOptions): number => fontSize;
export const wordsOf = ({ words = inEnglish }: PictureOptions): Words => words;
export const SMALLEST = 240;
/** Where texts at the left begin: at the very edge the outermost of their pixels would be cut off. */
export const EDGE = 1;

export function picture(
  { width, pickable }: PictureOptions,
  height: number,
  title: string,
  description: string,
  ...children: readonly Child[]
): SvgNode {
  return node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${Math.round(width)} ${Math.ceil(height)}`,
      width: Math.round(width),
      height: Math.ceil(height),
      role: pickable ? 'group' : 'img',
      'aria-label': title,
      // Letters as wide as they are drawn, not rounded to pixels as some systems do: their room is worked out beforehand.
      'text-rendering': 'geometricPrecision',
    },
    node('title', {}, title),
    node('desc', {}, description),
    ...children,
  );
}

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
  const size = Math.max(Math.abs(low), Math.abs(high));
  const slack = Math.max((high - low) * share, size * 0.01, 1e-3);
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
export function axisAcross(
  scaleX: Scale,
  ticks: readonly Tick[],
  { top, bottom, size, left, right }: { top: number; bottom: number; size: number; left: number; right: number },
): SvgNode[] {
  return ticks.flatMap(({ value, words }) => {
    const x = scaleX.at(value);
    const half = textWidth(words, size) / 2;
    return [
      gridLine(x, top, x, bottom),
      line(x, bottom, x, bottom + 4),
      text(Math.min(right - half, Math.max(left + half, x)), bottom + 4 + size, words, { size, align: 'middle' }),
    ];
  });
}

/** Labels left of a picture, with a grid to their right. */
export function axisUp(
  scaleY: Scale,
  ticks: readonly Tick[],
  { left, right, size }: { left: number; right: number; size: number },
): SvgNode[] {
  return ticks.flatMap(({ value, words }) => {
    const y = scaleY.at(value);
    return [gridLine(left, y, right, y), text(left - 5, y + size * 0.36, words, { size, align: 'end' })];
  });
}

/** Room that the labels of an upright axis take. */
export const upWidth = (ticks: readonly Tick[], size: number): number =>
  Math.max(...ticks.map(({ words }) => textWidth(words, size)), 0) + 8;
