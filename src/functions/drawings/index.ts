/**
 * Drawings of shapes, bends and airfoils for the reference and the pane, made from the same geometry that computes
 * them. Not for the catalogue: the functions' own bundle stays free of it.
 */
import { unlessRefused } from '../../core/input-error';
import { airfoilDrawings } from './airfoils';
import { areaDrawings } from './areas';
import { bendDrawings } from './bends';
import type { Draw, Figure, Note } from './figure';
import { flatDrawings } from './flat-patterns';
import { figureToSvg } from './svg';

export type { Figure } from './figure';
export { figureToSvg, figureToThumbnail } from './svg';

const DRAWINGS: Readonly<Record<string, Draw>> = {
  ...areaDrawings,
  ...airfoilDrawings,
  ...bendDrawings,
  ...flatDrawings,
};

/** Functions that have a drawing, without the namespace. */
export const drawnFunctions: readonly string[] = Object.keys(DRAWINGS);

/**
 * What is written at a dimension, in place of "web = 2.5" or of "web" alone; undefined leaves it.
 * @param name  the parameter, or the words for a result that is drawn: "web", "flat width"
 * @param value where the figure is drawn by it
 */
export type DimensionLabel = (name: string, value: number | undefined) => string | undefined;

/**
 * The figure of a function.
 * @param name   "FLAT.CHANNEL" or "TARE.FLAT.CHANNEL", in any case
 * @param values the numbers of a call in the order of its parameters (texts left out, undefined for an omitted one), in inches or any one unit;
 *               without them, or where they make no part, the shape is drawn in clear proportions and the parameters are only named
 * @param label  writes the dimensions' labels, also where the shape is in clear proportions
 */
export function figureFor(
  name: string,
  values: readonly (number | undefined)[] = [],
  label?: DimensionLabel,
): Figure | undefined {
  const draw = DRAWINGS[name.toUpperCase().replace(/^TARE\./, '')];
  if (!draw) return undefined;
  const figure = toScale(draw, values) ?? draw([]);
  return label ? { ...figure, notes: figure.notes.map((note) => relabelled(note, label)) } : figure;
}

/** undefined where the values make no part. */
function toScale(draw: Draw, values: readonly (number | undefined)[]): Figure | undefined {
  if (!values.every((value) => value === undefined || Number.isFinite(value))) return undefined;
  const figure = unlessRefused(() => draw(values));
  return figure?.strokes.every(({ points }) => points.flat().every(Number.isFinite)) ? figure : undefined;
}

/** "web", "web = 2.5", "angle = 60°", "from × chord" */
const LABEL = /^(.+?)(?: = (-?[\d.]+(?:e[+-]?\d+)?)°?| × .*)?$/;

function relabelled(note: Note, label: DimensionLabel): Note {
  const [, name = note.label, value] = LABEL.exec(note.label) ?? [];
  return { ...note, label: label(name, value === undefined ? undefined : Number(value)) ?? note.label };
}

/** The figure as a self-contained SVG; undefined for a function without a drawing. */
export function drawingFor(name: string, values?: readonly number[]): string | undefined {
  const figure = figureFor(name, values);
  return (
    figure &&
    figureToSvg(
      figure,
      `drawing-${name
        .toLowerCase()
        .replace(/^tare\./, '')
        .replaceAll('.', '-')}`,
    )
  );
}
