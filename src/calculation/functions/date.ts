/** Dates and times. Source: Microsoft, the page of each function; OpenFormula 1.3, 6.10 (Date and Time Functions). */
import type { Cell, CellError } from '../../sheet';
import {
  from1900,
  isDate,
  isLeapYear,
  monthsOn,
  now,
  partsOf,
  serialOf,
  timeOf,
  daysInMonth,
  type DateParts,
} from '../dates';
import { dateTime } from '../text-number';
import { failure, finite, toNumber, type Value } from '../values';
import {
  cells,
  fn,
  gathered,
  NUM,
  numberOf,
  numbersFrom,
  numeric,
  textOf,
  unlessError,
  type Family,
  type FunctionSpec,
} from './define';

const t = Math.trunc;

/** A function whose first `days` arguments are dates, #NUM! where one of them does not exist; other numbers follow. */
const ofDays = (
  days: number,
  min: number,
  max: number,
  apply: (...given: number[]) => Cell,
  takes = 'c',
): FunctionSpec =>
  numeric(min, max, (...given) => (given.slice(0, days).every(isDate) ? apply(...given) : NUM()), { takes });

const datePart = (take: (parts: DateParts) => number): FunctionSpec => ofDays(1, 1, 1, (day) => take(partsOf(day)));
const timePart = (part: 'hour' | 'minute' | 'second'): FunctionSpec =>
  ofDays(1, 1, 1, (moment) => timeOf(moment)[part]);
const existing = (serial: number): Cell => (isDate(serial) ? serial : NUM());

/** WEEKDAY: its kind says with which day a week begins, and whether that day is 0 or 1. */
function weekday(day: number, kind = 1): Cell {
  const sundayIs0 = (from1900(day) + 6) % 7;
  const whole = t(kind);
  if (whole === 1 || whole === 17) return sundayIs0 + 1;
  if (whole === 2 || whole === 11) return ((sundayIs0 + 6) % 7) + 1;
  if (whole === 3) return (sundayIs0 + 6) % 7;
  return whole >= 12 && whole <= 16 ? ((sundayIs0 + 17 - whole) % 7) + 1 : NUM();
}

/** Week of the year; the first has 1 January in it, or with 21 the year's first Thursday. */
function weekNumber(day: number, kind = 1): Cell {
  const whole = t(kind);
  if (whole === 21) return isoWeek(day);
  const first = whole === 1 || whole === 17 ? 0 : whole === 2 ? 1 : whole >= 11 && whole <= 16 ? whole - 10 : undefined;
  if (first === undefined) return NUM();
  const newYear = serialOf(partsOf(day).year, 1, 1);
  const into = (((from1900(newYear) + 6) % 7) - first + 7) % 7;
  return Math.floor((t(day) - newYear + into) / 7) + 1;
}

function isoWeek(day: number): number {
  const mondayIs0 = (from1900(day) + 5) % 7;
  const thursday = t(day) - mondayIs0 + 3;
  return Math.floor((thursday - serialOf(partsOf(thursday).year, 1, 1)) / 7) + 1;
}

/** Which days of the week are free: Monday first. */
type Weekend = readonly boolean[];
const SATURDAY_SUNDAY: Weekend = [false, false, false, false, false, true, true];

/** A number from 1 to 7 (two days) or 11 to 17 (one), or a text of seven signs, 1 for a free day. */
function weekendOf(value: Value): Weekend | CellError {
  if (value === undefined) return SATURDAY_SUNDAY;
  if (typeof value === 'string')
    return /^[01]{7}$/.test(value) ? [...value].map((sign) => sign === '1') : failure('#VALUE!');
  return unlessError([numberOf(value)], (number) => {
    const kind = t(number);
    // Two days from Saturday on (1), or one from Sunday on (11).
    const free =
      kind >= 1 && kind <= 7 ? [(kind + 4) % 7, (kind + 5) % 7] : kind >= 11 && kind <= 17 ? [(kind + 2) % 7] : [];
    return free.length ? SATURDAY_SUNDAY.map((_day, index) => free.includes(index)) : NUM();
  });
}

interface Calendar {
  readonly weekend: Weekend;
  readonly holidays: ReadonlySet<number>;
}

const calendarOf = (free: Value, holidays: Value): Calendar | CellError =>
  unlessError(
    [weekendOf(free), gathered([holidays], (cell) => (cell === null ? undefined : toNumber(cell)))],
    (weekend, days) => ({ weekend, holidays: new Set(days.map(t)) }),
  );

