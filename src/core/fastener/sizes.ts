/** The sizes of solid and blind rivets, and the drills for them: tables with their sources. */
import type { SolidAlloy, BlindPair, BlindStem } from './rivet';

// Solid rivets MS20470 (universal head) and MS20426 (100° countersunk head), 1/16 to 1/4 in.
// Both superseded AN470 and AN426 (AC 43.13-1B ¶4-57a(4)).

/** Dimensions in inches, as printed. */
export interface SolidSize {
  /** Diameter in 1/32 in. */
  readonly dash: number;
  readonly shank: number;
  /** Diameter of the 100° head at its outer face. */
  readonly flushHead: number;
  readonly drill: Drill;
}

/**
 * Shank diameters: a chart of MS20470 (second-hand) prints these six; TM 10-5410-221-14/1 table 4-3 has .094, .125,
 * .156 and .250 as nominal diameters.
 * Flush head diameters: 1/8, 5/32 and 3/16 by TM 9-2320-387-24-2 table 33-3 and TM 9-2320-363-34-2 table 3, whose
 * countersinks of .222–.228, .283–.289 and .350–.356 have them in the middle; 1/16, 3/32 and 1/4 from memory, verify.
 * Drills: #30 and F as the Army's table has them, #21 by the loads of MIL-HDBK-5 (strength.ts); #40 is the shop's for 3/32
 * (an article of 1993 for builders), where MIL-HDBK-5 and TM 10-5410-221-14/1 give #41 (.096), as a repair manual of
 * the Curtiss P-40 does; that manual has #52 and #12 for 1/16 and 3/16. #51 and #11 from memory, verify.
 */
export const SOLID_SIZES: readonly SolidSize[] = [
  { dash: 2, shank: 0.062, flushHead: 0.114, drill: '#51' },
  { dash: 3, shank: 0.094, flushHead: 0.179, drill: '#40' },
  { dash: 4, shank: 0.125, flushHead: 0.225, drill: '#30' },
  { dash: 5, shank: 0.156, flushHead: 0.286, drill: '#21' },
  { dash: 6, shank: 0.187, flushHead: 0.353, drill: '#11' },
  { dash: 8, shank: 0.25, flushHead: 0.476, drill: 'F' },
];

/** MS20470 head: diameter 2D, height about .43D. From memory, verify. */
export const UNIVERSAL_HEAD = { diameter: 2, height: 0.43 } as const;

/** MS20426 head: included angle, degrees. */
export const FLUSH_HEAD_ANGLE = 100;

/** Alloy letters: AC 43.13-1B ¶4-57a and figure 4-4. Undriven alloy, by its row in the table of materials. */
export const SOLID_ALLOYS: Readonly<Record<SolidAlloy, string>> = {
  A: '1100',
  B: '5056',
  AD: '2117',
  D: '2017',
  DD: '2024',
};

/**
 * Lengths in 1/16 in. MS20470 revision H, requirement 3: lengths that it does not list follow in steps of 1/16
 * (AN470 listed from 3/16 up to 5/32 diameter). The bounds are what is bought for airplanes: common practice, no source.
 */
export const SHORTEST = 2;
export const LONGEST = 32;

// Blind rivets with a domed head, inch series, of two kinds: the stem stays in the rivet and is trimmed flush, or it
// breaks off at its head (break mandrel) and is thrown away.
//
// Stem retained. Grips and body lengths: TM 10-5410-221-14/1 table 4-3 and TM 10-5410-223-24 table 2-3 (US Army),
// which number the sizes as here (42: 4/32 in diameter, grip up to 2/16 in). The prints leave out the numbers of 53
// and 612, whose rows are there.
//
// Stem broken off. The same numbers and grips; body lengths of IFI-114 table 2, from memory, verify: greatest grip
// + .125 in for 3/32, .150 for 1/8, .175 for 5/32, .200 for 3/16. Other sources of this kind: ISO 15981 (below) has
// shorter bodies for most grips, a list of the trade a 1/8 of .377 in for grips to 3/16 (.337 here).

export interface BlindSize {
  readonly dash: number;
  /** Body, outside: greatest and least. */
  readonly body: { readonly max: number; readonly min: number };
  readonly head: { readonly max: number; readonly min: number; readonly height: number };
  /** Nominal diameter of the mandrel, which is taken as the bore of the body. */
  readonly mandrel: number;
  /** Least length of mandrel that stands out of the head for the tool. */
  readonly protrusion: number;
  /** Greatest length of the mandrel's head beyond the body on the blind side, before setting. */
  readonly blindSide: number;
  readonly drill: Drill;
  /** Hole as the Army's table gives it. */
  readonly hole: { readonly min: number; readonly max: number };
}

/**
 * IFI-114 table 1 (break mandrel blind rivets, regular dome head). 1/8 to 3/16 body, head and mandrel as printed;
 * the row of 3/32, the protrusions and the blind sides are read from a poor scan: verify.
 * Holes and drills: TM 10-5410-221-14/1 table 4-3. (Its #11 for 3/16 is .191, a thousandth under its own .192.)
 */
