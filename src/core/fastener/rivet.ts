/** What is known of a rivet once its designation is read. Lengths in inches. */

export type SolidStyle = 'universal' | 'flush';
export type RivetStyle = SolidStyle | 'blind';
/**
 * What becomes of a blind rivet's stem. broken: it breaks at its head and is thrown away (IFI-114); retained: it is
 * pulled into the body, stays there and is trimmed flush (the rivets of the Army's tables). Two kinds of rivet, with
 * lengths, weights and strengths of their own.
 */
export type BlindStem = 'broken' | 'retained';
/** What is picked by: "blind" is the kind whose stem breaks off. */
export type PickStyle = RivetStyle | 'blind retained';
export type SolidAlloy = 'A' | 'B' | 'AD' | 'D' | 'DD';
/** Body and mandrel: AA aluminium and aluminium, AS aluminium and steel, SS steel and steel. */
export type BlindPair = 'AA' | 'AS' | 'SS';

interface Common {
  /** In the one spelling used here: "MS20470AD4-6", "BLIND-AA-42", "BLIND-AA-42R"; of an own one its label. */
  readonly designation: string;
  /** Diameter in 1/32 in, the first number of the designation. */
  readonly dash: number;
  /** Nominal diameter dash/32, on which the rules of layout are based. */
  readonly nominal: number;
}

export interface SolidRivet extends Common {
  readonly kind: 'solid';
  readonly style: SolidStyle;
  readonly alloy: SolidAlloy;
  /** Inches; without a universal head, with a flush head. */
  readonly length: number;
}

export interface BlindRivet extends Common {
  readonly kind: 'blind';
  readonly style: 'blind';
  readonly pair: BlindPair;
  readonly stem: BlindStem;
  /** Greatest grip in 1/16 in, the last number of the designation. */
  readonly gripDash: number;
  /** Length of the body under the head, before it is set. */
  readonly length: number;
  readonly gripMin: number;
  readonly gripMax: number;
}

/** A row of the builder's own table: the maker's figures, or what the builder has weighed and measured. */
export interface OwnRivet extends Common {
  readonly kind: 'own';
  readonly style: RivetStyle;
  /** Of a blind one. */
  readonly stem: BlindStem | undefined;
  readonly length: number | undefined;
  readonly gripMin: number | undefined;
  readonly gripMax: number | undefined;
  /** Weight of one, lb. */
  readonly bought: number | undefined;
  readonly installed: number | undefined;
  readonly hole: number | undefined;
  readonly drill: string;
  /** Ultimate, lb, as the maker gives them. */
  readonly shear: number | undefined;
  readonly tension: number | undefined;
  readonly source: string;
  /** What the row does not say and is computed from its geometry, in words: "installed weight: as bought". */
  readonly computed: readonly string[];
  /** Row in the range that it was read from; the range's first row is 1. */
  readonly row: number;
}

export type Rivet = SolidRivet | BlindRivet | OwnRivet;

/** How a rivet is set: bucked from behind, or pulled from the front. */
export const isBlind = ({ style }: Pick<Rivet, 'style'>): boolean => style === 'blind';
export const sortOf = (rivet: Pick<Rivet, 'style'>): 'solid' | 'blind' => (isBlind(rivet) ? 'blind' : 'solid');

/** How a flush head is let into the sheet. */
export const HEAD_FORMS = ['countersunk', 'dimpled'] as const;
export type HeadForm = (typeof HEAD_FORMS)[number];

// Lengths in messages, in the units of whoever reads them.

export type LengthText = (inches: number) => string;

const MM = 25.4;

/** ".125 in" */
export const inInches: LengthText = (inches) => `${Number(inches.toFixed(4))} in`;

/** "3.18 mm" */
export const inMillimetres: LengthText = (inches) => `${Number((inches * MM).toFixed(2))} mm`;

/** "0.125 in (3.18 mm)": where it is not known who reads it. */
export const inBoth: LengthText = (inches) => `${inInches(inches)} (${inMillimetres(inches)})`;

/** "1/8" for 4. */
export function fraction(thirtySeconds: number): string {
  let [top, bottom] = [thirtySeconds, 32];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return `${top}/${bottom}`;
}
