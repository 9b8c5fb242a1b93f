/** The layout of a row of rivets: how many, how far apart, how long, and what the rules say of it. */
import { InputError } from '../input-error';
import { BLIND_GRIPS, SOLID_SIZES } from './sizes';
import {
  fraction,
  inInches,
  type LengthText,
  type BlindRivet,
  type HeadForm,
  type OwnRivet,
  type Rivet,
  type SolidRivet,
} from './rivet';
import { solidSize, rivetHole } from './weight';

// How many rivets, how far apart, how long. Inches.

/** A division that should come out whole may fall short of it by a binary fraction. This makes up for that before it is rounded down. */
const ROUNDING = 1e-9;

export interface Row {
  readonly run: number;
  readonly pitch: number;
  /** From each end of the run to the first rivet. */
  readonly edge?: number;
  readonly rows?: number;
  /** Every second row is shifted by half a pitch, and has as many rivets as then fit. */
  readonly staggered?: boolean;
}

function available(run: number, edge: number): number {
  const length = run - 2 * edge;
  if (length < -ROUNDING)
    throw new InputError('edge', edge, 'at most half of run, so that the first and the last rivet fit');
  return Math.max(0, length);
}

/** Rivets of a run: in a row floor((run − 2·edge)/pitch) + 1; a shifted row floor((run − 2·edge − pitch/2)/pitch) + 1. */
export function rivetCount({ run, pitch, edge = 0, rows = 1, staggered = false }: Row): number {
  const length = available(run, edge);
  const fits = (space: number): number => (space < -ROUNDING ? 0 : Math.floor(space / pitch + ROUNDING) + 1);
  const straight = fits(length);
  if (!staggered) return straight * rows;
  const shifted = Math.floor(rows / 2);
  return straight * (rows - shifted) + fits(length - pitch / 2) * shifted;
}

/** Pitch of `count` rivets spread evenly over a run. */
export function rivetPitch(run: number, count: number, edge = 0): number {
  if (count < 2) throw new InputError('count', count, 'two rivets or more: one rivet has no pitch');
  const length = available(run, edge);
  if (length <= 0) throw new InputError('edge', edge, 'less than half of run');
  return length / (count - 1);
}

/** Shank of D × 1.5 beyond the grip: AC 43.13-1B ¶4-57; NAVEDTRA 14018 chapter 13. */
export const FORMED_HEAD_ALLOWANCE = 1.5;

/** Length that a solid rivet must have: grip + 1.5 D. A flush rivet's length counts its head, as its grip counts the sheet around it. */
export const rivetLength = (grip: number, diameter: number): number => grip + FORMED_HEAD_ALLOWANCE * diameter;

/** Hours of work. */
export const rivetHours = (count: number, minutesEach: number): number => (count * minutesEach) / 60;

/** Minutes for one rivet, from drilling to inspection: common practice, no source; a builder's own log is better. */
export const MINUTES_EACH = { solid: 1.5, blind: 0.75 } as const;

// What the rules of layout say of a joint. A rule is a rule of thumb until the drawing says otherwise.

export interface Finding {
  readonly what: string;
  /** The rule's source. */
  readonly source: string;
}

export interface Layout {
  readonly rivet: Rivet;
  readonly grip: number;
  readonly thickestSheet: number;
  readonly pitch: number;
  /** From the centre of a rivet to the nearest edge of a sheet. */
  readonly edge: number;
  /** Rows of the pattern: two rows ask for a wider pitch. */
  readonly rows?: number;
  /** Of a flush rivet; without it thin sheet is taken to be dimpled, as it has to be. */
  readonly head?: HeadForm | undefined;
  /** The sheet under the head, which is countersunk; without it the thickest. */
  readonly outerSheet?: number | undefined;
}

const AC = 'AC 43.13-1B ¶4-57c';
const HANDBOOK = 'FAA-H-8083-31 ch. 4';
const NAVY = 'NAVEDTRA 14018 ch. 13';
const ARMY = 'TM 10-5410-221-14/1 table 4-3';
const OWN = 'table of rivets';

