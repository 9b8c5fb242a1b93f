/** Results in words and digits, in the workbook's units and the pane's language. */
import type { JointStrength } from '../../../core/fastener';
import { fromInch, type Quantities } from '../../../core/quantity';
import type { Compared, JointLine, Refused } from '../../../core/rivet-choice';
import { t, writeNumber } from '../../locale';
import { amountText, moneyText } from '../../shared/quantities';

/** A weight without its unit: thousandths of a pound below a hundred pounds. */
export const weight = (value: number, say: Quantities): string =>
  say.bare(value, 'weight', Math.abs(value) >= 100 ? 1 : 3);
export const weightDifference = (value: number | undefined, say: Quantities): string =>
  value === undefined ? '–' : signed(weight(value, say));
export const amountDifference = (value: number | undefined, currency: string): string =>
  value === undefined ? '–' : signed(amountText(value, currency));

const signed = (text: string): string => (/[1-9]/.test(text) && !text.startsWith('−') ? `+${text}` : text);

/** Smaller differences are not shown: a hundredth of the money's unit, a tenth of an hour, a thousandth of a pound. */
const [CENT, TENTH, THOUSANDTH] = [0.005, 0.05, 0.0005];

/** "Saves 327 USD and 47 hours, adds 0.042 lb. But weaker.": nothing is offered without the strength that it costs. */
export function savedWords(result: Compared, say: Quantities): string | undefined {
  const { perPoundSaved, weightDifference, costDifference, hoursDifference, material } = result;
  if (weightDifference === undefined || costDifference === undefined) return undefined;
  const { currency } = material;
  const differences: readonly (readonly [difference: number, least: number, text: string])[] = [
    [costDifference, CENT, wholeMoney(Math.abs(costDifference), currency)],
    [hoursDifference ?? 0, TENTH, hoursWords(Math.abs(hoursDifference ?? 0))],
    [weightDifference, THOUSANDTH, say.say(Math.abs(weightDifference), 'weight', 3)],
  ];
  const saved = differences.flatMap(([value, least, text]) => (value <= -least ? [text] : []));
  const added = differences.flatMap(([value, least, text]) => (value >= least ? [text] : []));
  if (saved.length + added.length === 0) return undefined;
  const conclusion =
    added.length === 0
      ? t('Saves {what}.', { what: listed(saved) })
      : saved.length === 0
        ? t('Adds {what}.', { what: listed(added) })
        : t('Saves {saved}, adds {added}.', { saved: listed(saved), added: listed(added) });
  const each =
    perPoundSaved !== undefined && weightDifference < 0 && costDifference > 0
      ? t('{money} for each {unit} saved.', {
          money: moneyText(fromInch(perPoundSaved, 'perWeight', say.system), currency),
          unit: say.sign('weight'),
        })
      : '';
  const { least, unknown } = weakest(result);
  const strength =
    least && least.ratio < AS_STRONG ? t('But weaker.') : unknown > 0 ? t('Strength not known at every joint.') : '';
  return [conclusion, each, strength].filter(Boolean).join(' ');
}

/** Money without cents from a hundred on. */
const wholeMoney = (amount: number, currency: string): string =>
  amount >= 100 ? `${writeNumber(amount, 0)}${currency ? ` ${currency}` : ''}` : moneyText(amount, currency);

const hoursWords = (hours: number): string =>
  hours >= 10
    ? t('{hours, plural, one {# hour} other {# hours}}', { hours: Math.round(hours) })
    : t('{hours} hours', { hours: writeNumber(hours, 1) });

/** "a", "a and b", "a, b and c". */
const listed = ([first = '', second, third]: readonly string[]): string =>
  third !== undefined
    ? t('{first}, {second} and {third}', { first, second: second!, third })
    : second === undefined
      ? first
      : t('{first} and {second}', { first, second });

/** How many joints the rules of layout passed as designed and no longer pass; undefined where all do. */
export const failingWords = ({ failing }: Compared): string | undefined =>
  failing[0] &&
  t(
    '{count, plural, one {# joint no longer passes the rules of layout: {joint}.} other {# joints no longer pass the rules of layout, the first is {joint}.}}',
    { count: failing.length, joint: failing[0].joint.name },
  );

/** Shares of shear are rounded to a tenth of a per cent: from here on a joint counts as strong as with its solid rivets. */
const AS_STRONG = 0.9995;

/** The joint that is left with the least of its solid rivets' shear, and at how many joints nobody can tell. */
function weakest({ lines }: Compared): {
  readonly least: { readonly joint: JointLine['joint']; readonly ratio: number } | undefined;
  readonly unknown: number;
} {
  const known = lines.flatMap(({ joint, strength: { ratio } }) => (ratio === undefined ? [] : [{ joint, ratio }]));
  const least = known.reduce<(typeof known)[number] | undefined>(
    (low, one) => (low === undefined || one.ratio < low.ratio ? one : low),
    undefined,
  );
  return { least, unknown: lines.length - known.length };
}

const percent = (ratio: number): string => `${writeNumber(ratio * 100, 0)} %`;

/** Shear of a joint's rivets in per cent of what the solid ones have. */
export function shearWords(
  { rivet, count, joint, strength: { against, each, againstEach, ratio, rule } }: JointLine,
  say: Quantities,
): string {
  if (rivet.designation === against.designation && count === joint.count) return t('The solid rivet of the design.');
  if (ratio === undefined || each === undefined || againstEach === undefined)
    return t('Shear not known: {why}.', { why: rule });
  return t('Shear {share} of {solid} ({each} for {solidEach} {unit} each): {rule}.', {
    share: percent(ratio),
    solid: against.designation,
    each: say.bare(each, 'force', 0),
    solidEach: say.bare(againstEach, 'force', 0),
    unit: say.sign('force'),
    rule,
  });
}

/** What one rivet carries in the sheets' material by published values, where the sheet says it. */
export const firstLookWords = ({ pounds, governs }: JointStrength, say: Quantities): string =>
  governs === 'sheet'
    ? t('One rivet carries {force}: the sheet governs.', { force: say.say(pounds, 'force', 0) })
    : t('One rivet carries {force}: the rivet governs.', { force: say.say(pounds, 'force', 0) });

/** What the option's joints carry of what their solid rivets did: the weakest, and how many nobody can tell. */
export function strengthWords(result: Compared): string {
  const { least, unknown } = weakest(result);
  const joints = result.lines.length;
  return [
    least === undefined
      ? ''
      : least.ratio >= AS_STRONG
        ? t('No less shear than the solid rivets.')
        : t('Least shear {share} of the solid rivets’ ({joint}).', {
            share: percent(least.ratio),
            joint: least.joint.name,
          }),
    unknown === 0
      ? ''
      : unknown === joints
        ? t('Shear not known at any joint.')
        : t('Shear not known at {unknown} of {joints} joints.', { unknown, joints }),
  ]
    .filter(Boolean)
    .join(' ');
}

/** Why an option does not go at a joint. */
export function refusalWords({ joint, error, reason }: Refused['refusals'][number], say: Quantities): string {
  if (reason === 'one side') return t('only one side can be reached, and a solid rivet needs both');
  const reach = error.takes.startsWith('from') || error.takes.startsWith('up to');
  return reach
    ? t('its grip is {grip}; sizes are made {reach}', { grip: say.say(joint.grip, 'length', 3), reach: error.takes })
    : t('takes {what}', { what: error.takes });
}
