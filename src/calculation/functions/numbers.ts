/** Arithmetic and rounding. */
import type { Cell } from '../../sheet';
import { cells, type FunctionSpec } from '../function-spec';
import { power } from '../operators';
import { failure, finite, toNumber } from '../values';

/** A function of numbers; optional ones that are left out come as undefined. */
const numeric = (min: number, max: number, apply: (...numbers: number[]) => Cell): FunctionSpec =>
  cells(min, max, (...args) => {
    const numbers: number[] = [];
    for (const arg of args) {
      if (arg === undefined) {
        numbers.push(undefined as never);
        continue;
      }
      const number = toNumber(arg);
      if (typeof number !== 'number') return number;
      numbers.push(number);
    }
    return apply(...numbers);
  });

const one = (apply: (x: number) => number): FunctionSpec => numeric(1, 1, (x) => finite(apply(x)));

/** Rounds at a decimal place by the number's 15 digits, so that 1.005 to two places is 1.01. */
function roundAt(value: number, places: number, how: (x: number) => number): number {
  const digits = Math.trunc(places);
  const shifted = shift(Math.abs(value), digits);
  return Math.sign(value) * shift(how(shifted), -digits);
}

function shift(value: number, places: number): number {
  const [mantissa, exponent] = value.toExponential(14).split('e');
  return Number(`${mantissa}e${Number(exponent) + places}`);
}

/** The nearest multiple of a step, up or down, without the dust of a division. */
function multiple(value: number, step: number, how: (x: number) => number): Cell {
  if (step === 0) return 0;
  return finite(Number((how(Number((value / step).toPrecision(15))) * step).toPrecision(15)));
}

function logarithm(x: number, base: number): Cell {
  if (x <= 0 || base <= 0) return failure('#NUM!');
  if (base === 1) return failure('#DIV/0!');
  return finite(base === 10 ? Math.log10(x) : base === 2 ? Math.log2(x) : Math.log(x) / Math.log(base));
}

const within = (low: number, high: number, apply: (x: number) => number): FunctionSpec =>
  numeric(1, 1, (x) => (x < low || x > high ? failure('#NUM!') : finite(apply(x))));

export const numberFunctions: Readonly<Record<string, FunctionSpec>> = {
  ABS: one(Math.abs),
  SIGN: one(Math.sign),
  INT: one(Math.floor),
  EXP: one(Math.exp),
  SIN: one(Math.sin),
  COS: one(Math.cos),
  TAN: one(Math.tan),
  ATAN: one(Math.atan),
  SINH: one(Math.sinh),
  COSH: one(Math.cosh),
  TANH: one(Math.tanh),
  ASIN: within(-1, 1, Math.asin),
  ACOS: within(-1, 1, Math.acos),
  DEGREES: one((x) => (x * 180) / Math.PI),
  RADIANS: one((x) => (x * Math.PI) / 180),
  SQRT: within(0, Infinity, Math.sqrt),
  PI: cells(0, 0, () => Math.PI),
  LN: numeric(1, 1, (x) => logarithm(x, Math.E)),
  LOG10: numeric(1, 1, (x) => logarithm(x, 10)),
  LOG: numeric(1, 2, (x, base = 10) => logarithm(x, base)),
  ATAN2: numeric(2, 2, (x, y) => (x === 0 && y === 0 ? failure('#DIV/0!') : finite(Math.atan2(y, x)))),
  POWER: numeric(2, 2, power),
  ROUND: numeric(2, 2, (x, places) => finite(roundAt(x, places, Math.round))),
  ROUNDUP: numeric(2, 2, (x, places) => finite(roundAt(x, places, Math.ceil))),
  ROUNDDOWN: numeric(2, 2, (x, places) => finite(roundAt(x, places, Math.floor))),
  TRUNC: numeric(1, 2, (x, places = 0) => finite(roundAt(x, places, Math.floor))),
  MOD: numeric(2, 2, (x, by) => (by === 0 ? failure('#DIV/0!') : finite(x - by * Math.floor(x / by)))),
  QUOTIENT: numeric(2, 2, (x, by) => (by === 0 ? failure('#DIV/0!') : finite(Math.trunc(x / by)))),
  MROUND: numeric(2, 2, (x, step) => (x * step < 0 ? failure('#NUM!') : multiple(x, step, Math.round))),
  CEILING: numeric(2, 2, (x, step) => (x > 0 && step < 0 ? failure('#NUM!') : multiple(x, step, Math.ceil))),
  FLOOR: numeric(2, 2, (x, step) =>
    x > 0 && step < 0 ? failure('#NUM!') : step === 0 && x !== 0 ? failure('#DIV/0!') : multiple(x, step, Math.floor),
  ),
  'CEILING.MATH': numeric(1, 2, (x, step = 1) => multiple(x, Math.abs(step), Math.ceil)),
  'FLOOR.MATH': numeric(1, 2, (x, step = 1) => multiple(x, Math.abs(step), Math.floor)),
  EVEN: one((x) => Math.sign(x) * 2 * Math.ceil(Math.abs(x) / 2)),
  ODD: one((x) => (x < 0 ? -1 : 1) * (2 * Math.ceil((Math.abs(x) - 1) / 2) + 1)),
};
