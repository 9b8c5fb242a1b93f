/** Probability distributions and tests. Source: Microsoft, the page of each function; OpenFormula 1.3, 6.18 (Statistical Functions). */
import type { CellError } from '../../sheet';
import { failure, finite, toFlag, toMatrix, type Value } from '../values';
import { mean, numbersOf, squares, total } from './aggregates';
import {
  cells,
  fn,
  integerOf,
  NUM,
  numberOf,
  numbersFrom,
  numeric,
  sizeOf,
  unlessError,
  type Family,
  type FunctionSpec,
} from './define';
import { pairsOf } from './regression';
import {
  betaFront,
  betaPart,
  combinations,
  erf,
  erfc,
  gamma,
  gammaFront,
  gammaPart,
  gammaTail,
  inverse,
  logGamma,
  normalDensity,
  normalInverse,
  normalPart,
} from './special';

const isPart = (p: number): boolean => p > 0 && p < 1;

/** A distribution. Its last argument is a flag: TRUE asks for the part up to x, FALSE for the density at x. */
const distribution = (
  numbers: number,
  density: (...given: number[]) => number,
  part: (...given: number[]) => number,
  allowed: (...given: number[]) => boolean,
): FunctionSpec =>
  cells(numbers + 1, numbers + 1, (...args) =>
    unlessError([numbersFrom(args.slice(0, numbers)), toFlag(args[numbers])], (given, cumulative) =>
      allowed(...given) ? finite((cumulative ? part : density)(...given)) : NUM(),
    ),
  );

/** A function of numbers that is #NUM! where its condition does not hold. */
const where = (
  min: number,
  max: number,
  allowed: (...given: number[]) => boolean,
  apply: (...given: number[]) => number,
): FunctionSpec => numeric(min, max, (...given) => (allowed(...given) ? finite(apply(...given)) : NUM()));

const t = Math.trunc;

// Normal
const normalOk = (_x: number, _mean: number, deviation: number): boolean => deviation > 0;
const normalD = (x: number, m: number, s: number): number => normalDensity((x - m) / s) / s;
const normalP = (x: number, m: number, s: number): number => normalPart((x - m) / s);
const logOk = (x: number, _m: number, s: number): boolean => x > 0 && s > 0;

// Student, Fisher, chi-squared
/** From so many degrees of freedom on the beta function loses digits. */
const MANY_DF = 1e6;
/** The part beyond x. With many degrees of freedom by Abramowitz and Stegun, 26.7.8, whose error is of the order of 1/df². */
const studentTail = (x: number, df: number): number =>
  df > MANY_DF
    ? normalPart((-Math.abs(x) * (1 - 1 / (4 * df))) / Math.sqrt(1 + (x * x) / (2 * df)))
    : betaPart(df / (df + x * x), df / 2, 0.5, (x * x) / (df + x * x)) / 2;
const studentPart = (x: number, df: number): number => (x < 0 ? studentTail(x, df) : 1 - studentTail(x, df));
/** Nearer to 0 the density changes in no digit. */
const studentDensity = (x: number, df: number): number => {
  const size = Math.max(Math.abs(x), 1e-9);
  const square = size * size;
  return betaFront(df / 2, 0.5, df / (df + square), square / (df + square)) / size;
};
const studentInverse = (p: number, df: number): number =>
  p === 0.5 ? 0 : p < 0.5 ? -inverse((x) => -studentTail(x, df), -p, 0, 10) : -studentInverse(1 - p, df);
/** The x for which a given part of the distribution lies below -x and above x together. */
const studentTwoInverse = (p: number, df: number): number =>
  p === 1 ? 0 : inverse((x) => -2 * studentTail(x, df), -p, 0, 10);
const fisherPart = (x: number, a: number, b: number): number =>
  betaPart((a * x) / (a * x + b), a / 2, b / 2, b / (a * x + b));
const fisherTail = (x: number, a: number, b: number): number =>
  betaPart(b / (a * x + b), b / 2, a / 2, (a * x) / (a * x + b));
