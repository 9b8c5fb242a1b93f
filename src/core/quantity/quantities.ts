/** Quantities as people read them: in the unit system of the workbook, and in the place's way of writing numbers. */
import { fromInch, unitSign, type Dimension, type UnitSystem } from './units';

/** Writes a number with that many decimals. */
export type WriteNumber = (value: number, places: number) => string;

export interface Quantities {
  readonly system: UnitSystem;
  /** "12.50 lb" or "5.670 kg". `value` is in inch-pound units; `places` are the decimals that the inch-pound figure has. */
  say(value: number, dimension: Dimension, places: number): string;
  /** The same without the unit, where the head of the column has it. */
  bare(value: number, dimension: Dimension, places: number): string;
  /** As `say`, with more decimals where the number would otherwise read 0. */
  tell(value: number, dimension: Dimension, places: number): string;
  /** "lb" or "kg" */
  sign(dimension: Dimension): string;
  /** The number in the system's unit that stands for an inch-pound value. */
  to(value: number, dimension: Dimension): number;
  /** Decimals of the system's figure, where the inch-pound one has `places`. */
  places(dimension: Dimension, places: number): number;
  /** Writes a number that has no dimension, or is in the system's unit already, with just that many decimals. */
  readonly write: WriteNumber;
}

/** How many more decimals (or fewer) the metric figure has than the inch-pound one, so that both are about as exact. */
const METRIC_PLACES: Partial<Record<Dimension, number>> = {
  length: -1,
  area: -2,
  volume: -3,
  weight: 1,
  moment: -1,
  inertia: -2,
};

export function quantities(system: UnitSystem, write: WriteNumber = writeEnglish): Quantities {
  const to = (value: number, dimension: Dimension): number => fromInch(value, dimension, system);
  const placesIn = (dimension: Dimension, places: number): number =>
    system === 'mm-kg' ? Math.max(0, places + (METRIC_PLACES[dimension] ?? 0)) : places;
  const bare = (value: number, dimension: Dimension, places: number): string =>
    write(to(value, dimension), placesIn(dimension, places));
  const tellingly = telling(write);
  const sign = (dimension: Dimension): string => unitSign(dimension, system);
  return {
    system,
    write,
    to,
    places: placesIn,
    bare,
    sign,
    say: (value, dimension, places) => `${bare(value, dimension, places)} ${sign(dimension)}`,
    tell: (value, dimension, places) =>
      `${tellingly(to(value, dimension), placesIn(dimension, places))} ${sign(dimension)}`,
  };
}

/** "1,320.50", with a real minus sign and no negative nought. Halves are rounded as people read the number, 49.285 up to 49.29, and not as the machine holds it. */
export const writeEnglish: WriteNumber = (value, places) => {
  // Without thousands and far from a half the digits are the words already, and a long column is written in a fifth of the time.
  if (value >= 0 && value < 999) {
    const scaled = value * 10 ** places;
    if (Math.abs(scaled - Math.floor(scaled) - 0.5) > NEAR_HALF) return value.toFixed(places);
  }
  const text = grouped(roundedText(Math.abs(value), places));
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
};

const NEAR_HALF = 1e-6;
/** Whole numbers are exact up to here. */
const EXACT = 2 ** 53;

/** Thousands set apart by hand: the engine that runs functions in Excel may know nothing of languages. */
function grouped(text: string): string {
  const [whole = '', ...rest] = text.split('.');
  return [whole.replace(/\B(?=(?:\d{3})+$)/g, ','), ...rest].join('.');
}

/** A size rounded in its decimals as they are written, which the machine's own rounding is not. */
function roundedText(size: number, places: number): string {
  const shifted = Math.round(Number(`${size}e${places}`));
  return shifted < EXACT ? Number(`${shifted}e-${places}`).toFixed(places) : size.toFixed(places);
}

/** Most decimals that a small number is given. */
const MOST_PLACES = 9;

/** The same writer, with more decimals where a number would otherwise read 0: 0.004 with two. */
export const telling =
  (write: WriteNumber): WriteNumber =>
  (value, places) => {
    if (value === 0 || Math.abs(value) >= 1 || Math.abs(value) >= 10 ** -places) return write(value, places);
    const digits = Math.max(places, Math.min(MOST_PLACES, 1 - Math.floor(Math.log10(Math.abs(value)))));
    return write(value, Math.max(places, value.toFixed(digits).replace(/0+$/, '').split('.')[1]?.length ?? 0));
  };
