/** Names that say that a row is the sum of others, which a roll-up must not count again. */
import { nameKey } from '../names';

/** What each of the names below has in it, or letters that may come to be one of these: most names have neither. */
const COULD_BE = /total|sum|gesamt|[^\0-\x7f]/i;
const ALONE = /^(?:sub[- ]?totals?|(?:grand |over-?all )?totals?|sums?|zwischensumme|(?:gesamt)?summe|gesamt)$/;
const PART = /^sub[- ]?totals?(?: of| for)?[ :,–-]+.+$|^.+?[ :,–-]+sub[- ]?totals?$/;
const WHOLE = /^(?:totals?|sum)(?: of| for)?[ :,–-]+(.+)$|^(.+?)[ :,–-]+(?:totals?|sum)$/;

/**
 * True for "Total", "Subtotal", "Grand total", "Subtotal wing", and for "Wing total" where there is a component
 * Wing: a part may well be called "Total pressure line".
 */
export function isSumName(name: string, isComponent: (name: string) => boolean = () => false): boolean {
  if (!COULD_BE.test(name)) return false;
  const key = nameKey(name)
    .replace(/[\s:=]+$/, '')
    .replace(/ weight$/, '');
  if (ALONE.test(key) || PART.test(key)) return true;
  const whole = WHOLE.exec(key);
  return whole !== null && isComponent(whole[1] ?? whole[2]!);
}
