/**
 * The unit that a sheet's own label names in brackets: "Weight (kg)", "Arm (mm)". A number below such a
 * label is in that unit, whatever the rest of the workbook is in.
 */
import { DIMENSIONS, type Dimension, type UnitSystem } from './units';

export interface Unit {
  /** As it is written beside a number. */
  readonly sign: string;
  readonly system: UnitSystem;
  /** Of the system's inch-pound unit in one of this. */
  readonly inInch: number;
}

const MM = 1 / DIMENSIONS.length.factor;
const KG = 1 / DIMENSIONS.weight.factor;

/** What labels are written in, each system's own unit first. Ounces and pounds are avoirdupois, 16 oz to the pound. */
const UNITS: Readonly<Partial<Record<Dimension, readonly Unit[]>>> = {
  length: [
    { sign: 'in', system: 'in-lb', inInch: 1 },
    { sign: 'ft', system: 'in-lb', inInch: 12 },
    { sign: 'mm', system: 'mm-kg', inInch: MM },
    { sign: 'cm', system: 'mm-kg', inInch: 10 * MM },
    { sign: 'm', system: 'mm-kg', inInch: 1000 * MM },
  ],
  area: [
    { sign: 'in²', system: 'in-lb', inInch: 1 },
    { sign: 'ft²', system: 'in-lb', inInch: 144 },
    { sign: 'mm²', system: 'mm-kg', inInch: MM ** 2 },
    { sign: 'cm²', system: 'mm-kg', inInch: (10 * MM) ** 2 },
    { sign: 'm²', system: 'mm-kg', inInch: (1000 * MM) ** 2 },
  ],
  weight: [
    { sign: 'lb', system: 'in-lb', inInch: 1 },
    { sign: 'oz', system: 'in-lb', inInch: 1 / 16 },
    { sign: 'kg', system: 'mm-kg', inInch: KG },
    { sign: 'g', system: 'mm-kg', inInch: KG / 1000 },
  ],
  moment: [
    { sign: 'lb·in', system: 'in-lb', inInch: 1 },
    { sign: 'kg·mm', system: 'mm-kg', inInch: KG * MM },
    { sign: 'kg·m', system: 'mm-kg', inInch: KG * 1000 * MM },
  ],
};

/** Other ways of writing a sign, reduced to letters, "2" and "·". */
const ALSO: Readonly<Record<string, string>> = { inch: 'in', inches: 'in', '"': 'in', lbs: 'lb', 'in·lb': 'lb·in', 'mm·kg': 'kg·mm', 'm·kg': 'kg·m' };

const BRACKETS = /\(([^)]*)\)\s*$/;

/** A label without the unit in brackets and without spaces at the ends, in lower case: how it is looked for. */
export const plainLabel = (label: unknown): string => String(label ?? '').replace(BRACKETS, '').trim().toLowerCase();

/** What stands in brackets at the end of a label: "kg" of "Weight (kg)"; undefined where there is nothing. */
export const labelUnit = (label: unknown): string | undefined => BRACKETS.exec(String(label ?? ''))?.[1]?.trim() || undefined;

/** The units that a label of that dimension may name. */
export const unitsOf = (dimension: Dimension): readonly Unit[] => UNITS[dimension] ?? [];

/** The unit of that dimension with that sign, "in2", "lb-in" and "sq in" included; undefined where there is none. */
export function readUnit(sign: string, dimension: Dimension): Unit | undefined {
  const square = /^sq\.?\s*(\S+)$/i.exec(sign.trim());
  const plain = (square ? `${square[1]}2` : sign).toLowerCase().replace(/\.$/, '').replace(/[-.*×⋅]/g, '·').replace(/\s+/g, '').replace('^', '').replace('²', '2');
  const wanted = ALSO[plain] ?? plain;
  return unitsOf(dimension).find((unit) => unit.sign.replace('²', '2') === wanted);
}
