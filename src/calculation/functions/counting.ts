/** Whole numbers: factorials, combinations, divisors, numerals of other kinds. */
import { CellError, type Cell } from '../../sheet';
import { cells, MANY, values, type FunctionSpec } from '../function-spec';
import { eachCell, failure, finite, toNumber, type Value } from '../values';
import { fn, numberBlock, numberOf, numeric, textOf } from './define';
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
function wholeNumbers(given: readonly Value[]): number[] | CellError {
  const numbers: number[] = [];
  let error: CellError | undefined;
  for (const value of given) {
    eachCell(value, (cell, direct) => {
      if (cell === null && !direct) return;
      const number = typeof cell === 'boolean' ? failure('#VALUE!') : toNumber(cell);
      if (typeof number === 'number') numbers.push(number);
      else error ??= number;
    });
  }
  return error ?? numbers;
}

const overWhole = (start: number, apply: (a: number, b: number) => number): FunctionSpec =>
  values(1, MANY, (...given) => {
    const numbers = wholeNumbers(given);
    if (!Array.isArray(numbers)) return numbers;
    if (numbers.some((number) => number < 0 || number >= 2 ** 53)) return failure('#NUM!');
    const result = numbers.map(t).reduce(apply, start);
    return result >= 2 ** 53 ? failure('#NUM!') : result;
  });

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
  for (const [value, sign, from] of ROMAN_FORMS) {
    if (from > form) continue;
    while (rest >= value) {
      text += sign;
      rest -= value;
    }
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

function series([x, power, step, coefficients]: Value[]): Value {
  const [at, first, by] = [numberOf(x), numberOf(power), numberOf(step)];
  if (typeof at !== 'number') return at;
  if (typeof first !== 'number') return first;
  if (typeof by !== 'number') return by;
  const block = numberBlock(coefficients, 0);
  if (block instanceof CellError) return block;
  return finite(block.flat().reduce((sum, factor, index) => sum + factor * at ** (first + index * by), 0));
}

function multinomial(...given: Value[]): Value {
  const numbers = wholeNumbers(given);
  if (!Array.isArray(numbers)) return numbers;
  if (numbers.some((number) => number < 0)) return failure('#NUM!');
  let all = 0;
  let product = 1;
  for (const number of numbers.map(t)) {
    all += number;
    product *= combinations(all, number);
  }
  return finite(product);
}

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

function fromBase(text: string, base: number): Cell {
  const digits = text.trim().toUpperCase();
  const bare = base === 16 ? digits.replace(/^0?X|H$/g, '') : base === 2 ? digits.replace(/B$/, '') : digits;
  if (base < 2 || base > 36) return failure('#NUM!');
  let value = 0;
  for (const digit of bare) {
    const worth = DIGITS.indexOf(digit);
    if (worth < 0 || worth >= base) return failure('#NUM!');
    value = value * base + worth;
  }
  return bare.length > 255 ? failure('#VALUE!') : finite(value);
}

export const countingFunctions: Readonly<Record<string, FunctionSpec>> = {
  FACT: numeric(1, 1, (n) => (n < 0 ? failure('#NUM!') : factorial(n, 1))),
  FACTDOUBLE: numeric(1, 1, (n) => (n < 0 ? failure('#NUM!') : factorial(n, 2))),
  COMBIN: numeric(2, 2, (n, k) => (k < 0 || t(n) < t(k) ? failure('#NUM!') : finite(combinations(t(n), t(k))))),
  COMBINA: numeric(2, 2, (n, k) =>
    n < 0 || k < 0 || t(n) < t(k) ? failure('#NUM!') : finite(t(k) === 0 ? 1 : combinations(t(n) + t(k) - 1, t(k))),
  ),
  PERMUT: numeric(2, 2, (n, k) => {
    if (t(n) <= 0 || k < 0 || t(n) < t(k)) return failure('#NUM!');
    let product = 1;
    for (let i = 0; i < t(k) && product !== Infinity; i++) product *= t(n) - i;
    return finite(product);
  }),
  PERMUTATIONA: numeric(2, 2, (n, k) =>
    n < 0 || k < 0 || (t(n) === 0 && t(k) > 0) ? failure('#NUM!') : finite(t(n) ** t(k)),
  ),
  MULTINOMIAL: values(1, MANY, multinomial),
  GCD: overWhole(0, divisor),
  LCM: overWhole(1, (a, b) => (a === 0 || b === 0 ? 0 : (a / divisor(a, b)) * b)),
  SERIESSUM: fn('nnnv', 4, series),
  ROMAN: cells(1, 2, (number, form) => {
    const n = toNumber(number);
    const style = form === undefined || form === true ? 0 : form === false ? 4 : toNumber(form);
    if (typeof n !== 'number') return n;
    if (typeof style !== 'number') return style;
    return n < 0 || t(n) > 3999 || style < 0 || style > 4 ? failure('#VALUE!') : roman(t(n), t(style));
  }),
  ARABIC: cells(1, 1, (text) =>
    typeof text === 'string' || text === null ? arabic(textOf(text)) : failure('#VALUE!'),
  ),
  BASE: numeric(2, 3, (n, base, width = 0) => {
    if (n < 0 || n >= 2 ** 53 || t(base) < 2 || t(base) > 36 || width < 0 || width > 255) return failure('#NUM!');
    return t(n).toString(t(base)).toUpperCase().padStart(t(width), '0');
  }),
  DECIMAL: cells(2, 2, (text, base) => {
    const radix = toNumber(base);
    return typeof radix === 'number' ? fromBase(textOf(text), t(radix)) : radix;
  }),
};