const fisherDensity = (x: number, a: number, b: number): number => {
  if (x === 0) return a === 2 ? 1 : a < 2 ? Infinity : 0;
  return betaFront(a / 2, b / 2, (a * x) / (a * x + b), b / (a * x + b)) / x;
};
const chiPart = (x: number, df: number): number => gammaPart(df / 2, x / 2);
const chiTail = (x: number, df: number): number => gammaTail(df / 2, x / 2);
const freedom = (df: number): boolean => t(df) >= 1 && df <= 1e10;

// Gamma, beta, Weibull, exponential
const gammaDensity = (x: number, a: number, b: number): number =>
  x === 0 ? (a < 1 ? Infinity : a === 1 ? 1 / b : 0) : gammaFront(a, x / b) / x;
const gammaOk = (x: number, a: number, b: number): boolean => x >= 0 && a > 0 && b > 0;
const weibullP = (x: number, a: number, b: number): number => -Math.expm1(-((x / b) ** a));
const weibullD = (x: number, a: number, b: number): number => (a / b ** a) * x ** (a - 1) * Math.exp(-((x / b) ** a));
const betaOk = (x: number, a: number, b: number, low = 0, high = 1): boolean =>
  a > 0 && b > 0 && x >= low && x <= high && low < high;
const betaP = (x: number, a: number, b: number, low = 0, high = 1): number => betaPart((x - low) / (high - low), a, b);
const betaD = (x: number, a: number, b: number, low = 0, high = 1): number => {
  const z = (x - low) / (high - low);
  // At the ends the density is 0, a number or beyond all: its factors say which.
  if (z === 0 || z === 1)
    return (Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b)) * z ** (a - 1) * (1 - z) ** (b - 1)) / (high - low);
  return betaFront(a, b, z) / (z * (1 - z) * (high - low));
};

// Counting distributions
const binomialD = (k: number, n: number, p: number): number =>
  n < 1000 || k === 0 || k === n || p === 0 || p === 1
    ? combinations(n, k) * p ** k * (1 - p) ** (n - k)
    : (betaFront(k, n - k, p) * n) / (k * (n - k));
const binomialP = (k: number, n: number, p: number): number =>
  k >= n ? 1 : p === 0 ? 1 : p === 1 ? 0 : betaPart(1 - p, n - k, k + 1, p);
const binomialOk = (k: number, n: number, p: number): boolean => t(k) >= 0 && t(k) <= t(n) && p >= 0 && p <= 1;
/** With more trials than this the result is found by halving an interval, and not by counting up. */
const FEW_TRIALS = 1000;
function binomialInverse(n: number, p: number, alpha: number): number {
  // Rounded sums come to 1 before all trials are counted.
  if (alpha === 1) return p === 0 ? 0 : n;
  if (n > FEW_TRIALS) return firstWith((k) => binomialP(k, n, p) >= alpha, n);
  let sum = 0;
  for (let k = 0; k < n; k++) {
    sum += binomialD(k, n, p);
    if (sum >= alpha) return k;
  }
  return n;
}
/** The least whole number up to n for which a condition holds, given that it holds for every larger one too. */
function firstWith(holds: (k: number) => boolean, n: number): number {
  let [low, high] = [0, n];
  while (low < high) {
    const middle = low + Math.floor((high - low) / 2);
    if (holds(middle)) high = middle;
    else if (middle + 1 > low) low = middle + 1;
    // Beyond 2^53 there is no next whole number.
    else return high;
  }
  return low;
}
const poissonD = (k: number, m: number): number => (k === 0 ? Math.exp(-m) : m === 0 ? 0 : gammaFront(k, m) / k);
/** Large populations by binomial probabilities, whose factors do not cancel: C. Loader (2000). */
const hyperD = (k: number, n: number, good: number, all: number): number =>
  all < 500 || n === all
    ? (combinations(good, k) * combinations(all - good, n - k)) / combinations(all, n)
    : (binomialD(k, good, n / all) * binomialD(n - k, all - good, n / all)) / binomialD(n, all, n / all);
