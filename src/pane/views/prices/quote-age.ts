/** How old a quote is, in words. */
import { t } from '../../locale';

/** Ages in months after which a quote counts as old; 0: never. */
export const OLD_AFTER = [3, 6, 12, 24, 0] as const;
export const OLD_AFTER_DEFAULT = 12;

/** Whole calendar months from one "year-month-day" to another; negative where `from` is the later. @internal */
export function monthsBetween(from: string, to: string): number {
  const [y1 = 0, m1 = 0, d1 = 0] = from.split('-').map(Number);
  const [y2 = 0, m2 = 0, d2 = 0] = to.split('-').map(Number);
  return (y2 - y1) * 12 + (m2 - m1) - (d2 < d1 ? 1 : 0);
}

/** What there is to say of a quote's age: at least `oldAfter` months old, or dated after today. */
export type QuoteAge = { readonly kind: 'old'; readonly months: number } | { readonly kind: 'ahead' };

export function quoteAge(quotedOn: string, today: string, oldAfter: number): QuoteAge | undefined {
  if (quotedOn === '') return undefined;
  if (quotedOn > today) return { kind: 'ahead' };
  const months = monthsBetween(quotedOn, today);
  return oldAfter === 0 || months < oldAfter ? undefined : { kind: 'old', months };
}

/** "old: 14 months" */
export function ageWord(age: QuoteAge | undefined): string | undefined {
  if (!age) return undefined;
  if (age.kind === 'ahead') return t('dated ahead');
  return age.months < 36
    ? t('old: {months, plural, one {# month} other {# months}}', { months: age.months })
    : t('old: {years, plural, one {# year} other {# years}}', { years: Math.floor(age.months / 12) });
}
