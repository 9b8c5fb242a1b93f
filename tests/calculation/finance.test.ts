/**
 * Loans and rates against the equation that Microsoft's page on PV prints, computed with 60 digits by decimal.js: rates
 * from 1E-12 up, where a formula of plain powers has no digit left. Numbers differ by their last digits only.
 */
import Decimal from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/calculation';
import { randomOf } from '../../tools/compare/generate';

const Exact = Decimal.clone({ precision: 60 });
type Exact = Decimal;

interface Loan {
  readonly rate: number;
  readonly periods: number;
  readonly period: number;
  readonly present: number;
  readonly future: number;
  readonly due: number;
}

/** Rates from 1E-12 to 0.5, of every size alike, and a few below 0. */
function loans(seed: number, count: number): Loan[] {
  const random = randomOf(seed);
  const amount = (): number => Math.round(random() * 1e6) / 100;
  return Array.from({ length: count }, (_loan, index) => {
    const size = Number((10 ** (-12 + random() * 11.7)).toPrecision(6));
    const periods = 2 + Math.floor(random() * 479);
    return {
      rate: index % 7 === 6 ? -size : size,
      periods,
      period: 1 + Math.floor(random() * periods),
      present: 1 + amount(),
      future: index % 3 === 0 ? 0 : amount(),
      due: index % 2,
    };
  });
}

/** A number with all digits that it has in binary: where two are nearly equal, those say by how much they differ. */
const binary = (value: number): Exact => new Exact(`0b${value.toString(2)}`);

const grown = (rate: Exact, periods: number): Exact => rate.plus(1).pow(periods);
const each = (rate: Exact, periods: number, due: number): Exact =>
  grown(rate, periods)
    .minus(1)
    .div(rate)
    .mul(due ? rate.plus(1) : 1);

/** Payment each period. */
const paid = ({ rate, periods, present, future, due }: Loan): Exact => {
  const r = new Exact(rate);
  return grown(r, periods)
    .mul(present)
    .plus(future)
    .neg()
    .div(each(r, periods, due));
};

/** What is owed when a period begins, and with payments at the start after that payment. */
const owed = (loan: Loan, period: number): Exact => {
  const r = new Exact(loan.rate);
  const before = period - 1;
  if (!loan.due)
    return grown(r, before)
      .mul(loan.present)
      .plus(paid(loan).mul(each(r, before, 0)));
  return before === 0
    ? new Exact(0)
    : grown(r, before - 1)
        .mul(loan.present)
        .plus(paid(loan).mul(each(r, before - 1, 1)))
        .plus(paid(loan));
};

const interest = (loan: Loan, period = loan.period): Exact => owed(loan, period).mul(loan.rate).neg();
const principal = (loan: Loan, period = loan.period): Exact => paid(loan).minus(interest(loan, period));

const sum = (loan: Loan, of: (loan: Loan, period: number) => Exact): Exact => {
  let all = new Exact(0);
  for (let period = loan.period; period <= loan.periods; period++) all = all.plus(of(loan, period));
  return all;
};

/** 4 last digits; a power of many periods has its share of them. */
const TOLERANCE = 1e-13;

function holds(formula: string, expected: Exact): void {
  const given = evaluate(formula);
  const apart = typeof given === 'number' ? expected.minus(given).abs().div(expected.abs()).toNumber() : String(given);
  expect({ formula, apart: typeof apart === 'number' && apart <= TOLERANCE ? 0 : apart }).toEqual({
    formula,
    apart: 0,
  });
}

const LOANS = loans(1961, 150);

