/**
 * Dates as numbers of days. A workbook counts them from 1900, holding 1900 for a leap year (its day 60 is a
 * 29 February that never was), or from 1904. Source: ECMA-376 part 1, 18.17.4 (Dates and Times).
 */
import { DAYS_1904 } from '../sheet';

const DAY_MS = 86_400_000;
const EPOCH = Date.UTC(1899, 11, 30);
/** The day after 31 December 9999, counted from 1900. */
const AFTER_9999 = 2_958_466;

/** Days between the 1900 epoch and that of the workbook whose formula is evaluated. */
let offset = 0;

/** Sets how dates are counted in the workbook whose formulas are evaluated from now on. */
export function countDatesFrom1904(from1904: boolean): void {
  offset = from1904 ? DAYS_1904 : 0;
}

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

export interface DateParts {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
}

/** A day number of the workbook counted from 1900, where day 1 is a Sunday. */
export const from1900 = (serial: number): number => Math.floor(serial) + offset;

/** True for a number from 0 to the end of the last day that spreadsheets have. */
export const isDate = (serial: number): boolean => serial >= 0 && serial + offset < AFTER_9999;

/** The day that a number stands for; 0 is 0 January 1900 where days count from 1900. */
export function partsOf(serial: number): DateParts {
  const days = from1900(serial);
  if (days === 60) return { year: 1900, month: 2, day: 29 };
  if (days === 0) return { year: 1900, month: 1, day: 0 };
  const date = new Date(EPOCH + (days < 60 ? days + 1 : days) * DAY_MS);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** The number of a day; months and days may lie beyond their year and month. Not checked against `isDate`. */
export function serialOf(year: number, month: number, day: number): number {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, 1);
  const days = (date.getTime() - EPOCH) / DAY_MS;
  // 29 February 1900 counts: the days before March 1900 are one less than the calendar says.
  const first = days < 61 ? days - 1 : days;
  return first + day - 1 - offset;
}

export const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Days of a month as spreadsheets have them. */
export const daysInMonth = (year: number, month: number): number =>
  month === 2 ? (isLeapYear(year) || year === 1900 ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** The same day some months on, or the last of the month where that is shorter. */
export function monthsOn(serial: number, months: number): number {
  const { year, month, day } = partsOf(serial);
  const index = year * 12 + month - 1 + months;
  const [y, m] = [Math.floor(index / 12), (((index % 12) + 12) % 12) + 1];
  return serialOf(y, m, Math.min(day, daysInMonth(y, m)));
}

/** Time of day, to the nearest second. */
export function timeOf(serial: number): Readonly<Record<'hour' | 'minute' | 'second', number>> {
  const seconds = Math.round((serial - Math.floor(serial)) * 86_400) % 86_400;
  return { hour: Math.floor(seconds / 3600), minute: Math.floor(seconds / 60) % 60, second: seconds % 60 };
}

/** This moment by the computer's own clock. */
export function now(): number {
  const date = new Date();
  const days = (date.getTime() - date.getTimezoneOffset() * 60_000 - EPOCH) / DAY_MS;
  return days - offset;
}
