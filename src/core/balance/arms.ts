/** Arms, per cent of the chord, and what moving or adding weight does to them. Inches, pounds, pound-inches. */

/** A weight and where its centre of gravity is. */
export interface Load {
  readonly weight: number;
  readonly arm: number;
}

/** Per cent of the mean aerodynamic chord (MAC). @param lemac arm of its leading edge */
export const percentMac = (arm: number, lemac: number, mac: number): number => (100 * (arm - lemac)) / mac;

export const armFromMac = (percent: number, lemac: number, mac: number): number => lemac + (percent / 100) * mac;

/** The arm after a part of the weight has been moved. */
export const shiftedArm = ({ weight, arm }: Load, moved: number, from: number, to: number): number =>
  arm + (moved * (to - from)) / weight;

/**
 * Ballast that brings the centre of gravity to `target`: weight × (target − arm) / (ballast arm − target).
 * Undefined where no weight at that arm can do it (it would have to be taken away).
 */
export function ballastWeight({ weight, arm }: Load, target: number, ballastArm: number): number | undefined {
  if (arm === target) return 0;
  const needed = (weight * (target - arm)) / (ballastArm - target);
  return Number.isFinite(needed) && needed >= 0 ? needed : undefined;
}