/** A shop dimension is good to half a thousandth: what differs by less is the same. */
const SLACK = 0.0005;
const HALF_SIZE = 1 / 32;
const FULL_SIZE = 1 / 16;

/** Every rule that the joint breaks, in the order in which a builder would look; none: it is in order. */
export function checkRivet(layout: Layout, show: LengthText = inInches): Finding[] {
  const { rivet, grip, edge, pitch, rows } = layout;
  return [
    spacingFinding(edge, rivet.nominal, rivet.style === 'flush' ? FLUSH_EDGE : EDGE, show),
    spacingFinding(pitch, rivet.nominal, rows === 2 ? TWO_ROW_PITCH : PITCH, show),
    diameterFinding(layout, show),
    rivet.nominal < 3 / 32 - 0.004 ? { what: 'a rivet under 3/32 in is not for structure', source: NAVY } : undefined,
    headFinding(layout, show),
    gripFinding(rivet, grip, show),
  ].filter((finding) => finding !== undefined);
}

/** The findings as one text, "ok" where there are none. */
export const findingsText = (findings: readonly Finding[]): string =>
  findings.length === 0 ? 'ok' : findings.map(({ what, source }) => `${what} (${source})`).join('; ');

/** The least and the greatest that a distance may be, in diameters of the rivet. */
interface Spacing {
  readonly what: string;
  readonly least: number;
  readonly greatest: number;
  /** Of the least. */
  readonly source: string;
  /** Said behind the least. */
  readonly why?: string;
}

const EDGE: Spacing = { what: 'edge distance', least: 2, greatest: 4, source: AC };
const FLUSH_EDGE: Spacing = { ...EDGE, least: 2.5, source: HANDBOOK };
/** AC 43.13-1B ¶4-57c: 3D in a single row and in three or more, 4D in two. Greatest: 12D, where NAVEDTRA 14018 has seldom over 8D and others 10D. */
const PITCH: Spacing = { what: 'pitch', least: 3, greatest: 12, source: AC };
const TWO_ROW_PITCH: Spacing = { ...PITCH, least: 4, why: ' for two rows' };

function spacingFinding(
  distance: number,
  nominal: number,
  { what, least, greatest, source, why = '' }: Spacing,
  show: LengthText,
): Finding | undefined {
  if (distance < least * nominal - SLACK)
    return { what: `${what} ${show(distance)} is under ${least}D = ${show(least * nominal)}${why}`, source };
  return distance > greatest * nominal + SLACK
    ? { what: `${what} ${show(distance)} is over ${greatest}D = ${show(greatest * nominal)}`, source: HANDBOOK }
    : undefined;
}

/**
 * AC 43.13-1B ¶4-58g(2)(a) takes a diameter of about three times the thickest sheet, and its example goes up to the
 * next size: 3 × .032 = .096, so 1/8. NAVEDTRA 14018 allows from one to three times. The finding says both. Half a size
 * below three times still is about three times.
 */
function diameterFinding({ rivet, thickestSheet }: Layout, show: LengthText): Finding | undefined {
  const { nominal } = rivet;
  const wanted = 3 * thickestSheet;
  if (nominal >= wanted - HALF_SIZE / 2 - SLACK) return undefined;
  if (nominal < thickestSheet - SLACK)
    return { what: `diameter ${show(nominal)} is under the thickest sheet, ${show(thickestSheet)}`, source: NAVY };
  const next = SOLID_SIZES.find(({ dash }) => dash / 32 >= wanted - SLACK);
  return {
    what: `diameter ${show(nominal)} is under about 3 × the thickest sheet = ${show(wanted)}`,
    source: `AC 43.13-1B ¶4-58g(2)(a), which goes up to the next size${next ? `, ${fraction(next.dash)}` : ''}; ${NAVY} allows 1 to 3 times, ${show(thickestSheet)} to ${show(wanted)}`,
  };
}

/** Least sheet for a 100° machine countersink, by diameter in 1/32 in: TM 9-2320-363-34-2 table 4. Thinner is dimpled. */
const LEAST_COUNTERSUNK: Readonly<Record<number, number>> = { 3: 0.04, 4: 0.05, 5: 0.064, 6: 0.072, 8: 0.072 };

