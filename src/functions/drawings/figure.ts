/** A drawing as plain data: lines in the units of the part, and dimensions that name the parameters. */
import type { Point } from '../../core/geometry';

export interface Stroke {
  readonly points: readonly Point[];
  readonly closed?: boolean;
  /** part: filled with a light tint; line: plain; hidden: dashed; heavy: the quantity that is asked for; dots: the points alone. */
  readonly look: 'part' | 'line' | 'hidden' | 'heavy' | 'dots';
}

/** A length between two points, measured along `heading` (degrees, 0 to the right, 90 up). */
export interface Span {
  readonly kind: 'span';
  readonly from: Point;
  readonly to: Point;
  readonly heading: number;
  /** The dimension line stands to the left of the heading (1) or to its right (-1). */
  readonly side: 1 | -1;
  /** 1 is next to the part, 2 outside of that. */
  readonly tier?: number;
  /** Clear of the whole figure (the default) or only of its two points. */
  readonly clear?: 'figure' | 'points';
  readonly label: string;
}

/** A label on a line that points at a place. */
export interface Leader {
  readonly kind: 'leader';
  readonly at: Point;
  /** Where the label stands, on paper, from `at` or from another place: units of the SVG, x to the right and y up. */
  readonly by: Point;
  readonly from?: Point;
  readonly label: string;
}

/** An angle from one heading to another about a point, with the first side carried on to it. */
export interface Turn {
  readonly kind: 'turn';
  readonly centre: Point;
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

export type Note = Span | Leader | Turn;

export interface Figure {
  readonly title: string;
  /** What is to be seen, for those who do not see it. */
  readonly description: string;
  readonly strokes: readonly Stroke[];
  readonly notes: readonly Note[];
  /** Taller than most: a section with its strip below. */
  readonly tall?: boolean;
}

export const part = (points: readonly Point[]): Stroke => ({ points, closed: true, look: 'part' });
export const line = (look: Stroke['look'], ...points: Point[]): Stroke => ({ points, look });

export const span = (
  label: string,
  from: Point,
  to: Point,
  place: Pick<Span, 'heading' | 'side' | 'tier' | 'clear'>,
): Span => ({ kind: 'span', from, to, label, ...place });
/** Horizontal dimension below the figure. */
export const below = (label: string, from: Point, to: Point, tier = 1): Span =>
  span(label, from, to, { heading: 0, side: -1, tier });
export const above = (label: string, from: Point, to: Point, tier = 1): Span =>
  span(label, from, to, { heading: 0, side: 1, tier });
export const atLeft = (label: string, from: Point, to: Point, tier = 1): Span =>
  span(label, from, to, { heading: 90, side: 1, tier });
export const atRight = (label: string, from: Point, to: Point, tier = 1): Span =>
  span(label, from, to, { heading: 90, side: -1, tier });
export const leader = (label: string, at: Point, by: Point, from = at): Leader => ({
  kind: 'leader',
  at,
  by,
  from,
  label,
});

/** "web", or "web = 2" where its value is given. */
export const named = (name: string, value: number | undefined): string =>
  value === undefined ? name : `${name} = ${Number(value.toPrecision(4))}`;

/** Points of an arc, headings in degrees. */
export const arc = (
  [x, y]: Point,
  radius: number,
  [from, to]: readonly [number, number],
  pieces = 48,
  height = radius,
): Point[] =>
  Array.from({ length: pieces + 1 }, (_, i): Point => {
    const angle = ((from + ((to - from) * i) / pieces) * Math.PI) / 180;
    return [x + radius * Math.cos(angle), y + height * Math.sin(angle)];
  });

/** Draws from the numbers of a call in the order of its parameters; those that are missing are left unnamed. */
export type Draw = (values: readonly (number | undefined)[]) => Figure;

/** The given value, or one that makes a clear picture. */
export const or = (value: number | undefined, otherwise: number): number => value ?? otherwise;

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** How far points reach to each side. */
export function bounds(points: readonly Point[]): { left: number; right: number; low: number; high: number } {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
}

/** The point so far from another, in a direction in degrees. */
export const away = ([x, y]: Point, heading: number, length: number): Point => [
  x + length * Math.cos(radians(heading)),
  y + length * Math.sin(radians(heading)),
];
