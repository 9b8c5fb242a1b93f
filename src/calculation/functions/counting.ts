/**
 * Whole numbers: factorials, combinations, divisors, numerals of other kinds, bits, and comparisons. Source of the numerals to
 * bases 2, 8 and 16 and of bits: Microsoft, the pages on BIN2DEC, DEC2HEX, BITAND and their like.
 */
import type { Cell, CellError } from '../../sheet';
import { failure, finite, toNumber, type Value } from '../values';
import {
  cells,
  fn,
  gathered,
  MANY,
  NUM,
  numberBlock,
  numberOf,
  numeric,
  textOf,
  unlessError,
  values,
  type Family,
  type FunctionSpec,
} from './define';
import { combinations } from './special';

const t = Math.trunc;

function factorial(n: number, by: number): Cell {
  let product = 1;
  for (let k = t(n); k > 1 && Number.isFinite(product); k -= by) product *= k;
  return finite(product);
}

function divisor(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y) [x, y] = [y, x % y];
  return x;
}

/** Every value has to be a number, those in ranges too; blanks are passed over. */
const wholeNumbers = (given: readonly Value[]): number[] | CellError =>
  gathered(given, (cell, direct) => {
    if (cell === null && !direct) return undefined;
    return typeof cell === 'boolean' ? failure('#VALUE!') : toNumber(cell);
  });

const overWhole = (start: number, apply: (a: number, b: number) => number): FunctionSpec =>
  values(1, MANY, (...given) =>
    unlessError([wholeNumbers(given)], (numbers) => {
      if (numbers.some((number) => number < 0 || number >= 2 ** 53)) return NUM();
      const result = numbers.map(t).reduce(apply, start);
      return result >= 2 ** 53 ? NUM() : result;
    }),
  );

/** Roman numerals: the signs that may stand together grow with the form from 0 to 4. Source: Microsoft, the page on ROMAN. */
const ROMAN_FORMS: readonly (readonly [number, string, number])[] = [
  [1000, 'M', 0],
  [999, 'IM', 4],
  [995, 'VM', 3],
  [990, 'XM', 2],
  [950, 'LM', 1],
  [900, 'CM', 0],
  [500, 'D', 0],
  [499, 'ID', 4],
  [495, 'VD', 3],
  [490, 'XD', 2],
  [450, 'LD', 1],
  [400, 'CD', 0],
  [100, 'C', 0],
  [99, 'IC', 2],
  [95, 'VC', 1],
  [90, 'XC', 0],
  [50, 'L', 0],
  [49, 'IL', 2],
  [45, 'VL', 1],
  [40, 'XL', 0],
  [10, 'X', 0],
  [9, 'IX', 0],
  [5, 'V', 0],
  [4, 'IV', 0],
  [1, 'I', 0],
];

function roman(number: number, form: number): string {
  let rest = number;
  let text = '';
  for (const [value, sign] of ROMAN_FORMS.filter(([, , from]) => from <= form)) {
    text += sign.repeat(Math.floor(rest / value));
    rest %= value;
  }
  return text;
}

const ROMAN_VALUES: Readonly<Record<string, number>> = { I: 1, V: 5, X: 10, L: 50, C: 100, D: 500, M: 1000 };

function arabic(text: string): Cell {
  const bare = text.trim().toUpperCase();
  const negative = bare.startsWith('-');
  const signs = [...(negative ? bare.slice(1) : bare)].map((sign) => ROMAN_VALUES[sign]);
  if (signs.includes(undefined) || signs.length > 255) return failure('#VALUE!');
  const sum = (signs as number[]).reduce(
    (all, value, at, list) => all + (value < (list[at + 1] ?? 0) ? -value : value),
    0,
  );
  return negative ? -sum || 0 : sum;
}

const series = ([x, power, step, coefficients]: Value[]): Value =>
  unlessError([numberOf(x), numberOf(power), numberOf(step)], (at, first, by) =>
    unlessError([numberBlock(coefficients, 0)], (block) =>
      finite(block.flat().reduce((sum, factor, index) => sum + factor * at ** (first + index * by), 0)),
    ),
  );

const multinomial = (...given: Value[]): Value =>
  unlessError([wholeNumbers(given)], (numbers) => {
    if (numbers.some((number) => number < 0)) return NUM();
    let all = 0;
    let product = 1;
    for (const number of numbers.map(t)) {
      all += number;
      product *= combinations(all, number);
    }
    return finite(product);
  });

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

function fromBase(text: string, base: number): Cell {
  const digits = text.trim().toUpperCase();
  const bare = base === 16 ? digits.replace(/^0?X|H$/g, '') : base === 2 ? digits.replace(/B$/, '') : digits;
  if (base < 2 || base > 36) return NUM();
  let value = 0;
  for (const digit of bare) {
    const worth = DIGITS.indexOf(digit);
    if (worth < 0 || worth >= base) return NUM();
    value = value * base + worth;
  }
  return bare.length > 255 ? failure('#VALUE!') : finite(value);
}

