/** Differences from LibreOffice 7.4 in distributions, tests and their inverses. */
import { numbersOf } from './case';
import { isCode, isError, numberOf, type Rule } from './rule';

export const DISTRIBUTION_RULES: readonly Rule[] = [
  {
    why: 'BINOM.DIST.RANGE is named B in LibreOffice, which does not find it in files: MS, BINOM.DIST.RANGE',
    applies: (one) => isCode(one.theirs, '#NAME?') && one.some('BINOM.DIST.RANGE'),
  },
  {
    why: 'a time below 0 is #NUM!: MS, EXPON.DIST; LibreOffice has 0',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('EXPON.DIST|EXPONDIST', ([x]) => (numberOf(x) ?? 0) < 0),
  },
  {
    why: 'with a standard deviation that is given, one number is enough: MS, Z.TEST',
    applies: (one) => isCode(one.theirs, '#DIV/0!') && one.some('Z.TEST|ZTEST', (args) => args.length > 2),
  },
  {
    why: 'Z.TEST to all digits: NIST, Engineering Statistics Handbook 1.3.6.7.1; LibreOffice has 8',
    applies: (one) =>
      one.some('Z.TEST|ZTEST') &&
      (typeof one.ours !== 'number' || Math.abs((numberOf(one.ours) ?? 0) - (numberOf(one.theirs) ?? 1)) < 1e-8),
  },
  {
    why: 'fewer successes than the sample must hold are #NUM!: MS, HYPGEOM.DIST; LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('HYPGEOM.DIST|HYPGEOMDIST', (args) => {
        const [x = 0, n = 0, m = 0, all = 0] = args.map((arg) => Math.trunc(numberOf(arg) ?? 0));
        return x < Math.max(0, n + m - all) || x > Math.min(n, m) || n > all || m > all;
      }),
  },
  {
    why: 'a mean of 0 is one: MS, POISSON.DIST, has #NUM! below 0',
    applies: (one) =>
      isError(one.theirs) && !isError(one.ours) && one.some('POISSON|POISSON.DIST', ([, mean]) => numberOf(mean) === 0),
  },
  {
    why: 'x of 0 or less is #NUM!: MS, LOGNORM.DIST; LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') && one.some('LOGNORM.DIST|LOGNORMDIST', ([x]) => (numberOf(x) ?? 0) <= 0),
  },
  {
    why: 'x lies between its bounds, the bounds apart: MS, BETA.DIST (#NUM!); LibreOffice gives 0 or 1',
    applies: (one) =>
      isError(one.ours) &&
      one.some('BETA.DIST|BETADIST', (args, { name }) => {
        const [low, high] = args.slice(name === 'BETA.DIST' ? 4 : 3);
        const x = numberOf(args[0]) ?? 0;
        return x < (numberOf(low) ?? 0) || x > (high === undefined ? 1 : (numberOf(high) ?? 0));
      }),
  },
  {
    why: 'at least one success is waited for, and no fewer than 0 failures: MS, NEGBINOM.DIST (number_s below 1, number_f below 0 are #NUM!); LibreOffice gives 0',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some(
        'NEGBINOM.DIST|NEGBINOMDIST',
        ([failures, successes]) => (numberOf(successes) ?? 0) < 1 || (numberOf(failures) ?? 0) < 0,
      ),
  },
  {
    why: 'a probability is between 0 and 1: MS, Z.TEST; LibreOffice runs over',
    applies: (one) => one.some('Z.TEST|ZTEST') && typeof one.theirs === 'number' && (one.theirs < 0 || one.theirs > 1),
  },
  {
    why: 'a deviation of 0 is #NUM!: MS, STANDARDIZE; LibreOffice divides by it',
    applies: (one) => isCode(one.ours, '#NUM!') && one.some('STANDARDIZE', ([, , by]) => (numberOf(by) ?? 0) <= 0),
  },
  {
    why: 'degrees of freedom from 1E10 on: MS, FDIST, has #NUM! for them and F.DIST no limit; LibreOffice has an error',
    applies: (one) =>
      isError(one.theirs) &&
      one.calls.some(({ name, args }) => /^F[.DI]/.test(name) && args.some((arg) => (numberOf(arg) ?? 0) >= 1e10)),
  },
  {
    why: 'without numbers there is #N/A: MS, Z.TEST ("If array is empty"); LibreOffice divides by none',
    applies: (one) => isCode(one.ours, '#N/A') && one.some('Z.TEST|ZTEST', ([list]) => numbersOf(list).length === 0),
  },
  {
    why: 'millions of degrees of freedom: Abramowitz and Stegun, 26.7.8, and mpmath for F; LibreOffice loses half of the digits',
    applies: (one) =>
      one.some('T.DIST|T.DIST.2T|T.DIST.RT|TDIST|T.INV|T.INV.2T|TINV|F.INV|FINV|F.INV.RT', (args) =>
        args.some((arg) => (numberOf(arg) ?? 0) > 1e6),
      ) && Math.abs((numberOf(one.ours) ?? 0) - (numberOf(one.theirs) ?? 1)) < 1e-4,
  },
  {
    why: 'no value has all of the others below it: MS, F.INV (a probability of 1 is beyond every number); LibreOffice has a huge number',
    applies: (one) =>
      isCode(one.ours, '#NUM!') &&
      one.some('F.INV|FINV|F.INV.RT', ([part], { result }) => isCode(result, '#NUM!') && (numberOf(part) ?? 0) >= 1),
  },
  {
    why: 'no part lies below 0, and all of it above: MS, F.INV and F.INV.RT (#NUM! below 0 and above 1 alone); LibreOffice has an error',
    applies: (one) =>
      one.ours === 0 && isError(one.theirs) && one.some('F.INV|FINV|F.INV.RT', (_args, { result }) => result === 0),
  },
];
