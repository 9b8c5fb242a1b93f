/** Whole numbers: factorials, combinations, divisors, numerals of other kinds. */
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
