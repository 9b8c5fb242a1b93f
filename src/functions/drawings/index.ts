/**
 * Drawings of shapes, bends and airfoils for the reference and the pane, made from the same geometry that computes
 * them. Not for the catalogue: the functions' own bundle stays free of it.
 */
import { InputError } from '../../core/input-error';
import { airfoilDrawings } from './airfoils';
import { areaDrawings } from './areas';
import { bendDrawings } from './bends';
import type { Figure } from './figure';
import { flatDrawings } from './flat-patterns';
import { figureToSvg } from './svg';

export type { Figure } from './figure';
export { figureToSvg } from './svg';

const DRAWINGS = { ...areaDrawings, ...airfoilDrawings, ...bendDrawings, ...flatDrawings };

/** Functions that have a drawing, without the namespace. */
export const drawnFunctions: readonly string[] = Object.keys(DRAWINGS);

/**
 * The figure of a function.
 * @param name   "FLAT.CHANNEL" or "TARE.FLAT.CHANNEL", in any case
 * @param values the numbers of a call in the order of its parameters (texts left out), in inches or any one unit; without them, or where
 *               they make no part, the shape is drawn in clear proportions and the parameters are only named
 */
export function figureFor(name: string, values?: readonly number[]): Figure | undefined {
  const draw = DRAWINGS[name.toUpperCase().replace(/^TARE\./, '')];
  if (!draw) return undefined;
  if (!values?.length || !values.every(Number.isFinite)) return draw([]);
  try {
    const figure = draw(values);
    return figure.strokes.every(({ points }) => points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y))) ? figure : draw([]);
  } catch (error) {
    if (error instanceof InputError) return draw([]);
    throw error;
  }
}

/** The figure as a self-contained SVG; undefined for a function without a drawing. */
export function drawingFor(name: string, values?: readonly number[]): string | undefined {
  const figure = figureFor(name, values);
  return figure && figureToSvg(figure, `drawing-${name.toLowerCase().replace(/^tare\./, '').replaceAll('.', '-')}`);
}
