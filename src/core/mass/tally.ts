/** Weight and moments added up: the one sum that every roll-up, weighing and loading rests on. */

/** A place or an arm in three axes, in inches from the datum: x aft, y to the right, z up (a right-handed set). */
export type Point = readonly [x: number, y: number, z: number];

/**
 * Weight below this share of the weights that went in is what rounding left of a sum that cancels
 * (a part taken off and put back), not a weight to divide by.
 */
const CANCELLED = 1e-12;

/** A running sum of weight (lb) and of its moments about the datum (lb·in). Weights may be negative: what is taken off. */
export class Tally {
  weight = 0;
  momentX = 0;
  momentY = 0;
  momentZ = 0;
  private gross = 0;

  add(weight: number, x: number, y = 0, z = 0): void {
    this.weight += weight;
    this.momentX += weight * x;
    this.momentY += weight * y;
    this.momentZ += weight * z;
    this.gross += Math.abs(weight);
  }

  /** Adds what another has summed up. */
  merge(other: Tally): void {
    this.weight += other.weight;
    this.momentX += other.momentX;
    this.momentY += other.momentY;
    this.momentZ += other.momentZ;
    this.gross += other.gross;
  }

  /** The centre of gravity in inches from the datum; undefined where no weight is left to have one. */
  get center(): Point | undefined {
    if (!(Math.abs(this.weight) > CANCELLED * this.gross)) return undefined;
    return [this.momentX / this.weight, this.momentY / this.weight, this.momentZ / this.weight];
  }
}