const isFree = (day: number, { weekend, holidays }: Calendar): boolean =>
  weekend[(from1900(day) + 5) % 7]! || holidays.has(day);

const networkDays = (from: Value, to: Value, calendar: Calendar | CellError): Value =>
  unlessError([numbersFrom([from as Cell, to as Cell]), calendar], (numbers, free) => {
    if (!numbers.every(isDate)) return NUM();
    const [start, end] = [t(numbers[0]), t(numbers[1])];
    let count = 0;
    for (let day = Math.min(start, end); day <= Math.max(start, end); day++) if (!isFree(day, free)) count++;
    return start <= end ? count : -count || 0;
  });

const workDay = (from: Value, days: Value, calendar: Calendar | CellError): Value =>
  unlessError([numbersFrom([from as Cell, days as Cell]), calendar], ([start, count], free) => {
    // A week without a working day: "1111111" is no weekend of WORKDAY.INTL, though NETWORKDAYS.INTL counts 0 with it.
    if (free.weekend.every(Boolean)) return failure('#VALUE!');
    let day = t(start);
    if (!isDate(day)) return NUM();
    for (let left = Math.abs(t(count)); left > 0;) {
      day += Math.sign(count);
      if (!isDate(day)) return NUM();
      if (!isFree(day, free)) left--;
    }
    return day;
  });

/** Two days, and the whole months between them. */
interface Span {
  readonly start: number;
  readonly end: number;
  readonly a: DateParts;
  readonly b: DateParts;
  readonly months: number;
}

/** Whole years, months or days between two days, by their unit. Source: Microsoft, the page on DATEDIF. */
const DIFFERENCES: ReadonlyMap<string, (span: Span) => number> = new Map([
  ['D', ({ start, end }) => end - start],
  ['M', ({ months }) => months],
  ['Y', ({ months }) => Math.floor(months / 12)],
  ['YM', ({ months }) => months % 12],
  ['MD', ({ end, a, b }) => end - serialOf(b.year, b.day < a.day ? b.month - 1 : b.month, a.day)],
  [
    'YD',
    ({ end, a, b }) => {
      const thisYear = serialOf(b.year, a.month, a.day);
      return end - (thisYear <= end ? thisYear : serialOf(b.year - 1, a.month, a.day));
    },
  ],
]);

function dateDifference(from: number, to: number, unit: string): Cell {
  const [start, end] = [t(from), t(to)];
  if (!isDate(from) || !isDate(to) || start > end) return NUM();
  const [a, b] = [partsOf(from), partsOf(to)];
  const months = (b.year - a.year) * 12 + b.month - a.month - (b.day < a.day ? 1 : 0);
  return DIFFERENCES.get(unit.toUpperCase())?.({ start, end, a, b, months }) ?? NUM();
}

const isLastOfFebruary = ({ year, month, day }: DateParts): boolean =>
  month === 2 && day === (isLeapYear(year) ? 29 : 28);

/** Days by a year of twelve months of 30: the American way (NASD), or the European. */
function days360(start: number, end: number, european: boolean): number {
  const [a, b] = [partsOf(start), partsOf(end)];
  let [from, to] = [a.day, b.day];
  if (european) {
    from = Math.min(from, 30);
    to = Math.min(to, 30);
  } else {
    if (a.day === daysInMonth(a.year, a.month)) from = 30;
    if (to === 31 && from === 30) to = 30;
  }
  const addsMonth = !european && b.day === 31 && from < 30 ? 1 : 0;
  return (b.year - a.year) * 360 + (b.month - a.month) * 30 + (addsMonth ? 31 : to) - from;
}

/** The part of a year between two days, by a way of counting. Source: Microsoft, the page on YEARFRAC; ISDA 2006, 4.16. */
const FRACTIONS: readonly ((start: number, end: number) => number)[] = [
  (start, end) => americanDays(start, end) / 360,
  (start, end) => (end - start) / averageYear(start, end),
  (start, end) => (end - start) / 360,
  (start, end) => (end - start) / 365,
  (start, end) => days360(start, end, true) / 360,
];

function yearFraction(from: number, to: number, basis = 0): Cell {
  const fraction = FRACTIONS[t(basis)]?.(t(Math.min(from, to)), t(Math.max(from, to)));
  return fraction === undefined ? NUM() : finite(fraction);
}

