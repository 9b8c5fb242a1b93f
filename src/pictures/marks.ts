/** Marks that tell what they stand for by shape as well as by colour. Colours come from the page: currentColor, or a variable where it sets one. */
import { LINE, type Align, type PlacedLabel } from './labels';
import { node, type SvgNode } from '../core/markup';

/** Text and outlines. */
export const INK = 'var(--picture-ink, currentColor)';
/** Bars and filled marks. */
export const FILL = 'var(--picture-fill, currentColor)';
/** What is over or outside. */
export const ALERT = 'var(--picture-alert, currentColor)';
/** Behind labels, so that lines do not run through them. */
const GROUND = 'var(--picture-ground, Canvas)';

const FILL_OPACITY = 0.7;

export const text = (
  x: number,
  y: number,
  content: string,
  { size, align = 'start', bold = false, fill = INK }: { size: number; align?: Align; bold?: boolean; fill?: string },
): SvgNode =>
  node('text', { x, y, 'font-size': size, 'text-anchor': align, 'font-weight': bold ? 600 : undefined, fill }, content);

/** Lines of text below each other; `y` is the baseline of the first. */
export const lines = (
  x: number,
  y: number,
  contents: readonly string[],
  style: Parameters<typeof text>[3],
): SvgNode[] => contents.map((content, index) => text(x, y + index * style.size * LINE, content, style));

/** A label on a patch of the page's ground. */
export function label({ lines: contents, size, bold, place, box, baseline }: PlacedLabel, fill = INK): SvgNode {
  const x = place.align === 'start' ? box.x : place.align === 'end' ? box.x + box.width : box.x + box.width / 2;
  return node(
    'g',
    {},
    node('rect', {
      x: box.x - 1,
      y: box.y,
      width: box.width + 2,
      height: box.height,
      fill: GROUND,
      'fill-opacity': 0.8,
    }),
    lines(x, baseline, contents, { size, align: place.align, ...(bold ? { bold } : {}), fill }),
  );
}

export const line = (
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  extra: Readonly<Record<string, string | number | undefined>> = {},
): SvgNode => node('line', { x1, y1, x2, y2, stroke: INK, ...extra });

export const gridLine = (x1: number, y1: number, x2: number, y2: number): SvgNode =>
  line(x1, y1, x2, y2, { 'stroke-opacity': 0.2 });

export const solidBar = (x: number, y: number, width: number, height: number): SvgNode =>
  node('rect', { x, y, width: Math.max(0, width), height, fill: FILL, 'fill-opacity': FILL_OPACITY, stroke: FILL });

/** A rectangle of slanted lines, drawn one by one: a pattern would need an id that is its own on the page. */
export function hatchedBar(
  x: number,
  y: number,
  width: number,
  height: number,
  { color = FILL, step = 5, both = false }: { color?: string; step?: number; both?: boolean } = {},
): SvgNode {
  const paths: string[] = [];
  for (let offset = step / 2; offset < width + height; offset += step) {
    // From the bottom or right edge up and to the right, cut off at the rectangle.
    const from = { x: x + Math.max(0, offset - height), y: y + Math.min(height, offset) };
    const to = { x: x + Math.min(width, offset), y: y + Math.max(0, offset - width) };
    paths.push(`M${round(from.x)} ${round(from.y)}L${round(to.x)} ${round(to.y)}`);
    if (both)
      paths.push(`M${round(2 * x + width - from.x)} ${round(from.y)}L${round(2 * x + width - to.x)} ${round(to.y)}`);
  }
  return node(
    'g',
    { stroke: color, fill: 'none' },
    node('path', { d: paths.join('') }),
    node('rect', { x, y, width, height }),
  );
}

/** A stroke across a bar with a foot above it: where the budget ends. */
export const budgetMark = (x: number, y: number, height: number): SvgNode =>
  node(
    'g',
    { stroke: INK, fill: INK },
    node('line', { x1: x, y1: y, x2: x, y2: y + height, 'stroke-width': 2 }),
    node('path', { d: triangle(x, y, 4) }),
  );

const triangle = (x: number, y: number, half: number): string =>
  `M${round(x - half)} ${round(y - half)}L${round(x + half)} ${round(y - half)}L${round(x)} ${round(y + half / 2)}Z`;
const round = (value: number): number => Math.round(value * 100) / 100;

/** Marks of points: filled, open, square, diamond (something is wrong). */
export type PointMark = 'filled' | 'open' | 'square' | 'diamond';

export const pointMark = (kind: PointMark, x: number, y: number, size = 5): SvgNode => MARKS[kind](x, y, size);

const MARKS: Readonly<Record<PointMark, (x: number, y: number, size: number) => SvgNode>> = {
  filled: (x, y, size) => node('circle', { cx: x, cy: y, r: size, fill: FILL, stroke: GROUND, 'stroke-width': 1.5 }),
  open: (x, y, size) => node('circle', { cx: x, cy: y, r: size - 1, fill: GROUND, stroke: INK, 'stroke-width': 2 }),
  square: (x, y, size) =>
    node('rect', {
      x: x - size + 1,
      y: y - size + 1,
      width: 2 * size - 2,
      height: 2 * size - 2,
      fill: GROUND,
      stroke: INK,
      'stroke-width': 2,
    }),
  diamond: (x, y, size) =>
    node('path', {
      d: `M${round(x)} ${round(y - size - 2)}L${round(x + size + 2)} ${round(y)}L${round(x)} ${round(y + size + 2)}L${round(x - size - 2)} ${round(y)}Z`,
      fill: ALERT,
      stroke: GROUND,
      'stroke-width': 1.5,
    }),
};