describe('loans at rates of every size', () => {
  it('PMT', () => {
    for (const loan of LOANS) holds(`PMT(${loan.rate},${rest(loan)})`, paid(loan));
  });
  it('IPMT', () => {
    for (const loan of LOANS)
      if (loan.period > 1 || !loan.due) holds(`IPMT(${loan.rate},${loan.period},${rest(loan)})`, interest(loan));
  });
  it('PPMT', () => {
    for (const loan of LOANS) holds(`PPMT(${loan.rate},${loan.period},${rest(loan)})`, principal(loan));
  });
  it('FV and PV', () => {
    for (const { rate, periods, present, future, due } of LOANS) {
      const r = new Exact(rate);
      const payments = each(r, periods, due).mul(future);
      holds(`FV(${rate},${periods},${future},${present},${due})`, grown(r, periods).mul(present).plus(payments).neg());
      holds(`PV(${rate},${periods},${future},${present},${due})`, payments.plus(present).neg().div(grown(r, periods)));
    }
  });
  it('NPER', () => {
    for (const { rate, present, future, due } of LOANS.filter((loan) => loan.rate > 0)) {
      const r = new Exact(rate);
      // More than the interest, so that the loan comes to an end.
      const payment = -Math.max(1, Math.round(present * (rate + 0.01)));
      const part = new Exact(payment).mul(due ? r.plus(1) : 1);
      const ratio = part.minus(r.mul(future)).div(part.plus(r.mul(present)));
      holds(`NPER(${rate},${payment},${present},${future},${due})`, ratio.ln().div(r.plus(1).ln()));
    }
  });
  it('RATE solves its equation', () => {
    for (const loan of LOANS) {
      const payment = paid(loan).toNumber();
      const rate = evaluate(`RATE(${loan.periods},${payment},${loan.present},${loan.future},${loan.due},${loan.rate})`);
      expect(rate).toEqual(expect.any(Number));
      const r = new Exact(rate as number);
      const [owes, pays] = [grown(r, loan.periods).mul(loan.present), each(r, loan.periods, loan.due).mul(payment)];
      const left = owes.plus(pays).plus(loan.future).div(owes.plus(loan.future)).abs();
      expect({ loan, left: Math.max(1e-12, left.toNumber()) }).toEqual({ loan, left: 1e-12 });
    }
  });
  it('CUMIPMT and CUMPRINC', () => {
    for (const loan of LOANS.filter(({ rate, periods }) => rate > 0 && periods < 60).slice(0, 12)) {
      const whole = { ...loan, future: 0 };
      const given = `${loan.rate},${loan.periods},${loan.present},${loan.period},${loan.periods},${loan.due}`;
      if (loan.period > 1 || !loan.due) holds(`CUMIPMT(${given})`, sum(whole, interest));
      holds(`CUMPRINC(${given})`, sum(whole, principal));
    }
  });
});

const rest = ({ periods, present, future, due }: Loan): string => `${periods},${present},${future},${due}`;

describe('rates of every size', () => {
  it('EFFECT, NOMINAL, RRI, PDURATION, MIRR', () => {
    for (const { rate: signed, periods, present } of LOANS) {
      const rate = Math.abs(signed);
      const r = new Exact(rate);
      holds(`EFFECT(${rate},${periods})`, r.div(periods).plus(1).pow(periods).minus(1));
      holds(`NOMINAL(${rate},${periods})`, r.plus(1).pow(new Exact(1).div(periods)).minus(1).mul(periods));
      // A formula keeps 15 digits of a number.
      const future = Number((present + Math.max(1e-9, present * rate)).toPrecision(15));
      const ratio = binary(future).div(binary(present));
      holds(`RRI(${periods},${present},${future})`, ratio.pow(new Exact(1).div(periods)).minus(1));
      holds(`PDURATION(${rate},${present},${future})`, ratio.ln().div(r.plus(1).ln()));
      holds(`MIRR({${-present},${future}},${rate},${rate})`, ratio.minus(1));
    }
  });
  it('NPV and DDB', () => {
    for (const { rate, period, periods, present } of LOANS) {
      const r = new Exact(rate);
      const worth = r.plus(1).pow(-1).mul(present).plus(r.plus(1).pow(-2).mul(periods));
      holds(`NPV(${rate},${present},${periods})`, worth);
      const factor = Math.abs(rate);
      const part = new Exact(factor).div(periods);
      const balance = new Exact(1).minus(part).pow(period - 1);
      holds(`DDB(${present},0,${periods},${period},${factor})`, balance.mul(present).mul(part));
    }
  });
});
