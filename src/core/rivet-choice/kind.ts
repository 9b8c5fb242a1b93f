/** What an option says in words: "solid 3/32", "blind AS 1/8", "flush nearest half", "as designed". */
import {
  BLIND_PAIRS,
  inBoth,
  pickFor,
  pickRivet,
  SOLID_ALLOYS,
  SOLID_SIZES,
  type HeadForm,
  type OwnRivet,
  type OwnRivets,
  type PickStyle,
  type Rivet,
  type Rounding,
} from '../fastener';
import { refuse, refuseUnlisted } from '../input-error';
import { typedNumber } from '../quantity';

/** solid: with the head that the joint has, universal where it has none; designed: nothing is changed. */
export type KindStyle = PickStyle | 'solid' | 'designed';

export interface RivetKind {
  readonly style: KindStyle;
  /** Inches; the joint's own where it is not given. */
  readonly diameter?: number;
  /** Letters of the designation: AD, AA, AS … */
  readonly alloy?: string;
  readonly rounding?: Rounding;
  /** One rivet of the builder's own for every joint. */
  readonly own?: OwnRivet;
}

/** The facts of a joint by which its rivet is picked. Lengths in inches. */
export interface Seat {
  readonly grip: number;
  readonly diameter: number;
  /** As it is designed; universal where it is not given. */
  readonly style?: PickStyle;
  readonly alloy?: string;
  readonly rounding?: Rounding;
  /** The own rivet that the joint names; it is picked where the joint names none. */
  readonly own?: OwnRivet;
  /** What the rules of layout ask for, as far as it is known. */
  readonly edge?: number;
  readonly rows?: number;
  readonly thickestSheet?: number;
  readonly thinnestSheet?: number;
  readonly outerSheet?: number;
  readonly head?: HeadForm;
  /** Alloy and temper of the sheets. */
  readonly sheetMaterial?: string;
}

const STYLES: readonly string[] = ['solid', 'universal', 'flush', 'blind', 'retained', 'designed'];
export const KIND_TAKES =
  '"solid", "universal", "flush", "blind" or "blind retained", with a diameter ("blind 1/8"), an alloy ("blind AS 1/8") or "nearest half" behind it; or a label of the table of rivets';

/**
 * The kind that a text names.
 * @throws InputError for a word that is neither a style, a diameter, an alloy nor a rounding
 */
// eslint-disable-next-line complexity -- one kind of word after the other
export function readKind(text: string, parameter = 'options', own?: OwnRivets): RivetKind {
  const named = own?.find(text, parameter);
  if (named) return { style: named.stem === 'retained' ? 'blind retained' : named.style, own: named };
  const fail = (guess?: string): never => refuse(parameter, text, KIND_TAKES, guess);
  let style: KindStyle | undefined;
  let diameter: number | undefined;
  let alloy: string | undefined;
  const rounding: string[] = [];
  for (const word of text
    .trim()
    .toLowerCase()
    .split(/[\s,]+/)) {
    const letters = word.toUpperCase();
    const size = diameterOf(word);
    if (word === 'retained' && (style === undefined || style === 'blind')) style = 'blind retained';
    else if (STYLES.includes(word)) style ??= word as KindStyle;
    else if (word === 'nearest' || word === 'longer' || word === 'half') rounding.push(word);
    else if (letters in SOLID_ALLOYS || letters in BLIND_PAIRS) alloy = letters;
    else if (size !== undefined) diameter = size;
    else if (word !== 'as' && word !== 'in') fail();
  }
  if (style === undefined) return fail();
  // "as designed" holds the letters of a blind rivet with a steel stem.
  if (style === 'designed') return { style };
  if (alloy !== undefined && isPulled(style) !== alloy in BLIND_PAIRS)
    fail(`${alloy} is an alloy of ${isPulled(style) ? 'solid' : 'blind'} rivets`);
  if (rounding[0] === 'half') rounding.unshift('nearest');
  return {
    style,
    ...(diameter === undefined ? {} : { diameter }),
    ...(alloy === undefined ? {} : { alloy }),
    ...(rounding.length === 0 ? {} : { rounding: rounding.join(' ') as Rounding }),
  };
}

/** "1/8" or ".125" with a size of the tables; undefined for anything else. */
function diameterOf(word: string): number | undefined {
  const { value, sign = 'in' } = typedNumber(word) ?? {};
  if (value === undefined || sign !== 'in') return undefined;
  return SOLID_SIZES.some(({ dash }) => Math.abs(dash / 32 - value) < 0.004) ? value : undefined;
}

/** True for the styles of blind rivets. */
export const isPulled = (style: KindStyle | undefined): boolean => style === 'blind' || style === 'blind retained';

/** The rivet of a joint as it is designed. */
const designedRivet = (seat: Seat, own: OwnRivets | undefined): Rivet =>
  seat.own ?? pickFor(own, { ...seat, style: seat.style ?? 'universal' });

/**
 * The solid rivet that a joint's strength is set against: its own, or where its own is blind the universal
 * AD rivet of the same diameter.
 */
export const solidInstead = (seat: Seat, own?: OwnRivets): Rivet =>
  isPulled(seat.style) ? pickRivet('universal', seat.diameter, seat.grip, seat.rounding) : designedRivet(seat, own);

/** The rivet of that kind for a joint; throws NotListedError where no size reaches. */
export function rivetOfKind(kind: RivetKind, seat: Seat, own?: OwnRivets): Rivet {
  if (kind.style === 'designed') return designedRivet(seat, own);
  if (kind.own) return holding(kind.own, seat.grip);
  const designed = seat.style ?? 'universal';
  const style = kind.style === 'solid' ? (isPulled(designed) ? 'universal' : designed) : kind.style;
  const diameter = kind.diameter ?? seat.diameter;
  // The designed alloy stays where the joint stays of its sort: a hard rivet is not swapped for a soft one unasked.
  const alloy = kind.alloy ?? (isPulled(designed) === isPulled(style) ? seat.alloy : undefined);
  return pickFor(own, { style, diameter, grip: seat.grip, rounding: kind.rounding ?? seat.rounding, alloy });
}

/** One of the builder's own rivets for a grip; throws where the rivet is not made for that grip. */
function holding(own: OwnRivet, grip: number): OwnRivet {
  const { gripMin = 0, gripMax = Infinity, designation } = own;
  return grip >= gripMin - 0.0005 && grip <= gripMax + 0.0005
    ? own
    : refuseUnlisted('grip', grip, `from ${inBoth(gripMin)} to ${inBoth(gripMax)} for ${designation}`);
}
