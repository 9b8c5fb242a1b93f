/** Parts rolled up by group: what a component weighs and where it balances. */
import { ByName } from '../names';
import { Tally, type Point } from './tally';

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
