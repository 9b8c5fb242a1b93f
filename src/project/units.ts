/** The units that labels name: of one column, of a sheet's columns together, of the workbook. */
import { labelUnit, readUnit, unitIn, unitsOf, type Dimension, type Unit, type UnitSystem } from '../core/quantity';

/** A system that cannot be told: the labels name units of both. */
export type OwnSystem = UnitSystem | 'both';

/** Inches: a thickness of this and more is thicker than any sheet that is bent and riveted, and is asked about. */
export const THICK = 0.5;

/** What was read of a label's unit; undefined where it names none. */
export type LabelUnit = { readonly unit: Unit } | { readonly wrong: string } | undefined;

/** "(kg)" behind a label of that dimension; a unit that is not known, or of something else, is refused in words. */
export function unitOfLabel(label: unknown, dimension: Dimension): LabelUnit {
  const sign = labelUnit(label);
  if (sign === undefined) return undefined;
  const unit = readUnit(sign, dimension);
  return unit
    ? { unit }
    : { wrong: `names the unit "${sign}"; takes ${signs(dimension)} in brackets. Its numbers are left out` };
}

const signs = (dimension: Dimension): string =>
  listed(
    unitsOf(dimension).map(({ sign }) => sign),
    'or',
  );

/** "a, b or c" */
export const listed = (words: readonly string[], word: 'and' | 'or'): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${word} ${words.at(-1)!}`;

/** The system that all given units belong to; 'both' where they differ, undefined where none is given. */
export function systemOf(units: readonly (Unit | undefined)[]): OwnSystem | undefined {
  const systems = new Set(units.flatMap((unit) => unit?.system ?? []));
  return systems.size > 1 ? 'both' : [...systems][0];
}

/** The unit of a label without one: the sheet's own system's. Where the sheet names both, nobody can tell, and it is refused. */
export const silentUnit = (dimension: Dimension, system: OwnSystem): NonNullable<LabelUnit> =>
  system === 'both'
    ? {
        wrong: `has no unit, and the headers beside it use inch-pound and metric ones. Put ${signs(dimension)} in brackets behind its label; until then its numbers are left out`,
      }
    : { unit: unitIn(dimension, system) };
