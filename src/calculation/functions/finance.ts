/* eslint-disable max-params -- these take what the spreadsheet's functions take, in their order */
/** Loans, cash flows and depreciation. Source: Microsoft, the page of each function (PV's has the equation that ties the five together). */
import type { Cell, CellError } from '../../sheet';
import { isDate } from '../dates';
import { failure, finite, toMatrix, toNumber, type Value } from '../values';
import { numbersOf, total } from './aggregates';
import {
  fn,
  gathered,
  many,
  NUM,
  numberOf,
  numbersFrom,
  numeric,
  unlessError,
  type Family,
  type FunctionSpec,
} from './define';

/*
 * Compound growth to its last digits. In (1 + rate)^periods a small rate loses the digits that the sum with 1 drops, and
 * what is then subtracted loses as many again. The functions log1p and expm1 keep them: they are made for this.
 * Source: N. Higham, "Accuracy and Stability of Numerical Algorithms", 2nd edition, 1.14.1 (from memory, verify).
 */

/** True where the sum of 1 and the rate is exact, so that a power of it is, too. */
const isExact = (rate: number): boolean => 1 + rate - 1 === rate;

/** Below this exponent the growth is so near 1 that subtracting 1 from it costs digits. */
const NEAR = 0.7;

/** (1 + rate)^periods: what 1 grows to. At a rate of -1 or less there is none but for whole periods. */
const growth = (rate: number, periods: number): number =>
  rate <= -1 || isExact(rate) ? (1 + rate) ** periods : Math.exp(periods * Math.log1p(rate));

/** (1 + rate)^periods − 1: what 1 gains. */
function gain(rate: number, periods: number): number {
  if (rate <= -1) return (1 + rate) ** periods - 1;
  const exponent = periods * Math.log1p(rate);
  return isExact(rate) && Math.abs(exponent) > NEAR ? (1 + rate) ** periods - 1 : Math.expm1(exponent);
}

/** What payments of 1 at the end of each period are worth at the end of the last one. */
const worthAtEnd = (rate: number, periods: number): number => (rate === 0 ? periods : gain(rate, periods) / rate);

/** What they are worth at the start of the first one. */
const worthAtStart = (rate: number, periods: number): number => (rate === 0 ? periods : -gain(rate, -periods) / rate);

/** True where two amounts are so near that their difference says more than their ratio. */
const areNear = (ratio: number): boolean => ratio > 0.5 && ratio < 2;

/** The rate at which one amount grows to another in so many periods. */
function rateOfGrowth(from: number, to: number, periods: number): number {
  const ratio = to / from;
  return areNear(ratio) ? gain((to - from) / from, 1 / periods) : ratio ** (1 / periods) - 1;
}

/** ln(to / from). @param apart to − from, where that is known to more digits than the two */
function logOfRatio(from: number, to: number, apart = to - from): number {
  const ratio = to / from;
  return areNear(ratio) ? Math.log1p(apart / from) : Math.log(ratio);
}

const futureValue = (rate: number, periods: number, payment: number, present: number, due: number): number =>
  -(present * growth(rate, periods) + payment * worthAtEnd(rate, periods) * (due ? 1 + rate : 1));

const presentValue = (rate: number, periods: number, payment: number, future: number, due: number): number =>
  -(future * growth(rate, -periods) + payment * worthAtStart(rate, periods) * (due ? 1 + rate : 1));

/** What payments of 1 are worth at the end; no number where that is larger than any, so that PMT is #NUM!. */
function finiteWorth(rate: number, periods: number): number {
  const atEnd = worthAtEnd(rate, periods);
  return Number.isFinite(atEnd) ? atEnd : Number.NaN;
}

function payment(rate: number, periods: number, present: number, future: number, due: number): number {
  const each = finiteWorth(rate, periods);
  return -(present * (growth(rate, periods) / each) + future / each) / (due ? 1 + rate : 1);
}

/**
 * Interest in one period of a loan, on the balance. What the loan has grown to less what was paid would lose digits
 * towards the end, where little is left: the balance is made of the share of the loan that is still owed and the share of
 * the future value that is already saved, neither of which is a difference.
 */
function interest(rate: number, period: number, periods: number, present: number, future: number, due: number): number {
  if (period === 1) return due ? 0 : -present * rate;
  const whole = finiteWorth(rate, periods);
  const owed = growth(rate, period - 1) * (worthAtEnd(rate, periods - period + 1) / whole);
  const saved = worthAtEnd(rate, period - 1) / whole;
  return ((future * saved - present * owed) * rate) / (due ? 1 + rate : 1);
}

