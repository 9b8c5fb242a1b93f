/**
 * Designations of rivets, read with whatever spaces, hyphens and case they come in.
 *
 *   MS20470AD4-6   universal head, 2117, 4/32 in diameter, 6/16 in long; AN470AD4-6 is the older name of the same form
 *   MS20426AD3-3.5 flush head, half size in length
 *   BLIND-AA-42    blind, the stem breaks off, aluminium body and mandrel, 4/32 in diameter, grip up to 2/16 in
 *   BLIND-AA-42R   the same, of the kind whose stem is retained
 *
 * A label of the builder's own table comes before all of these.
 */
import { InputError, NotListedError } from '../input-error';
import { BLIND_GRIPS, BLIND_PAIRS, BLIND_SIZES } from './blind-data';
import type { BlindPair, BlindRivet, BlindStem, Rivet, SolidAlloy, SolidRivet, SolidStyle } from './rivet';
import { LONGEST, SHORTEST, SOLID_ALLOYS, SOLID_SIZES } from './solid-data';
import type { OwnRivets } from './own-table';
import { rivetsPerPound } from './weight';

const SOLID = /^(?:MS20|NASM20|AN)(470|426)-?([A-Z]{1,2})-?(\d{1,2})-(\d{1,2}(?:\.\d+)?)$/;
const BLIND = /^BLIND-?([A-Z]{2})-?(\d)(\d{1,2})-?(R|RETAINED)?$/;
const HEADS: Readonly<Record<string, SolidStyle>> = { '470': 'universal', '426': 'flush' };
const SPECIFICATIONS: Readonly<Record<SolidStyle, string>> = { universal: 'MS20470', flush: 'MS20426' };

const TAKES = 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"';

const alternatives = (words: readonly (string | number)[]): string =>
  `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;

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
  if (short)
    return `Say which head it has: MS20470${short[1]}${short[2]}-${short[3]} (universal) or MS20426${short[1]}${short[2]}-${short[3]} (flush)`;
  return undefined;
}

function readSolid(written: string, match: RegExpExecArray, parameter: string): SolidRivet {
  const style = HEADS[match[1]!]!;
  const alloy = match[2]!;
  if (!(alloy in SOLID_ALLOYS))
    throw new NotListedError(parameter, written, `an alloy letter ${alternatives(Object.keys(SOLID_ALLOYS))}`);
  return solidRivet(style, alloy as SolidAlloy, Number(match[3]), Number(match[4]), { parameter, written });
}

/** A solid rivet by its parts. */
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

/** A blind rivet by its parts. */
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
  const size = grips.find((row) => row.gripDash === gripDash);
  if (!size)
    throw new NotListedError(
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
export function piecesPerPound(item: string, own?: OwnRivets): number | undefined {
  try {
    return rivetsPerPound(rivet(item, 'item', own));
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
