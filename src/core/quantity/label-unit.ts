/**
 * The unit that a sheet's own label names in brackets: "Weight (kg)", "Arm (mm)". A number below such a
 * label is in that unit, whatever the rest of the workbook is in.
 */
import { DIMENSIONS, unitSign, unitWords, type Dimension, type UnitSystem } from './units';

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

const MM = DIMENSIONS.length.factor;
const KG = DIMENSIONS.weight.factor;

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
export function labelIn(label: string, system: UnitSystem, dimension = labelDimension(label)): string {
  return dimension === undefined ? label : label.replace(BRACKETS, `(${unitIn(dimension, system).sign})`);
}

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
