/** Strength of rivets and of riveted joints, as far as published values go. */
import { NotListedError, refuseUnlisted } from '../input-error';
import { inBoth, type Rivet, type SolidAlloy, type HeadForm, type SolidRivet } from './rivet';

// Shear strength of one driven rivet, for one shear plane. An allowable of the rivet alone: a joint may fail in the sheet first.

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
    return (
      rivet.shear ??
      refuseUnlisted(
        parameter,
        rivet.designation,
        'a rivet whose shear is in the table of rivets, from the maker’s sheet',
      )
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
  const stress =
    SHEAR_KSI[rivet.alloy] ??
    refuseUnlisted(
      parameter,
      rivet.designation,
      'alloy B, AD, D or DD',
      '1100 rivets are soft and join parts that carry no load',
    );
  return stress * 1000 * (Math.PI / 4) * shearDiameter(rivet.dash) ** 2;
}

// Strength of a riveted joint as a first look: published allowables as they stand, and nothing where none is in hand.
// What governs is named. A number from here never sizes a joint: the designer's drawing does.

export const FIRST_LOOK = 'for a first look; the designer’s drawing decides';

export interface JointStrength {
  /** Ultimate, of one rivet in one plane of shear, lb. */
  readonly pounds: number;
  readonly governs: 'rivet' | 'sheet';
  readonly how: string;
  readonly source: string;
}

const SLACK = 0.0005;
const HDBK_5F = 'MIL-HDBK-5F, second-hand';

/** MS20426AD in 2024-T3, ultimate lb by diameter in 1/32 in: countersunk by the sheet, and dimpled. MIL-HDBK-5F, second-hand. */
const FLUSH_AD: Readonly<
  Record<
    number,
    { readonly least: number; readonly dimpled: number; readonly sunk: readonly (readonly [number, number])[] }
  >
> = {
  3: { least: 0.032,
    dimpled: 217, sunk: [[0.032, 178], [0.04, 193], [0.063, 216]] }, // prettier-ignore
  4: { least: 0.04, dimpled: 388, sunk: [] },
};

/**
 * AD rivets with a protruding head for each inch of width of 2024-T3, by sheet: 3/32, 1/8, 5/32, 3/16, 1/4. AC 43.13-1B
 * table 4-10 (clad) and table 4-9 (bare; the part that was seen). undefined: not printed.
 */
const PER_INCH = {
  clad: [
    [0.016, 6.5, 4.9],
    [0.02, 6.5, 4.9, 3.9],
    [0.025, 6.9, 4.9, 3.9],
    [0.032, 8.9, 4.9, 3.9, 3.3],
    [0.04, 11.1, 6.2, 4, 3.3, 2.4],
    [0.051, undefined, 7.9, 5.1, 3.6, 2.4],
    [0.064, undefined, 9.9, 6.5, 4.5, 2.5],
  ],
  bare: [
    [0.016, 6.5, 4.9],
    [0.02, 6.9, 4.9],
    [0.025, 8.6, 4.9],
    [0.032, 11.1, 6.2],
    [0.04, 13.8, 7.7],
  ],
} as const satisfies Record<string, readonly (readonly [number, ...(number | undefined)[]])[]>;
const DASHES = [3, 4, 5, 6, 8];

/** The share of the table's number of rivets that a member needs: AC 43.13-1B tables 4-9 to 4-11, notes. */
export const MEMBERS = { width: 1, 'single lap': 0.75, stringer: 0.8, 'intermediate frame': 0.6 } as const;
export type Member = keyof typeof MEMBERS;

/** Fewest rivets an inch in these tables are those of a sheet that fails in bearing: 1 / (1.6 × hole). */
const BEARING: Readonly<Record<number, number>> = { 3: 6.5, 4: 4.9, 5: 3.9, 6: 3.3, 8: 2.4 };

const is2024 = (material: string): RegExpExecArray | null =>
  /^(?:(alclad|clad|bare)\s+)?2024[- ]?T3\d*(?:\s+(alclad|clad|bare))?$/i.exec(material.trim());

