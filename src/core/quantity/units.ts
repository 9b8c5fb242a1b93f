/** Units: of the two systems, of labels, and of numbers as people read them. */

// Units are a property of a parameter, not of a formula: a definition names the dimension, and this
// table turns a value given in "mm-kg" into the inch-pound value that the trade computes with, and back.
//
// Factors are exact by definition: the inch is 25.4 mm and the avoirdupois pound 0.45359237 kg
// (international yard and pound agreement of 1959; NIST SP 811, appendix B.8).
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
export const toInch = (value: number, dimension: Dimension | undefined, system: UnitSystem): number =>
  dimension && system === 'mm-kg' ? value / DIMENSIONS[dimension].factor : value;

/** The number that stands for an inch-pound value in `system`. */
export const fromInch = (value: number, dimension: Dimension | undefined, system: UnitSystem): number =>
  dimension && system === 'mm-kg' ? value * DIMENSIONS[dimension].factor : value;

/** "inches" or "millimetres": the unit in words, or '' for a bare number. */
export const unitWords = (dimension: Dimension | undefined, system: UnitSystem): string =>
  dimension ? DIMENSIONS[dimension][system === 'mm-kg' ? 'metricWords' : 'inchWords'] : '';

/** "in" or "mm": the unit as it is written beside a number, or ''. */
export const unitSign = (dimension: Dimension | undefined, system: UnitSystem): string =>
  dimension ? DIMENSIONS[dimension][system === 'mm-kg' ? 'metric' : 'inch'] : '';

// The unit that a sheet's own label names in brackets: "Weight (kg)", "Arm (mm)". A number below such a
// label is in that unit, whatever the rest of the workbook is in.

export interface Unit {
  /** As it is written beside a number. */
  readonly sign: string;
  /** The same in words, for messages: "kilograms". */
  readonly words: string;
  readonly system: UnitSystem;
  /** Of the system's inch-pound unit in one of this: `times` / `over`, both exact. */
  readonly inInch: number;
  readonly times: number;
  readonly over: number;
}

const unit = (sign: string, words: string, system: UnitSystem, times: number, over: number): Unit => ({
  sign,
  words,
  system,
  inInch: times / over,
  times,
  over,
});
const inch = (sign: string, words: string, times = 1, over = 1): Unit => unit(sign, words, 'in-lb', times, over);
const metric = (sign: string, words: string, times: number, over: number): Unit =>
  unit(sign, words, 'mm-kg', times, over);

/** What labels are written in, each system's own unit first. Ounces and pounds are avoirdupois, 16 oz to the pound. */
const UNITS: Readonly<Partial<Record<Dimension, readonly Unit[]>>> = {
  length: [
    inch('in', 'inches'),
    inch('ft', 'feet', 12),
    metric('mm', 'millimetres', 1, MM),
    metric('cm', 'centimetres', 10, MM),
    metric('m', 'metres', 1000, MM),
  ],
  area: [
    inch('in²', 'square inches'),
    inch('ft²', 'square feet', 144),
    metric('mm²', 'square millimetres', 1, DIMENSIONS.area.factor),
    metric('cm²', 'square centimetres', 100, DIMENSIONS.area.factor),
    metric('m²', 'square metres', 1e6, DIMENSIONS.area.factor),
  ],
  weight: [
    inch('lb', 'pounds'),
    inch('oz', 'ounces', 1, 16),
    metric('kg', 'kilograms', 1, KG),
    metric('g', 'grams', 1, 1000 * KG),
  ],
  moment: [
    inch('lb·in', 'pound-inches'),
    metric('kg·mm', 'kilogram-millimetres', 1, DIMENSIONS.moment.factor),
    metric('kg·m', 'kilogram-metres', 1000, DIMENSIONS.moment.factor),
  ],
  force: [
    inch('lb', 'pounds'),
    inch('lbf', 'pounds'),
    metric('N', 'newtons', 1, DIMENSIONS.force.factor),
    metric('kN', 'kilonewtons', 1000, DIMENSIONS.force.factor),
  ],
};

