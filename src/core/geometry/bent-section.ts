/** The cross-section of bent sheet as it stands: straight flats and round bends of constant thickness. */
import type { Point } from './polygon';

export interface BentSection {
  /** Left and right face seen along the walk from the first flat to the last, arcs in short chords. */
  readonly left: readonly Point[];
  readonly right: readonly Point[];
  /** Closed outline: the left face out, the right face back. */
  readonly outline: readonly Point[];
  /** Where the walk stands at the end of each piece (flat, bend, flat, …) on the middle of the sheet, and its heading in radians. */
  readonly stops: readonly { readonly at: Point; readonly heading: number }[];
  /** Area of the section by exact arcs: thickness times the length of the middle line. */
  readonly area: number;
}

/**
 * @param flats  straight lengths between tangent lines
 * @param bends  angle of the bend behind each flat but the last, degrees; positive turns left
 * @param radius inside radius
 * @param chords straight pieces that stand for one arc
 */
export function bentSection(
  flats: readonly number[],
  bends: readonly number[],
  thickness: number,
  radius: number,
  chords = 24,
): BentSection {
  const left: Point[] = [];
  const right: Point[] = [];
  const stops: { at: Point; heading: number }[] = [];
  let [x, y, heading, length] = [0, 0, 0, 0];
  const middle = radius + thickness / 2;
  const put = (): void => {
    const [nx, ny] = [(-Math.sin(heading) * thickness) / 2, (Math.cos(heading) * thickness) / 2];
    left.push([x + nx, y + ny]);
    right.push([x - nx, y - ny]);
  };
  put();
  for (const [i, flat] of flats.entries()) {
    x += flat * Math.cos(heading);
    y += flat * Math.sin(heading);
    length += flat;
    put();
    stops.push({ at: [x, y], heading });
    const bend = bends[i];
    if (bend === undefined) continue;
    const turn = (bend * Math.PI) / 180;
    const way = Math.sign(turn);
    const centre: Point = [x - way * middle * Math.sin(heading), y + way * middle * Math.cos(heading)];
    const start = heading;
    for (let step = 1; step <= chords; step++) {
      heading = start + (turn * step) / chords;
      x = centre[0] + way * middle * Math.sin(heading);
      y = centre[1] - way * middle * Math.cos(heading);
      put();
    }
    length += middle * Math.abs(turn);
    stops.push({ at: [x, y], heading });
  }
  return { left, right, outline: [...left, ...[...right].reverse()], stops, area: length * thickness };
}