/** From here on there is no next whole number. */
const MOST_OF_ALL = 2 ** 53;
const hyperOk = (k: number, n: number, good: number, all: number): boolean =>
  all < MOST_OF_ALL &&
  t(k) >= 0 &&
  n <= all &&
  good <= all &&
  t(k) <= Math.min(n, good) &&
  t(k) >= Math.max(0, n - all + good) &&
  n > 0 &&
  good > 0;
/** The sum goes away from the mean, so that its parts get smaller, and ends where they no longer change it. */
const hyperP = (k: number, n: number, good: number, all: number): number => {
  const isBelow = k <= (n * good) / all;
  const [from, last, step] = isBelow ? [k, Math.max(0, n - all + good), -1] : [k + 1, Math.min(n, good), 1];
  let sum = 0;
  for (let i = from; step < 0 ? i >= last : i <= last; i += step) {
    const part = hyperD(i, n, good, all);
    sum += part;
    if (part < sum * 1e-17) break;
  }
  return isBelow ? sum : 1 - sum;
};
const negativeD = (f: number, s: number, p: number): number =>
  f + s < 1000 ? combinations(f + s - 1, s - 1) * p ** s * (1 - p) ** f : f === 0 ? p ** s : betaFront(s, f, p) / f;
const whole =
  (count: number, apply: (...given: number[]) => number) =>
  (...given: number[]): number =>
    apply(...given.map((number, index) => (index < count ? t(number) : number)));

const confidenceOk = (alpha: number, deviation: number, size: number): boolean =>
  isPart(alpha) && deviation > 0 && t(size) >= 1;

/** The variance of a sample. */
const variance = (numbers: readonly number[]): number => squares(numbers) / (numbers.length - 1);

/** Two lists of numbers, each of its own length. */
const ofTwo = <T>(first: Value, second: Value, apply: (a: number[], b: number[]) => T): T | CellError =>
  unlessError([numbersOf([first]), numbersOf([second])], apply);

const fTest = fn('vv', 2, ([first, second]) =>
  ofTwo(first, second, (a, b) => {
    if (a.length < 2 || b.length < 2) return failure('#DIV/0!');
    const [va, vb] = [variance(a), variance(b)];
    if (va === 0 || vb === 0) return failure('#DIV/0!');
    // Each tail is half of all then, to the last digit.
    if (va === vb && a.length === b.length) return 1;
    const part = fisherTail(va / vb, a.length - 1, b.length - 1);
    return finite(2 * Math.min(part, 1 - part));
  }),
);

const tTest = fn('vvcc', 4, ([first, second, tailsGiven, kindGiven]) =>
  unlessError([integerOf(tailsGiven), integerOf(kindGiven)], (tails, kind) => {
    if ((tails !== 1 && tails !== 2) || ![1, 2, 3].includes(kind)) return NUM();
    return unlessError(
      [kind === 1 ? paired(first, second) : unpaired(first, second, kind === 2)],
      ({ x, freedom: df }) => finite(tails * studentTail(x, df)),
    );
  }),
);

/** Where a distribution of Student's is asked. */
interface Point {
  readonly x: number;
  readonly freedom: number;
}

/** Cells stand in pairs; a pair of which one is no number is left out, as in correlations (from memory, verify). */
const paired = (first: Value, second: Value): Point | CellError =>
  unlessError([pairsOf(first, second)], ({ a, b }) => {
    if (a.length < 2) return failure('#DIV/0!');
    const apart = a.map((x, index) => x - b[index]!);
    const error = Math.sqrt(variance(apart) / apart.length);
    return error === 0 ? failure('#DIV/0!') : { x: mean(apart) / error, freedom: apart.length - 1 };
  });

