/** Numerals to bases 2, 8 and 16, bits, and comparisons. Source: Microsoft, the pages on BIN2DEC, DEC2HEX, BITAND and their like. */
import { CellError, type Cell } from '../../sheet';
import { cells, type FunctionSpec } from '../function-spec';
import { failure, toNumber } from '../values';
import { numeric, textOf } from './define';

type Base = 2 | 8 | 16;

/** Ten digits, the first bit of which is the sign: two's complement. */
const BITS: Readonly<Record<Base, number>> = { 2: 10, 8: 30, 16: 40 };
const NAMES: Readonly<Record<Base, string>> = { 2: 'BIN', 8: 'OCT', 16: 'HEX' };

function decoded(text: string, base: Base): number | CellError {
  const digits = text.toUpperCase();
  if (digits.length > 10 || ![...digits].every((digit) => '0123456789ABCDEF'.slice(0, base).includes(digit)))
    return failure('#NUM!');
  const value = digits === '' ? 0 : parseInt(digits, base);
  const half = 2 ** (BITS[base] - 1);
  return digits.length === 10 && value >= half ? value - 2 * half : value;
}

function encoded(value: number, base: Base, places: number | undefined): Cell {
  const whole = Math.trunc(value);
  const half = 2 ** (BITS[base] - 1);
  if (whole < -half || whole >= half) return failure('#NUM!');
  const text = (whole < 0 ? whole + 2 * half : whole).toString(base).toUpperCase();
  const width = Math.trunc(places ?? 1);
  if (width < 0) return failure('#NUM!');
  if (whole < 0 || places === undefined) return text;
  return width < text.length || width > 10 || width < 1 ? failure('#NUM!') : text.padStart(width, '0');
}

function converting(read: (cell: Cell) => number | CellError, base: Base): FunctionSpec {
  return cells(1, 2, (given, width) => {
    const value = read(given ?? 0);
    const places = width === undefined ? undefined : toNumber(width);
    if (typeof value !== 'number') return value;
    return places instanceof CellError ? places : encoded(value, base, places);
  });
}

const numeral =
  (base: Base) =>
  (cell: Cell): number | CellError =>
    typeof cell === 'boolean' ? failure('#VALUE!') : decoded(textOf(cell), base);
const decimal = (cell: Cell): number | CellError => (typeof cell === 'boolean' ? failure('#VALUE!') : toNumber(cell));

const BASES: readonly Base[] = [2, 8, 16];
const conversions = Object.fromEntries([
  ...BASES.flatMap((from) =>
    BASES.filter((to) => to !== from).map(
      (to) => [`${NAMES[from]}2${NAMES[to]}`, converting(numeral(from), to)] as const,
    ),
  ),
  ...BASES.map((from) => [`${NAMES[from]}2DEC`, cells(1, 1, (cell) => numeral(from)(cell ?? 0))] as const),
  ...BASES.map((to) => [`DEC2${NAMES[to]}`, converting(decimal, to)] as const),
]);

const LARGEST = 2 ** 48;
const isBits = (x: number): boolean => Number.isInteger(x) && x >= 0 && x < LARGEST;
const bits = (apply: (a: bigint, b: bigint) => bigint): FunctionSpec =>
  numeric(2, 2, (a, b) => (isBits(a) && isBits(b) ? Number(apply(BigInt(a), BigInt(b))) : failure('#NUM!')));
const shifting = (sign: number): FunctionSpec =>
  numeric(2, 2, (a, by) => {
    if (!isBits(a) || Math.abs(by) > 53) return failure('#NUM!');
    const result = Math.floor(a * 2 ** (sign * Math.trunc(by)));
    return result < LARGEST ? result : failure('#NUM!');
  });

export const engineeringFunctions: Readonly<Record<string, FunctionSpec>> = {
  ...conversions,
  BITAND: bits((a, b) => a & b),
  BITOR: bits((a, b) => a | b),
  BITXOR: bits((a, b) => a ^ b),
  BITLSHIFT: shifting(1),
  BITRSHIFT: shifting(-1),
  DELTA: numeric(1, 2, (a, b = 0) => (a === b ? 1 : 0), { takes: 'n' }),
  GESTEP: numeric(1, 2, (a, step = 0) => (a >= step ? 1 : 0), { takes: 'n' }),
};
