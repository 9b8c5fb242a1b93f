/** From a grip to a part. */
import { NotListedError } from '../input-error';
import { BLIND_GRIPS, BLIND_PAIRS, BLIND_SIZES } from './blind-data';
import { blindRivet, solidRivet } from './designation';
import { inBoth } from './format';
import { FORMED_HEAD_ALLOWANCE, rivetLength } from './layout';
import type { OwnRivets } from './own-table';
import type {
  BlindPair,
  BlindRivet,
  BlindStem,
  OwnRivet,
  PickStyle,
  SolidAlloy,
  SolidRivet,
  SolidStyle,
} from './rivet';
import { LONGEST, SHORTEST, SOLID_ALLOYS, SOLID_SIZES } from './solid-data';

/**
 * nearest: to the nearest length (common practice); longer: to the next length that is not shorter
 * (TM 10-5410-229-13&P ¶5-6: "the nearest standard rivet length greater than the calculated sum"). Either in
 * steps of 1/16 in or, with half sizes, of 1/32.
 */
export type Rounding = 'nearest' | 'longer' | 'nearest half' | 'longer half';
export const ROUNDINGS = ['nearest', 'longer', 'nearest half', 'longer half'] as const satisfies readonly Rounding[];

const ROUNDING_ERROR = 1e-9;
/** A diameter given in millimetres or to three decimals is a few thousandths off the fraction. */
const DIAMETER_TOLERANCE = 0.004;

/** The number of 1/32 in of a diameter, or an error that lists what there is. */
function dashOf(diameter: number, sizes: readonly number[]): number {
  const dash = sizes.find((size) => Math.abs(size / 32 - diameter) <= DIAMETER_TOLERANCE);
  if (dash !== undefined) return dash;
  const list = sizes.map((size) => fraction(size)).join(', ');
  const guess = sizes.includes(diameter)
    ? `${diameter} looks like the number of a designation: write ${diameter}/32`
    : undefined;
  throw new NotListedError('diameter', diameter, `the diameters ${list} inch`, guess);
}

/** "1/8" for 4. */
export function fraction(thirtySeconds: number): string {
  let [top, bottom] = [thirtySeconds, 32];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return `${top}/${bottom}`;
}

/**
 * The rivet for a grip.
 *
 * @param diameter nominal, inches: a standard diameter within .004
 * @param grip     sum of the sheets, inches; for a flush rivet the whole of it, the countersunk sheet included
 * @param alloy    alloy letter of a solid rivet (AD when not given), body and mandrel of a blind one (AA)
 * @throws NotListedError where no size reaches, saying from where to where the sizes go
 */
export function pickRivet(
  style: PickStyle,
  diameter: number,
  grip: number,
  rounding: Rounding = 'nearest',
  alloy?: string,
): SolidRivet | BlindRivet {
  const stem = STEMS[style];
  if (stem) return pickBlind(diameter, grip, { pair: member(alloy ?? 'AA', BLIND_PAIRS), stem });
  return pickSolid(style as SolidStyle, diameter, grip, rounding, member(alloy ?? 'AD', SOLID_ALLOYS));
}

const STEMS: Readonly<Partial<Record<PickStyle, BlindStem>>> = { blind: 'broken', 'blind retained': 'retained' };

/**
 * The builder's own rivet of that style and diameter whose grip range holds the grip; the shortest where several do;
 * undefined where none does, or a row does not say what grip it is for.
 */
export function pickOwn(
  own: OwnRivets | undefined,
  style: PickStyle,
  diameter: number,
  grip: number,
): OwnRivet | undefined {
  const stem = STEMS[style];
  const held = (own?.rivets ?? []).filter(
    (one) =>
      one.style === (stem ? 'blind' : style) &&
      one.stem === stem &&
      Math.abs(one.nominal - diameter) <= DIAMETER_TOLERANCE &&
      grip >= (one.gripMin ?? Infinity) - ROUNDING_ERROR &&
      grip <= (one.gripMax ?? 0) + ROUNDING_ERROR,
  );
  return held.sort((a, b) => a.gripMax! - b.gripMax!)[0];
}

function member<K extends string>(written: string, table: Readonly<Record<K, unknown>>): K {
  const key = written.trim().toUpperCase();
  if (key in table) return key as K;
  throw new NotListedError('alloy', written, Object.keys(table).join(', '));
}

function pickSolid(
  style: SolidStyle,
  diameter: number,
  grip: number,
  rounding: Rounding,
  alloy: SolidAlloy,
): SolidRivet {
  const dash = dashOf(
    diameter,
    SOLID_SIZES.map((size) => size.dash),
  );
  const step = rounding.endsWith('half') ? 0.5 : 1;
  const steps = (rivetLength(grip, dash / 32) * 16) / step;
  const lengthDash = step * (rounding.startsWith('longer') ? Math.ceil(steps - ROUNDING_ERROR) : Math.round(steps));
  const greatest = LONGEST / 16 - (FORMED_HEAD_ALLOWANCE * dash) / 32;
  if (lengthDash > LONGEST)
    throw new NotListedError(
      'grip',
      grip,
      `up to ${inBoth(greatest)} for a ${fraction(dash)} rivet, whose lengths end at ${inBoth(LONGEST / 16)}`,
    );
  return solidRivet(style, alloy, dash, Math.max(SHORTEST, lengthDash), { parameter: 'grip' });
}

function pickBlind(
  diameter: number,
  grip: number,
  of: { readonly pair: BlindPair; readonly stem: BlindStem },
): BlindRivet {
  const dash = dashOf(
    diameter,
    BLIND_SIZES.map((size) => size.dash),
  );
  const sizes = BLIND_GRIPS.filter((size) => size.dash === dash);
  const least = sizes[0]!.min;
  const greatest = sizes[sizes.length - 1]!.max;
  // The printed ranges leave a thousandth between them; a grip in that gap belongs to the longer rivet.
  const size = grip >= least - ROUNDING_ERROR ? sizes.find((one) => grip <= one.max + ROUNDING_ERROR) : undefined;
  if (!size)
    throw new NotListedError(
      'grip',
      grip,
      `from ${inBoth(least)} to ${inBoth(greatest)} for a ${fraction(dash)} blind rivet`,
    );
  return blindRivet(of, dash, size.gripDash);
}
