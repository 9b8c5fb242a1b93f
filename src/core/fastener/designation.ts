/** From a designation, or from a grip, to a rivet. */
import { alternatives, InputError, NotListedError, unlessRefused, refuseUnlisted } from '../input-error';
import { BLIND_GRIPS, BLIND_PAIRS, BLIND_SIZES, LONGEST, SHORTEST, SOLID_ALLOYS, SOLID_SIZES } from './sizes';
import {
  fraction,
  inBoth,
  type BlindPair,
  type BlindRivet,
  type BlindStem,
  type Rivet,
  type SolidAlloy,
  type SolidRivet,
  type SolidStyle,
  type OwnRivet,
  type PickStyle,
} from './rivet';
import type { OwnRivets } from './own-table';
import { rivetsPerPound } from './weight';
import { FORMED_HEAD_ALLOWANCE, rivetLength } from './layout';

// Designations of rivets, read with whatever spaces, hyphens and case they come in.
//
//   MS20470AD4-6   universal head, 2117, 4/32 in diameter, 6/16 in long; AN470AD4-6 is the older name of the same form
//   MS20426AD3-3.5 flush head, half size in length
//   BLIND-AA-42    blind, the stem breaks off, aluminium body and mandrel, 4/32 in diameter, grip up to 2/16 in
//   BLIND-AA-42R   the same, of the kind whose stem is retained
//
// A label of the builder's own table comes before all of these.

const SOLID = /^(?:MS20|NASM20|AN)(470|426)-?([A-Z]{1,2})-?(\d{1,2})-(\d{1,2}(?:\.\d+)?)$/;
const BLIND = /^BLIND-?([A-Z]{2})-?(\d)(\d{1,2})-?(R|RETAINED)?$/;
const HEADS: Readonly<Record<string, SolidStyle>> = { '470': 'universal', '426': 'flush' };
const SPECIFICATIONS: Readonly<Record<SolidStyle, string>> = { universal: 'MS20470', flush: 'MS20426' };

const TAKES = 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"';

/**
 * The rivet of a designation, or of a label of the builder's own table.
 * @throws InputError for what is not of the form, NotListedError for a size or alloy that is not in the tables.
 */
export function rivet(designation: string, parameter = 'rivet', own?: OwnRivets): Rivet {
  const found = own?.find(designation, parameter);
  if (found) return found;
  const plain = designation
    .toUpperCase()
    .trim()
    .replace(/[\s_–—]+/g, '');
  const solid = SOLID.exec(plain);
  if (solid) return readSolid(designation, solid, parameter);
  const blind = BLIND.exec(plain);
  if (blind) return readBlind(designation, blind, parameter);
  throw new InputError(
    parameter,
    designation,
    own ? `${TAKES}, or a label of the table of rivets` : TAKES,
    guessOf(plain),
  );
}

function guessOf(plain: string): string | undefined {
  const short = /^(?:470|426)?(AD|DD|[ABD])(\d)-(\d)/.exec(plain);
  return short
    ? `Say which head it has: MS20470${short[1]}${short[2]}-${short[3]} (universal) or MS20426${short[1]}${short[2]}-${short[3]} (flush)`
    : undefined;
}

function readSolid(written: string, match: RegExpExecArray, parameter: string): SolidRivet {
  const style = HEADS[match[1]!]!;
  const alloy = match[2]!;
  if (!(alloy in SOLID_ALLOYS))
    throw new NotListedError(parameter, written, `an alloy letter ${alternatives(Object.keys(SOLID_ALLOYS))}`);
  return solidRivet(style, alloy as SolidAlloy, Number(match[3]), Number(match[4]), { parameter, written });
}

/** A solid rivet by its parts. @internal */
export function solidRivet(
  style: SolidStyle,
  alloy: SolidAlloy,
  dash: number,
  lengthDash: number,
  { parameter = 'rivet', written }: { readonly parameter?: string; readonly written?: string } = {},
): SolidRivet {
  const designation = `${SPECIFICATIONS[style]}${alloy}${dash}-${lengthDash}`;
  const got = written ?? designation;
  if (!SOLID_SIZES.some((size) => size.dash === dash)) {
    throw new NotListedError(
      parameter,
      got,
      `a diameter of ${alternatives(SOLID_SIZES.map((size) => size.dash))} (in 1/32 inch)`,
    );
  }
  if (!Number.isInteger(lengthDash * 2) || lengthDash < SHORTEST || lengthDash > LONGEST) {
    throw new NotListedError(
      parameter,
      got,
      `a length from ${SHORTEST} to ${LONGEST} (in 1/16 inch), half sizes as 3.5`,
    );
  }
  return { kind: 'solid', designation, style, alloy, dash, nominal: dash / 32, length: lengthDash / 16 };
}

