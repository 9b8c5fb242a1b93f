/** The fraction that a spreadsheet may have read as a date: 1/8 as January 8, 3/32 as March 1932. */

const DAY = 86_400_000;
/** Day 0 of spreadsheets' dates (ECMA-376 part 1, 18.17.4.1), from March 1900 on. */
const DAY_0 = Date.UTC(1899, 11, 30);
/** Denominators that are a day of a month, and those that can only have been a year. */
const AS_DAY = [2, 4, 8, 16];
const AS_YEAR = [32, 64];

/** "1/8" for a date's number; undefined where no fraction of an inch reads as that date. */
export function fractionOfDate(serial: number): string | undefined {
  if (!Number.isInteger(serial) || serial < 10_000 || serial > 80_000) return undefined;
  const date = new Date(DAY_0 + serial * DAY);
  const [month, day, year] = [date.getUTCMonth() + 1, date.getUTCDate(), date.getUTCFullYear() % 100];
  const bottom = AS_DAY.includes(day) ? day : day === 1 && AS_YEAR.includes(year) ? year : undefined;
  return bottom !== undefined && month < bottom ? `${month}/${bottom}` : undefined;
}
