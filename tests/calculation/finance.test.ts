/**
 * Loans and rates against the equation that Microsoft's page on PV prints, computed with 300 digits by decimal.js: rates
 * from 1E-12 up, where a formula of plain powers has no digit left. Numbers differ by their last digits only.
 */
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/calculation';
import {
  effective,
  exact,
  grown,
  interest,
  nominal,
  payment,
  periodsBetween,
  periodsOf,
  principal,
  rateBetween,
  worthOfPayments,
  type Exact,
  type Loan,
} from '../../tools/compare/exact-loans';
import { randomOf } from '../../tools/compare/generate';

interface Case extends Loan {
  readonly period: number;
}

/** Rates from 1E-12 to 0.5, of every size alike, and a few below 0. */
function loans(seed: number, count: number): Case[] {
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

const sum = (loan: Case, of: (loan: Loan, period: number) => Exact): Exact => {
  let all = exact(0);
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

const rest = ({ periods, present, future, due }: Loan): string => `${periods},${present},${future},${due}`;

describe('loans at rates of every size', () => {
  it('PMT', () => {
    for (const loan of LOANS) holds(`PMT(${loan.rate},${rest(loan)})`, payment(loan));
  });
  it('IPMT', () => {
    for (const loan of LOANS)
      if (loan.period > 1 || !loan.due)
        holds(`IPMT(${loan.rate},${loan.period},${rest(loan)})`, interest(loan, loan.period));
  });
  it('PPMT', () => {
    for (const loan of LOANS) holds(`PPMT(${loan.rate},${loan.period},${rest(loan)})`, principal(loan, loan.period));
  });
  it('FV and PV', () => {
    for (const { rate, periods, present, future, due } of LOANS) {
      const payments = worthOfPayments(rate, periods, due).mul(future);
      const once = grown(rate, periods);
      holds(`FV(${rate},${periods},${future},${present},${due})`, once.mul(present).plus(payments).neg());
      holds(`PV(${rate},${periods},${future},${present},${due})`, payments.plus(present).neg().div(once));
    }
  });
  it('NPER', () => {
    for (const loan of LOANS.filter(({ rate }) => rate > 0)) {
      const { rate, present, future, due } = loan;
      // More than the interest, so that the loan comes to an end.
      const each = -Math.max(1, Math.round(present * (rate + 0.01)));
      holds(`NPER(${rate},${each},${present},${future},${due})`, periodsOf(loan, each));
    }
  });
  it('RATE solves its equation', () => {
    for (const loan of LOANS) {
      const { periods, present, future, due } = loan;
      const each = payment(loan).toNumber();
      const rate = evaluate(`RATE(${periods},${each},${present},${future},${due},${loan.rate})`);
      expect(rate).toEqual(expect.any(Number));
      const owes = grown(rate as number, periods).mul(present);
      const left = owes.plus(worthOfPayments(rate as number, periods, due).mul(each)).plus(future);
      const part = left.div(owes.plus(future)).abs().toNumber();
      expect({ loan, part: Math.max(1e-12, part) }).toEqual({ loan, part: 1e-12 });
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
  it('IPMT and PPMT refuse a loan that loses more than all of itself, as PMT does: LibreOffice', () => {
    for (const formula of ['PMT(-4.5,10,2.5)', 'IPMT(-4.5,8,10,2.5)', 'PPMT(-4.5,8,10,2.5)'])
      expect(evaluate(formula)).toMatchObject({ code: '#NUM!' });
  });
  it('CUMIPMT and CUMPRINC cut periods and type to whole numbers: MS, WorksheetFunction.CumIPmt, and MS-OI29500 2.1.918', () => {
    // MS, CUMIPMT, first example.
    expect(evaluate('CUMIPMT(0.09/12,30*12,125000,13,24,0)')).toBeCloseTo(-11_135.23213, 5);
    for (const name of ['CUMIPMT', 'CUMPRINC']) {
      const whole = evaluate(`${name}(0.09/12,360,125000,13,360,1)`);
      expect(evaluate(`${name}(0.09/12,360.9,125000,13.9,360.7,1.2)`)).toBe(whole);
    }
  });
});

describe('rates of every size', () => {
  it('EFFECT, NOMINAL, RRI, PDURATION, MIRR', () => {
    for (const { rate: signed, periods, present } of LOANS) {
      const rate = Math.abs(signed);
      holds(`EFFECT(${rate},${periods})`, effective(rate, periods));
      holds(`NOMINAL(${rate},${periods})`, nominal(rate, periods));
      // A formula keeps 15 digits of a number.
      const future = Number((present + Math.max(1e-9, present * rate)).toPrecision(15));
      holds(`RRI(${periods},${present},${future})`, rateBetween(present, future, periods));
      holds(`PDURATION(${rate},${present},${future})`, periodsBetween(rate, present, future));
      holds(`MIRR({${-present},${future}},${rate},${rate})`, rateBetween(present, future, 1));
    }
  });
  it('NPV and DDB', () => {
    for (const { rate, period, periods, present } of LOANS) {
      holds(`NPV(${rate},${present},${periods})`, grown(rate, -1).mul(present).plus(grown(rate, -2).mul(periods)));
      const factor = Math.abs(rate);
      const part = exact(factor).div(periods);
      const left = exact(1)
        .minus(part)
        .pow(period - 1);
      holds(`DDB(${present},0,${periods},${period},${factor})`, left.mul(present).mul(part));
    }
  });
});
