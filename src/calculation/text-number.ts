/**
 * Texts that read as numbers, the way a spreadsheet reads what is typed into a cell in the United States:
 * "1,234.5", "$5", "(5)", "10%", "1 1/2", dates and times. Source: Microsoft, "Calculation operators and
 * precedence in Excel" ("How Excel converts values in formulas") and the pages on VALUE, DATEVALUE and TIMEVALUE.
 */
import { daysInMonth, isDate, MONTHS, now, partsOf, serialOf } from './dates';

const NUMBER = /^([-+]?)((?:\$ *)?)([-+]?)((?:\d+(?:,\d{3})*)?(?:\.\d*)?)(?:[eE]([-+]?\d{1,4}))?$/;
const FRACTION = /^([-+]?)(\d+) +(\d{1,5})\/(\d{1,5})$/;

/** A text as a number; undefined where it is none. */
export function textNumber(text: string): number | undefined {
  const bare = text.trim();
  if (bare === '' || !/\d/.test(bare)) return undefined;
  return plainNumber(bare) ?? dateTime(bare);
}

/** A text as a number that is no date and no time; undefined where it is none. */
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

/** The number of a month by its name or the first three letters of it; 0 where it is none. */
function monthOf(word: string): number {
  const lower = word.toLowerCase().replace(/\.$/, '');
  return MONTHS.findIndex((name) => [name, name.slice(0, 3)].some((one) => one.toLowerCase() === lower)) + 1;
}

/** Two digits are of this century up to 29, and of the last from 30 on; without any it is this year. */
function yearOf(text: string | undefined): number {
  if (text === undefined) return partsOf(now()).year;
  if (text.length > 2) return Number(text);
  return Number(text) + (Number(text) < 30 ? 2000 : 1900);
}

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

/** Forms of dates, in the order in which they are tried, and the day that their parts name. */
const DATES: readonly (readonly [form: RegExp, day: (...parts: string[]) => number | undefined])[] = [
  [/^(\d{4})[-/](\d{1,2})[-/](\d{1,2})$/, (year, month, day) => checked(Number(year), Number(month), Number(day))],
  [
    /^(\d{1,2})[-/](\d{1,2})(?:[-/](\d{2}|\d{4}))?$/,
    (month, day, year) => checked(yearOf(year), Number(month), Number(day)),
  ],
  [/^(\d{1,2})[-/](\d{4})$/, (month, year) => checked(Number(year), Number(month), 1)],
  // With the month as a word: 14-Mar-2026, 14 March.
  [
    /^(\d{1,2})[- /]+([A-Za-z]{3,9}\.?)(?:[- /,]+(\d{4}|\d{2}))?$/,
    (day, month, year) => checked(yearOf(year), monthOf(month), Number(day)),
  ],
  // March 14, 2026; a number that is no day of the month is a year.
  [
    /^([A-Za-z]{3,9}\.?)[- /]+(\d{1,2})(?:(?:, *|[- /]+)(\d{4}|\d{2}))?$/,
    (month, number, year) => {
      const day = checked(yearOf(year), monthOf(month), Number(number));
      return day === undefined && year === undefined ? checked(yearOf(number), monthOf(month), 1) : day;
    },
  ],
  // Mar-2026
  [/^([A-Za-z]{3,9}\.?)[- /,]+(\d{4})$/, (month, year) => checked(Number(year), monthOf(month), 1)],
];

function dateOf(text: string): number | undefined {
  for (const [form, day] of DATES) {
    const match = form.exec(text);
    if (match) return day(...match.slice(1));
  }
  return undefined;
}

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
