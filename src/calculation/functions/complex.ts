/** Complex numbers as texts: "3+4i". Source: Microsoft, the pages on COMPLEX and the functions whose names begin with IM. */
import { CellError, type Cell } from '../../sheet';
import { eachCell, failure, finite, numberText, Reference, toNumber, type Value } from '../values';
import { cells, MANY, NUM, textOf, unlessError, values, type Family, type FunctionSpec } from './define';

interface Complex {
  readonly re: number;
  readonly im: number;
  /** "i" or "j"; undefined for a real number. */
  readonly unit?: string | undefined;
}

const NUMBER = String.raw`[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?`;
const REAL = new RegExp(`^${NUMBER}$`);
/** A number with an imaginary part, before which a sign stands where there is a real one. */
const IMAGINARY = new RegExp(`^(?:(${NUMBER})(?=[-+]))?([-+]|${NUMBER})?([ij])$`);

function parsed(cell: Cell = null): Complex | CellError {
  if (cell instanceof CellError) return cell;
  if (typeof cell === 'number') return { re: cell, im: 0 };
  if (typeof cell === 'boolean') return failure('#VALUE!');
  const text = textOf(cell);
  if (text === '') return cell === null ? { re: 0, im: 0 } : NUM();
  if (REAL.test(text)) return { re: Number(text), im: 0 };
  const [, real = 0, imaginary, unit] = IMAGINARY.exec(text) ?? [];
  return unit === undefined ? NUM() : { re: Number(real), im: factor(imaginary), unit };
}

const factor = (text: string | undefined): number =>
  text === undefined || text === '+' ? 1 : text === '-' ? -1 : Number(text);

function written({ re, im, unit = 'i' }: Complex): Cell {
  if (!Number.isFinite(re) || !Number.isFinite(im)) return NUM();
  if (im === 0) return numberText(re);
  const size = im === 1 ? '' : im === -1 ? '-' : numberText(im);
  const part = re !== 0 && !size.startsWith('-') ? `+${size}` : size;
  return `${re === 0 ? '' : numberText(re)}${part}${unit}`;
}

const polar = (length: number, angle: number): Complex => ({
  re: length * Math.cos(angle),
  im: length * Math.sin(angle),
});
const size = ({ re, im }: Complex): number => Math.hypot(re, im);
const angle = ({ re, im }: Complex): number => Math.atan2(im, re);
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
function over(a: Complex, b: Complex): Complex {
  const by = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / by, im: (a.im * b.re - a.re * b.im) / by };
}
const ONE: Complex = { re: 1, im: 0 };
const sin = ({ re, im }: Complex): Complex => ({ re: Math.sin(re) * Math.cosh(im), im: Math.cos(re) * Math.sinh(im) });
const cos = ({ re, im }: Complex): Complex => ({ re: Math.cos(re) * Math.cosh(im), im: -Math.sin(re) * Math.sinh(im) });
const sinh = ({ re, im }: Complex): Complex => ({ re: Math.sinh(re) * Math.cos(im), im: Math.cosh(re) * Math.sin(im) });
const cosh = ({ re, im }: Complex): Complex => ({ re: Math.cosh(re) * Math.cos(im), im: Math.sinh(re) * Math.sin(im) });

function root(z: Complex): Complex {
  const im = Math.sqrt((size(z) - z.re) / 2);
  return { re: Math.sqrt((size(z) + z.re) / 2), im: z.im < 0 ? -im : im };
}

const one = (apply: (z: Complex) => Complex | CellError): FunctionSpec =>
  cells(1, 1, (cell) =>
    unlessError([parsed(cell)], (z) => unlessError([apply(z)], (result) => written({ ...result, unit: z.unit }))),
  );

const number = (apply: (z: Complex) => number | CellError): FunctionSpec =>
  cells(1, 1, (cell) => unlessError([parsed(cell)], (z) => unlessError([apply(z)], finite)));

/** A number with i and one with j cannot be computed with: #VALUE!. */
function joined(a: Complex, b: Complex, apply: (a: Complex, b: Complex) => Complex): Complex | CellError {
  if (a.unit && b.unit && a.unit !== b.unit) return failure('#VALUE!');
  return { ...apply(a, b), unit: a.unit ?? b.unit };
}

const two = (apply: (a: Complex, b: Complex) => Complex): FunctionSpec =>
  cells(2, 2, (first, second) =>
    unlessError([parsed(first), parsed(second)], (a, b) => unlessError([joined(a, b, apply)], written)),
  );

const many = (apply: (a: Complex, b: Complex) => Complex): FunctionSpec =>
  values(1, MANY, (...given: Value[]) => {
    let result: Complex | CellError | undefined;
    for (const value of given) {
      // A blank cell that is named alone is 0, as LibreOffice and IronCalc have it; in a range it is left out.
      const isAlone = value instanceof Reference && value.isCell;
      eachCell(value, (cell, direct) => {
        if (result instanceof CellError || (!direct && (cell === '' || (cell === null && !isAlone)))) return;
        const z = parsed(cell === '' ? 0 : cell);
        result = z instanceof CellError ? z : result ? joined(result, z, apply) : z;
      });
    }
    return result === undefined ? 0 : unlessError([result], written);
  });

const imaginaryPower = (base: Cell | undefined, exponent: Cell | undefined): Cell =>
  unlessError([parsed(base), toNumber(exponent)], (z, n) => {
    if (size(z) === 0) return n > 0 ? '0' : NUM();
    return written({ ...polar(size(z) ** n, angle(z) * n), unit: z.unit });
  });

const logarithm = (base: number): FunctionSpec =>
  one((z) => {
    if (size(z) === 0) return NUM();
    return { re: Math.log(size(z)) / Math.log(base), im: angle(z) / Math.log(base) };
  });

export const complexFunctions: Family = {
  COMPLEX: cells(2, 3, (real, imaginary, unit) =>
    unlessError([toNumber(real), toNumber(imaginary)], (re, im) => {
      const suffix = unit === undefined ? 'i' : textOf(unit) || 'i';
      return suffix === 'i' || suffix === 'j' ? written({ re, im, unit: suffix }) : failure('#VALUE!');
    }),
  ),
  IMREAL: number(({ re }) => re),
  IMAGINARY: number(({ im }) => im),
  IMABS: number(size),
  IMARGUMENT: number((z) => (size(z) === 0 ? failure('#DIV/0!') : angle(z))),
  IMCONJUGATE: one(({ re, im }) => ({ re, im: -im })),
  IMSUM: many(plus),
  IMPRODUCT: many(times),
  IMSUB: two(minus),
  IMDIV: two(over),
  IMPOWER: cells(2, 2, imaginaryPower),
  IMSQRT: one(root),
  IMEXP: one(({ re, im }) => polar(Math.exp(re), im)),
  IMLN: logarithm(Math.E),
  IMLOG10: logarithm(10),
  IMLOG2: logarithm(2),
  IMSIN: one(sin),
  IMCOS: one(cos),
  IMTAN: one((z) => over(sin(z), cos(z))),
  IMCOT: one((z) => over(cos(z), sin(z))),
  IMSEC: one((z) => over(ONE, cos(z))),
  IMCSC: one((z) => over(ONE, sin(z))),
  IMSINH: one(sinh),
  IMCOSH: one(cosh),
  IMSECH: one((z) => over(ONE, cosh(z))),
  IMCSCH: one((z) => over(ONE, sinh(z))),
};
