/** Shear of a joint's rivets against that of the solid rivets which they replace. */
import { rivetShear, type BlindStem, type Rivet } from '../fastener';
import { NotListedError } from '../input-error';

/** Ultimate single shear by the maker's data sheet, lb, by shearKey: "AA-4". */
export type MakersShear = Readonly<Record<string, number>>;

/** Body and mandrel with the diameter in 1/32 in: "AS-4" for a 1/8 blind rivet with a steel stem, "AS-4R" where the stem is retained. */
export const shearKey = (pair: string, dash: number, stem: BlindStem = 'broken'): string =>
  `${pair}-${dash}${stem === 'retained' ? 'R' : ''}`;

export interface Strength {
  /** The solid rivet that is replaced, and its shear, lb; undefined where no table has it. */
  readonly against: Rivet;
  readonly againstEach: number | undefined;
  /** Of one rivet of the option, lb. */
  readonly each: number | undefined;
  /** Shear of the joint in parts of what the solid rivets had, at the number of rivets that is compared. */
  readonly ratio: number | undefined;
  /** Rivets that match the shear; undefined where one of the two is not known. */
  readonly needed: number | undefined;
  /** The rule, in words, or why there is none. */
  readonly rule: string;
}

export { PULL_TYPE as PULL_TYPE_CAUTION } from '../fastener';
export const SHEAR_CAUTION =
  'Shear of the rivets alone, in one plane: in thin sheet the sheet tears first, and bearing, head and fatigue are not looked at. Structural joints come from the designer’s drawings.';

/** Single shear, lb; undefined where neither a table nor the maker's figure has it. */
function knownShear(rivet: Rivet, makers: MakersShear = {}): number | undefined {
  if (rivet.kind === 'blind') {
    const typed = makers[shearKey(rivet.pair, rivet.dash, rivet.stem)];
    return typed !== undefined && typed > 0 ? typed : undefined;
  }
  try {
    return rivetShear(rivet);
  } catch (error) {
    if (error instanceof NotListedError) return undefined;
    throw error;
  }
}

/** How many of `rivet` do for `count` of `against`, and by what rule. */
export function strengthOf(
  rivet: Rivet,
  against: Rivet,
  count: number,
  matched: boolean,
  makers?: MakersShear,
): Strength {
  const each = knownShear(rivet, makers);
  const againstEach = knownShear(against, makers);
  const common = { against, each, againstEach };
  if (each === undefined || againstEach === undefined) {
    const unknown = each === undefined ? rivet : against;
    const why =
      unknown.kind !== 'solid'
        ? 'is its maker’s and not in the tables: type the figure of the data sheet'
        : 'is not in the tables: soft rivets carry no load';
    return {
      ...common,
      ratio: undefined,
      needed: undefined,
      rule: `equal count; the shear of ${unknown.designation} ${why}`,
    };
  }
  const needed = Math.ceil((count * againstEach) / each - 1e-9);
  const used = matched ? Math.max(count, needed) : count;
  const ratio = count === 0 ? 1 : (used * each) / (count * againstEach);
  const extra = Math.max(0, needed - count);
  const rule =
    extra === 0
      ? 'equal count; not less shear'
      : matched
        ? `${extra} more, so that the shear is the same`
        : `equal count; ${extra} more would match the shear`;
  return { ...common, ratio, needed, rule };
}
