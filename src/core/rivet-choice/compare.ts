/** Rivets of the same joints in several options side by side: weight, money, minutes and strength. */
import {
  rivetShear,
  checkRivet,
  holeMetal,
  jointStrength,
  MINUTES_EACH,
  rivetWeight,
  sortOf,
  type BlindStem,
  type Rivet,
  type Finding,
  type JointStrength,
  type OwnRivets,
} from '../fastener';
import { ifListed, InputError, unlessRefused, refuse } from '../input-error';
import { rivetOfKind, solidInstead, type Seat, type RivetKind } from './kind';
import { densityOf, findMaterial } from '../material';
import { extend, roundMoney, sumMoney, type PriceBook } from '../price';
import { buyRivets, rivetPrices, toolsFor, type Material, type RivetPrices, type Tool, type ToolNeed } from './buy';

// Shear of a joint's rivets against that of the solid rivets which they replace.

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

export const SHEAR_CAUTION =
  'Shear of the rivets alone, in one plane: in thin sheet the sheet tears first, and bearing, head and fatigue are not looked at. Structural joints come from the designer’s drawings.';

/** Single shear, lb; undefined where neither a table nor the maker's figure has it. */
function knownShear(rivet: Rivet, makers: MakersShear = {}): number | undefined {
  if (rivet.kind === 'blind') {
    const typed = makers[shearKey(rivet.pair, rivet.dash, rivet.stem)];
    return typed !== undefined && typed > 0 ? typed : undefined;
  }
  return ifListed(() => rivetShear(rivet));
}

