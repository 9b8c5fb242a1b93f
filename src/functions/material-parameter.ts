/** The parameter `material`: a designation or a density, handed to compute as a density in lb/in³. */
import { InputError } from '../core/input-error';
import {
  densityOf,
  findMaterial,
  LB_IN3_PER_G_CM3,
  LB_IN3_PER_KG_M3,
  LB_IN3_PER_LB_FT3,
  material as lookUp,
  nearestMaterials,
  nearestWords,
} from '../core/material';
import { leadingNumber } from '../core/quantity';
import { custom, fromInch, plainNumber, toInch, unitSign, type Parameter, type UnitSystem } from './define';

/** Osmium is .816 lb/in³; nothing is denser. */
const DENSEST = 0.82;
/** The lightest core foams are near .001 lb/in³ (30 kg/m³). */
const LIGHTEST = 0.0005;

/** A density in lb/in³ of each unit that may stand behind a typed number. */
const WRITTEN_UNITS: readonly { readonly pattern: RegExp; readonly factor: number }[] = [
  { pattern: /^lbs?\/(?:in3|cu ?in)$/, factor: 1 },
  { pattern: /^g\/(?:cm3|cc|ml)$|^kg\/(?:dm3|l)$|^t\/m3$/, factor: LB_IN3_PER_G_CM3 },
  { pattern: /^kg\/m3$/, factor: LB_IN3_PER_KG_M3 },
  { pattern: /^lbs?\/(?:ft3|cu ?ft)$/, factor: LB_IN3_PER_LB_FT3 },
];

const decimals = (value: number): string => String(Number(value.toPrecision(4)));

function takes(units: UnitSystem): string {
  const [from, to] = [LIGHTEST, DENSEST].map((limit) => decimals(fromInch(limit, 'density', units)));
  return `a designation as "6061-T6" or a density from ${from} to ${to} ${unitSign('density', units)}`;
}

/** What a number out of range may be in another unit: one unit, or two that it could be. */
function guessUnit(typed: number, units: UnitSystem): string | undefined {
  const as = (unit: string, factor: number): string | undefined => {
    const density = typed * factor;
    if (density < LIGHTEST || density > DENSEST) return undefined;
    return `${unit} (write ${decimals(fromInch(density, 'density', units))})`;
  };
  const likely =
    typed >= 800
      ? [as('kg/m³', LB_IN3_PER_KG_M3)]
      : typed >= 30
        ? [as('lb/ft³', LB_IN3_PER_LB_FT3), as('kg/m³', LB_IN3_PER_KG_M3)]
        : units === 'in-lb' && typed > DENSEST
          ? [as('g/cm³', LB_IN3_PER_G_CM3)]
          : [];
  const named = likely.filter((guess) => guess !== undefined);
  const unit = named.length > 0 ? `${decimals(typed)} looks like ${named.join(' or ')}` : undefined;
  const designation =
    Number.isInteger(typed) && typed >= 1000 && typed <= 9999 ? nearDesignation(String(typed)) : undefined;
  return [designation, unit].filter(Boolean).join('. ') || undefined;
}

/** The designations of the table that are near to four digits that are not a designation. */
function nearDesignation(written: string): string | undefined {
  const names = nearestMaterials(written);
  return names.length > 0 ? nearestWords(names) : undefined;
}

function readDensity(name: string, typed: number, units: UnitSystem): number {
  const density = toInch(typed, 'density', units);
  if (!(density >= LIGHTEST && density <= DENSEST))
    throw new InputError(name, typed, takes(units), guessUnit(typed, units));
  return density;
}

function readWritten(name: string, written: string, units: UnitSystem): number {
  const found = findMaterial(written);
  if (found) return densityOf(found);
  const bare = plainNumber(written);
  if (bare !== undefined) return readDensity(name, bare, units);
  const { value, rest } = leadingNumber(written) ?? {};
  const unit = rest?.toLowerCase().replace('³', '3').replace('^3', '3');
  const factor = WRITTEN_UNITS.find(({ pattern }) => unit !== undefined && pattern.test(unit))?.factor;
  if (value !== undefined && factor !== undefined) {
    // A unit that is written out is taken at its word in either system.
    const density = value * factor;
    if (density >= LIGHTEST && density <= DENSEST) return density;
    throw new InputError(name, written, takes(units));
  }
  return densityOf(lookUp(written, name));
}

/**
 * A material: "6061-T6", "2024-T3 clad", "4130N" (the temper may be left out), or its density as a number.
 * A number that is a designation of the table (6061 in a number cell) is read as the designation.
 */
export function materialParameter(
  name = 'material',
  help = 'designation, temper optional ("6061-T6", "2024-T3 clad", "4130"), or density',
): Parameter<number> {
  return custom(name, {
    help,
    dimension: 'density',
    takes,
    read(cell, units) {
      if (typeof cell === 'boolean') throw new InputError(name, cell, takes(units));
      if (typeof cell === 'string') return readWritten(name, cell.trim(), units);
      const named = Number.isInteger(cell) && cell >= 100 ? findMaterial(String(cell)) : undefined;
      return named ? densityOf(named) : readDensity(name, cell, units);
    },
  });
}