export const BLIND_SIZES: readonly BlindSize[] = [
  {
    dash: 3,
    body: { max: 0.096, min: 0.09 },
    head: { max: 0.198, min: 0.178, height: 0.032 },
    mandrel: 0.057,
    protrusion: 1,
    blindSide: 0.1,
    drill: '#41',
    hole: { min: 0.096, max: 0.1 },
  },
  {
    dash: 4,
    body: { max: 0.128, min: 0.122 },
    head: { max: 0.262, min: 0.238, height: 0.04 },
    mandrel: 0.076,
    protrusion: 1,
    blindSide: 0.12,
    drill: '#30',
    hole: { min: 0.128, max: 0.132 },
  },
  {
    dash: 5,
    body: { max: 0.159, min: 0.153 },
    head: { max: 0.328, min: 0.296, height: 0.05 },
    mandrel: 0.095,
    protrusion: 1.06,
    blindSide: 0.14,
    drill: '#20',
    hole: { min: 0.16, max: 0.164 },
  },
  {
    dash: 6,
    body: { max: 0.191, min: 0.183 },
    head: { max: 0.394, min: 0.356, height: 0.06 },
    mandrel: 0.114,
    protrusion: 1.06,
    blindSide: 0.16,
    drill: '#11',
    hole: { min: 0.192, max: 0.196 },
  },
];

export interface BlindGrip {
  readonly dash: number;
  readonly gripDash: number;
  readonly min: number;
  readonly max: number;
  /** Length of the body under the head, by what becomes of the stem. */
  readonly length: Readonly<Record<BlindStem, number>>;
}

/** What the body of a break mandrel rivet is longer than its greatest grip: IFI-114 table 2, from memory, verify. */
const BEYOND_GRIP: Readonly<Record<number, number>> = { 3: 0.125, 4: 0.15, 5: 0.175, 6: 0.2 };

const row = (dash: number, gripDash: number, min: number, max: number, retained: number): BlindGrip => ({
  dash,
  gripDash,
  min,
  max,
  length: { retained, broken: Number((max + BEYOND_GRIP[dash]!).toFixed(3)) },
});

/** The lengths printed here are those of the kind whose stem is retained. */
export const BLIND_GRIPS: readonly BlindGrip[] = [
  row(3, 2, 0.02, 0.125, 0.212),
  row(3, 4, 0.126, 0.25, 0.337),
  row(4, 1, 0.02, 0.062, 0.17),
  row(4, 2, 0.063, 0.125, 0.232),
  row(4, 3, 0.126, 0.187, 0.294),
  row(4, 4, 0.188, 0.25, 0.357),
  row(4, 5, 0.251, 0.312, 0.419),
  row(4, 6, 0.313, 0.375, 0.481),
  row(4, 8, 0.376, 0.5, 0.628),
  row(5, 2, 0.02, 0.125, 0.254),
  row(5, 3, 0.126, 0.187, 0.316),
  row(5, 4, 0.188, 0.25, 0.379),
  row(5, 6, 0.251, 0.375, 0.504),
  row(5, 8, 0.376, 0.5, 0.629),
  row(6, 2, 0.02, 0.125, 0.277),
  row(6, 4, 0.126, 0.25, 0.402),
  row(6, 6, 0.251, 0.375, 0.527),
  row(6, 8, 0.376, 0.5, 0.652),
  row(6, 10, 0.501, 0.625, 0.777),
  row(6, 12, 0.626, 0.75, 0.902),
];

/**
 * Materials of body and mandrel, by their rows in the table of materials.
 * IFI-114 grades: 5050 or 5052 bodies with 7178 or 2024 mandrels, steel bodies of low carbon; from memory, verify.
 */
export const BLIND_PAIRS: Readonly<Record<BlindPair, { readonly body: string; readonly mandrel: string }>> = {
  AA: { body: '5052', mandrel: '7178' },
  AS: { body: '5052', mandrel: '1010' },
  SS: { body: '1010', mandrel: '1010' },
};

/**
 * ISO 15981:2002, open end blind rivets with break pull mandrel, AlA/AlA (a copy): least body length and the greatest
 * grip that it is for, mm, by the diameter in 1/32 in whose rivet is nearest (2.4, 3.2, 4 and 4.8 mm).
 */
const ISO_15981: Readonly<Record<number, readonly (readonly [length: number, grip: number])[]>> = {
  3: [[6, 3], [9, 6], [12, 9]], // prettier-ignore
  4: [[5, 1.5], [6, 3.5], [8, 5], [10, 7], [12, 9], [16, 13], [20, 17], [25, 22]], // prettier-ignore
  5: [[6, 3], [8, 5], [10, 6.5], [12, 8.5], [16, 12.5], [20, 16.5], [25, 21]], // prettier-ignore
  6: [[6, 2.5], [8, 4], [10, 6], [12, 8], [16, 12], [20, 15], [25, 20], [30, 25]], // prettier-ignore
};

/** Body length, mm, of the ISO 15981 rivet for a grip in inches: another source of the kind whose stem breaks off. */
export const isoLength = (dash: number, grip: number): number | undefined =>
  ISO_15981[dash]?.find(([, most]) => grip * 25.4 <= most)?.[0];

/**
 * Diameters, inches, of the number and letter drills that rivets use.
 * ASME B94.11M (number drills 1 to 80, letter drills A to Z), as GNU units has them (drillgauge), which a test compares.
 * #41 and #30 are .096 and .1285 in a repair manual of the Curtiss P-40, too, #21 and F .159 and .257 in a tap chart.
 */
export const DRILLS = {
  '#51': 0.067,
  '#41': 0.096,
  '#40': 0.098,
  '#30': 0.1285,
  '#21': 0.159,
  '#20': 0.161,
  '#11': 0.191,
  F: 0.257,
} as const satisfies Record<string, number>;
export type Drill = keyof typeof DRILLS;

/** Diameter by the name of a drill of the tables; undefined for any other. */
export function drillNamed(name: string): number | undefined {
  const plain = name
    .trim()
    .toUpperCase()
    .replace(/^(?:NO\.?|NUMBER)\s*/, '#');
  return Object.hasOwn(DRILLS, plain) ? DRILLS[plain as Drill] : undefined;
}