/** What a payment takes off the loan. The difference of payment and interest would lose digits. */
function principal(
  rate: number,
  period: number,
  periods: number,
  present: number,
  future: number,
  due: number,
): number {
  if (due && period === 1) return payment(rate, periods, present, future, due);
  return -((present + future) / finiteWorth(rate, periods)) * growth(rate, period - 1 - (due ? 1 : 0));
}

function periodsFor(rate: number, each: number, present: number, future: number, due: number): Cell {
  if (rate === 0) return each === 0 ? NUM() : finite(-(present + future) / each);
  if (rate <= -1) return NUM();
  const paid = each * (due ? 1 + rate : 1);
  const now = paid + present * rate;
  const then = paid - future * rate;
  return then / now > 0 ? finite(logOfRatio(now, then, -(present + future) * rate) / Math.log1p(rate)) : NUM();
}

/** A rate at which a function is 0: by Newton's steps from a guess, or by halving an interval where those lead astray. */
function root(of: (rate: number) => number, guess: number): Cell {
  // Where every rate will do, the guess is as good as any.
  if (of(guess) === 0) return guess;
  let rate = guess;
  for (let step = 0; step < 100 && rate > -1; step++) {
    const width = Math.max(Math.abs(rate), 1e-3) * 1e-6;
    const slope = (of(rate + width) - of(rate - width)) / (2 * width);
    const next = rate - of(rate) / slope;
    if (!Number.isFinite(next)) break;
    if (Math.abs(next - rate) <= 1e-13 * Math.max(1, Math.abs(next)))
      return next > LEAST_RATE ? finite(next) : halved(of);
    rate = next;
  }
  return halved(of);
}

/** At a rate of -1 all is lost. Steps that come nearer to it than this only approach it. */
const LEAST_RATE = -1 + 1e-9;

const TRIED = [-0.99, -0.9, -0.75, -0.5, -0.25, -0.1, 0, 0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1, 2, 5, 10, 50, 100];

function halved(of: (rate: number) => number): Cell {
  for (let at = 0; at + 1 < TRIED.length; at++) {
    let [low, high] = [TRIED[at]!, TRIED[at + 1]!];
    const sign = Math.sign(of(low));
    if (sign === 0) return low;
    if (Math.sign(of(high)) === sign || !Number.isFinite(of(high))) continue;
    for (let step = 0; step < 200; step++) {
      const middle = (low + high) / 2;
      if (Math.sign(of(middle)) === sign) low = middle;
      else high = middle;
    }
    return finite((low + high) / 2);
  }
  return NUM();
}

const presentWorth = (rate: number, flows: readonly number[]): number =>
  total(flows.map((flow, index) => flow / growth(rate, index)));

const bothSigns = (flows: readonly number[]): boolean =>
  flows.some((flow) => flow > 0) && flows.some((flow) => flow < 0);

const internalRate = ([range, start]: Value[]): Value =>
  unlessError([numbersOf([range]), numberOf(start, 0.1)], (flows, guess) =>
    bothSigns(flows) ? root((rate) => presentWorth(rate, flows), guess) : NUM(),
  );

const modifiedRate = ([range, borrowed, invested]: Value[]): Value =>
  unlessError([numbersOf([range]), numberOf(borrowed), numberOf(invested)], (flows, finance, again) => {
    if (!bothSigns(flows)) return failure('#DIV/0!');
    const last = flows.length - 1;
    const gains = flows.map((flow) => Math.max(flow, 0));
    const spendings = flows.map((flow) => Math.min(flow, 0));
    const gained = presentWorth(again, gains) * growth(again, last);
    return finite(rateOfGrowth(-presentWorth(finance, spendings), gained, last));
  });

interface Dated {
  readonly flows: readonly number[];
  readonly dates: readonly number[];
}

/** The amounts and days of XNPV and XIRR as numbers; an error where the lists do not fit or a day comes before the first. */
const dated = (amounts: Value, days: Value): Dated | CellError =>
  unlessError([numbersFrom(toMatrix(amounts).flat()), numbersFrom(toMatrix(days).flat())], (flows, given) => {
    const dates = given.map(Math.trunc);
    const isInOrder = dates.every((day) => isDate(day) && day >= dates[0]!);
    return flows.length === dates.length && isInOrder ? { flows, dates } : NUM();
  });

