/**
 * Compound growth to its last digits. In (1 + rate)^periods a small rate loses the digits that the sum with 1 drops, and
 * what is then subtracted loses as many again. The functions log1p and expm1 keep them: they are made for this.
 * Source: N. Higham, "Accuracy and Stability of Numerical Algorithms", 2nd edition, 1.14.1 (from memory, verify).
 */

/** True where the sum of 1 and the rate is exact, so that a power of it is, too. */
const isExact = (rate: number): boolean => 1 + rate - 1 === rate;

/** Below this exponent the growth is so near 1 that subtracting 1 from it costs digits. */
const NEAR = 0.7;

/** (1 + rate)^periods: what 1 grows to. At a rate of -1 or less there is none but for whole periods. */
export const growth = (rate: number, periods: number): number =>
  rate <= -1 || isExact(rate) ? (1 + rate) ** periods : Math.exp(periods * Math.log1p(rate));

/** (1 + rate)^periods − 1: what 1 gains. */
export function gain(rate: number, periods: number): number {
  if (rate <= -1) return (1 + rate) ** periods - 1;
  const exponent = periods * Math.log1p(rate);
  return isExact(rate) && Math.abs(exponent) > NEAR ? (1 + rate) ** periods - 1 : Math.expm1(exponent);
}

/** What payments of 1 at the end of each period are worth at the end of the last one. */
export const worthAtEnd = (rate: number, periods: number): number =>
  rate === 0 ? periods : gain(rate, periods) / rate;

/** What they are worth at the start of the first one. */
export const worthAtStart = (rate: number, periods: number): number =>
  rate === 0 ? periods : -gain(rate, -periods) / rate;

/** True where two amounts are so near that their difference says more than their ratio. */
const areNear = (ratio: number): boolean => ratio > 0.5 && ratio < 2;

/** The rate at which one amount grows to another in so many periods. */
export function rateOfGrowth(from: number, to: number, periods: number): number {
  const ratio = to / from;
  return areNear(ratio) ? gain((to - from) / from, 1 / periods) : ratio ** (1 / periods) - 1;
}

/** ln(to / from). @param apart to − from, where that is known to more digits than the two */
export function logOfRatio(from: number, to: number, apart = to - from): number {
  const ratio = to / from;
  return areNear(ratio) ? Math.log1p(apart / from) : Math.log(ratio);
}
