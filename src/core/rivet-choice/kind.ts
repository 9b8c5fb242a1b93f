/** What an option says in words: "solid 3/32", "blind AS 1/8", "flush nearest half", "as designed". */
import {
  BLIND_PAIRS,
  pickRivet,
  SOLID_ALLOYS,
  SOLID_SIZES,
  type Rivet,
  type RivetStyle,
  type Rounding,
} from '../fastener';
import { InputError } from '../input-error';

/** solid: with the head that the joint has, universal where it has none; designed: nothing is changed. */
export type KindStyle = RivetStyle | 'solid' | 'designed';

export interface RivetKind {
  readonly style: KindStyle;
  /** Inches; the joint's own where it is not given. */
  readonly diameter?: number;
  /** Letters of the designation: AD, AA, AS … */
  readonly alloy?: string;
  readonly rounding?: Rounding;
}

/** What of a joint a rivet is picked by. Lengths in inches. */
export interface Seat {
  readonly grip: number;
  readonly diameter: number;
  /** As it is designed; universal where it is not given. */
  readonly style?: RivetStyle;
  readonly alloy?: string;
  readonly rounding?: Rounding;
}

const STYLES: readonly KindStyle[] = ['solid', 'universal', 'flush', 'blind', 'designed'];
export const KIND_TAKES =
  '"solid", "universal", "flush" or "blind", with a diameter ("blind 1/8"), an alloy ("blind AS 1/8") or "nearest half" behind it';

/**
 * The kind that a text names.
 * @throws InputError for a word that is neither a style, a diameter, an alloy nor a rounding
 */
export function readKind(text: string, parameter = 'options'): RivetKind {
  const fail = (guess?: string): never => {
    throw new InputError(parameter, text, KIND_TAKES, guess);
  };
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
    if (STYLES.includes(word as KindStyle)) style ??= word as KindStyle;
    else if (word === 'nearest' || word === 'longer' || word === 'half') rounding.push(word);
    else if (letters in SOLID_ALLOYS || letters in BLIND_PAIRS) alloy = letters;
    else if (size !== undefined) diameter = size;
    else if (word !== 'as' && word !== 'in') fail();
  }
  if (style === undefined) return fail();
  // "as designed" holds the letters of a blind rivet with a steel stem.
  if (style === 'designed') return { style };
  if (alloy !== undefined && (style === 'blind') !== alloy in BLIND_PAIRS)
    fail(`${alloy} is an alloy of ${style === 'blind' ? 'solid' : 'blind'} rivets`);
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
  const match = /^(?:(\d+)\/(\d+)|(\d*\.\d+))(?:in|")?$/.exec(word);
  if (!match) return undefined;
  const value = match[3] === undefined ? Number(match[1]) / Number(match[2]) : Number(match[3]);
  return SOLID_SIZES.some(({ dash }) => Math.abs(dash / 32 - value) < 0.004) ? value : undefined;
}

/** The rivet of a joint as it is designed. */
const designedRivet = ({ style = 'universal', diameter, grip, rounding, alloy }: Seat): Rivet =>
  pickRivet(style, diameter, grip, rounding, alloy);

/**
 * The solid rivet that a joint's strength is set against: its own, or where its own is blind the universal
 * AD rivet of the same diameter.
 */
export const solidInstead = (seat: Seat): Rivet =>
  seat.style === 'blind' ? pickRivet('universal', seat.diameter, seat.grip, seat.rounding) : designedRivet(seat);

/** The rivet of that kind for a joint; throws NotListedError where no size reaches. */
export function rivetOfKind(kind: RivetKind, seat: Seat): Rivet {
  if (kind.style === 'designed') return designedRivet(seat);
  const own = seat.style ?? 'universal';
  const style = kind.style === 'solid' ? (own === 'blind' ? 'universal' : own) : kind.style;
  // The designed alloy stays where the joint stays of its sort: a hard rivet is not swapped for a soft one unasked.
  const alloy = kind.alloy ?? ((own === 'blind') === (style === 'blind') ? seat.alloy : undefined);
  return pickRivet(style, kind.diameter ?? seat.diameter, seat.grip, kind.rounding ?? seat.rounding, alloy);
}
