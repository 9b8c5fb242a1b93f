/** What the rules of layout say of a joint. A rule is a rule of thumb until the drawing says otherwise. */
import { BLIND_GRIPS } from './blind-data';
import { flushHeadHeight, solidSize } from './volume';
import { inInches, type LengthText } from './format';
import { FORMED_HEAD_ALLOWANCE, rivetLength } from './layout';
import type { BlindRivet, Rivet, SolidRivet } from './rivet';
import { rivetHole } from './weight';

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
}

const AC = 'AC 43.13-1B ¶4-57c';
const AC_DIAMETER = 'AC 43.13-1B ¶4-58g(2)';
const HANDBOOK = 'FAA-H-8083-31 ch. 4';
const NAVY = 'NAVEDTRA 14018 ch. 13';
const ARMY = 'TM 10-5410-221-14/1 table 4-3';

/** A shop dimension is good to half a thousandth: what differs by less is the same. */
const SLACK = 0.0005;
const HALF_SIZE = 1 / 32;
const FULL_SIZE = 1 / 16;

/** Every rule that the joint breaks, in the order in which a builder would look; none: it is in order. */
export function checkRivet(layout: Layout, show: LengthText = inInches): Finding[] {
  const { rivet, grip } = layout;
  const grips = rivet.kind === 'blind' ? blindGripFinding(rivet, grip, show) : solidGripFinding(rivet, grip, show);
  return [
    edgeFinding(layout, show),
    pitchFinding(layout, show),
    diameterFinding(layout, show),
    structureFinding(rivet),
    grips,
  ].filter((finding) => finding !== undefined);
}

/** The findings as one text, "ok" where there are none. */
export const findingsText = (findings: readonly Finding[]): string =>
  findings.length === 0 ? 'ok' : findings.map(({ what, source }) => `${what} (${source})`).join('; ');

function edgeFinding({ rivet, edge }: Layout, show: LengthText): Finding | undefined {
  const times = rivet.style === 'flush' ? 2.5 : 2;
  const least = times * rivet.nominal;
  const greatest = 4 * rivet.nominal;
  if (edge < least - SLACK) {
    return {
      what: `edge distance ${show(edge)} is under ${times}D = ${show(least)}`,
      source: rivet.style === 'flush' ? HANDBOOK : AC,
    };
  }
  if (edge > greatest + SLACK)
    return { what: `edge distance ${show(edge)} is over 4D = ${show(greatest)}`, source: HANDBOOK };
  return undefined;
}

/** AC 43.13-1B ¶4-57c: 3D in a single row and in three or more, 4D in two. Greatest: 12D, where NAVEDTRA 14018 has seldom over 8D and others 10D. */
function pitchFinding({ rivet, pitch, rows = 1 }: Layout, show: LengthText): Finding | undefined {
  const times = rows === 2 ? 4 : 3;
  const least = times * rivet.nominal;
  const greatest = 12 * rivet.nominal;
  if (pitch < least - SLACK)
    return {
      what: `pitch ${show(pitch)} is under ${times}D = ${show(least)}${rows === 2 ? ' for two rows' : ''}`,
      source: AC,
    };
  if (pitch > greatest + SLACK)
    return { what: `pitch ${show(pitch)} is over 12D = ${show(greatest)}`, source: HANDBOOK };
  return undefined;
}

/**
 * AC 43.13-1B ¶4-58g(2) takes a diameter of about three times the sheet: half a size below it still is about.
 * NAVEDTRA 14018 disagrees: it bounds the diameter from one to three times the thickest sheet.
 */
function diameterFinding({ rivet, thickestSheet }: Layout, show: LengthText): Finding | undefined {
  const wanted = 3 * thickestSheet;
  if (rivet.nominal < thickestSheet - SLACK)
    return {
      what: `diameter ${show(rivet.nominal)} is under the thickest sheet, ${show(thickestSheet)}`,
      source: NAVY,
    };
  if (rivet.nominal < wanted - HALF_SIZE / 2 - SLACK)
    return {
      what: `diameter ${show(rivet.nominal)} is under about 3 × the thickest sheet = ${show(wanted)}`,
      source: AC_DIAMETER,
    };
  return undefined;
}

const structureFinding = ({ dash }: Rivet): Finding | undefined =>
  dash < 3 ? { what: `a rivet under 3/32 in is not for structure`, source: NAVY } : undefined;

/** The printed ranges leave a thousandth between them: RIVET.PICK gives it to the longer rivet, and so it is in order here. */
function leastGrip({ dash, gripMin }: BlindRivet): number {
  const shorter = BLIND_GRIPS.filter((size) => size.dash === dash && size.max < gripMin).map(({ max }) => max);
  return Math.min(gripMin - SLACK, ...shorter.slice(-1));
}

function blindGripFinding(rivet: BlindRivet, grip: number, show: LengthText): Finding | undefined {
  if (grip >= leastGrip(rivet) && grip <= rivet.gripMax + SLACK) return undefined;
  return { what: `grip ${show(grip)} is outside ${show(rivet.gripMin)} to ${show(rivet.gripMax)}`, source: ARMY };
}

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
  if (rivet.style === 'flush' && grip < flushHeadHeight(solidSize(rivet.dash)) - SLACK) {
    return {
      what: `grip ${show(grip)} is under the height of the flush head, ${show(flushHeadHeight(solidSize(rivet.dash)))}`,
      source: 'MS20426',
    };
  }
  if (rivet.length < needed - HALF_SIZE - SLACK) {
    const height = formedHeadHeight(rivet, grip);
    const head =
      height > 0
        ? `, the formed head would be ${show(height)} high for ${show(FORMED_HEAD.height * rivet.nominal)}`
        : ', which leaves no head to form';
    return {
      what: `length ${show(rivet.length)} is too short for the grip: grip + ${FORMED_HEAD_ALLOWANCE}D = ${show(needed)}${head}`,
      source,
    };
  }
  if (rivet.length > needed + FULL_SIZE + SLACK) {
    return {
      what: `length ${show(rivet.length)} is too long for the grip: grip + ${FORMED_HEAD_ALLOWANCE}D = ${show(needed)}`,
      source,
    };
  }
  return undefined;
}
