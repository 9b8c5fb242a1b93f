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
  /** "lb" or "kg" */
  sign(dimension: Dimension): string;
}

/** Decimals that the metric figure has more (or fewer) than the inch-pound one, so that both are about as exact. */
const METRIC_PLACES: Partial<Record<Dimension, number>> = { length: -1, area: -2, volume: -3, weight: 1, moment: -1, inertia: -2 };

export function quantities(system: UnitSystem, write: WriteNumber = writeEnglish): Quantities {
  const bare = (value: number, dimension: Dimension, places: number): string =>
    write(fromInch(value, dimension, system), system === 'mm-kg' ? Math.max(0, places + (METRIC_PLACES[dimension] ?? 0)) : places);
  const sign = (dimension: Dimension): string => unitSign(dimension, system);
  return { system, bare, sign, say: (value, dimension, places) => `${bare(value, dimension, places)} ${sign(dimension)}` };
}

/** "1,320.50", with a real minus sign and no negative nought. */
export const writeEnglish: WriteNumber = (value, places) => {
  const rounded = Number(value.toFixed(places));
  return (Object.is(rounded, -0) ? 0 : rounded).toLocaleString('en-US', { minimumFractionDigits: places, maximumFractionDigits: places }).replace('-', '−');
};
