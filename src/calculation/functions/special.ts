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

const MOST_TERMS = 10_000;
const TINY = 1e-300;

/** Lower incomplete gamma function of a over gamma(a): the part of a gamma distribution below x. */
export function gammaPart(a: number, x: number): number {
  if (x <= 0) return 0;
  if (x >= a + 1) return 1 - gammaTail(a, x);
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_TERMS && Math.abs(term) > Math.abs(sum) * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * Math.exp(-x + a * Math.log(x) - logGamma(a));
}

/** The part above x, by a continued fraction where x is large. */
export function gammaTail(a: number, x: number): number {
  if (x <= 0) return 1;
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
  return h * Math.exp(-x + a * Math.log(x) - logGamma(a));
}

const nonZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);

/** Regularized incomplete beta function: the part of a beta distribution below x. */
export function betaPart(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b;
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
