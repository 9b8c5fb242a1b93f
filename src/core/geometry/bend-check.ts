/** Findings on one bend, each with its rule. */
import { NotListedError } from '../input-error';
import { memoized } from '../memoized';
import { minimumBendRadius, radiusSpread } from './bend-radii';
import { setback } from './bends';

/** A bend as it is drawn. Lengths in inches, since the charts are. */
export interface DrawnBend {
  /** The shorter side beside the bend, by its outside dimension. */
  readonly leg: number;
  readonly thickness: number;
  readonly radius: number;
  /** Degrees, turned from flat. */
  readonly angle: number;
  /** Alloy with its temper. */
  readonly material: string;
}

/** The unit in which findings write lengths. */
export interface ShownUnit {
  /** Of it in an inch. */
  readonly factor: number;
  readonly sign: string;
}

const INCHES: ShownUnit = { factor: 1, sign: 'in' };

/** Kept by unit, material and thickness, as the spread itself is: a column of bends has few of them. */
const spreadTexts = memoized((unit: ShownUnit) =>
  memoized((material: string) =>
    memoized((thickness: number): string => {
      const spread = radiusSpread(material, thickness);
      if (!spread) {
        const { radius, source } = minimumBendRadius(material, thickness);
        return `${shownIn(radius, unit)} (${source}), and no other chart says otherwise`;
      }
      const { least, greatest } = spread;
      return `the charts go from ${shownIn(least.radius, unit)} (${least.source}) to ${shownIn(greatest.radius, unit)} (${greatest.source}): bend a test piece`;
    }),
  ),
);

/** The spread of the charts in words: "the charts go from 0.032 in (…) to 0.12 in (…): bend a test piece". */
export const spreadText = (material: string, thickness: number, unit: ShownUnit): string =>
  spreadTexts(unit)(material)(thickness);

const shownIn = (inches: number, { factor, sign }: ShownUnit): string =>
  `${Number((inches * factor).toPrecision(4))} ${sign}`;

/**
 * "ok" (with the spread of the charts behind it where one of them asks for more), or the findings joined by semicolons.
 * The minimum is that of BEND.MINRADIUS: where a chart prints a range its upper end, since the lower one asks for the best
 * tools and metal. So a radius within the range is a finding too, which says that it is within. A metal that no chart
 * lists is a finding, not an error.
 */
export function checkBend(bend: DrawnBend, unit: ShownUnit = INCHES): string {
  const { leg, thickness, radius, angle, material } = bend;
  const shown = (inches: number): string => shownIn(inches, unit);
  let note: string | undefined;
  const findings: string[] = [];
  const needed = setback(radius, thickness, angle);
  if (leg < needed * (1 - 1e-12)) {
    const rule = angle === 90 ? 'radius + thickness' : '(radius + thickness) × tan(angle / 2)';
    findings.push(`leg ${shown(leg)} is shorter than ${shown(needed)}, the setback ${rule} (FAA-H-8083-31 chapter 4)`);
  }
  try {
    const { radius: least, low, source } = minimumBendRadius(material, thickness);
    const spread = radiusSpread(material, thickness);
    const said = spread && radius < spread.greatest.radius * (1 - 1e-12) && spreadText(material, thickness, unit);
    if (radius < least * (1 - 1e-12)) {
      const chart = source.split(',')[0];
      const fault =
        radius < low * (1 - 1e-12)
          ? `is under the minimum ${shown(least)} (${source})`
          : `is in the range ${shown(low)} to ${shown(least)} of ${chart}, under its upper end`;
      findings.push(`radius ${shown(radius)} ${fault}${said ? `; ${said}` : ''}`);
    } else if (said) note = said;
  } catch (error) {
    if (!(error instanceof NotListedError)) throw error;
    findings.push(
      `no minimum radius is listed for ${material} of ${shown(thickness)}: ask the maker and bend a test piece`,
    );
  }
  if (findings.length) return findings.join('; ');
  return note ? `ok; ${note}` : 'ok';
}
