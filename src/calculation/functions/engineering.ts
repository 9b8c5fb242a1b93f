/** Numerals to bases 2, 8 and 16, bits, and comparisons. Source: Microsoft, the pages on BIN2DEC, DEC2HEX, BITAND and their like. */
import type { Cell, CellError } from '../../sheet';
import { toNumber } from '../values';
import { cells, NUM, numeric, textOf, unlessError, type Family, type FunctionSpec } from './define';

type Base = 2 | 8 | 16;

/** Ten digits, the first bit of which is the sign: two's complement. */
const BITS: Readonly<Record<Base, number>> = { 2: 10, 8: 30, 16: 40 };
const NAMES: Readonly<Record<Base, string>> = { 2: 'BIN', 8: 'OCT', 16: 'HEX' };

function decoded(text: string, base: Base): number | CellError {
  const digits = text.toUpperCase();
  if (digits.length > 10 || ![...digits].every((digit) => '0123456789ABCDEF'.slice(0, base).includes(digit)))
    return NUM();
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

export const engineeringFunctions: Family = {
  ...conversions,
  BITAND: bits((a, b) => a & b),
  BITOR: bits((a, b) => a | b),
  BITXOR: bits((a, b) => a ^ b),
  BITLSHIFT: shifting(1),
  BITRSHIFT: shifting(-1),
  DELTA: numeric(1, 2, (a, b = 0) => (a === b ? 1 : 0), { takes: 'n' }),
  GESTEP: numeric(1, 2, (a, step = 0) => (a >= step ? 1 : 0), { takes: 'n' }),
};
