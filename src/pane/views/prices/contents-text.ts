/**
 * Contents as it is typed, "47,5 x 144" or "12 1/2 ft", and as the sheet has it, "47.5 x 144" and "12.5 ft":
 * the price functions read decimals behind a dot, whatever the place.
 */
import { decimalNumber } from '../../../core/quantity';
import { cellNumber, decimalSign, readNumber } from '../../locale';

/** A number with all that may stand in it: a whole part before a fraction, signs between thousands. */
const NUMBER = /(?:\d+[ -])?\d+\/\d+|[.,]\d+|\d(?:[\d.,'’]*\d)?(?:[ \u00a0\u202f]\d{3}(?!\d)(?:[.,]\d+)?)*/g;
const DOTTED = /(\d*)\.(\d+)/g;

/** The sheet's text for what was typed; `wrong` where a number in it can be read in two ways or in none. */
export function typedContents(typed: string): { readonly text: string } | { readonly wrong: string } {
  let wrong: string | undefined;
  const text = typed.replace(NUMBER, (number) => {
    const read = readNumber(number);
    if ('wrong' in read) {
      wrong ??= read.wrong;
      return number;
    }
    // What is plain stays as it was typed: 12.50 with its nought.
    return decimalNumber(number) !== undefined ? number : cellNumber(read.value).replace(decimalSign(), '.');
  });
  return wrong === undefined ? { text } : { wrong };
}

export const shownContents = (text: string): string => text.replace(DOTTED, `$1${decimalSign()}$2`);
