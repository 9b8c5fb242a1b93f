/** A figure as a self-contained SVG that takes the colour of the text around it. */
import { escapeMarkup } from '../../core/markup';
import type { Point } from '../../core/geometry';
import type { Figure } from './figure';
import { FONT, layOut, layOutWithin, type PaperLine, type Space } from './layout';

const LOOKS: Readonly<Record<PaperLine['look'], string>> = {
  part: 'fill="currentColor" fill-opacity="0.14" stroke="currentColor" stroke-width="1.5"',
  line: 'fill="none" stroke="currentColor" stroke-width="1.5"',
  heavy: 'fill="none" stroke="currentColor" stroke-width="3.5"',
  hidden: 'fill="none" stroke="currentColor" stroke-width="1" stroke-dasharray="5 4"',
  dimension: 'fill="none" stroke="currentColor" stroke-width="0.8" stroke-opacity="0.75"',
  dots: 'fill="currentColor"',
};

const PADDING = 8;

const n = (value: number): string => String(Math.round(value * 100) / 100);
const at = ([x, y]: Point): string => `${n(x)} ${n(y)}`;

const lineOf = ({ points, closed, look }: PaperLine): string =>
  look === 'dots'
    ? points.map(([px, py]) => `<circle cx="${n(px)}" cy="${n(py)}" r="2.5" ${LOOKS.dots}/>`).join('')
    : `<path d="M${points.map(at).join('L')}${closed ? 'Z' : ''}" ${LOOKS[look]} stroke-linejoin="round"/>`;

/** The shape alone in a small space, without a word: beside a text that names it. */
export function figureToThumbnail(figure: Figure, { width, height }: Space): string {
  const strokes = figure.strokes.filter(({ look }) => look !== 'hidden' && look !== 'dots');
  const { lines, box } = layOut({ ...figure, strokes, notes: [] }, { width: width - 4, height: height - 4 });
  const [x, y] = [(box.left + box.right - width) / 2, (box.top + box.bottom - height) / 2];
  return `<svg xmlns="http://www.w3.org/2000/svg" aria-hidden="true" viewBox="${n(x)} ${n(y)} ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}">${lines.map(lineOf).join('')}</svg>`;
}

/**
 * @param id distinguishes the drawing from others on the same page, so that its title and description are found
 * @param within the space that it may take; its usual size where none is given
 */
export function figureToSvg(figure: Figure, id: string, within?: Space): string {
  const { lines, labels, box } = within
    ? layOutWithin(figure, { width: within.width - 2 * PADDING, height: within.height - 2 * PADDING })
    : layOut(figure);
  const [x, y] = [box.left - PADDING, box.top - PADDING];
  const [width, height] = [box.right - box.left + 2 * PADDING, box.bottom - box.top + 2 * PADDING];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="${id}-title ${id}-desc" viewBox="${n(x)} ${n(y)} ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}" style="max-width:100%;height:auto">`,
    `<title id="${id}-title">${escapeMarkup(figure.title)}</title>`,
    `<desc id="${id}-desc">${escapeMarkup(figure.description)}</desc>`,
    ...lines.map(lineOf),
    `<g fill="currentColor" font-family="system-ui, sans-serif" font-size="${FONT}">`,
    ...labels.map(
      ({ text, at: [lx, ly], anchor }) =>
        `<text x="${n(lx)}" y="${n(ly)}" text-anchor="${anchor}">${escapeMarkup(text)}</text>`,
    ),
    '</g>',
    '</svg>',
  ].join('');
}
