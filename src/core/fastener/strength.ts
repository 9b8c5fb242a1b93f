/** Shear strength of one driven rivet, for one shear plane. An allowable of the rivet alone: a joint may fail in the sheet first. */
import { InputError, NotListedError } from '../input-error';
import type { Rivet, SolidAlloy } from './rivet';

/** AC 43.13-1B ¶4-57f(9), as it stands (p. 4-24). */
export const PULL_TYPE =
  '"Common pull-type Pop rivets, produced for nonaircraft related applications, are not approved for use on certificated aircraft structures or components" (AC 43.13-1B ¶4-57f(9)).';

/**
 * Ultimate shear stress of driven rivets, ksi, of MIL-HDBK-5 table 8.1.2(b). AD: 217 and 388 lb of 3/32 and 1/8
 * (MIL-HDBK-5F, second-hand) and 596 lb of 5/32 (MMPDS-09, second-hand) are 30 ksi on the holes below. B, D and DD
 * from memory, verify: a row of the table of rivets overrides them.
 * B 5056-H32, AD 2117-T3, DD 2024-T31. For D the table has two: 2017-T3 at 38 and 2017-T31, the crack-free
 * kind that is sold today, at 34; the lower is used.
 */
const SHEAR_KSI: Readonly<Partial<Record<SolidAlloy, number>>> = { B: 28, AD: 30, D: 34, DD: 41 };

/**
 * Greatest hole diameter on which the shear area may be based, inches: MIL-HDBK-5 table 8.1.2(a).
 * 3/32, 1/8 and 5/32 by the loads above; 1/16, 3/16 and 1/4 from memory, verify: they are the drills of these rivets.
 * (The numbers of rivets in AC 43.13-1B tables 4-10 and 4-11 follow from the same diameters.)
 */
const SHEAR_HOLE: Readonly<Record<number, number>> = { 2: 0.067, 3: 0.096, 4: 0.1285, 5: 0.159, 6: 0.191, 8: 0.257 };

/** Diameter of the area that is sheared. @internal */
export function shearDiameter(dash: number): number {
  const hole = SHEAR_HOLE[dash];
  if (hole === undefined) throw new Error(`no shear area for a rivet of ${dash}/32 in`);
  return hole;
}

/**
 * Ultimate single shear, lb: stress × area of the nominal hole.
 * @throws NotListedError for alloy A and for blind rivets, which have no value here, and for an own one whose row has none.
 */
export function rivetShear(rivet: Rivet, parameter = 'rivet'): number {
  if (rivet.kind === 'own') {
    if (rivet.shear !== undefined) return rivet.shear;
    throw new NotListedError(
      parameter,
      rivet.designation,
      'a rivet whose shear is in the table of rivets, from the maker’s sheet',
    );
  }
  if (rivet.kind === 'blind') {
    throw new NotListedError(
      parameter,
      rivet.designation,
      "a solid rivet: the shear strength of a blind rivet is its maker's, on the data sheet of the lot",
      PULL_TYPE,
    );
  }
  const stress = SHEAR_KSI[rivet.alloy];
  if (stress === undefined) {
    throw new NotListedError(
      parameter,
      rivet.designation,
      'alloy B, AD, D or DD',
      '1100 rivets are soft and join parts that carry no load',
    );
  }
  const diameter = shearDiameter(rivet.dash);
  if (!diameter) throw new InputError(parameter, rivet.designation, 'a diameter of the table of shear areas');
  return stress * 1000 * (Math.PI / 4) * diameter ** 2;
}
