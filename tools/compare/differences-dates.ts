/** Differences from LibreOffice 7.4 in functions of dates and times. */
import { cellsOf, type Value } from './case';
import { isCode, isError, numberOf, type Rule } from './rule';

const OF_DAYS =
  'DAY|MONTH|YEAR|HOUR|MINUTE|SECOND|WEEKDAY|WEEKNUM|ISOWEEKNUM|EDATE|EOMONTH|TEXT|YEARFRAC|DATEDIF|DAYS|DAYS360|WORKDAY|NETWORKDAYS|WORKDAY.INTL|NETWORKDAYS.INTL';
/** Up to here days are counted otherwise: 29 February 1900 is day 60. */
const LEAP_1900 = 60;
/** The day after 31 December 9999. */
const AFTER_ALL = 2_958_466;
/** A month that is taken back from here may lie before. */
const NEAR_1900 = 430;

const dateOf = (day: number): Date => new Date(Date.UTC(1899, 11, 30) + Math.floor(day) * 86_400_000);
const isEndOfFebruary = (day: number): boolean =>
  dateOf(day).getUTCMonth() === 1 && dateOf(day + 1).getUTCMonth() === 2;

export const DATE_RULES: readonly Rule[] = [
  {
    why: 'a year below 1900 counts from 1900: MS, DATE; LibreOffice reads two digits as of this century',
    applies: (one) => one.some('DATE', ([year]) => (numberOf(year) ?? 0) < 1900),
  },
  {
    why: 'DAYS takes whole days (that the time of day is dropped is from memory, verify); LibreOffice subtracts the numbers',
    applies: (one) => one.some('DAYS', (args) => args.some((arg) => (numberOf(arg) ?? 0) % 1 !== 0)),
  },
  {
    why: 'a day below 0 is no date: MS, "Excel specifications and limits" (earliest date); LibreOffice counts back from 1899',
    applies: (one) =>
      (isCode(one.ours, '#NUM!') && one.some(OF_DAYS, (args) => args.some((arg) => (numberOf(arg) ?? 0) < 0))) ||
      (isCode(one.ours, '#VALUE!') &&
        one.some('TEXT', ([day, format]) => (numberOf(day) ?? 0) < 0 && /[ymdhs]/i.test(String(format)))),
  },
  {
    why: 'no day comes after 31 December 9999: MS, "Excel specifications and limits" (latest date); LibreOffice takes any number',
    applies: (one) => {
      const isLate = (day: Value): boolean => (numberOf(day) ?? 0) >= AFTER_ALL;
      return (
        (isCode(one.ours, '#NUM!') &&
          (one.some(OF_DAYS, (args) => args.some(isLate)) ||
            (isLate(one.theirs) && one.some('EDATE|EOMONTH|WORKDAY')))) ||
        (isCode(one.ours, '#VALUE!') &&
          one.some('TEXT', ([day, format]) => isLate(day) && /[ymdhs]/i.test(String(format))))
      );
    },
  },
  {
    why: 'a holiday that is no date is #VALUE!: MS, NETWORKDAYS ("If any argument is not a valid date"); LibreOffice leaves a text out',
    applies: (one) =>
      one.some(
        'NETWORKDAYS|WORKDAY|NETWORKDAYS.INTL|WORKDAY.INTL',
        (args, { name, result }) =>
          isCode(result ?? null, '#VALUE!') &&
          cellsOf(args[name.endsWith('.INTL') ? 3 : 2]).some((cell) => numberOf(cell) === undefined),
      ),
  },
  {
    why: 'a number that is no day is no holiday: LibreOffice has it so in NETWORKDAYS; in WORKDAY it has an error for one beyond all days',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('WORKDAY|WORKDAY.INTL', ([, , ...rest]) =>
        rest.flatMap(cellsOf).some((day) => (numberOf(day) ?? 0) >= AFTER_ALL),
      ),
  },
  {
    why: 'a text with a year after 9999 is no date: MS, "Excel specifications and limits" (latest date); LibreOffice takes any year',
    applies: (one) =>
      isCode(one.ours, '#VALUE!') &&
      one.someCell((cell) => typeof cell === 'string' && /^\s*\d{5,}-\d{1,2}-\d{1,2}\s*$/.test(cell)),
  },
  {
    why: 'days before 1 March 1900 count a 29 February that never was: ECMA-376 part 1, 18.17.4.1; LibreOffice counts from 30 December 1899',
    applies: (one) =>
      one.some(OF_DAYS, ([first, second], { name }) => {
        const most = /^E(?:DATE|OMONTH)$|^WORKDAY|WEEKNUM$/.test(name) ? NEAR_1900 : LEAP_1900;
        const early = (day: number | undefined, last: number): boolean => day !== undefined && day >= 0 && day <= last;
        const takesTwo = /^(?:DAYS|YEARFRAC|DATEDIF|NETWORKDAYS)/.test(name);
        return early(numberOf(first), most) || (takesTwo && early(numberOf(second), most));
      }),
  },
  {
    why: 'the year 1900 has 366 days where their mean is taken, as its 29 February counts: ECMA-376 part 1, 18.17.4.1; LibreOffice has 365',
    applies: (one) =>
      one.some('YEARFRAC', ([from, to, basis]) => {
        const [first, last] = [numberOf(from) ?? 0, numberOf(to) ?? 0];
        return Math.trunc(numberOf(basis) ?? 0) === 1 && Math.min(first, last) <= 366;
      }),
  },
  {
    why: 'the last days of December are of week 53 though 1 January is in that week: MS, WEEKNUM (system 1); LibreOffice has week 1',
    applies: (one) =>
      one.some('WEEKNUM', ([day]) => {
        const date = dateOf(numberOf(day) ?? 0);
        return date.getUTCMonth() === 11 && date.getUTCDate() >= 26;
      }),
  },
  {
    why: 'the last day of February is the 30th of its month: MS, DAYS360 ("If the starting date is the last day of a month"); LibreOffice counts 28 or 29',
    applies: (one) =>
      one.some('YEARFRAC|DAYS360', (args) => args.slice(0, 2).some((day) => isEndOfFebruary(numberOf(day) ?? 0))),
  },
  {
    why: 'DATEDIF with a unit that there is not is #NUM!: MS, DATEDIF (its six units); LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('DATEDIF', ([, , unit]) => typeof unit !== 'string' || !/^(?:[ymd]|md|ym|yd)$/i.test(unit)),
  },
  {
    why: 'the date in a text is no part of its time: MS, TIMEVALUE ("Date information in time_text is ignored"); LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) && one.some('TIMEVALUE', ([text]) => typeof text === 'string' && /\d[-/]\d/.test(text)),
  },
  {
    why: 'hours, minutes and seconds are up to 32767: MS, TIME (#NUM! above is from memory, verify); LibreOffice goes on',
    applies: (one) =>
      isCode(one.ours, '#NUM!') && one.some('TIME', (args) => args.some((arg) => (numberOf(arg) ?? 0) > 32_767)),
  },
  {
    why: 'hours, minutes and seconds are cut to whole ones (MS, TIME, has numbers from 0 to 32767; that they are cut is from memory, verify)',
    applies: (one) => one.some('TIME', (args) => args.some((arg) => (numberOf(arg) ?? 0) % 1 !== 0)),
  },
];
