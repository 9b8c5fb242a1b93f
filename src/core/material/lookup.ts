/** From what a builder writes ("6061-T6", "Alclad 2024-T3", "4130N") to a row of the table. */
import { NotListedError } from '../input-error';
import { nearest } from '../edit-distance';
import { memoized } from '../memoized';
import { MATERIALS, LB_IN3_PER_G_CM3, type Material } from './densities';

const key = (text: string): string => text.toUpperCase().replace(/[^A-Z0-9]/g, '');

const byKey = new Map<string, Material>();
for (const material of MATERIALS)
  for (const name of [material.designation, ...(material.aliases ?? [])]) byKey.set(key(name), material);

/** Words that say what a designation is and change nothing. */
const NOISE = /\b(?:AA|AISI|SAE|UNS|ALUMIN(?:I)?UM|ALLOY|TYPE|BARE|SHEET)\b/g;
/** A temper: O, F, H14, T6, T351, T3511, or the condition letter of a steel (4130N). */
const TEMPER = /[\s-]*(?:T\d{1,4}|H\d{1,3}|[OFWN]|T)$/;
const CLAD = /\b(?:AL)?CLAD\b/;

/**
 * The row of a designation, or undefined. Case, spaces, hyphens and a temper are of no consequence:
 * density does not depend on temper.
 */
export const findMaterial = (written: string): Material | undefined => found(written).row;

/** A list has few materials in many rows. */
const found = memoized((written: string) => ({ row: lookUp(written) }));

function lookUp(written: string): Material | undefined {
  const upper = written.toUpperCase().trim();
  const whole = byKey.get(key(upper));
  if (whole) return whole;
  const clad = CLAD.test(upper);
  const bare = upper.replace(CLAD, ' ').replace(NOISE, ' ').trim();
  const withoutTemper = bare.replace(TEMPER, '');
  for (const candidate of [bare, withoutTemper]) {
    const found = candidate && byKey.get(key(clad ? `${candidate} clad` : candidate));
    if (found) return found;
  }
  return undefined;
}

/** Up to three designations of the table that are near to what was written; its temper does not count. */
export const nearestMaterials = (written: string): string[] =>
  nearest(
    written.toUpperCase().trim().replace(TEMPER, ''),
    MATERIALS.map((row) => row.designation),
  );

/** The advice that goes with a designation that is not in the table. */
export const nearestWords = (names: readonly string[]): string =>
  `Nearest: ${names.join(', ')}. For another material give its density`;

/**
 * The row of a designation.
 * @throws NotListedError with the nearest designations of the table.
 */
export function material(written: string, parameter = 'material'): Material {
  const found = findMaterial(written);
  if (found) return found;
  const names = nearestMaterials(written);
  throw new NotListedError(
    parameter,
    written,
    'a material of the table, or a density',
    names.length > 0 ? nearestWords(names) : 'For a material that is not in the table give its density',
  );
}

/** Density of a row in lb/in³. */
export function densityOf({ density }: Material): number {
  return density.unit === 'lb/in3' ? density.value : density.value * LB_IN3_PER_G_CM3;
}
