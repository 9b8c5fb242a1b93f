/** Integrals of smooth functions over an interval, to about the last digit. */

const NODES = 16;

/** Abscissas and weights of Gauss-Legendre quadrature on -1..1: roots of the Legendre polynomial by Newton's method. */
const RULE: readonly (readonly [node: number, weight: number])[] = Array.from({ length: NODES }, (_, index) => {
  let x = Math.cos((Math.PI * (index + 0.75)) / (NODES + 0.5));
  let slope = 1;
  for (let step = 0; step < 8; step++) {
    let [before, value] = [1, x];
    for (let n = 2; n <= NODES; n++) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
    slope = (NODES * (x * value - before)) / (x * x - 1);
    x -= value / slope;
  }
  return [x, 2 / ((1 - x * x) * slope * slope)];
});

function panel(f: (s: number) => number, from: number, to: number): number {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  let sum = 0;
  for (const [node, weight] of RULE) sum += weight * f(middle + half * node);
  return sum * half;
}

/** Change between one panel and two that is taken as converged, of the value or of 1. */
const ENOUGH = 1e-12;
const DEEPEST = 20;

function refine(f: (s: number) => number, from: number, to: number, whole: number, depth: number): number {
  const middle = (from + to) / 2;
  const left = panel(f, from, middle);
  const right = panel(f, middle, to);
  if (depth >= DEEPEST || Math.abs(left + right - whole) <= ENOUGH * Math.max(Math.abs(whole), 1e-3))
    return left + right;
  return refine(f, from, middle, left, depth + 1) + refine(f, middle, to, right, depth + 1);
}

/**
 * Integral of `f`, halving the interval until it no longer changes.
 * @param breaks places in rising order where f or a derivative jumps; no panel runs across one
 */
export function integrate(f: (s: number) => number, from: number, to: number, breaks: readonly number[] = []): number {
  let sum = 0;
  let start = from;
  for (const end of [...breaks.filter((place) => place > from && place < to), to]) {
    if (end > start) sum += refine(f, start, end, panel(f, start, end), 0);
    start = end;
  }
  return sum;
}