const datedWorth = (rate: number, { flows, dates }: Dated): number =>
  total(flows.map((flow, index) => flow / growth(rate, (dates[index]! - dates[0]!) / 365)));

/** The declining balance: cost less what was written off before, period by period. */
function declining(cost: number, salvage: number, life: number, period: number, factor: number): number {
  const rate = Math.min(1, factor / life);
  const before = cost * growth(-rate, period - 1);
  return Math.max(0, Math.min(before * rate, before - salvage));
}

/** Most periods that are counted through. No loan and no machine has more: beyond there is #NUM!. */
const MOST_PERIODS = 1e6;

function fixedDeclining(cost: number, salvage: number, life: number, period: number, month = 12): Cell {
  // LibreOffice and IronCalc count whole months.
  const months = Math.trunc(month);
  const isOutside = period < 1 || period > life + 1 || period > MOST_PERIODS;
  if (cost < 0 || salvage < 0 || life <= 0 || months < 1 || months > 12 || isOutside) return NUM();
  if (cost === 0) return 0;
  const rate = Math.round((1 - (salvage / cost) ** (1 / life)) * 1000) / 1000;
  let written = (cost * rate * months) / 12;
  let sum = written;
  for (let at = 2; at <= Math.trunc(period); at++) {
    written = at > life ? ((cost - sum) * rate * (12 - months)) / 12 : (cost - sum) * rate;
    sum += written;
  }
  return finite(written);
}

/** Written off from one moment to another, going over to equal parts where those are more. */
function variableDeclining(...given: number[]): Cell {
  const [cost, salvage, life, start, end, factor = 2, noSwitch = 0] = given as [number, number, number, number, number];
  const isOutside = start < 0 || end < start || end > life || end > MOST_PERIODS;
  if (cost < 0 || salvage < 0 || life <= 0 || factor < 0 || isOutside) return NUM();
  let left = cost;
  let sum = 0;
  for (let period = 1; period <= Math.ceil(end); period++) {
    const byRate = Math.min((left * factor) / life, Math.max(left - salvage, 0));
    const straight = Math.max(left - salvage, 0) / (life - period + 1);
    const written = noSwitch === 0 && straight > byRate ? straight : byRate;
    const share = Math.max(0, Math.min(end, period) - Math.max(start, period - 1));
    sum += written * share;
    left -= written;
  }
  return finite(sum);
}

/** Interest or principal over several periods: MS, CUMIPMT, and WorksheetFunction.CumIPmt, which cuts periods and type to whole numbers. */
const cumulative = (part: typeof interest): FunctionSpec =>
  numeric(
    6,
    6,
    (rate, whole, present, ...rest) => {
      const [periods, first, last, due] = [whole, ...rest].map(Math.trunc) as [number, number, number, number];
      if (
        rate <= 0 ||
        periods <= 0 ||
        present <= 0 ||
        first < 1 ||
        last < first ||
        last > periods ||
        last - first > MOST_PERIODS ||
        (due !== 0 && due !== 1)
      )
        return NUM();
      let sum = 0;
      for (let period = first; period <= last; period++) sum += part(rate, period, periods, present, 0, due);
      return finite(sum);
    },
    { takes: 'n' },
  );

/** Interest or principal in one payment: as of PMT, of no loan that loses more than all of itself. */
const inOnePayment = (part: typeof interest): FunctionSpec =>
  numeric(4, 6, (rate, period, periods, present, future = 0, due = 0) =>
    rate >= -1 && period >= 1 && period <= periods ? finite(part(rate, period, periods, present, future, due)) : NUM(),
  );

const scale = (fraction: number): number => 10 ** Math.ceil(Math.log10(fraction));

/** A price whose part behind the point is, or becomes, a number of parts: of 16 in 1.02, which is 1 2/16. */
const inParts = (convert: (rest: number, parts: number) => number): FunctionSpec =>
  numeric(
    2,
    2,
    (price, fraction) => {
      const parts = Math.trunc(fraction);
      if (parts < 0) return NUM();
      if (parts === 0) return failure('#DIV/0!');
      const whole = Math.trunc(price);
      return finite(whole + convert(price - whole, parts));
    },
    { takes: 'n' },
  );

