/** Weights and moments added up, for all parts and by group. */
import { ByName, nameKey } from '../names';

// Weight and moments added up: the one sum that every roll-up, weighing and loading rests on.

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
    return Math.abs(this.weight) > CANCELLED * this.gross
      ? [this.momentX / this.weight, this.momentY / this.weight, this.momentZ / this.weight]
      : undefined;
  }
}

// Parts rolled up by group: what a component weighs and where it balances.

/** What rows without a group are gathered under. */
export const NO_GROUP = '(no group)';
export const TOTAL = 'Total';

export interface GroupTotal {
  readonly group: string;
  readonly weight: number;
  /** Undefined where the weights of the group cancel. */
  readonly center: Point | undefined;
  readonly moment: Point;
}

export interface RollUp {
  /** In order of first appearance. */
  readonly groups: readonly GroupTotal[];
  readonly total: GroupTotal;
}

const totalOf = (group: string, tally: Tally): GroupTotal => ({
  group,
  weight: tally.weight,
  center: tally.center,
  moment: [tally.momentX, tally.momentY, tally.momentZ],
});

/** Adds rows one at a time, for callers that hold columns and no row objects. */
export class RollUpSum {
  private readonly byGroup = new ByName(() => new Tally(), NO_GROUP);

  add(group: string, weight: number, x: number, y = 0, z = 0): void {
    this.byGroup.get(group).add(weight, x, y, z);
  }

  result(): RollUp {
    const all = new Tally();
    const entries = this.byGroup.entries();
    for (const { value } of entries) all.merge(value);
    return { groups: entries.map(({ name, value }) => totalOf(name, value)), total: totalOf(TOTAL, all) };
  }
}

// Names that say that a row is the sum of others, which a roll-up must not count again.

/** What each of the names below has in it, or letters that may come to be one of these: most names have neither. */
const COULD_BE = /total|sum|gesamt|[^\0-\x7f]/i;
const ALONE = /^(?:sub[- ]?totals?|(?:grand |over-?all )?totals?|sums?|zwischensumme|(?:gesamt)?summe|gesamt)$/;
const PART = /^sub[- ]?totals?(?: of| for)?[ :,–-]+.+$|^.+?[ :,–-]+sub[- ]?totals?$/;
const WHOLE = /^(?:totals?|sum)(?: of| for)?[ :,–-]+(.+)$|^(.+?)[ :,–-]+(?:totals?|sum)$/;

/**
 * True for "Total", "Subtotal", "Grand total", "Subtotal wing", and for "Wing total" where there is a component
 * Wing: a part may well be called "Total pressure line".
 */
export function isSumName(name: string, isComponent: (name: string) => boolean = () => false): boolean {
  if (!COULD_BE.test(name)) return false;
  const key = nameKey(name)
    .replace(/[\s:=]+$/, '')
    .replace(/ weight$/, '');
  if (ALONE.test(key) || PART.test(key)) return true;
  const whole = WHOLE.exec(key);
  return whole !== null && isComponent(whole[1] ?? whole[2]!);
}

/**
 * Stations spaced evenly from first to last, both included (ribs, formers).
 * @param count whole number of 1 or more; 1 gives the first alone
 */
export function evenStations(first: number, last: number, count: number): number[] {
  if (count === 1) return [first];
  // The last one is set and not computed, so that it is the number that was given.
  return Array.from({ length: count }, (_, index) =>
    index === count - 1 ? last : first + ((last - first) * index) / (count - 1),
  );
}