const unpaired = (first: Value, second: Value, sameVariance: boolean): Point | CellError =>
  ofTwo(first, second, (a, b) => {
    const [n, m] = [a.length, b.length];
    if (n < 2 || m < 2) return failure('#DIV/0!');
    const [va, vb] = [variance(a), variance(b)];
    const apart = mean(a) - mean(b);
    if (sameVariance) {
      const pooled = (va * (n - 1) + vb * (m - 1)) / (n + m - 2);
      return pooled === 0 ? failure('#DIV/0!') : { x: apart / Math.sqrt(pooled * (1 / n + 1 / m)), freedom: n + m - 2 };
    }
    const [ea, eb] = [va / n, vb / m];
    if (ea + eb === 0) return failure('#DIV/0!');
    return { x: apart / Math.sqrt(ea + eb), freedom: (ea + eb) ** 2 / (ea ** 2 / (n - 1) + eb ** 2 / (m - 1)) };
  });

const zTest = fn('vcc', 2, ([range, x, deviation]) =>
  unlessError([numbersOf([range]), numberOf(x)], (numbers, value) => {
    if (!numbers.length) return failure('#N/A');
    return unlessError([deviation === undefined ? Math.sqrt(variance(numbers)) : numberOf(deviation)], (given) => {
      if (!(given > 0)) return numbers.length < 2 || given === 0 ? failure('#DIV/0!') : NUM();
      return finite(normalPart((value - mean(numbers)) / (given / Math.sqrt(numbers.length))));
    });
  }),
);

const chiTest = fn('vv', 2, ([actual, expected]) =>
  unlessError([pairsOf(actual, expected)], ({ a, b }) => {
    const { rows, columns } = sizeOf(toMatrix(actual));
    if (rows !== toMatrix(expected).length || rows * columns < 2) return failure('#N/A');
    if (b.includes(0)) return failure('#DIV/0!');
    const sum = total(a.map((x, index) => (x - b[index]!) ** 2 / b[index]!));
    return finite(chiTail(sum, rows === 1 || columns === 1 ? rows * columns - 1 : (rows - 1) * (columns - 1)));
  }),
);

