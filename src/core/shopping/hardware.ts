/** Kinds of hardware, as far as a builder buys spares of them differently. */
import { rivet, sortOf, type OwnRivets } from '../fastener';
import { InputError } from '../input-error';
import type { PriceKind } from '../price';

export const HARDWARE = ['sheet', 'bar', 'solid rivet', 'blind rivet', 'other'] as const;
export type Hardware = (typeof HARDWARE)[number];

/**
 * Bought beyond the need, as a share: of sheet and bar for what cutting wastes, of rivets for the bent, the
 * dropped and the drilled out. Common practice, no source: put your own in.
 */
export const DEFAULT_SPARES: Readonly<Record<Hardware, number>> = {
  sheet: 0.15,
  bar: 0.1,
  'solid rivet': 0.15,
  'blind rivet': 0.1,
  other: 0,
};

/** The kind of an item of the price list; a rivet that is no known designation counts as solid unless its name says blind. */
export function hardwareOf(item: string, kind: PriceKind, own?: OwnRivets): Hardware {
  if (kind !== 'rivet') return kind;
  try {
    return `${sortOf(rivet(item, 'item', own))} rivet`;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return /blind|pop|pull/i.test(item) ? 'blind rivet' : 'solid rivet';
  }
}