export const countingFunctions: Family = {
  FACT: numeric(1, 1, (n) => (n < 0 ? NUM() : factorial(n, 1))),
  FACTDOUBLE: numeric(1, 1, (n) => (n < 0 ? NUM() : factorial(n, 2))),
  COMBIN: numeric(2, 2, (n, k) => (k < 0 || t(n) < t(k) ? NUM() : finite(combinations(t(n), t(k))))),
  COMBINA: numeric(2, 2, (n, k) =>
    n < 0 || k < 0 || t(n) < t(k) ? NUM() : finite(t(k) === 0 ? 1 : combinations(t(n) + t(k) - 1, t(k))),
  ),
  PERMUT: numeric(2, 2, (n, k) => {
    if (t(n) <= 0 || k < 0 || t(n) < t(k)) return NUM();
    let product = 1;
    for (let i = 0; i < t(k) && product !== Infinity; i++) product *= t(n) - i;
    return finite(product);
  }),
  PERMUTATIONA: numeric(2, 2, (n, k) => (n < 0 || k < 0 || (t(n) === 0 && t(k) > 0) ? NUM() : finite(t(n) ** t(k)))),
  MULTINOMIAL: values(1, MANY, multinomial),
  GCD: overWhole(0, divisor),
  LCM: overWhole(1, (a, b) => (a === 0 || b === 0 ? 0 : (a / divisor(a, b)) * b)),
  SERIESSUM: fn('nnnv', 4, series),
  ROMAN: cells(1, 2, (number, form) => {
    const style = form === undefined || form === true ? 0 : form === false ? 4 : toNumber(form);
    return unlessError([toNumber(number), style], (n, own) =>
      n < 0 || t(n) > 3999 || own < 0 || own > 4 ? failure('#VALUE!') : roman(t(n), t(own)),
    );
  }),
  ARABIC: cells(1, 1, (text) =>
    typeof text === 'string' || text === null ? arabic(textOf(text)) : failure('#VALUE!'),
  ),
  BASE: numeric(2, 3, (n, base, width = 0) => {
    if (n < 0 || n >= 2 ** 53 || t(base) < 2 || t(base) > 36 || width < 0 || width > 255) return NUM();
    return t(n).toString(t(base)).toUpperCase().padStart(t(width), '0');
  }),
  DECIMAL: cells(2, 2, (text, base) => unlessError([toNumber(base)], (radix) => fromBase(textOf(text), t(radix)))),
};

type Base = 2 | 8 | 16;

/** Ten digits, the first bit of which is the sign: two's complement. */
const BITS: Readonly<Record<Base, number>> = { 2: 10, 8: 30, 16: 40 };
const NAMES: Readonly<Record<Base, string>> = { 2: 'BIN', 8: 'OCT', 16: 'HEX' };

function decoded(text: string, base: Base): number | CellError {
  const digits = text.toUpperCase();
  if (digits.length > 10 || ![...digits].every((digit) => DIGITS.slice(0, base).includes(digit))) return NUM();
  const value = digits === '' ? 0 : parseInt(digits, base);
  const half = 2 ** (BITS[base] - 1);
  return digits.length === 10 && value >= half ? value - 2 * half : value;
}

function encoded(value: number, base: Base, places: number | undefined): Cell {
  const whole = Math.trunc(value);
  const half = 2 ** (BITS[base] - 1);
  if (whole < -half || whole >= half) return NUM();
  const text = (whole < 0 ? whole + 2 * half : whole).toString(base).toUpperCase();
  const width = Math.trunc(places ?? 1);
  if (width < 0) return NUM();
  if (whole < 0 || places === undefined) return text;
  return width < text.length || width > 10 || width < 1 ? NUM() : text.padStart(width, '0');
}

const converting = (read: (cell: Cell) => number | CellError, base: Base): FunctionSpec =>
  cells(
    1,
    2,
    (given, width) =>
      unlessError([read(given ?? 0), width === undefined ? undefined : toNumber(width)], (value, places) =>
        encoded(value, base, places),
      ),
    { takes: 'nc' },
  );

const numeral =
  (base: Base) =>
  (cell: Cell = 0): number | CellError =>
    decoded(textOf(cell), base);

const BASES: readonly Base[] = [2, 8, 16];
const conversions = Object.fromEntries([
  ...BASES.flatMap((from) =>
    BASES.filter((to) => to !== from).map(
      (to) => [`${NAMES[from]}2${NAMES[to]}`, converting(numeral(from), to)] as const,
    ),
  ),
  ...BASES.map((from) => [`${NAMES[from]}2DEC`, cells(1, 1, numeral(from), { takes: 'n' })] as const),
  ...BASES.map((to) => [`DEC2${NAMES[to]}`, converting(toNumber, to)] as const),
]);

const LARGEST = 2 ** 48;
const isBits = (x: number): boolean => Number.isInteger(x) && x >= 0 && x < LARGEST;
const bits = (apply: (a: bigint, b: bigint) => bigint): FunctionSpec =>
  numeric(2, 2, (a, b) => (isBits(a) && isBits(b) ? Number(apply(BigInt(a), BigInt(b))) : NUM()));
const shifting = (sign: number): FunctionSpec =>
  numeric(2, 2, (a, by) => {
    if (!isBits(a) || Math.abs(by) > 53) return NUM();
    const result = Math.floor(a * 2 ** (sign * Math.trunc(by)));
    return result < LARGEST ? result : NUM();
  });

export const numeralFunctions: Family = {
  ...conversions,
  BITAND: bits((a, b) => a & b),
  BITOR: bits((a, b) => a | b),
  BITXOR: bits((a, b) => a ^ b),
  BITLSHIFT: shifting(1),
  BITRSHIFT: shifting(-1),
  DELTA: numeric(1, 2, (a, b = 0) => (a === b ? 1 : 0), { takes: 'n' }),
  GESTEP: numeric(1, 2, (a, step = 0) => (a >= step ? 1 : 0), { takes: 'n' }),
};
