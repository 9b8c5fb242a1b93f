/**
 * Loans and rates with 300 digits: the equation that Microsoft's page on PV prints, and the definitions of its pages on IPMT,
 * PPMT, NPER, EFFECT and NOMINAL. What a calculator gives is held against them where two calculators differ by digits.
 */
import Decimal from 'decimal.js';

const Exact = Decimal.clone({ precision: 300 });
export type Exact = Decimal;

/** A number with all digits that it has in binary: where two are nearly equal, those say by how much they differ. */
export const exact = (value: number): Exact => new Exact(`${value < 0 ? '-' : ''}0b${Math.abs(value).toString(2)}`);

export interface Loan {
  readonly rate: number;
  readonly periods: number;
  readonly present: number;
  readonly future: number;
  /** 1 where payments are made at the start of each period, else 0. */
  readonly due: number;
}

/** What 1 grows to. */
export const grown = (rate: number, periods: number): Exact => new Exact(rate).plus(1).pow(periods);

/** What a payment of 1 each period is worth at the end. */
export const worthOfPayments = (rate: number, periods: number, due: number): Exact =>
  grown(rate, periods)
    .minus(1)
    .div(rate)
    .mul(due ? new Exact(rate).plus(1) : 1);

export const payment = ({ rate, periods, present, future, due }: Loan): Exact =>
  grown(rate, periods)
    .mul(present)
    .plus(future)
    .neg()
    .div(worthOfPayments(rate, periods, due));

/** What is owed when a period begins; with payments at the start, after that payment. */
function owed(loan: Loan, period: number): Exact {
  const { rate, present, due } = loan;
  const before = period - 1 - (due ? 1 : 0);
  if (before < 0) return new Exact(0);
  const paid = payment(loan);
  const balance = grown(rate, before)
    .mul(present)
    .plus(paid.mul(worthOfPayments(rate, before, due)));
  return due ? balance.plus(paid) : balance;
}

export const interest = (loan: Loan, period: number): Exact => owed(loan, period).mul(loan.rate).neg();
export const principal = (loan: Loan, period: number): Exact => payment(loan).minus(interest(loan, period));

/** Periods until payments have brought a loan to its future value. */
export function periodsOf({ rate, present, future, due }: Omit<Loan, 'periods'>, each: number): Exact {
  const r = new Exact(rate);
  const part = new Exact(each).mul(due ? r.plus(1) : 1);
  const ratio = part.minus(r.mul(future)).div(part.plus(r.mul(present)));
  return ratio.ln().div(r.plus(1).ln());
}

export const effective = (nominal: number, periods: number): Exact =>
  new Exact(nominal).div(periods).plus(1).pow(periods).minus(1);
export const nominal = (effective_: number, periods: number): Exact =>
  new Exact(effective_).plus(1).pow(new Exact(1).div(periods)).minus(1).mul(periods);
/** The rate at which one amount grows to another. */
export const rateBetween = (from: number, to: number, periods: number): Exact =>
  exact(to).div(exact(from)).pow(new Exact(1).div(periods)).minus(1);
/** Periods in which it does at a rate. */
export const periodsBetween = (rate: number, from: number, to: number): Exact =>
  exact(to).div(exact(from)).ln().div(new Exact(rate).plus(1).ln());
