/**
 * NACA 4- and 5-digit airfoil sections from the equations of the reports that introduced them.
 *
 * Thickness and the 4-digit mean line: NACA Report 460 (Jacobs, Ward and Pinkerton, 1933).
 * The 5-digit mean lines: NACA Report 537 (Jacobs and Pinkerton, 1935) and Report 610 (1936).
 * Construction of the outline at right angles to the mean line: NACA Report 824 (Abbott, von Doenhoff and
 * Stivers, 1945). The constants of the mean lines as NASA TM 4741 (Ladson and others, 1996) tabulates them.
 */
import { refuse } from '../input-error';

/** Which way the section ends: with the thin base that the published equation leaves, or closed to a point. */
export type TrailingEdge = 'open' | 'closed';

/** Height of the mean line with its first two derivatives, at a fraction of chord. */
export interface MeanLine {
  readonly y: number;
  readonly slope: number;
  readonly curvature: number;
}

export interface NacaSection {
  /** As it is written: "NACA 2412". */
  readonly name: string;
  /** Greatest thickness as a fraction of chord. */
  readonly thickness: number;
  readonly trailingEdge: TrailingEdge;
  /** Fraction of chord at which the mean line changes its equation; undefined for a straight one. */
  readonly joint?: number;
  meanLine(x: number): MeanLine;
}

interface FiveDigitLine {
  /** Where the forward equation ends. */
  readonly m: number;
  readonly k1: number;
  /** k2/k1 of a reflexed line. */
  readonly ratio?: number;
}

/** Mean lines at a design lift coefficient of 0.3, by the second and third digit of the 2-series. */
const FIVE_DIGIT: Readonly<Record<string, FiveDigitLine>> = {
  // Simple ones: Report 537, table I.
  '10': { m: 0.058, k1: 361.4 },
  '20': { m: 0.126, k1: 51.64 },
  '30': { m: 0.2025, k1: 15.957 },
  '40': { m: 0.29, k1: 6.643 },
  '50': { m: 0.391, k1: 3.23 },
  // Reflexed ones (no pitching moment): Report 537; NASA TM 4741.
  '21': { m: 0.13, k1: 51.99, ratio: 0.000764 },
  '31': { m: 0.217, k1: 15.793, ratio: 0.00677 },
  '41': { m: 0.318, k1: 6.52, ratio: 0.0303 },
  '51': { m: 0.441, k1: 3.191, ratio: 0.1355 },
};

/** What may stand where an airfoil is named. */
export const DESIGNATION =
  'a NACA 4- or 5-digit section such as "2412" or "23012", with "closed" behind it for a closed trailing edge';

const THICKEST = 0.4;

const straight = (): MeanLine => ({ y: 0, slope: 0, curvature: 0 });

/** Report 460: two parabolas that meet at the highest point, `m` high at `p`. */
const fourDigitLine =
  (m: number, p: number): ((x: number) => MeanLine) =>
  (x) => {
    const scale = m / (x < p ? p * p : (1 - p) ** 2);
    return {
      y: scale * (x < p ? x * (2 * p - x) : 1 - 2 * p + x * (2 * p - x)),
      slope: 2 * scale * (p - x),
      curvature: -2 * scale,
    };
  };

/** Report 537: a cubic ahead of `m`; behind it a straight line, or in a reflexed section a second cubic. */
function fiveDigitLine({ m, k1, ratio = 0 }: FiveDigitLine, lift: number): (x: number) => MeanLine {
  const sixth = (k1 * lift) / 6;
  const fall = ratio * (1 - m) ** 3 + m ** 3;
  return (x) => {
    const weight = x < m ? 1 : ratio;
    const d = x - m;
    return {
      y: sixth * (weight * d ** 3 - fall * x + m ** 3),
      slope: sixth * (3 * weight * d * d - fall),
      curvature: sixth * 6 * weight * d,
    };
  };
}

/**
 * The section that a designation names: "2412", "NACA 23012", "0012 closed".
 * @throws InputError where it is not a 4- or 5-digit designation, or its mean line is not in the reports
 */
export function nacaSection(designation: string, parameter = 'outline'): NacaSection {
  const fail = (guess?: string): never =>
    refuse(parameter, designation, `${DESIGNATION}, or its coordinates as rows of x and y on a unit chord`, guess);
  const match = /^(?:naca[ -]*)?(\d{4,5})(?:[ ,-]+(open|closed))?$/i.exec(designation.trim());
  if (!match) {
    const series = /^(?:naca[ -]*)?[1-8]\d?[A-Z]?\d?-\d/i.test(designation.trim());
    return fail(series ? 'For a section of another series give its coordinates' : undefined);
  }
  const digits = match[1]!;
  const trailingEdge = (match[2]?.toLowerCase() ?? 'open') as TrailingEdge;
  const thickness = Number(digits.slice(-2)) / 100;
  if (!(thickness > 0 && thickness <= THICKEST))
    return fail(`The last two digits are the thickness in percent of chord, 01 to ${THICKEST * 100}`);
  const common = { name: `NACA ${digits}${trailingEdge === 'closed' ? ' closed' : ''}`, thickness, trailingEdge };

  if (digits.length === 4) {
    const [m, p] = [Number(digits[0]) / 100, Number(digits[1]) / 10];
    if (m === 0) return { ...common, meanLine: straight };
    if (p === 0) return fail('The second digit is the place of the highest camber in tenths of chord, 1 to 9');
    return { ...common, joint: p, meanLine: fourDigitLine(m, p) };
  }
  const line = FIVE_DIGIT[digits.slice(1, 3)];
  if (!line || digits[0] === '0') {
    return fail(
      'The reports give mean lines for second and third digits 10, 20, 30, 40, 50 and, reflexed, 21, 31, 41, 51',
    );
  }
  return { ...common, joint: line.m, meanLine: fiveDigitLine(line, Number(digits[0]) / 2) };
}

/** Coefficients of x, x², x³ behind that of the square root, for a thickness of 0.2 (Report 460). */
const ROOT = 0.2969;
const [C1, C2, C3] = [-0.126, -0.3516, 0.2843];
/** Of x⁴: as published; the closed edge takes the value that makes the sum zero (common practice, no source). */
const C4 = { open: -0.1015, closed: -0.1036 } as const;

/**
 * Half thickness and its derivative with respect to √x, which is smooth at the leading edge where that to x is not.
 * @param root √x, x being the fraction of chord
 */
export function halfThickness(
  { thickness, trailingEdge }: Pick<NacaSection, 'thickness' | 'trailingEdge'>,
  root: number,
): readonly [y: number, byRoot: number] {
  const c4 = C4[trailingEdge];
  const x = root * root;
  const scale = thickness * 5;
  return [
    scale * (ROOT * root + x * (C1 + x * (C2 + x * (C3 + x * c4)))),
    scale * (ROOT + 2 * root * (C1 + x * (2 * C2 + x * (3 * C3 + x * 4 * c4)))),
  ];
}