function americanDays(start: number, end: number): number {
  const [a, b] = [partsOf(start), partsOf(end)];
  let [from, to] = [a.day, b.day];
  if (isLastOfFebruary(a) && isLastOfFebruary(b)) to = 30;
  if (isLastOfFebruary(a)) from = 30;
  if (to === 31 && from >= 30) to = 30;
  if (from === 31) from = 30;
  return (b.year - a.year) * 360 + (b.month - a.month) * 30 + to - from;
}

function averageYear(start: number, end: number): number {
  const [a, b] = [partsOf(start), partsOf(end)];
  const withinYear =
    a.year === b.year || (b.year === a.year + 1 && (b.month < a.month || (b.month === a.month && b.day <= a.day)));
  if (withinYear) {
    const leap =
      (isLeapYear(a.year) && start <= serialOf(a.year, 2, 29) && serialOf(a.year, 2, 29) <= end) ||
      (isLeapYear(b.year) && start <= serialOf(b.year, 2, 29) && serialOf(b.year, 2, 29) <= end);
    return (a.year === b.year ? isLeapYear(a.year) : leap) ? 366 : 365;
  }
  const years = b.year - a.year + 1;
  return (serialOf(b.year + 1, 1, 1) - serialOf(a.year, 1, 1)) / years;
}

const fromText = (part: (serial: number) => number): FunctionSpec =>
  cells(1, 1, (cell) => {
    const moment = typeof cell === 'string' ? dateTime(cell.trim()) : undefined;
    return moment === undefined ? failure('#VALUE!') : part(moment);
  });

function time(hour: number, minute: number, second: number): Cell {
  if ([hour, minute, second].some((part) => Math.abs(t(part)) > 32_767)) return NUM();
  const seconds = t(hour) * 3600 + t(minute) * 60 + t(second);
  return seconds < 0 ? NUM() : (seconds % 86_400) / 86_400;
}

export const dateFunctions: Family = {
  TODAY: cells(0, 0, () => Math.floor(now()), { volatile: true }),
  NOW: cells(0, 0, now, { volatile: true }),
  DATE: numeric(3, 3, (year, month, day) => {
    const whole = t(year);
    if (whole < 0 || whole > 9999) return NUM();
    return existing(serialOf(whole < 1900 ? whole + 1900 : whole, t(month), t(day)));
  }),
  TIME: numeric(3, 3, time),
  YEAR: datePart(({ year }) => year),
  MONTH: datePart(({ month }) => month),
  DAY: datePart(({ day }) => day),
  HOUR: timePart('hour'),
  MINUTE: timePart('minute'),
  SECOND: timePart('second'),
  DAYS: ofDays(2, 2, 2, (end, start) => t(end) - t(start), 'n'),
  DAYS360: ofDays(2, 2, 3, (start, end, european = 0) => days360(start, end, european !== 0), 'nnc'),
  WEEKDAY: ofDays(1, 1, 2, weekday),
  WEEKNUM: ofDays(1, 1, 2, weekNumber),
  ISOWEEKNUM: ofDays(1, 1, 1, isoWeek),
  EDATE: ofDays(1, 2, 2, (day, months) => existing(monthsOn(day, t(months))), 'n'),
  EOMONTH: ofDays(
    1,
    2,
    2,
    (day, months) => {
      const { year, month } = partsOf(day);
      return existing(serialOf(year, month + t(months) + 1, 0));
    },
    'nc',
  ),
  DATEDIF: cells(
    3,
    3,
    (from, to, unit) =>
      unlessError([numbersFrom([from, to])], ([start, end]) => dateDifference(start, end, textOf(unit))),
    { takes: 'nnc' },
  ),
  YEARFRAC: ofDays(2, 2, 3, yearFraction, 'n'),
  DATEVALUE: fromText(Math.floor),
  TIMEVALUE: fromText((moment) => moment - Math.floor(moment)),
  NETWORKDAYS: fn('nnv', 2, ([from, to, holidays]) => networkDays(from, to, calendarOf(undefined, holidays))),
  'NETWORKDAYS.INTL': fn('nncv', 2, ([from, to, weekend, holidays]) =>
    networkDays(from, to, calendarOf(weekend, holidays)),
  ),
  WORKDAY: fn('nnv', 2, ([from, days, holidays]) => workDay(from, days, calendarOf(undefined, holidays))),
  'WORKDAY.INTL': fn('nncv', 2, ([from, days, weekend, holidays]) =>
    workDay(from, days, calendarOf(weekend, holidays)),
  ),
};
