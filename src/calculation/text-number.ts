/**
 * Texts that read as numbers, the way a spreadsheet reads what is typed into a cell in the United States:
 * "1,234.5", "$5", "(5)", "10%", "1 1/2", dates and times. Source: Microsoft, "Calculation operators and
 * precedence in Excel" ("How Excel converts values in formulas") and the pages on VALUE, DATEVALUE and TIMEVALUE.
 */
import { daysInMonth, isDate, partsOf, now, serialOf } from './dates';

const NUMBER = /^([-+]?)((?:\$ *)?)([-+]?)((?:\d+(?:,\d{3})*)?(?:\.\d*)?)(?:[eE]([-+]?\d{1,4}))?$/;
const FRACTION = /^([-+]?)(\d+) +(\d{1,5})\/(\d{1,5})$/;

/** A text as a number; undefined where it is none. */
export function textNumber(text: string): number | undefined {
  const bare = text.trim();
  if (bare === '' || !/\d/.test(bare)) return undefined;
  return plainNumber(bare) ?? dateTime(bare);
}

/** Without dates and times. */
function plainNumber(text: string): number | undefined {
  // The most common form first.
  if (/^-?\d{1,15}(?:\.\d+)?$/.test(text)) return Number(text);
  const inBrackets = /^\((.+)\)$/.exec(text);
  if (inBrackets) {
    const number = /^[-+]/.test(inBrackets[1]!) ? undefined : plainNumber(inBrackets[1]!);
    return number === undefined ? undefined : -number;
  }
  if (text.endsWith('%')) {
    const number = plainNumber(text.slice(0, -1).trimEnd());
    return number === undefined ? undefined : number / 100;
  }
  return mixedNumber(text) ?? amount(text);
}

/** "1 1/2". */
function mixedNumber(text: string): number | undefined {
  const [, sign, whole, top, bottom] = FRACTION.exec(text) ?? [];
  if (bottom === undefined || Number(bottom) === 0) return undefined;
  const size = Number(whole) + Number(top) / Number(bottom);
  return sign === '-' ? -size : size;
}

/** "-$1,234.5", "1e3". */
function amount(text: string): number | undefined {
  const [, sign = '', , inner = '', digits = '', exponent] = NUMBER.exec(text) ?? [];
  if (!/\d/.test(digits) || (sign !== '' && inner !== '')) return undefined;
  const number = Number(`${digits.replaceAll(',', '')}${exponent === undefined ? '' : `e${exponent}`}`);
  if (!Number.isFinite(number)) return undefined;
  return sign === '-' || inner === '-' ? -number : number;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const MONTH_NAMES = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

function monthOf(word: string): number {
  const lower = word.toLowerCase().replace(/\.$/, '');
  return Math.max(MONTHS.indexOf(lower), MONTH_NAMES.indexOf(lower)) + 1;
}

/** Two digits are of this century up to 29, and of the last from 30 on. */
const yearOf = (text: string): number =>
  text.length > 2 ? Number(text) : Number(text) < 30 ? 2000 + Number(text) : 1900 + Number(text);

/** A day number, a part of a day, or both together. */
export function dateTime(text: string): number | undefined {
  const [, datePart = '', timePart = ''] =
    /^(.*?)(?:(?:^|[ T]+)(\d{1,4}:\d{1,2}(?::\d{1,2}(?:\.\d*)?)?(?: ?[aApP][mM]?)?|\d{1,2} ?[aApP][mM]))?$/.exec(
      text,
    ) ?? [];
  const day = datePart === '' ? undefined : dateOf(datePart.trim());
  const time = timePart === '' ? undefined : timeText(timePart);
  if ((datePart !== '' && day === undefined) || (timePart !== '' && time === undefined)) return undefined;
  return day === undefined && time === undefined ? undefined : (day ?? 0) + (time ?? 0);
}

function dateOf(text: string): number | undefined {
  const iso = /^(\d{4})[-/](\d{1,2})[-/](\d{1,2})$/.exec(text);
  if (iso) return checked(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const numbers = /^(\d{1,2})[-/](\d{1,2})(?:[-/](\d{2}|\d{4}))?$/.exec(text);
  if (numbers)
    return numbers[3] === undefined
      ? checked(thisYear(), Number(numbers[1]), Number(numbers[2]))
      : checked(yearOf(numbers[3]), Number(numbers[1]), Number(numbers[2]));
  const monthYear = /^(\d{1,2})[-/](\d{4})$/.exec(text);
  if (monthYear) return checked(Number(monthYear[2]), Number(monthYear[1]), 1);
  return wordDate(text);
}

/** With the month as a word: 14-Mar-2026, 14 March, March 14, 2026, Mar-2026. */
function wordDate(text: string): number | undefined {
  const dayFirst = /^(\d{1,2})[- /]+([A-Za-z]{3,9}\.?)(?:[- /,]+(\d{4}|\d{2}))?$/.exec(text);
  if (dayFirst)
    return checked(dayFirst[3] ? yearOf(dayFirst[3]) : thisYear(), monthOf(dayFirst[2]!), Number(dayFirst[1]));
  const monthFirst = /^([A-Za-z]{3,9}\.?)[- /]+(\d{1,2})(?:(?:, *|[- /]+)(\d{4}|\d{2}))?$/.exec(text);
  if (monthFirst) {
    const [, month, number, year] = monthFirst;
    if (year !== undefined) return checked(yearOf(year), monthOf(month!), Number(number));
    return checked(thisYear(), monthOf(month!), Number(number)) ?? checked(yearOf(number!), monthOf(month!), 1);
  }
  const monthYear = /^([A-Za-z]{3,9}\.?)[- /,]+(\d{4})$/.exec(text);
  return monthYear ? checked(Number(monthYear[2]), monthOf(monthYear[1]!), 1) : undefined;
}

const thisYear = (): number => partsOf(now()).year;

function checked(year: number, month: number, day: number): number | undefined {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return undefined;
  const serial = serialOf(year, month, day);
  return isDate(serial) ? serial : undefined;
}

function timeText(text: string): number | undefined {
  const [, hours = '', minutes = '0', seconds = '0', half = ''] =
    /^(\d{1,4})(?::(\d{1,2}))?(?::(\d{1,2}(?:\.\d*)?))?(?: ?([aApP])[mM]?)?$/.exec(text) ?? [];
  let hour = Number(hours);
  if (hours === '' || Number(minutes) > 59 || Number(seconds) >= 60) return undefined;
  if (half !== '') {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (/p/i.test(half) ? 12 : 0);
  }
  return (hour * 3600 + Number(minutes) * 60 + Number(seconds)) / 86_400;
}
