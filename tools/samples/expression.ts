/** Formulas written once in two forms: with TARE functions (`tare`) and in plain spreadsheet arithmetic (`plain`). */
import { f, type Formula } from './book';

export interface Expression {
  readonly tare: string;
  readonly plain: string;
}
export type Term = Expression | string | number;

/** A name, a number or a cell, which binds by itself. */
const ATOM = /^-?[\w.$!]+$/;
/** What is written into a template keeps its meaning beside any sign: a sum or a difference stands in brackets. */
const bound = (text: string): string => (ATOM.test(text) || isWhole(text) ? text : `(${text})`);

/** True for one call or one pair of brackets over all of the text: "SUM(A1,B1)", "(A1-B1)"; not for "(A1)-(B1)". */
function isWhole(text: string): boolean {
  if (!/^[\w.]*\(.*\)$/.test(text)) return false;
  let depth = 0;
  for (const [at, letter] of [...text].entries()) {
    depth += letter === '(' ? 1 : letter === ')' ? -1 : 0;
    if (depth === 0 && letter === ')' && at < text.length - 1) return false;
  }
  return true;
}

const tare = (term: Term): string => bound(typeof term === 'object' ? term.tare : String(term));
const plain = (term: Term): string => bound(typeof term === 'object' ? term.plain : String(term));

/** An expression from a template over terms: both(t => `${t(a)}*2`). */
export const both = (write: (term: (t: Term) => string) => string): Expression => ({
  tare: write(tare),
  plain: write(plain),
});

export const times = (...terms: Term[]): Expression => both((t) => terms.map((term) => t(term)).join('*'));
export const plus = (...terms: Term[]): Expression => both((t) => `(${terms.map((term) => t(term)).join('+')})`);
export const minus = (a: Term, b: Term): Expression => both((t) => `(${t(a)}-${t(b)})`);

/** Arm of a point at a fraction of the sample wing's chord. */
export const atChord = (fraction: Term): Expression => both((t) => `LeadingEdge+${t(fraction)}*Chord`);

const call = (name: string, terms: readonly Term[], plainForm: string): Expression => ({
  tare: `TARE.${name}(${terms.map(tare).join(',')})`,
  plain: `(${plainForm})`,
});

export const rect = (a: Term, b: Term): Expression => call('AREA.RECT', [a, b], `(${plain(a)})*(${plain(b)})`);
export const triangle = (a: Term, b: Term): Expression =>
  call('AREA.TRIANGLE', [a, b], `(${plain(a)})*(${plain(b)})/2`);
export const trapezoid = (a: Term, b: Term, h: Term): Expression =>
  call('AREA.TRAPEZOID', [a, b, h], `((${plain(a)})+(${plain(b)}))/2*(${plain(h)})`);
export const circle = (d: Term): Expression => call('AREA.CIRCLE', [d], `PI()*(${plain(d)})^2/4`);
export const slot = (l: Term, w: Term): Expression =>
  call('AREA.SLOT', [l, w], `((${plain(l)})-(${plain(w)}))*(${plain(w)})+PI()*(${plain(w)})^2/4`);
export const ellipse = (a: Term, b: Term): Expression =>
  call('AREA.ELLIPSE', [a, b], `PI()*(${plain(a)})*(${plain(b)})/4`);

/** Bend allowance less two setbacks for one 90° bend, written out: what a bend takes off the mold line lengths, negative. */
const bend90 = (t: Term, r: Term): string =>
  `(0.01743*(${plain(r)})+0.0078*(${plain(t)}))*90-2*((${plain(r)})+(${plain(t)}))`;

export const flatAngle = (a: Term, b: Term, t: Term, r: Term): Expression =>
  call('FLAT.ANGLE', [a, b, t, r], `(${plain(a)})+(${plain(b)})+${bend90(t, r)}`);
export const flatChannel = (web: Term, a: Term, b: Term, t: Term, r: Term): Expression =>
  call('FLAT.CHANNEL', [web, a, b, t, r], `(${plain(web)})+(${plain(a)})+(${plain(b)})+2*(${bend90(t, r)})`);
export const flatZee = (web: Term, a: Term, b: Term, t: Term, r: Term): Expression =>
  call('FLAT.ZEE', [web, a, b, t, r], `(${plain(web)})+(${plain(a)})+(${plain(b)})+2*(${bend90(t, r)})`);

/** g/cm³ as lb/in³: the inch is 2.54 cm, the pound 453.59237 g. */
const grams = (density: number): string => `(${density}*2.54^3/453.59237)`;

/** Densities as the plain form has them, lb/in³: Aluminum Association nominal for aluminium; 4130 an ASM data sheet's. */
export const DENSITY: Readonly<Record<string, string>> = {
  '6061-T6': grams(2.7),
  '2117': grams(2.75),
  '5052': grams(2.68),
  '7178': grams(2.83),
  '4130': grams(7.85),
};

export const tube = (od: number, wall: number, length: Term, material: string): Expression =>
  call(
    'WEIGHT.TUBE',
    [od, wall, length, `"${material}"`],
    `PI()*(${od}-${wall})*${wall}*(${plain(length)})*${DENSITY[material]}`,
  );
export const bar = (diameter: number, length: Term, material: string): Expression =>
  call(
    'WEIGHT.BAR',
    [diameter, length, `"${material}"`],
    `PI()*${diameter}^2/4*(${plain(length)})*${DENSITY[material]}`,
  );
export const section = (area: number, length: Term, material: string): Expression =>
  call('WEIGHT.SECTION', [area, length, `"${material}"`], `${area}*(${plain(length)})*${DENSITY[material]}`);

/** The expression as a cell's content. */
export const cell = (expression: Term): Formula =>
  typeof expression === 'object' ? f(expression.tare, `=${expression.plain}`) : f(String(expression), `=${expression}`);
