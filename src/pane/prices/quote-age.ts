/** How old a quote is, in words. */

/** Ages in months after which a quote counts as old; 0: never. */
export const OLD_AFTER = [3, 6, 12, 24, 0] as const;
export const OLD_AFTER_DEFAULT = 12;

/** Whole calendar months from one "year-month-day" to another; negative where `from` is the later. */
export function monthsBetween(from: string, to: string): number {
  const [y1 = 0, m1 = 0, d1 = 0] = from.split('-').map(Number);
  const [y2 = 0, m2 = 0, d2 = 0] = to.split('-').map(Number);
  return (y2 - y1) * 12 + (m2 - m1) - (d2 < d1 ? 1 : 0);
}

/** "old: 14 months" where a quote is at least `oldAfter` months old, "dated ahead" where it lies after today. */
export function ageWord(quotedOn: string, today: string, oldAfter: number): string | undefined {
  if (quotedOn === '') return undefined;
  if (quotedOn > today) return 'dated ahead';
  const months = monthsBetween(quotedOn, today);
  if (oldAfter === 0 || months < oldAfter) return undefined;
  return months < 36 ? `old: ${months} months` : `old: ${Math.floor(months / 12)} years`;
}