function readBlind(written: string, match: RegExpExecArray, parameter: string): BlindRivet {
  const pair = match[1]!;
  if (!(pair in BLIND_PAIRS)) {
    throw new NotListedError(
      parameter,
      written,
      'AA (aluminium body and mandrel), AS (aluminium body, steel mandrel) or SS (steel both)',
    );
  }
  return blindRivet(
    { pair: pair as BlindPair, stem: match[4] ? 'retained' : 'broken' },
    Number(match[2]),
    Number(match[3]),
    parameter,
    written,
  );
}

/** A blind rivet by its parts. @internal */
export function blindRivet(
  of: BlindPair | { readonly pair: BlindPair; readonly stem: BlindStem },
  dash: number,
  gripDash: number,
  parameter = 'rivet',
  written?: string,
): BlindRivet {
  const { pair, stem } = typeof of === 'string' ? { pair: of, stem: 'broken' as const } : of;
  const designation = `BLIND-${pair}-${dash}${gripDash}${stem === 'retained' ? 'R' : ''}`;
  const got = written ?? designation;
  if (!BLIND_SIZES.some((size) => size.dash === dash)) {
    throw new NotListedError(
      parameter,
      got,
      `a diameter of ${alternatives(BLIND_SIZES.map((size) => size.dash))} (in 1/32 inch)`,
    );
  }
  const grips = BLIND_GRIPS.filter((row) => row.dash === dash);
  const size =
    grips.find((row) => row.gripDash === gripDash) ??
    refuseUnlisted(
      parameter,
      got,
      `the sizes ${alternatives(grips.map((row) => `${row.dash}${row.gripDash}`))} of this diameter`,
    );
  return {
    kind: 'blind',
    designation,
    style: 'blind',
    pair,
    stem,
    dash,
    nominal: dash / 32,
    gripDash,
    length: size.length[stem],
    gripMin: size.min,
    gripMax: size.max,
  };
}

/** Rivets of a designation in one pound as bought; undefined where the text is no rivet's designation. */
export const piecesPerPound = (item: string, own?: OwnRivets): number | undefined =>
  unlessRefused(() => rivetsPerPound(rivet(item, 'item', own)));

/** The items that are rivets, by designation, whatever series they are named by. Of two items for one rivet the first counts. */
export function rivetsAmong(items: readonly string[], own?: OwnRivets): ReadonlyMap<string, string> {
  const named = items.map((item) => [designationOf(item, own), item] as const).reverse();
  return new Map(named.flatMap(([designation, item]) => (designation === undefined ? [] : [[designation, item]])));
}

/** The one spelling of a rivet's designation; undefined where the text is none. */
export const designationOf = (item: string, own?: OwnRivets): string | undefined =>
  unlessRefused(() => rivet(item, 'item', own).designation);

// From a grip to a part.

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
  throw new NotListedError(
    'diameter',
    diameter,
    `the diameters ${list} inch`,
    sizes.includes(diameter) ? `${diameter} looks like the number of a designation: write ${diameter}/32` : undefined,
  );
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
  return stem
    ? pickBlind(diameter, grip, { pair: member(alloy ?? 'AA', BLIND_PAIRS), stem })
    : pickSolid(style as SolidStyle, diameter, grip, rounding, member(alloy ?? 'AD', SOLID_ALLOYS));
}

const STEMS: Readonly<Partial<Record<PickStyle, BlindStem>>> = { blind: 'broken', 'blind retained': 'retained' };

/**
 * The builder's own rivet of that style and diameter whose grip range holds the grip; the shortest where several do;
 * undefined where none does, or a row does not say what grip it is for.
 * @internal
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

/** The rivet for a grip: where no alloy is named, one of the builder's own comes first. */
export const pickFor = (own: OwnRivets | undefined, { style, diameter, grip, rounding, alloy }: Picked): Rivet =>
  (alloy === undefined ? pickOwn(own, style, diameter, grip) : undefined) ??
  pickRivet(style, diameter, grip, rounding, alloy);

interface Picked {
  readonly style: PickStyle;
  readonly diameter: number;
  readonly grip: number;
  readonly rounding?: Rounding | undefined;
  readonly alloy?: string | undefined;
}

function member<K extends string>(written: string, table: Readonly<Record<K, unknown>>): K {
  const key = written.trim().toUpperCase();
  return key in table ? (key as K) : refuseUnlisted('alloy', written, Object.keys(table).join(', '));
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
  const size =
    (grip >= least - ROUNDING_ERROR ? sizes.find((one) => grip <= one.max + ROUNDING_ERROR) : undefined) ??
    refuseUnlisted('grip', grip, `from ${inBoth(least)} to ${inBoth(greatest)} for a ${fraction(dash)} blind rivet`);
  return blindRivet(of, dash, size.gripDash);
}