/** Rivets for an inch of width as the table prints them; clad sheet where the material does not say bare. */
function printed(rivet: SolidRivet, sheet: number, material: string): number {
  const found = is2024(material);
  const which = /bare/i.test(found?.[0] ?? '') ? 'bare' : 'clad';
  const place = DASHES.indexOf(rivet.dash) + 1;
  const row = PER_INCH[which].find(([thickness]) => Math.abs(thickness - sheet) <= SLACK);
  const value = found && rivet.alloy === 'AD' && rivet.style === 'universal' && place > 0 ? row?.[place] : undefined;
  return (
    value ??
    refuseUnlisted(
      'sheet',
      `${rivet.designation} in ${inBoth(sheet)} of ${material}`,
      'an MS20470AD rivet in 2024-T3 of a thickness that AC 43.13-1B tables 4-9 and 4-10 print: .016, .020, .025, .032, .040, .051, .064',
    )
  );
}

/**
 * AD rivets for each inch of width, of the sheet's full strength, as AC 43.13-1B prints them, times the member's factor.
 * @throws NotListedError for what the tables do not print
 */
export const rivetsPerInch = (rivet: Rivet, sheet: number, material: string, member: Member = 'width'): number =>
  printed(solid(rivet), sheet, material) * MEMBERS[member];

/**
 * What one rivet carries in the thinnest sheet of the joint; the lesser of rivet and sheet.
 * @throws NotListedError where no published value is in hand: nothing is estimated here
 */
export function jointStrength(rivet: Rivet, sheet: number, material: string, head?: HeadForm): JointStrength {
  if (rivet.kind === 'own') {
    const pounds = rivetShear(rivet);
    return {
      pounds,
      governs: 'rivet',
      how: 'shear of the rivet alone; the sheet is not looked at',
      source: rivet.source || 'table of rivets',
    };
  }
  const of = solid(rivet);
  return of.style === 'flush' ? flush(of, sheet, material, head) : protruding(of, sheet, material);
}

const solid = (rivet: Rivet): SolidRivet =>
  rivet.kind === 'solid'
    ? rivet
    : refuseUnlisted('rivet', rivet.designation, 'a solid rivet: of others no published value is in hand');

function flush(rivet: SolidRivet, sheet: number, material: string, head: HeadForm | undefined): JointStrength {
  const table = rivet.alloy === 'AD' && is2024(material) ? FLUSH_AD[rivet.dash] : undefined;
  if (table && head === 'dimpled' && sheet >= table.least - SLACK)
    return { pounds: table.dimpled, governs: 'rivet', how: `dimpled in ${material}`, source: HDBK_5F };
  const found = [...(table?.sunk ?? [])].reverse().find(([thickness]) => thickness <= sheet + SLACK);
  if (table && found && head === 'countersunk') {
    const knife =
      found[0] < 0.04 - SLACK
        ? '; the countersink cuts through to a knife edge, which the handbook advises against'
        : '';
    return {
      pounds: found[1],
      governs: 'sheet',
      how: `countersunk in ${inBoth(found[0])} of ${material}${knife}`,
      source: HDBK_5F,
    };
  }
  throw new NotListedError(
    head ? 'sheet' : 'head',
    head ? `${rivet.designation}, ${head} in ${inBoth(sheet)} of ${material}` : null,
    'MS20426AD3 countersunk in 2024-T3 of .032 in and more, or MS20426AD3 dimpled in .032 and more, AD4 in .040 and more: of others no published value is in hand',
  );
}

function protruding(rivet: SolidRivet, sheet: number, material: string): JointStrength {
  const shear = rivetShear(rivet);
  const perInch = printed(rivet, sheet, material);
  if (perInch > BEARING[rivet.dash]! + 0.05)
    return {
      pounds: shear,
      governs: 'rivet',
      how: 'the rivet shears before the sheet fails',
      source: 'MIL-HDBK-5 table 8.1.2(b); AC 43.13-1B table 4-10',
    };
  throw new NotListedError(
    'sheet',
    `${rivet.designation} in ${inBoth(sheet)} of ${material}`,
    `a thicker sheet: here the sheet governs (AC 43.13-1B table 4-10), the joint has less than the rivet’s ${Math.round(shear)} lb, and no published bearing value is in hand`,
    `RIVET.PERINCH gives the rivets an inch that the table asks for`,
  );
}