export const distributionFunctions: Family = {
  'NORM.DIST': distribution(3, normalD, normalP, normalOk),
  NORMDIST: 'NORM.DIST',
  'NORM.INV': where(
    3,
    3,
    (p, _m, s) => isPart(p) && s > 0,
    (p, m, s) => m + s * normalInverse(p),
  ),
  NORMINV: 'NORM.INV',
  'NORM.S.DIST': distribution(1, normalDensity, normalPart, () => true),
  NORMSDIST: numeric(1, 1, (z) => finite(normalPart(z))),
  'NORM.S.INV': where(1, 1, isPart, normalInverse),
  NORMSINV: 'NORM.S.INV',
  'LOGNORM.DIST': distribution(
    3,
    (x, m, s) => normalD(Math.log(x), m, s) / x,
    (x, m, s) => normalP(Math.log(x), m, s),
    logOk,
  ),
  LOGNORMDIST: where(3, 3, logOk, (x, m, s) => normalP(Math.log(x), m, s)),
  'LOGNORM.INV': where(
    3,
    3,
    (p, _m, s) => isPart(p) && s > 0,
    (p, m, s) => Math.exp(m + s * normalInverse(p)),
  ),
  LOGINV: 'LOGNORM.INV',
  PHI: numeric(1, 1, (z) => finite(normalDensity(z))),
  GAUSS: numeric(1, 1, (z) => finite(erf(z / Math.SQRT2) / 2)),
  STANDARDIZE: where(3, 3, normalOk, (x, m, s) => (x - m) / s),
  'CONFIDENCE.NORM': where(
    3,
    3,
    confidenceOk,
    (alpha, deviation, size) => (-normalInverse(alpha / 2) * deviation) / Math.sqrt(t(size)),
  ),
  CONFIDENCE: 'CONFIDENCE.NORM',
  'CONFIDENCE.T': numeric(3, 3, (alpha, deviation, size) =>
    !confidenceOk(alpha, deviation, size)
      ? NUM()
      : t(size) === 1
        ? failure('#DIV/0!')
        : finite((studentTwoInverse(alpha, t(size) - 1) * deviation) / Math.sqrt(t(size))),
  ),
  'T.DIST': distribution(
    2,
    (x, df) => studentDensity(x, t(df)),
    (x, df) => studentPart(x, t(df)),
    (_x, df) => freedom(df),
  ),
  'T.DIST.RT': where(
    2,
    2,
    (_x, df) => freedom(df),
    (x, df) => studentPart(-x, t(df)),
  ),
  'T.DIST.2T': where(
    2,
    2,
    (x, df) => x >= 0 && freedom(df),
    (x, df) => 2 * studentTail(x, t(df)),
  ),
  TDIST: numeric(3, 3, (x, df, tails) =>
    x < 0 || t(df) < 1 || (t(tails) !== 1 && t(tails) !== 2) ? NUM() : finite(t(tails) * studentTail(x, t(df))),
  ),
  'T.INV': where(
    2,
    2,
    (p, df) => isPart(p) && freedom(df),
    (p, df) => studentInverse(p, t(df)),
  ),
  'T.INV.2T': where(
    2,
    2,
    (p, df) => p > 0 && p <= 1 && freedom(df),
    (p, df) => studentTwoInverse(p, t(df)),
  ),
  TINV: 'T.INV.2T',
  'F.DIST': distribution(
    3,
    (x, a, b) => fisherDensity(x, t(a), t(b)),
    (x, a, b) => fisherPart(x, t(a), t(b)),
    (x, a, b) => x >= 0 && freedom(a) && freedom(b),
  ),
  'F.DIST.RT': where(
    3,
    3,
    (x, a, b) => x >= 0 && freedom(a) && freedom(b),
    (x, a, b) => fisherTail(x, t(a), t(b)),
  ),
  FDIST: 'F.DIST.RT',
  'F.INV': where(
    3,
    3,
    (p, a, b) => p >= 0 && p < 1 && freedom(a) && freedom(b),
    (p, a, b) => inverse((x) => fisherPart(x, t(a), t(b)), p, 0, 10),
  ),
  'F.INV.RT': where(
    3,
    3,
    (p, a, b) => p > 0 && p <= 1 && freedom(a) && freedom(b),
    (p, a, b) => inverse((x) => -fisherTail(x, t(a), t(b)), -p, 0, 10),
  ),
  FINV: 'F.INV.RT',
  'CHISQ.DIST': distribution(
    2,
    (x, df) => gammaDensity(x, t(df) / 2, 2),
    (x, df) => chiPart(x, t(df)),
    (x, df) => x >= 0 && freedom(df),
  ),
  'CHISQ.DIST.RT': where(
    2,
    2,
    (x, df) => x >= 0 && freedom(df),
    (x, df) => chiTail(x, t(df)),
  ),
  CHIDIST: 'CHISQ.DIST.RT',
  'CHISQ.INV': where(
    2,
    2,
    (p, df) => p >= 0 && p < 1 && freedom(df),
    (p, df) => inverse((x) => chiPart(x, t(df)), p, 0, t(df)),
  ),
  'CHISQ.INV.RT': where(
    2,
    2,
    (p, df) => p > 0 && p <= 1 && freedom(df),
    (p, df) => inverse((x) => -chiTail(x, t(df)), -p, 0, t(df)),
  ),
  CHIINV: 'CHISQ.INV.RT',
  'GAMMA.DIST': distribution(3, gammaDensity, (x, a, b) => gammaPart(a, x / b), gammaOk),
  GAMMADIST: 'GAMMA.DIST',
  'GAMMA.INV': where(
    3,
    3,
    (p, a, b) => p >= 0 && p < 1 && a > 0 && b > 0,
    (p, a, b) => b * inverse((x) => gammaPart(a, x), p, 0, a),
  ),
  GAMMAINV: 'GAMMA.INV',
  GAMMALN: where(1, 1, (x) => x > 0, logGamma),
  'GAMMALN.PRECISE': 'GAMMALN',
  GAMMA: where(1, 1, (x) => x > 0 || !Number.isInteger(x), gamma),
  // x, alpha, beta, the flag, and bounds that may be left out.
  'BETA.DIST': cells(4, 6, (x, a, b, flag, ...bounds) =>
    unlessError([numbersFrom([x, a, b, ...bounds]), toFlag(flag)], (numbers, cumulative) => {
      const given = numbers as [number, number, number, number, number];
      return betaOk(...given) ? finite((cumulative ? betaP : betaD)(...given)) : NUM();
    }),
  ),
  BETADIST: where(3, 5, betaOk, betaP),
  'BETA.INV': where(
    3,
    5,
    // Microsoft, page on BETA.INV: #NUM! for a probability of 0 or less, or above 1.
    (p, a, b, low = 0, high = 1) => (isPart(p) || p === 1) && a > 0 && b > 0 && low < high,
    (p, a, b, low = 0, high = 1) => (p === 1 ? high : low + (high - low) * inverse((x) => betaPart(x, a, b), p, 0, 1)),
  ),
  BETAINV: 'BETA.INV',
  'WEIBULL.DIST': distribution(3, weibullD, weibullP, gammaOk),
  WEIBULL: 'WEIBULL.DIST',
  'EXPON.DIST': distribution(
    2,
    (x, rate) => rate * Math.exp(-rate * x),
    (x, rate) => -Math.expm1(-rate * x),
    (x, rate) => x >= 0 && rate > 0,
  ),
  EXPONDIST: 'EXPON.DIST',
  'BINOM.DIST': distribution(3, whole(2, binomialD), whole(2, binomialP), binomialOk),
  BINOMDIST: 'BINOM.DIST',
  'BINOM.DIST.RANGE': where(
    3,
    4,
    (n, p, low, high = low) => t(n) >= 0 && p >= 0 && p <= 1 && t(low) >= 0 && t(low) <= t(high) && t(high) <= t(n),
    (n, p, low, high = low) => binomialP(t(high), t(n), p) - (t(low) > 0 ? binomialP(t(low) - 1, t(n), p) : 0),
  ),
  'BINOM.INV': where(
    3,
    3,
    (n, p, alpha) => t(n) >= 0 && t(n) < MOST_OF_ALL && p >= 0 && p <= 1 && alpha >= 0 && alpha <= 1,
    (n, p, alpha) => binomialInverse(t(n), p, alpha),
  ),
  CRITBINOM: 'BINOM.INV',
  'POISSON.DIST': distribution(
    2,
    whole(1, poissonD),
    whole(1, (k, m) => gammaTail(k + 1, m)),
    (k, m) => t(k) >= 0 && m >= 0,
  ),
  POISSON: 'POISSON.DIST',
  'HYPGEOM.DIST': distribution(4, whole(4, hyperD), whole(4, hyperP), whole(4, hyperOk as never) as never),
  HYPGEOMDIST: where(
    4,
    4,
    (...given) => hyperOk(...(given.map(t) as [number, number, number, number])),
    whole(4, hyperD),
  ),
  'NEGBINOM.DIST': distribution(
    3,
    whole(2, negativeD),
    whole(2, (f, s, p) => betaPart(p, s, f + 1)),
    (f, s, p) => t(f) >= 0 && t(s) >= 1 && p >= 0 && p <= 1,
  ),
  NEGBINOMDIST: where(3, 3, (f, s, p) => t(f) >= 0 && t(s) >= 1 && p >= 0 && p <= 1, whole(2, negativeD)),
  FISHER: where(1, 1, (x) => Math.abs(x) < 1, Math.atanh),
  FISHERINV: numeric(1, 1, (x) => finite(Math.tanh(x))),
  ERF: numeric(1, 2, (low, high) => finite(high === undefined ? erf(low) : erf(high) - erf(low)), { takes: 'n' }),
  'ERF.PRECISE': numeric(1, 1, (x) => finite(erf(x)), { takes: 'n' }),
  ERFC: numeric(1, 1, (x) => finite(erfc(x)), { takes: 'n' }),
  'ERFC.PRECISE': 'ERFC',
  'F.TEST': fTest,
  FTEST: 'F.TEST',
  'T.TEST': tTest,
  TTEST: 'T.TEST',
  'Z.TEST': zTest,
  ZTEST: 'Z.TEST',
  'CHISQ.TEST': chiTest,
  CHITEST: 'CHISQ.TEST',
};
