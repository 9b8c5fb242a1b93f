/** A figure as a self-contained SVG that takes the colour of the text around it. */
import { node, toSvgText, type SvgNode } from '../../core/markup';
import type { Point } from '../../core/geometry';
import type { Figure } from './figure';
import { FONT, layOut, layOutWithin, type PaperLine, type Space } from './layout';

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
