/** Which number formats show days, and the two ways of counting them. */

/** Days between the two epochs that a file can count dates from (1900 and 1904). */
export const DAYS_1904 = 1462;

/** True where a format shows a day, and not a mere time or duration. */
export function showsDate(format: string): boolean {
  const bare = format.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, '');
  if (/general/i.test(bare)) return false;
  return /[yd]/i.test(bare) || (/m/i.test(bare) && !/[hs]/i.test(bare));
}