/** How many of `rivet` do for `count` of `against`, and by what rule. */
function strengthOf(rivet: Rivet, against: Rivet, count: number, matched: boolean, makers?: MakersShear): Strength {
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

// What the rules of layout say of a joint whose rivets are swapped: edge, pitch, diameter, countersink and grip again.

/** What is not known of the joint is taken to be right, so that no finding is about something that nobody typed. */
function layoutFindings(rivet: Rivet, joint: Seat & { readonly pitch?: number }, closerPitch?: number): Finding[] {
  const { nominal } = rivet;
  const { edge = 3 * nominal, thickestSheet = nominal / 3, rows = 1, head, outerSheet, grip } = joint;
  const pitch = closerPitch ?? joint.pitch ?? 6 * nominal;
  const unlike = joint.style === 'flush' && rivet.style !== 'flush' && head !== undefined;
  return [
    ...checkRivet({ rivet, grip, thickestSheet, pitch, edge, rows, head, outerSheet }),
    ...(unlike
      ? [{ what: `the sheet is ${head} for a flush head, and this head is not flush`, source: 'geometry' }]
      : []),
  ];
}

export interface ChoiceJoint extends Seat {
  readonly name: string;
  /** Rivets in all repeats. */
  readonly count: number;
  /** Only one side can be reached: nobody can hold a bucking bar. */
  readonly oneSide?: boolean;
  /** Inches, where more rivets are to be fitted in. */
  readonly pitch?: number;
}

export interface RivetOption {
  readonly name: string;
  /** One kind for every joint, or a list with one for each joint. */
  readonly kinds: RivetKind | readonly RivetKind[];
  /** Person-minutes for one rivet, whatever its kind; the terms' minutes where it is not given. */
  readonly minutesEach?: number;
}

/** Minutes for one rivet: to mark out, drill and deburr; to set. */
export interface Minutes {
  readonly drill: number;
  readonly set: number;
}

export interface Terms {
  /** Money for one person's hour; 0 for one's own. */
  readonly labourRate: number;
  readonly minutes: { readonly solid: Minutes; readonly blind: Minutes };
  /** A second person holds the bar while solid rivets are set. */
  readonly secondPerson: boolean;
  readonly tools: readonly Tool[];
  readonly makersShear: MakersShear;
  /** True: rivets are added where the shear would be less and both figures are known. */
  readonly matchShear: boolean;
  /** Density of the sheets for the metal of the holes, where a joint does not say its material, lb/in³. */
  readonly density: number;
  /** The builder's own rivets. */
  readonly own?: OwnRivets;
}

/** Splits MINUTES_EACH of the fasteners: common practice, no source; a builder's own log is better. */
const DRILL_MINUTES = 0.5;

/** The builder works alone and for nothing, buys no tools and sets as many rivets. The density is about that of any aluminium alloy. */
export const DEFAULT_TERMS: Terms = {
  labourRate: 0,
  minutes: {
    solid: { drill: DRILL_MINUTES, set: MINUTES_EACH.solid - DRILL_MINUTES },
    blind: { drill: DRILL_MINUTES, set: MINUTES_EACH.blind - DRILL_MINUTES },
  },
  secondPerson: false,
  tools: [],
  makersShear: {},
  matchShear: false,
  density: 0.1,
};

export interface JointLine {
  readonly joint: ChoiceJoint;
  readonly rivet: Rivet;
  /** Rivets, with those that are added to match the shear. */
  readonly count: number;
  /** lb */
  readonly installed: number;
  readonly bought: number;
  readonly strength: Strength;
  /** What one rivet carries in the thinnest sheet by published values; undefined where none is in hand. */
  readonly firstLook: JointStrength | undefined;
  /** Pitch that the added rivets would leave, inches; undefined where none are added or the pitch is not known. */
  readonly closerPitch: number | undefined;
  /** What the rules of layout say of the joint with this rivet. */
  readonly findings: readonly Finding[];
  /** False where the joint passes the rules of layout as designed and does not with this rivet. */
  readonly passes: boolean;
}

export interface Refusal {
  readonly joint: ChoiceJoint;
  /** "one side": a solid rivet cannot be bucked. "size": no rivet has the grip or the diameter. */
  readonly reason: 'one side' | 'size';
  readonly error: InputError;
}

export interface Refused {
  readonly possible: false;
  readonly name: string;
  /** Why the option cannot be used, one reason for each joint that refuses it. */
  readonly refusals: readonly Refusal[];
}

export interface Compared {
  readonly possible: true;
  readonly name: string;
  readonly lines: readonly JointLine[];
  readonly rivets: number;
  /** Joints that pass the rules of layout as designed and do not in this option. */
  readonly failing: readonly JointLine[];
  /** Weight of the rivets in the airplane, and of the same rivets as they come in the bag, lb. */
  readonly installed: number;
  readonly bought: number;
  /** Sheet in the holes, lb. */
  readonly holeMetal: number;
  readonly material: Material;
  readonly tools: readonly ToolNeed[];
  readonly toolCost: number;
  /** Person-hours: a second person's time is in them. */
  readonly hours: number;
  readonly labour: number;
  /** Material, labour and tools; undefined where a price is missing. */
  readonly total: number | undefined;
  /** Against the first option; undefined where one of the two totals is, or the first option is refused. */
  readonly costDifference: number | undefined;
  readonly weightDifference: number | undefined;
  /** Person-hours against the first option. */
  readonly hoursDifference: number | undefined;
  /** Money for a pound saved: below 0 where it saves both, or where it is heavier and dearer. Undefined at equal weight. */
  readonly perPoundSaved: number | undefined;
}

export type OptionResult = Compared | Refused;

/**
 * The options side by side, each against the first.
 * An option that cannot be done is refused with its reasons; one whose prices are not all known has no total.
 */
export function compareRivets(
  joints: readonly ChoiceJoint[],
  options: readonly RivetOption[],
  book: PriceBook,
  terms: Terms = DEFAULT_TERMS,
): OptionResult[] {
  const prices = rivetPrices(book, terms.own);
  const results = options.map((option) => oneOption(joints, option, prices, terms));
  const base = results[0];
  return results.map((result) => (result.possible && base?.possible ? against(result, base) : result));
}

function oneOption(
  joints: readonly ChoiceJoint[],
  option: RivetOption,
  prices: RivetPrices,
  terms: Terms,
): OptionResult {
  const lines: JointLine[] = [];
  const refusals: Refusal[] = [];
  joints.forEach((joint, index) =>
    unlessRefused(
      () => {
        const kind =
          ('style' in option.kinds ? option.kinds : option.kinds[index]) ??
          refuse('options', option.kinds, 'a kind of rivet for every joint');
        lines.push(jointLine(joint, kind, terms));
      },
      (error) => refusals.push({ joint, reason: error instanceof OneSideError ? 'one side' : 'size', error }),
    ),
  );
  if (refusals.length > 0) return { possible: false, name: option.name, refusals };
  const sum = (of: (line: JointLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const material = buyRivets(lines, prices);
  const { currency } = material;
  const tools = toolsFor(terms.tools, lines, currency);
  const toolCost = sumMoney(
    tools.map(({ cost }) => cost),
    currency,
  );
  const hours = sum(({ rivet, count }) => count * (option.minutesEach ?? minutesOf(rivet, terms))) / 60;
  const labour = roundMoney(extend(terms.labourRate, hours, currency), currency);
  return {
    possible: true,
    name: option.name,
    lines,
    rivets: sum(({ count }) => count),
    failing: lines.filter((line) => !line.passes),
    installed: sum(({ installed }) => installed),
    bought: sum(({ bought }) => bought),
    holeMetal: sum(({ rivet, joint, count }) => count * holeMetal(rivet, joint.grip, sheetDensity(joint, terms))),
    material,
    tools,
    toolCost,
    hours,
    labour,
    total: material.cost === undefined ? undefined : sumMoney([material.cost, labour, toolCost], currency),
    costDifference: undefined,
    weightDifference: undefined,
    hoursDifference: undefined,
    perPoundSaved: undefined,
  };
}

/** Person-minutes for one rivet. */
function minutesOf(rivet: Rivet, { minutes, secondPerson }: Terms): number {
  const { drill, set } = minutes[sortOf(rivet)];
  return drill + set * (sortOf(rivet) === 'solid' && secondPerson ? 2 : 1);
}

/** Findings on the joint as designed. Where no size reaches there are none, because the option "as designed" says that itself. */
const designedFindings = (joint: ChoiceJoint, own: OwnRivets | undefined): readonly Finding[] =>
  unlessRefused(() => layoutFindings(rivetOfKind({ style: 'designed' }, joint, own), joint)) ?? [];

const sheetDensity = ({ sheetMaterial = '' }: ChoiceJoint, { density }: Terms): number => {
  const found = findMaterial(sheetMaterial);
  return found ? densityOf(found) : density;
};

/** Strength by published values, where the joint says its material and its thinnest sheet. */
const firstLookOf = (rivet: Rivet, { thinnestSheet, sheetMaterial, head }: ChoiceJoint): JointStrength | undefined =>
  thinnestSheet === undefined || sheetMaterial === undefined
    ? undefined
    : ifListed(() => jointStrength(rivet, thinnestSheet, sheetMaterial, head));

class OneSideError extends InputError {}

function jointLine(joint: ChoiceJoint, kind: RivetKind, terms: Terms): JointLine {
  const rivet = rivetOfKind(kind, joint, terms.own);
  if (joint.oneSide && sortOf(rivet) === 'solid') {
    throw new OneSideError(
      'options',
      rivet.designation,
      `a blind rivet at ${joint.name || 'a joint'}: one side only can be reached, and a solid rivet is bucked from the other`,
    );
  }
  const strength = strengthOf(rivet, solidInstead(joint, terms.own), joint.count, terms.matchShear, terms.makersShear);
  const count = terms.matchShear ? Math.max(joint.count, strength.needed ?? 0) : joint.count;
  const closerPitch =
    count > joint.count && joint.pitch !== undefined ? (joint.pitch * joint.count) / count : undefined;
  const findings = layoutFindings(rivet, joint, closerPitch);
  return {
    joint,
    rivet,
    count,
    installed: count * rivetWeight(rivet, 'installed'),
    bought: count * rivetWeight(rivet, 'bought'),
    strength,
    firstLook: firstLookOf(rivet, joint),
    closerPitch,
    findings,
    passes: findings.length === 0 || designedFindings(joint, terms.own).length > 0,
  };
}

/** Weights that differ by less (lb) are the same: no scale in a shop shows it. */
const SAME_WEIGHT = 1e-9;

function against(result: Compared, base: Compared): Compared {
  const weightDifference = result.installed - base.installed;
  const costDifference =
    result.total === undefined || base.total === undefined || result.material.currency !== base.material.currency
      ? undefined
      : sumMoney([result.total, -base.total], result.material.currency);
  const perPoundSaved =
    costDifference === undefined || Math.abs(weightDifference) < SAME_WEIGHT
      ? undefined
      : costDifference / -weightDifference;
  return { ...result, weightDifference, costDifference, hoursDifference: result.hours - base.hours, perPoundSaved };
}