function headFinding({ rivet, head, outerSheet, thickestSheet }: Layout, show: LengthText): Finding | undefined {
  if (rivet.style !== 'flush' || head !== 'countersunk') return undefined;
  const sheet = outerSheet ?? thickestSheet;
  const least = LEAST_COUNTERSUNK[Math.round(rivet.nominal * 32)];
  return least === undefined || sheet >= least - SLACK
    ? undefined
    : {
        what: `sheet ${show(sheet)} is under ${show(least)}, the least for a countersink of this size: dimple it`,
        source: 'TM 9-2320-363-34-2 table 4',
      };
}

function gripFinding(rivet: Rivet, grip: number, show: LengthText): Finding | undefined {
  if (rivet.kind === 'blind') return blindGripFinding(rivet, grip, show);
  return rivet.kind === 'own' ? ownGripFinding(rivet, grip, show) : solidGripFinding(rivet, grip, show);
}

const outside = (grip: number, least: number, greatest: number, source: string, show: LengthText): Finding => ({
  what: `grip ${show(grip)} is outside ${show(least)} to ${show(greatest)}`,
  source,
});

function ownGripFinding(
  { gripMin, gripMax, designation }: OwnRivet,
  grip: number,
  show: LengthText,
): Finding | undefined {
  if (gripMin === undefined || gripMax === undefined)
    return { what: `the grip range of ${designation} is not known: type Grip from and Grip to`, source: OWN };
  return grip >= gripMin - SLACK && grip <= gripMax + SLACK ? undefined : outside(grip, gripMin, gripMax, OWN, show);
}

/** The printed ranges leave a thousandth between them: RIVET.PICK gives it to the longer rivet, and so it is in order here. */
function leastGrip({ dash, gripMin }: BlindRivet): number {
  const shorter = BLIND_GRIPS.filter((size) => size.dash === dash && size.max < gripMin).map(({ max }) => max);
  return Math.min(gripMin - SLACK, ...shorter.slice(-1));
}

const blindGripFinding = (rivet: BlindRivet, grip: number, show: LengthText): Finding | undefined =>
  grip >= leastGrip(rivet) && grip <= rivet.gripMax + SLACK
    ? undefined
    : outside(grip, rivet.gripMin, rivet.gripMax, ARMY, show);

/** AC 43.13-1B ¶4-57: a formed head 1.5D wide and .5D high. (MIL-R-47196 accepts 1.3D and .4D.) */
const FORMED_HEAD = { width: 1.5, height: 0.5, source: 'AC 43.13-1B ¶4-57' } as const;

/**
 * Height that the formed head would have at a width of 1.5D, from the metal that stands out of the sheets
 * less what swells the shank to fill the hole.
 * @internal
 */
export function formedHeadHeight(rivet: SolidRivet, grip: number): number {
  const { shank } = solidSize(rivet.dash);
  const fill = ((rivetHole(rivet) / shank) ** 2 - 1) * grip;
  return (rivet.length - grip - fill) / FORMED_HEAD.width ** 2;
}

function solidGripFinding(rivet: SolidRivet, grip: number, show: LengthText): Finding | undefined {
  const needed = rivetLength(grip, rivet.nominal);
  const source = FORMED_HEAD.source;
  // Most joints are in order: no text is made for them.
  const rule = (): string => `: grip + ${FORMED_HEAD_ALLOWANCE}D = ${show(needed)}`;
  if (rivet.length < needed - HALF_SIZE - SLACK) {
    const height = formedHeadHeight(rivet, grip);
    const head =
      height > 0
        ? `, the formed head would be ${show(height)} high for ${show(FORMED_HEAD.height * rivet.nominal)}`
        : ', which leaves no head to form';
    return { what: `length ${show(rivet.length)} is too short for the grip${rule()}${head}`, source };
  }
  return rivet.length > needed + FULL_SIZE + SLACK
    ? { what: `length ${show(rivet.length)} is too long for the grip${rule()}`, source }
    : undefined;
}
