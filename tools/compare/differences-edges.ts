/** Differences from LibreOffice 7.4 at the edges of what a function takes: where it gives up, or overflows. */
import { numbersOf, type Call } from './case';
import { effective, interest, nominal, periodsOf, principal, rateBetween, type Exact } from './exact-loans';
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
    why: 'a negative number of which no digit or only zeros are left keeps its sign: from memory, verify; LibreOffice drops it',
    applies: (one) =>
      typeof one.ours === 'string' &&
      /^-[0-]*$/.test(one.ours) &&
      one.theirs === one.ours.slice(1) &&
      one.some('TEXT', ([value]) => (numberOf(value) ?? 0) < 0),
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
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('GAMMA.DIST|GAMMADIST', ([x]) => (numberOf(x) ?? 0) < 0),
  },
  {
    why: 'x that is not whole is cut, and -0.5 is then 0: MS, POISSON.DIST ("If x is not an integer, it is truncated"; #NUM! below 0); LibreOffice has an error before it cuts',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('POISSON|POISSON.DIST', ([x]) => (numberOf(x) ?? 0) < 0 && Math.trunc(numberOf(x) ?? 0) === 0),
  },
  {
    why: 'more characters than the text has are all of it: MS, RIGHT ("If num_chars is greater than the length of text"); LibreOffice has an error above 2147483647',
    applies: (one) =>
      isError(one.theirs) && one.some('LEFT|RIGHT', ([, count]) => (numberOf(count) ?? 0) > 2 ** 31 - 1),
  },
  {
    why: 'a blank cell that IF gives is 0 as a number: MS, IF, whose result is the value of its argument; LibreOffice has an error in NEGBINOMDIST',
    applies: (one) =>
      isError(one.theirs) &&
      one.some('NEGBINOMDIST', (args, { nodes }) =>
        args.some((arg, index) => arg === null && nodes[index]?.kind === 'call' && nodes[index].name === 'IF'),
      ),
  },
  {
    why: 'the rank of the only value is 1/(1+1): MS, PERCENTRANK.EXC, whose first example has 7/(9+1); LibreOffice has 1',
    applies: (one) => one.some('PERCENTRANK.EXC', ([list]) => numbersOf(list).length === 1),
  },
  {
    why: 'ours is right to 12 digits by the equation of MS, PV, and the pages on IPMT, PPMT and NOMINAL, computed with 60 digits; LibreOffice loses digits in a difference',
    applies: ({ ours, calls: [outermost] }) => {
      if (typeof ours !== 'number' || !outermost) return false;
      const right = exactly(outermost);
      return right?.isFinite() === true && right.minus(ours).abs().lte(right.abs().mul(1e-12));
    },
  },
];

/** As many arguments as the longest takes; 0 for those that are left out. */
type Six = readonly [number, number, number, number, number, number];

/** Functions of loans and rates by their arguments, with 60 digits; undefined where the equation has no such case. */
const EXACTLY: Readonly<Record<string, (given: Six) => Exact | undefined>> = {
  IPMT: ([rate, period, periods, present, future, due]) =>
    rate === 0 ? undefined : interest({ rate, periods, present, future, due }, period),
  PPMT: ([rate, period, periods, present, future, due]) =>
    rate === 0 ? undefined : principal({ rate, periods, present, future, due }, period),
  NPER: ([rate, each, present, future, due]) =>
    rate <= -1 || rate === 0 ? undefined : periodsOf({ rate, present, future, due }, each),
  EFFECT: ([rate, periods]) => effective(rate, Math.trunc(periods)),
  NOMINAL: ([rate, periods]) => nominal(rate, Math.trunc(periods)),
  RRI: ([periods, present, future]) => rateBetween(present, future, periods),
};
const MOST_ARGUMENTS = 6;

/** What a function gives exactly; undefined for other functions and where an argument is no number. */
function exactly({ name, args }: Call): Exact | undefined {
  const numbers = Array.from({ length: MOST_ARGUMENTS }, (_one, index) => numberOf(args[index]));
  return numbers.includes(undefined) ? undefined : EXACTLY[name]?.(numbers as unknown as Six);
}
