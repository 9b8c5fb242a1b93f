/** Parameters that many functions share, so that a thickness is checked in one way everywhere. */
import { integer, number, type Lookalike } from './define';

const DECIMALS = (value: number): string => String(Number(value.toPrecision(6)));

/** Numbers above the thickest that is taken, up to half an inch in thousandths. */
export const thousandthsAbove = (most: number): Lookalike => ({
  when: (value) => value > most && value <= 500,
  guess: (typed) =>
    `${DECIMALS(typed)} looks like thousandths of an inch: write ${DECIMALS(typed / 1000)}, or give the units "mm-kg" for millimetres`,
});

/** The longest part that is taken for real: 1,000 ft. Beyond it the number is in another unit. */
const LONGEST = 12_000;

/** Any length of a part, above zero. */
export const length = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { above: 0, max: LONGEST } });

/** A length that may be zero (an inside radius, an edge margin). */
export const lengthOrZero = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { min: 0, max: LONGEST } });

/** A place along an axis from the datum: any sign. */
export const station = (name: string, help: string) =>
  number(name, { help, dimension: 'length', limits: { min: -LONGEST, max: LONGEST } });

/** Sheet or wall thickness. */
export const thickness = (name = 'thickness', help = 'thickness of the sheet') =>
  number(name, { help, dimension: 'length', limits: { above: 0, max: 1 }, lookalike: thousandthsAbove(1) });

export const area = (name: string, help: string) =>
  number(name, { help, dimension: 'area', limits: { above: 0, max: 1e8 } });

/** Bend angle: how far the metal is turned from flat. */
export const angle = (name = 'angle', help = 'bend angle in degrees, turned from flat') =>
  number(name, { help, of: 'degrees', limits: { above: 0, below: 180 } });

/** Number of equal pieces; a fraction is taken (half a pair), a negative one is a correction and refused. */
export const quantity = (name = 'quantity', help = 'number of pieces') =>
  number(name, { help, of: 'pieces', limits: { min: 0, max: 1e7 } });

export const count = (name: string, help: string, of: string) =>
  integer(name, { help, of, limits: { min: 1, max: 1e6 } });

export const weight = (name = 'weight', help = 'weight') =>
  number(name, { help, dimension: 'weight', limits: { min: 0, max: 1e6 } });