export const financeFunctions: Family = {
  PMT: numeric(3, 5, (rate, periods, present, future = 0, due = 0) =>
    // A loan that loses more than all of itself is refused by LibreOffice and IronCalc alike.
    periods === 0 || rate < -1 ? NUM() : finite(payment(rate, periods, present, future, due)),
  ),
  FV: numeric(3, 5, (rate, periods, each, present = 0, due = 0) =>
    finite(futureValue(rate, periods, each, present, due)),
  ),
  PV: numeric(3, 5, (rate, periods, each, future = 0, due = 0) =>
    finite(presentValue(rate, periods, each, future, due)),
  ),
  NPER: numeric(3, 5, (rate, each, present, future = 0, due = 0) => periodsFor(rate, each, present, future, due)),
  RATE: numeric(3, 6, (periods, each, present, future = 0, due = 0, guess = 0.1) =>
    periods <= 0 ? NUM() : root((rate) => futureValue(rate, periods, each, present, due) - future, guess),
  ),
  IPMT: inOnePayment(interest),
  PPMT: inOnePayment(principal),
  ISPMT: numeric(4, 4, (rate, period, periods, present) => finite(present * rate * (period / periods - 1))),
  CUMIPMT: cumulative(interest),
  CUMPRINC: cumulative(principal),
  NPV: many('cv', 2, ([first, ...flows]) =>
    unlessError([numberOf(first)], (rate) =>
      unlessError([numbersOf(flows)], (numbers) =>
        rate === -1 ? failure('#DIV/0!') : finite(presentWorth(rate, numbers) / (1 + rate)),
      ),
    ),
  ),
  IRR: fn('vc', 1, internalRate),
  MIRR: fn('vcc', 3, modifiedRate),
  XNPV: fn('cvv', 3, ([first, flows, days]) =>
    unlessError([numberOf(first), dated(flows, days)], (rate, given) =>
      rate <= -1 ? NUM() : finite(datedWorth(rate, given)),
    ),
  ),
  XIRR: fn('vvc', 2, ([flows, days, start]) =>
    unlessError([dated(flows, days), numberOf(start, 0.1)], (given, guess) =>
      bothSigns(given.flows) ? root((rate) => datedWorth(rate, given), guess) : NUM(),
    ),
  ),
  EFFECT: numeric(
    2,
    2,
    (nominal, periods) =>
      nominal <= 0 || Math.trunc(periods) < 1
        ? NUM()
        : finite(gain(nominal / Math.trunc(periods), Math.trunc(periods))),
    { takes: 'n' },
  ),
  NOMINAL: numeric(
    2,
    2,
    (effective, periods) =>
      effective <= 0 || Math.trunc(periods) < 1
        ? NUM()
        : finite(gain(effective, 1 / Math.trunc(periods)) * Math.trunc(periods)),
    { takes: 'n' },
  ),
  RRI: numeric(3, 3, (periods, present, future) =>
    periods <= 0 || present === 0 ? NUM() : finite(rateOfGrowth(present, future, periods)),
  ),
  PDURATION: numeric(3, 3, (rate, present, future) =>
    rate <= 0 || present <= 0 || future <= 0 ? NUM() : finite(logOfRatio(present, future) / Math.log1p(rate)),
  ),
  FVSCHEDULE: fn('cv', 2, ([start, rates]) =>
    unlessError([numberOf(start), gathered([rates], toNumber)], (worth, given) =>
      finite(given.reduce((grown, rate) => grown * (1 + rate), worth)),
    ),
  ),
  SLN: numeric(3, 3, (cost, salvage, life) => (life === 0 ? failure('#DIV/0!') : finite((cost - salvage) / life))),
  SYD: numeric(4, 4, (cost, salvage, life, period) =>
    life <= 0 || period < 1 || period > life
      ? NUM()
      : finite(((cost - salvage) * (life - period + 1) * 2) / (life * (life + 1))),
  ),
  DB: numeric(4, 5, fixedDeclining),
  DDB: numeric(4, 5, (cost, salvage, life, period, factor = 2) =>
    cost < 0 || salvage < 0 || life <= 0 || period < 1 || period > life || factor <= 0
      ? NUM()
      : finite(declining(cost, salvage, life, period, factor)),
  ),
  VDB: numeric(5, 7, variableDeclining),
  DOLLARDE: inParts((rest, parts) => (rest * scale(parts)) / parts),
  DOLLARFR: inParts((rest, parts) => (rest * parts) / scale(parts)),
};
