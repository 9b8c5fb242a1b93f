/** Pieces by weight of what may be a rivet, for prices by the pound. */
import { InputError } from '../input-error';
import { rivet } from './designation';
import { rivetsPerPound } from './weight';

/** Rivets of a designation in one pound as bought; undefined where the text is no rivet's designation. */
export function piecesPerPound(item: string): number | undefined {
  try {
    return rivetsPerPound(rivet(item));
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
