/** Parts rolled up by group: what a component weighs and where it balances. */
import { Tally, type Point } from './tally';

/** What rows without a group are gathered under. */
const NO_GROUP = '(no group)';
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

/**
 * One object of `T` a group, in order of first appearance. Names are compared without regard to case
 * and outer blanks, as a spreadsheet's own lookups compare them; the first spelling is shown.
 */
export class ByGroup<T> {
  private readonly spellings = new Map<string, T>();
  private readonly named = new Map<string, { readonly name: string; readonly value: T }>();

  constructor(private readonly create: (name: string) => T) {}

  get(group: string): T {
    const known = this.spellings.get(group);
    if (known !== undefined) return known;
    const name = group.trim() || NO_GROUP;
    const key = name.toLowerCase();
    let entry = this.named.get(key);
    if (!entry) {
      entry = { name, value: this.create(name) };
      this.named.set(key, entry);
    }
    this.spellings.set(group, entry.value);
    return entry.value;
  }

  has(group: string): boolean {
    return this.named.has((group.trim() || NO_GROUP).toLowerCase());
  }

  entries(): { readonly name: string; readonly value: T }[] {
    return [...this.named.values()];
  }
}

const totalOf = (group: string, tally: Tally): GroupTotal => ({
  group,
  weight: tally.weight,
  center: tally.center,
  moment: [tally.momentX, tally.momentY, tally.momentZ],
});

/** Adds rows one at a time, for callers that hold columns and no row objects. */
export class RollUpSum {
  private readonly byGroup = new ByGroup(() => new Tally());

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
