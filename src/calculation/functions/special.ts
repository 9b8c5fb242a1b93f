/**
 * Special functions behind the distributions: gamma, incomplete gamma and beta, error function, and the inverse of a
 * rising function. Sources: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.1, 6.5, 7.1 and 26.5; Lanczos'
 * coefficients for g = 607/128 as P. Godfrey computed them ("A note on the computation of the convergent Lanczos complex
 * Gamma approximation", 2001; from memory, verify: the tests hold the results against published tables).
 */
const LANCZOS_G = 607 / 128;
const LANCZOS = [
  0.99999999999999709182, 57.156235665862923517, -59.597960355475491248, 14.136097974741747174, -0.49191381609762019978,
  0.33994649984811888699e-4, 0.46523628927048575665e-4, -0.98374475304879564677e-4, 0.15808870322491248884e-3,
  -0.21026444172410488319e-3, 0.2174396181152126432e-3, -0.16431810653676389022e-3, 0.84418223983852743293e-4,
  -0.2619083840158140867e-4, 0.36899182659531622704e-5,
];

/** Logarithm of the gamma function, for x above 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const base = x + LANCZOS_G - 0.5;
  let sum = LANCZOS[0]!;
  for (let k = 1; k < LANCZOS.length; k++) sum += LANCZOS[k]! / (x + k - 1);
  return Math.log(Math.sqrt(2 * Math.PI) * sum) + (x - 0.5) * Math.log(base) - base;
}

/** The gamma function; exact for whole numbers. */
export function gamma(x: number): number {
  if (Number.isInteger(x) && x > 0 && x < 172) {
    let product = 1;
    for (let k = 2; k < x; k++) product *= k;
    return product;
  }
  return x < 0.5 ? Math.PI / (Math.sin(Math.PI * x) * gamma(1 - x)) : Math.exp(logGamma(x));
}

const MOST_TERMS = 200_000;
const TINY = 1e-300;

/** log(1 + t) − t, to its last digit where t is small and the two nearly cancel. */
function logLess(t: number): number {
  if (Math.abs(t) > 0.5) return Math.log1p(t) - t;
  // log(1 + t) = 2(r + r³/3 + r⁵/5 + …) with r = t/(2 + t), and 2r − t = −rt: A&S 4.1.27.
  const r = t / (2 + t);
  let sum = 0;
  let power = r ** 3;
  for (let k = 3; Math.abs(power) > 1e-18 * Math.abs(sum); k += 2, power *= r * r) sum += power / k;
  return 2 * sum - r * t;
}

/** The same of a number that is (1 + t): where that is near 0 its own digits are more than those of t. */
const logLessOf = (ratio: number, t: number): number => (t < -0.5 ? Math.log(ratio) - t : logLess(t));

/** What Stirling's formula lacks: ln gamma(z) − (z − ½) ln z + z − ½ ln 2π. A&S 6.1.41. */
function stirlingRest(z: number): number {
  if (z < 16) return logGamma(z) - (z - 0.5) * Math.log(z) + z - 0.5 * Math.log(2 * Math.PI);
  const q = 1 / (z * z);
  return (1 / 12 - q * (1 / 360 - q * (1 / 1260 - q * (1 / 1680 - q * (1 / 1188 - (q * 691) / 360_360))))) / z;
}

/**
 * x^a e^−x / gamma(a), in which logarithms of large factors would cancel: it is written by how far x is from a.
 * Source: C. Loader, "Fast and Accurate Computation of Binomial Probabilities" (2000), whose way this is (from memory, verify).
 */
export function gammaFront(a: number, x: number): number {
  if (a < 16) return Math.exp(-x + a * Math.log(x) - logGamma(a));
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(a * logLessOf(x / a, (x - a) / a) - stirlingRest(a));
}

/** x^a y^b / B(a, b) with y = 1 − x, in the same way. */
export function betaFront(a: number, b: number, x: number, y = 1 - x): number {
  const [p, q] = [a / (a + b), b / (a + b)];
  const off = x < y ? x - p : q - y;
  const rest = stirlingRest(a + b) - stirlingRest(a) - stirlingRest(b);
  const exponent = a * logLessOf(x / p, off / p) + b * logLessOf(y / q, -off / q);
  return Math.sqrt((a * q) / (2 * Math.PI)) * Math.exp(exponent + rest);
}

