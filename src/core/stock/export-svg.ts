/** A pattern drawn to scale, as SVG: strips and pieces with part names, leftovers hatched. For screen and for a printed page. */
import { node, toSvgText, type SvgNode } from '../markup';
import { drawnPattern, lengthText, type BarPatternUse, type Rectangle, type SheetPatternUse } from './plan';

export interface DrawingOptions {
  /** What stands above the drawing; the stock and its size where it is not given. */
  readonly title?: string;
  /** Sign of the unit of length: "in". */
  readonly unit?: string;
  /** Writes a measure; three decimals at most where it is not given. */
  readonly measure?: (length: number) => string;
  /** Tells drawings on one page apart, for their hatching. */
  readonly id?: string;
}

/** Of the longer side: the margin that holds title and measures. */
const MARGIN = 0.05;
const BAR_HEIGHT = 1 / 24;
const LETTER_WIDTH = 0.62;
/** Letters smaller than this part of the drawing are left out: nobody could read them. */
const SMALLEST = 0.006;

export function patternSvg(
  pattern: SheetPatternUse | BarPatternUse,
  { title, unit = 'in', measure = lengthText, id = 'plan' }: DrawingOptions = {},
): string {
  const { length, stock, times } = pattern;
  const sheet = 'strips' in pattern;
  const { width, strips, pieces, leftovers } = drawnPattern(pattern, BAR_HEIGHT);
  const span = Math.max(length, width);
  const margin = span * MARGIN;
  const size = sheet ? `${measure(length)} × ${measure(width)} ${unit}` : `${measure(length)} ${unit}`;
  const heading = title ?? `${stock}, ${size}, ${times === 1 ? 'once' : `${times} times`}`;
  const line = span / 800;
  const box = [-margin, -margin * 1.6, length + 2 * margin, width + 2.6 * margin].map(number).join(' ');
  const [step, hatch] = [number(span / 60), `${id}-hatch`];
  const [hair, thin, thick] = [line, line * 1.5, line * 2].map(number) as [string, string, string];
  return toSvgText(
    node(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        viewBox: box,
        role: 'img',
        'aria-label': `${heading}. ${pieces.map(({ part }) => part).join(', ')}`,
        'font-family': 'sans-serif',
      },
      node('title', {}, heading),
      node(
        'defs',
        {},
        node(
          'pattern',
          { id: hatch, width: step, height: step, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
          node('path', { d: `M0 0V${step}`, stroke: '#767676', 'stroke-width': hair }),
        ),
      ),
      node('text', { x: 0, y: number(-margin * 0.5), 'font-size': number(margin * 0.7) }, heading),
      rectangle({ x: 0, y: 0, length, width }, { fill: '#ffffff', stroke: '#000000', 'stroke-width': thick }),
      leftovers.map((place) => [
        rectangle(place, { fill: `url(#${hatch})`, stroke: '#767676', 'stroke-width': hair }),
        text(`${measure(place.length)} × ${measure(place.width)}`, place, span, '#404040', 1),
      ]),
      strips.map((place) =>
        rectangle(place, {
          fill: 'none',
          stroke: '#000000',
          'stroke-width': thin,
          'stroke-dasharray': `${number(line * 8)} ${number(line * 4)}`,
        }),
      ),
      pieces.map((piece) => [
        rectangle(piece, { fill: '#e8eef4', stroke: '#000000', 'stroke-width': hair }),
        text(piece.turned ? `${piece.part} ↻` : piece.part, piece, span, '#000000', 2),
        text(
          sheet ? `${measure(piece.length)} × ${measure(piece.width)}` : measure(piece.length),
          piece,
          span,
          '#000000',
          3,
        ),
      ]),
    ),
  );
}

const number = (value: number): string => String(Number(value.toFixed(4)));

const rectangle = ({ x, y, length, width }: Rectangle, looks: Readonly<Record<string, string>>): SvgNode =>
  node('rect', { x: number(x), y: number(y), width: number(length), height: number(width), ...looks });

/** A text inside a rectangle, along its longer side: in the middle (1), or on the upper (2) or lower (3) of two lines. */
function text(
  content: string,
  { x, y, length, width }: Rectangle,
  span: number,
  colour: string,
  place: 1 | 2 | 3,
): SvgNode | undefined {
  const upright = width > length * 1.2;
  const [run, rise] = upright ? [width, length] : [length, width];
  const size = Math.min(rise / (place === 1 ? 2 : 3), run / (Math.max(content.length, 1) * LETTER_WIDTH), span / 45);
  if (size < span * SMALLEST) return undefined;
  const offset = place === 1 ? size * 0.35 : place === 2 ? -size * 0.2 : size * 1.0;
  const [cx, cy] = [x + length / 2, y + width / 2];
  return node(
    'text',
    {
      x: number(cx),
      y: number(cy + offset),
      'font-size': number(size),
      'text-anchor': 'middle',
      fill: colour,
      transform: upright ? `rotate(-90 ${number(cx)} ${number(cy)})` : undefined,
    },
    content,
  );
}
