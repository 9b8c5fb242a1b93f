/**
 * Units are a property of a parameter, not of a formula: a definition names the dimension, and this
 * table turns a value given in "mm-kg" into the inch-pound value that the trade computes with, and back.
 *
 * Factors are exact by definition: the inch is 25.4 mm and the avoirdupois pound 0.45359237 kg
 * (international yard and pound agreement of 1959; NIST SP 811, appendix B.8).
 */
export type UnitSystem = 'in-lb' | 'mm-kg';
export const UNIT_SYSTEMS: readonly UnitSystem[] = ['in-lb', 'mm-kg'];

const MM = 25.4;
const KG = 0.45359237;
/** Standard gravity, m/s²: NIST SP 811. */
const G = 9.80665;

interface DimensionUnits {
  /** Unit in the inch-pound system, as it is written beside a number. */
  readonly inch: string;
  /** The same in words, for messages. */
  readonly inchWords: string;
  readonly metric: string;
  readonly metricWords: string;
  /** Metric units in one inch-pound unit. */
  readonly factor: number;
}

export const DIMENSIONS = {
  length: { inch: 'in', inchWords: 'inches', metric: 'mm', metricWords: 'millimetres', factor: MM },
  area: { inch: 'in²', inchWords: 'square inches', metric: 'mm²', metricWords: 'square millimetres', factor: MM ** 2 },
  volume: { inch: 'in³', inchWords: 'cubic inches', metric: 'mm³', metricWords: 'cubic millimetres', factor: MM ** 3 },
  weight: { inch: 'lb', inchWords: 'pounds', metric: 'kg', metricWords: 'kilograms', factor: KG },
  moment: {
    inch: 'lb·in',
    inchWords: 'pound-inches',
    metric: 'kg·mm',
    metricWords: 'kilogram-millimetres',
    factor: KG * MM,
  },
  inertia: {
    inch: 'lb·in²',
    inchWords: 'pound-inches squared',
    metric: 'kg·mm²',
    metricWords: 'kilogram-millimetres squared',
    factor: KG * MM ** 2,
  },
  density: {
    inch: 'lb/in³',
    inchWords: 'pounds per cubic inch',
    metric: 'g/cm³',
    metricWords: 'grams per cubic centimetre',
    factor: (KG * 1000) / (MM / 10) ** 3,
  },
  perArea: {
    inch: 'lb/ft²',
    inchWords: 'pounds per square foot',
    metric: 'kg/m²',
    metricWords: 'kilograms per square metre',
    factor: KG / ((12 * MM) / 1000) ** 2,
  },
  perWeight: {
    inch: '/lb',
    inchWords: 'pieces per pound',
    metric: '/kg',
    metricWords: 'pieces per kilogram',
    factor: 1 / KG,
  },
  force: { inch: 'lbf', inchWords: 'pounds of force', metric: 'N', metricWords: 'newtons', factor: KG * G },
} as const satisfies Record<string, DimensionUnits>;

export type Dimension = keyof typeof DIMENSIONS;

/** Inch-pound value of a number given in `system`. */
export function toInch(value: number, dimension: Dimension | undefined, system: UnitSystem): number {
  return dimension && system === 'mm-kg' ? value / DIMENSIONS[dimension].factor : value;
}

/** The number that stands for an inch-pound value in `system`. */
export function fromInch(value: number, dimension: Dimension | undefined, system: UnitSystem): number {
  return dimension && system === 'mm-kg' ? value * DIMENSIONS[dimension].factor : value;
}

/** "inches" or "millimetres": the unit in words, or '' for a bare number. */
export function unitWords(dimension: Dimension | undefined, system: UnitSystem): string {
  if (!dimension) return '';
  return system === 'mm-kg' ? DIMENSIONS[dimension].metricWords : DIMENSIONS[dimension].inchWords;
}

/** "in" or "mm": the unit as it is written beside a number, or ''. */
export function unitSign(dimension: Dimension | undefined, system: UnitSystem): string {
  if (!dimension) return '';
  return system === 'mm-kg' ? DIMENSIONS[dimension].metric : DIMENSIONS[dimension].inch;
}
