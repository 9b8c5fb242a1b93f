/**
 * Solid rivets MS20470 (universal head) and MS20426 (100° countersunk head), 1/16 to 1/4 in.
 * Both superseded AN470 and AN426 (AC 43.13-1B ¶4-57a(4)).
 */
import type { SolidAlloy } from './rivet';

/** Dimensions in inches, as printed. */
export interface SolidSize {
  /** Diameter in 1/32 in. */
  readonly dash: number;
  readonly shank: number;
  /** Diameter of the 100° head at its outer face. */
  readonly flushHead: number;
  readonly drill: string;
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
