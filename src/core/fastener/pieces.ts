/** Pieces by weight of what may be a rivet, for prices by the pound. */
import { InputError } from '../input-error';
import { rivet } from './designation';
import type { OwnRivets } from './own-table';
import { rivetsPerPound } from './weight';

/** Rivets of a designation in one pound as bought; undefined where the text is no rivet's designation. */
export function piecesPerPound(item: string, own?: OwnRivets): number | undefined {
  try {
    return rivetsPerPound(rivet(item, 'item', own));
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
