/** Findings on one bend, each with its rule. */
import { NotListedError } from '../input-error';
import { minimumBendRadius } from './bend-radii';
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

/** "ok", or the findings joined by semicolons. A metal that no chart lists is a finding too, not an error. */
export function checkBend(bend: DrawnBend, unit: ShownUnit = { factor: 1, sign: 'in' }): string {
  const { leg, thickness, radius, angle, material } = bend;
  const shown = (inches: number): string => `${Number((inches * unit.factor).toPrecision(4))} ${unit.sign}`;
  const findings: string[] = [];
  const needed = setback(radius, thickness, angle);
  if (leg < needed * (1 - 1e-12)) {
    const rule = angle === 90 ? 'radius + thickness' : '(radius + thickness) × tan(angle / 2)';
    findings.push(`leg ${shown(leg)} is shorter than ${shown(needed)}, the setback ${rule} (FAA-H-8083-31 chapter 4)`);
  }
  try {
    const { radius: least, source } = minimumBendRadius(material, thickness);
    if (radius < least * (1 - 1e-12))
      findings.push(`radius ${shown(radius)} is under the minimum ${shown(least)} (${source})`);
  } catch (error) {
    if (!(error instanceof NotListedError)) throw error;
    findings.push(
      `no minimum radius is listed for ${material} of ${shown(thickness)}: ask the maker and bend a test piece`,
    );
  }
  return findings.length ? findings.join('; ') : 'ok';
}
