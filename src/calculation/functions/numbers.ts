/** Arithmetic, rounding and trigonometry. */
import type { Cell } from '../../sheet';
import { power } from '../operators';
import { failure, finite } from '../values';
import { cells, NUM, numeric, type Family, type FunctionSpec } from './define';

/**
 * Rounding by the 15 digits that a spreadsheet shows: 1.005 to two places is 1.01 and 2.675 is 2.68, though their
 * binary values lie below. Source: OpenFormula 1.3, 6.17.5 (ROUND) with Microsoft's "Excel specifications and limits" (15 digits).
 */
function shift(value: number, places: number): number {
  const [mantissa, exponent] = value.toExponential(14).split('e');
  return Number(`${mantissa}e${Number(exponent) + places}`);
}

/** Rounds the size of a number at a decimal place, keeping its sign. */
export function roundAt(value: number, places: number, how: (x: number) => number): number {
  const digits = Math.trunc(places);
  if (digits > 300) return value;
  const shifted = shift(Math.abs(value), digits);
  if (!Number.isFinite(shifted)) return value;
  return Math.sign(value) * shift(how(shifted), -digits);
}

/** The nearest multiple of a step, up or down, without the dust of a division. */
const multipleOf = (value: number, step: number, how: (x: number) => number): number =>
  step === 0 ? 0 : Number((how(Number((value / step).toPrecision(15))) * step).toPrecision(15));

const one = (apply: (x: number) => number): FunctionSpec => numeric(1, 1, (x) => finite(apply(x)));
const within = (low: number, high: number, apply: (x: number) => number): FunctionSpec =>
  numeric(1, 1, (x) => (x < low || x > high ? NUM() : finite(apply(x))));
/** 1 divided by a function's value; #DIV/0! where that is 0. */
const reciprocal = (apply: (x: number) => number): FunctionSpec =>
  numeric(1, 1, (x) => {
    const value = apply(x);
    return value === 0 ? failure('#DIV/0!') : finite(1 / value);
  });
/** Angles beyond this have no digits left. */
const LARGEST_ANGLE = 2 ** 27;
const ofAngle = (apply: (x: number) => number): FunctionSpec =>
  numeric(1, 1, (x) => (Math.abs(x) >= LARGEST_ANGLE ? NUM() : finite(apply(x))));

function logarithm(x: number, base: number): Cell {
  if (x <= 0 || base <= 0) return NUM();
  if (base === 1) return failure('#DIV/0!');
  return finite(base === 10 ? Math.log10(x) : base === 2 ? Math.log2(x) : Math.log(x) / Math.log(base));
}

/** The remainder has the sign of the divisor. One that comes from rounding alone is 0. */
function modulo(x: number, by: number): Cell {
  if (by === 0) return failure('#DIV/0!');
  const quotient = x / by;
  if (Math.abs(quotient) >= 2 ** 53) return NUM();
  const whole = Math.floor(Number(quotient.toPrecision(15)));
  const rest = x - by * whole;
  return Math.abs(rest) < Math.abs(x) * 3.6e-15 || Math.sign(rest) === -Math.sign(by) ? 0 : finite(rest);
}

/** CEILING and FLOOR of the older kind: the step's sign says which way below 0. */
const older =
  (how: (x: number) => number, without: (x: number) => Cell) =>
  (x: number, step: number): Cell => {
    if (x > 0 && step < 0) return NUM();
    return step === 0 ? without(x) : finite(multipleOf(x, step, how));
  };

/** The newer kind: the step has no sign; below 0 a mode turns the direction round. */
const math =
  (how: (x: number) => number, other: (x: number) => number) =>
  (x: number, step = 1, mode = 0): Cell =>
    finite(multipleOf(x, Math.abs(step), x < 0 && mode !== 0 ? other : how));

export const numberFunctions: Family = {
  ABS: one(Math.abs),
  SIGN: one(Math.sign),
  INT: one((x) => (Number.isInteger(x) ? x : Math.floor(Number(x.toPrecision(15))))),
  EXP: one(Math.exp),
  SIN: ofAngle(Math.sin),
  COS: ofAngle(Math.cos),
  TAN: ofAngle(Math.tan),
  ATAN: one(Math.atan),
  SINH: one(Math.sinh),
  COSH: one(Math.cosh),
  TANH: one(Math.tanh),
  ASIN: within(-1, 1, Math.asin),
  ACOS: within(-1, 1, Math.acos),
  ASINH: one(Math.asinh),
  ACOSH: within(1, Infinity, Math.acosh),
  ATANH: numeric(1, 1, (x) => (Math.abs(x) >= 1 ? NUM() : finite(Math.atanh(x)))),
  ACOT: one((x) => Math.PI / 2 - Math.atan(x)),
  ACOTH: numeric(1, 1, (x) => (Math.abs(x) <= 1 ? NUM() : finite(Math.atanh(1 / x)))),
  COT: reciprocal(Math.tan),
  COTH: reciprocal(Math.tanh),
  CSC: reciprocal(Math.sin),
  CSCH: reciprocal(Math.sinh),
  SEC: reciprocal(Math.cos),
  SECH: reciprocal(Math.cosh),
  DEGREES: one((x) => (x * 180) / Math.PI),
  RADIANS: one((x) => (x * Math.PI) / 180),
  SQRT: within(0, Infinity, Math.sqrt),
  SQRTPI: within(0, Infinity, (x) => Math.sqrt(x * Math.PI)),
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
  MOD: numeric(2, 2, modulo),
  QUOTIENT: numeric(2, 2, (x, by) => (by === 0 ? failure('#DIV/0!') : finite(Math.trunc(x / by))), { takes: 'n' }),
  MROUND: numeric(2, 2, (x, step) => (x * step < 0 ? NUM() : finite(multipleOf(x, step, Math.round))), {
    takes: 'n',
  }),
  CEILING: numeric(
    2,
    2,
    older(Math.ceil, () => 0),
  ),
  FLOOR: numeric(
    2,
    2,
    older(Math.floor, (x) => (x === 0 ? 0 : failure('#DIV/0!'))),
  ),
  'CEILING.MATH': numeric(1, 3, math(Math.ceil, Math.floor)),
  'FLOOR.MATH': numeric(1, 3, math(Math.floor, Math.ceil)),
  'CEILING.PRECISE': numeric(1, 2, math(Math.ceil, Math.ceil)),
  'FLOOR.PRECISE': numeric(1, 2, math(Math.floor, Math.floor)),
  'ISO.CEILING': 'CEILING.PRECISE',
  EVEN: one((x) => Math.sign(x) * 2 * Math.ceil(Math.abs(x) / 2)),
  ODD: one((x) => (x < 0 ? -1 : 1) * (2 * Math.ceil((Math.abs(x) - 1) / 2) + 1)),
  RAND: cells(0, 0, () => Math.random(), { volatile: true }),
  RANDBETWEEN: numeric(
    2,
    2,
    (low, high) => {
      const [from, to] = [Math.ceil(low), Math.floor(high)];
      return from > to ? NUM() : from + Math.floor(Math.random() * (to - from + 1));
    },
    { volatile: true },
  ),
};
