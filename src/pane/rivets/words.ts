/** Results in words and digits. */
import { formatMoney } from '../../core/price';
import type { Compared, JointLine, Refused } from '../../core/rivet-choice';

export const pounds = (value: number): string => value.toFixed(Math.abs(value) >= 100 ? 1 : 3);
const signed = (value: number, text: string): string => (value < 0 ? text.replace('-', '−') : value > 0 ? `+${text}` : text);
export const poundsDifference = (value: number | undefined): string => (value === undefined ? '–' : signed(Number(pounds(value)), pounds(value)));
/** Bare digits, where the currency is said in the column's head. */
export const amount = (value: number | undefined, currency: string): string => (value === undefined ? '–' : formatMoney(value, currency).replace(/ .*$/, ''));
export const amountDifference = (value: number | undefined, currency: string): string => (value === undefined ? '–' : signed(value, amount(value, currency)));

/** "27.30 USD for each pound saved, but weaker": money and weight are not offered without the strength that they cost. */
export function savedWords(result: Compared): string | undefined {
  const { perPoundSaved, weightDifference, costDifference, material } = result;
  if (perPoundSaved === undefined || weightDifference === undefined || costDifference === undefined) return undefined;
  const each = formatMoney(Math.abs(perPoundSaved), material.currency);
  const words =
    weightDifference < 0
      ? costDifference > 0
        ? `${each} for each pound saved`
        : costDifference < 0
          ? 'lighter and cheaper'
          : 'lighter for the same money'
      : costDifference < 0
        ? `saves ${each} for each pound gained`
        : costDifference > 0
          ? 'heavier and dearer'
          : 'heavier for the same money';
  const { least, unknown } = weakest(result);
  return `${words}${least && least.ratio < AS_STRONG ? ', but weaker' : unknown > 0 ? ', strength not known at every joint' : ''}`;
}

/** Shares of shear are rounded to a tenth of a per cent: from here on a joint counts as strong as with its solid rivets. */
const AS_STRONG = 0.9995;

/** The joint that is left with the least of its solid rivets' shear, and at how many joints nobody can tell. */
function weakest({ lines }: Compared): { readonly least: { readonly joint: JointLine['joint']; readonly ratio: number } | undefined; readonly unknown: number } {
  const known = lines.flatMap(({ joint, strength: { ratio } }) => (ratio === undefined ? [] : [{ joint, ratio }]));
  const least = known.reduce<(typeof known)[number] | undefined>((low, one) => (low === undefined || one.ratio < low.ratio ? one : low), undefined);
  return { least, unknown: lines.length - known.length };
}

/** Shear of a joint's rivets in per cent of what the solid ones have. */
export function shearWords({ rivet, count, joint, strength: { against, each, againstEach, ratio, rule } }: JointLine): string {
  if (rivet.designation === against.designation && count === joint.count) return 'The solid rivet as designed.';
  if (ratio === undefined || each === undefined || againstEach === undefined) return `Shear not known: ${rule}.`;
  return `Shear ${Math.round(ratio * 100)} % of ${against.designation} (${Math.round(each)} for ${Math.round(againstEach)} lb each): ${rule}.`;
}

/** What the option's joints carry of what their solid rivets did: the weakest, and how many nobody can tell. */
export function strengthWords(result: Compared): string {
  const { least, unknown } = weakest(result);
  const words = [
    least === undefined ? '' : least.ratio >= AS_STRONG ? 'no less shear than the solid rivets' : `least shear ${Math.round(least.ratio * 100)} % of the solid rivets’ (${least.joint.name})`,
    unknown === 0 ? '' : unknown === result.lines.length ? 'shear not known at any joint' : `not known at ${unknown} of ${result.lines.length} joints`,
  ].filter(Boolean);
  const text = words.join(', ');
  return text === '' ? '' : `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}

/** Why an option does not go at a joint. */
export const refusalWords = ({ joint, error, reason }: Refused['refusals'][number]): string =>
  reason === 'one side' ? 'one side only can be reached, and a solid rivet is bucked from the other' : `${error.takes.startsWith('from') || error.takes.startsWith('up to') ? `its grip is ${joint.grip.toFixed(3)} in; the sizes go ` : 'takes '}${error.takes}`;
