/** Differences from LibreOffice 7.4 at the edges of what a function takes: where it gives up, or overflows. */
import { isCode, isError, numberOf, type Rule } from './rule';

export const EDGE_RULES: readonly Rule[] = [
  {
    why: 'the tail beyond 38 deviations is all there is, 0.5: GAUSS is NORM.S.DIST less 0.5 (MS, GAUSS), which is 1 there; LibreOffice overflows',
    applies: (one) => one.some('GAUSS', ([z]) => (numberOf(z) ?? 0) > 38) && Math.abs(numberOf(one.theirs) ?? 0) > 1,
  },
  {
    why: 'TYPE tells what a value is, 4 of a logical one: MS, TYPE; LibreOffice has 8 for a cell with a formula',
    applies: (one) => one.theirs === 8 && one.some('TYPE'),
  },
  {
    why: 'a negative number of which no digit is left keeps its sign: from memory, verify; LibreOffice drops it',
    applies: (one) =>
      one.ours === '-' && one.theirs === '' && one.some('TEXT', ([value]) => (numberOf(value) ?? 0) < 0),
  },
  {
    why: 'a rate that solves the equation of RATE is one: MS, RATE and PV (the equation); LibreOffice finds none',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('RATE', ([periods, payment, present]) => {
        const [n, paid, now] = [numberOf(periods), numberOf(payment), numberOf(present)];
        const rate = numberOf(one.ours);
        if (n === undefined || paid === undefined || now === undefined || !rate) return false;
        const grown = (1 + rate) ** n;
        return Math.abs(now * grown + (paid * (grown - 1)) / rate) <= 1e-6 * Math.abs(now * grown);
      }),
  },
  {
    why: 'x below 0 is #NUM!: MS, GAMMA.DIST; LibreOffice gives 0',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('GAMMA.?DIST', ([x]) => (numberOf(x) ?? 0) < 0),
  },
];
