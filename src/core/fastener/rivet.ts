/** What is known of a rivet once its designation is read. Lengths in inches. */

export type SolidStyle = 'universal' | 'flush';
export type RivetStyle = SolidStyle | 'blind';
export type SolidAlloy = 'A' | 'B' | 'AD' | 'D' | 'DD';
/** Body and mandrel: AA aluminium and aluminium, AS aluminium and steel, SS steel and steel. */
export type BlindPair = 'AA' | 'AS' | 'SS';

interface Common {
  /** In the one spelling used here: "MS20470AD4-6", "BLIND-AA-42". */
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
  /** Length in 1/16 in, half sizes included; without a universal head, with a flush head. */
  readonly lengthDash: number;
  readonly length: number;
}

export interface BlindRivet extends Common {
  readonly kind: 'blind';
  readonly style: 'blind';
  readonly pair: BlindPair;
  /** Greatest grip in 1/16 in, the last number of the designation. */
  readonly gripDash: number;
  /** Length of the body under the head, before it is set. */
  readonly length: number;
  readonly gripMin: number;
  readonly gripMax: number;
}

export type Rivet = SolidRivet | BlindRivet;