/** From here on the series of the incomplete gamma function is too long where x is near a. */
const LARGE = 1e5;
const isBothLarge = (a: number, x: number): boolean => a > LARGE && Math.abs(x - a) < 0.1 * a;

/** Coefficients of N. Temme's uniform expansion for a large (1979), as NIST's DLMF has it in 8.12. */
const TEMME_0 = [-1 / 3, 1 / 12, -2 / 135, 1 / 864, 1 / 2835, -139 / 777_600, 1 / 25_515];
const TEMME_1 = [-1 / 540, -1 / 288, 1 / 378];

/** The part of a gamma distribution above x (`side` 1) or below it (-1), where both a and x are large. */
function gammaLarge(a: number, x: number, side: 1 | -1): number {
  const t = (x - a) / a;
  const half = Math.sqrt(Math.max(0, -logLess(t)));
  const eta = Math.sign(t) * half * Math.SQRT2;
  const series = (terms: readonly number[]): number => terms.reduceRight((sum, term) => sum * eta + term, 0);
  const rest = (Math.exp(-a * half * half) / Math.sqrt(2 * Math.PI * a)) * (series(TEMME_0) + series(TEMME_1) / a);
  return erfc((side * eta * Math.sqrt(a)) / Math.SQRT2) / 2 + side * rest;
}

/** Lower incomplete gamma function of a over gamma(a): the part of a gamma distribution below x. */
export function gammaPart(a: number, x: number): number {
  if (x <= 0) return 0;
  if (isBothLarge(a, x)) return gammaLarge(a, x, -1);
  if (x >= a + 1) return 1 - gammaTail(a, x);
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_TERMS && Math.abs(term) > Math.abs(sum) * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * gammaFront(a, x);
}

/** The part above x, by a continued fraction where x is large. */
export function gammaTail(a: number, x: number): number {
  if (x <= 0) return 1;
  if (isBothLarge(a, x)) return gammaLarge(a, x, 1);
  if (x < a + 1) return 1 - gammaPart(a, x);
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < MOST_TERMS; i++) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / nonZero(an * d + b);
    c = nonZero(b + an / c);
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return h * gammaFront(a, x);
}

const nonZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);

/**
 * Regularized incomplete beta function: the part of a beta distribution below x.
 * @param y 1 − x, where it is known to more digits
 */
export function betaPart(x: number, a: number, b: number, y = 1 - x): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  const front = betaFront(a, b, x, y);
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(y, b, a)) / b;
}

function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m < MOST_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return h;
}

export const erf = (x: number): number => (x < 0 ? -gammaPart(0.5, x * x) : gammaPart(0.5, x * x));
export const erfc = (x: number): number => (x < 0 ? 2 - gammaTail(0.5, x * x) : gammaTail(0.5, x * x));

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
export const normalPart = (z: number): number => erfc(-z / Math.SQRT2) / 2;

/** Where a rising function reaches a value, between two bounds; the upper one is doubled until it lies beyond. */
export function inverse(rising: (x: number) => number, value: number, low: number, high: number): number {
  if (rising(low) >= value) return low;
  let from = low;
  let to = high;
  while (Number.isFinite(to) && rising(to) < value && to < 1e300) {
    from = to;
    to = to * 2 + 1;
  }
  for (let step = 0; step < 400; step++) {
    const middle = (from + to) / 2;
    if (middle === from || middle === to) break;
    if (rising(middle) < value) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

export function normalInverse(part: number): number {
  if (part === 0.5) return 0;
  return part < 0.5 ? -inverse((z) => -erfc(z / Math.SQRT2) / 2, -part, 0, 40) : -normalInverse(1 - part);
}

/** Combinations of k out of n, exact as long as numbers are. */
export function combinations(n: number, k: number): number {
  let product = 1;
  const least = Math.min(k, n - k);
  // Each factor doubles it at least: it is beyond all numbers after a thousand.
  for (let i = 1; i <= least && product !== Infinity; i++) product = (product * (n - least + i)) / i;
  return product < 9e15 ? Math.round(product) : product;
}