/** Other ways of writing a sign, reduced to letters, "2" and "·". */
const ALSO: Readonly<Record<string, string>> = {
  inch: 'in',
  inches: 'in',
  '"': 'in',
  lbs: 'lb',
  kgs: 'kg',
  lbin: 'lb·in',
  inlb: 'lb·in',
  'in·lb': 'lb·in',
  'lbs·in': 'lb·in',
  'in·lbs': 'lb·in',
  inlbs: 'lb·in',
  lbsin: 'lb·in',
  kgmm: 'kg·mm',
  mmkg: 'kg·mm',
  'mm·kg': 'kg·mm',
  kgm: 'kg·m',
  mkg: 'kg·m',
  'm·kg': 'kg·m',
};

const BRACKETS = /\(([^)]*)\)\s*$/;

/** A label without the unit in brackets and without spaces at the ends, in lower case: how it is looked for. */
export const plainLabel = (label: unknown): string =>
  String(label ?? '')
    .replace(BRACKETS, '')
    .trim()
    .toLowerCase();

/** What stands in brackets at the end of a label: "kg" of "Weight (kg)"; undefined where there is nothing. */
export const labelUnit = (label: unknown): string | undefined =>
  BRACKETS.exec(String(label ?? ''))?.[1]?.trim() || undefined;

/** The units that a label of that dimension may name. */
export const unitsOf = (dimension: Dimension): readonly Unit[] => UNITS[dimension] ?? [];

/** The system's own unit of a dimension: mm, mm², kg, kg·mm. */
export const unitIn = (dimension: Dimension, system: UnitSystem): Unit =>
  unitsOf(dimension).find((one) => one.system === system) ??
  unit(
    unitSign(dimension, system),
    unitWords(dimension, system),
    system,
    1,
    system === 'mm-kg' ? DIMENSIONS[dimension].factor : 1,
  );

/** What a label of the project's forms measures, by the inch-pound unit that it is given: length for "Arm (in)"; undefined for "Growth (%)". */
export function labelDimension(label: string): Dimension | undefined {
  const sign = labelUnit(label);
  return (Object.keys(UNITS) as Dimension[]).find((dimension) => unitIn(dimension, 'in-lb').sign === sign);
}

/** A form's label with the unit of a system: "Arm (mm)" for "Arm (in)"; "Growth (%)" stays. */
export const labelIn = (label: string, system: UnitSystem, dimension = labelDimension(label)): string =>
  dimension === undefined ? label : label.replace(BRACKETS, `(${unitIn(dimension, system).sign})`);

/** Digits that are a number's own: what a conversion leaves behind them is rounding of the machine. */
const [DIGITS_READ, DIGITS_WRITTEN] = [14, 13];

const rounded = (value: number, digits: number): number =>
  Number.isFinite(value) ? Number(value.toPrecision(digits)) : value;

/** The inch-pound value of a cell's number; the number itself where there is no unit. */
export const fromUnit = (value: number, of: Unit | undefined): number =>
  of === undefined || of.inInch === 1 ? value : rounded((value * of.times) / of.over, DIGITS_READ);

/** The number that stands for an inch-pound value in a cell of that unit. */
export const inUnit = (value: number, of: Unit | undefined): number =>
  of === undefined || of.inInch === 1 ? value : rounded((value * of.over) / of.times, DIGITS_WRITTEN);

/** The unit of that dimension with that sign or name, "in2", "lb-in", "sq in" and "pounds" included; undefined where there is none. */
export function readUnit(sign: string, dimension: Dimension): Unit | undefined {
  const square = /^sq\.?\s*(\S+)$/i.exec(sign.trim());
  const plain = (square ? `${square[1]}2` : sign)
    .toLowerCase()
    .replace(/\.$/, '')
    .replace(/[-.*×⋅]/g, '·')
    .replace(/\s+/g, '')
    .replace('^', '')
    .replace('²', '2');
  const wanted = ALSO[plain] ?? plain;
  const name = sign.trim().toLowerCase().replace(/meter/, 'metre');
  return unitsOf(dimension).find((one) => one.sign.replace('²', '2').toLowerCase() === wanted || one.words === name);
}

// Quantities as people read them: in the unit system of the workbook, and in the place's way of writing numbers.

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
