/** A figure as a self-contained SVG that takes the colour of the text around it. */
import type { Point } from '../../core/geometry';
import type { Figure } from './figure';
import { FONT, layOut, type PaperLine } from './layout';

const LOOKS: Readonly<Record<PaperLine['look'], string>> = {
  part: 'fill="currentColor" fill-opacity="0.14" stroke="currentColor" stroke-width="1.5"',
  line: 'fill="none" stroke="currentColor" stroke-width="1.5"',
  heavy: 'fill="none" stroke="currentColor" stroke-width="3.5"',
  hidden: 'fill="none" stroke="currentColor" stroke-width="1" stroke-dasharray="5 4"',
  dimension: 'fill="none" stroke="currentColor" stroke-width="0.8" stroke-opacity="0.75"',
  dots: 'fill="currentColor"',
};

const PADDING = 8;

const escape = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const n = (value: number): string => String(Math.round(value * 100) / 100);
const at = ([x, y]: Point): string => `${n(x)} ${n(y)}`;

/**
 * @param id distinguishes the drawing from others on the same page, so that its title and description are found
 */
export function figureToSvg(figure: Figure, id: string): string {
  const { lines, labels, box } = layOut(figure);
  const [x, y] = [box.left - PADDING, box.top - PADDING];
  const [width, height] = [box.right - box.left + 2 * PADDING, box.bottom - box.top + 2 * PADDING];
  const draw = ({ points, closed, look }: PaperLine): string =>
    look === 'dots'
      ? points.map(([px, py]) => `<circle cx="${n(px)}" cy="${n(py)}" r="2.5" ${LOOKS.dots}/>`).join('')
      : `<path d="M${points.map(at).join('L')}${closed ? 'Z' : ''}" ${LOOKS[look]} stroke-linejoin="round"/>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="${id}-title ${id}-desc" viewBox="${n(x)} ${n(y)} ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}" style="max-width:100%;height:auto">`,
    `<title id="${id}-title">${escape(figure.title)}</title>`,
    `<desc id="${id}-desc">${escape(figure.description)}</desc>`,
    ...lines.map(draw),
    `<g fill="currentColor" font-family="system-ui, sans-serif" font-size="${FONT}">`,
    ...labels.map(({ text, at: [lx, ly], anchor }) => `<text x="${n(lx)}" y="${n(ly)}" text-anchor="${anchor}">${escape(text)}</text>`),
    '</g>',
    '</svg>',
  ].join('');
}
