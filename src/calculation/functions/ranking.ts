/** Ranks, percentiles and the most frequent values. Source: Microsoft, the pages on PERCENTILE.INC, PERCENTILE.EXC, RANK.AVG, PERCENTRANK.INC. */
import type { Cell } from '../../sheet';
import { failure, finite, toMatrix, toNumber, type Value } from '../values';
import { mean, numbersOf, over, squares, total } from './aggregates';
import { errorIn, fn, MANY, NUM, numberOf, unlessError, values, type Family, type FunctionSpec } from './define';

type Ends = 'inclusive' | 'exclusive';

const ascending = (numbers: readonly number[]): number[] => [...numbers].sort((a, b) => a - b);

/** The k-th largest. */
export const largest = (numbers: readonly number[], k: number): Cell =>
  ascending(numbers)[numbers.length - Math.trunc(k)] ?? NUM();

/** Value below which a part of the numbers lies, between two of them in proportion. */
export function percentile(numbers: readonly number[], part: number, ends: Ends): Cell {
  const sorted = ascending(numbers);
  const n = sorted.length;
  if (n === 0 || part < 0 || part > 1) return NUM();
  const place = ends === 'inclusive' ? part * (n - 1) : part * (n + 1) - 1;
  if (place < 0 || place > n - 1) return NUM();
  const below = Math.floor(place);
  const at = sorted[below]!;
  const next = sorted[below + 1] ?? at;
  return finite(at + (next - at) * (place - below));
}

export function quartile(numbers: readonly number[], quart: number, ends: Ends): Cell {
  const whole = Math.trunc(quart);
  return whole < 0 || whole > 4 ? NUM() : percentile(numbers, whole / 4, ends);
}

/** The most frequent numbers, in the order in which they come first; none where no number comes twice. */
export function modes(numbers: readonly number[]): number[] {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  const most = Math.max(...times.values(), 2);
  return [...times].filter(([, own]) => own === most).map(([number]) => number);
}

/** A function of the numbers in a range and of one more number. */
const ofRange = (apply: (numbers: number[], at: number) => Cell): FunctionSpec =>
  fn('vc', 2, ([range, at]) => unlessError([numbersOf([range]), numberOf(at)], apply));

const rank = (average: boolean): FunctionSpec =>
  fn('cvc', 2, ([number, range, order]) =>
    unlessError([numbersOf([range]), numberOf(number), numberOf(order)], (numbers, own, up) => {
      const same = numbers.filter((other) => other === own).length;
      if (same === 0) return failure('#N/A');
      const before = numbers.filter((other) => (up ? other < own : other > own)).length;
      return 1 + before + (average ? (same - 1) / 2 : 0);
    }),
  );

/** PERCENTRANK: the part of the numbers that lies below a value, cut off after so many digits. */
const percentRank = (ends: Ends): FunctionSpec =>
  fn('vcc', 2, ([range, x, digits]) =>
    unlessError([numbersOf([range]), numberOf(x), numberOf(digits, 3)], (numbers, value, places) => {
      if (!numbers.length || places < 1) return NUM();
      const part = partBelow(ascending(numbers), value, ends);
      if (part === undefined) return failure('#N/A');
      const scale = 10 ** Math.trunc(places);
      // No part has so many digits.
      return scale > 1e15 ? part : Math.floor(Number((part * scale).toPrecision(13))) / scale;
    }),
  );

function partBelow(sorted: readonly number[], value: number, ends: Ends): number | undefined {
  const n = sorted.length;
  if (value < sorted[0]! || value > sorted[n - 1]!) return undefined;
  const above = sorted.findIndex((number) => number >= value);
  const at = sorted[above]!;
  const below = at === value ? at : sorted[above - 1]!;
  const place = at === value ? above : above - 1 + (value - below) / (at - below);
  if (ends === 'exclusive') return (place + 1) / (n + 1);
  return n === 1 ? 1 : place / (n - 1);
}

function trimmed(numbers: number[], part: number): Cell {
  if (part < 0 || part >= 1 || !numbers.length) return NUM();
  const each = Math.floor((numbers.length * part) / 2);
  return finite(mean(ascending(numbers).slice(each, numbers.length - each)));
}

/** How many numbers lie up to each bound and above the one before it; a last one for those beyond all. */
const frequency = ([data, bounds]: Value[]): Value =>
  unlessError([numbersOf([data]), numbersOf([bounds])], (numbers, limits) => {
    const sorted = ascending(limits);
    const counts = new Map<number, number>();
    let beyond = 0;
    for (const number of numbers) {
      const limit = sorted.find((one) => number <= one);
      if (limit === undefined) beyond++;
      else counts.set(limit, (counts.get(limit) ?? 0) + 1);
    }
    // A bound that is given again has none.
    const rows = limits.map((limit, index) => [limits.indexOf(limit) === index ? (counts.get(limit) ?? 0) : 0]);
    return [...rows, [beyond]];
  });

function probability([xs, ps, low, high]: Value[]): Value {
  const xValues = toMatrix(xs).flat();
  const parts = toMatrix(ps).flat();
  return unlessError([numberOf(low), high === undefined ? numberOf(low) : numberOf(high)], (from, to) => {
    if (xValues.length !== parts.length) return failure('#N/A');
    const error = errorIn([...xValues, ...parts]);
    if (error) return error;
    const numbers = parts.map((cell) => toNumber(cell) as number);
    if (numbers.some((part) => !(part > 0 && part <= 1)) || Math.abs(total(numbers) - 1) > 1e-7) return NUM();
    return total(numbers.filter((_part, index) => Number(xValues[index]) >= from && Number(xValues[index]) <= to));
  });
}

export const rankingFunctions: Family = {
  MEDIAN: over((numbers) => percentile(numbers, 0.5, 'inclusive')),
  MODE: over((numbers) => modes(numbers)[0] ?? failure('#N/A')),
  'MODE.SNGL': 'MODE',
  'MODE.MULT': values(1, MANY, (...given) =>
    unlessError([numbersOf(given)], (numbers) => {
      const found = modes(numbers);
      return found.length ? found.map((number) => [number]) : failure('#N/A');
    }),
  ),
  LARGE: ofRange(largest),
  SMALL: ofRange((numbers, k) => (k < 1 ? NUM() : largest(numbers, numbers.length + 1 - Math.trunc(k)))),
  PERCENTILE: ofRange((numbers, part) => percentile(numbers, part, 'inclusive')),
  'PERCENTILE.INC': 'PERCENTILE',
  'PERCENTILE.EXC': ofRange((numbers, part) =>
    part <= 0 || part >= 1 ? NUM() : percentile(numbers, part, 'exclusive'),
  ),
  QUARTILE: ofRange((numbers, quart) => quartile(numbers, quart, 'inclusive')),
  'QUARTILE.INC': 'QUARTILE',
  'QUARTILE.EXC': ofRange((numbers, quart) =>
    quart < 1 || quart >= 4 ? NUM() : quartile(numbers, quart, 'exclusive'),
  ),
  RANK: rank(false),
  'RANK.EQ': 'RANK',
  'RANK.AVG': rank(true),
  PERCENTRANK: percentRank('inclusive'),
  'PERCENTRANK.INC': 'PERCENTRANK',
  'PERCENTRANK.EXC': percentRank('exclusive'),
  TRIMMEAN: ofRange(trimmed),
  FREQUENCY: fn('vv', 2, frequency, { arrays: true }),
  PROB: fn('vvcc', 3, probability),
  AVEDEV: over((numbers) => {
    const middle = mean(numbers);
    return numbers.length ? finite(mean(numbers.map((number) => Math.abs(number - middle)))) : NUM();
  }),
  GEOMEAN: over((numbers) =>
    !numbers.length || numbers.some((number) => number <= 0) ? NUM() : finite(Math.exp(mean(numbers.map(Math.log)))),
  ),
  HARMEAN: over((numbers) =>
    !numbers.length || numbers.some((number) => number <= 0)
      ? NUM()
      : finite(numbers.length / total(numbers.map((number) => 1 / number))),
  ),
  SKEW: over((numbers) => skewness(numbers, true)),
  'SKEW.P': over((numbers) => skewness(numbers, false)),
  KURT: over(kurtosis),
};

/** The mean of a power of the numbers' distances from their mean, which are counted in standard deviations. */
function moment(numbers: readonly number[], power: number, spare: number): number {
  const middle = mean(numbers);
  const deviation = Math.sqrt(squares(numbers) / (numbers.length - spare));
  // Divided at the end, so that what lies alike on both sides cancels to the last digit.
  return total(numbers.map((x) => (x - middle) ** power)) / deviation ** power;
}

function skewness(numbers: readonly number[], sample: boolean): Cell {
  const n = numbers.length;
  const sum = moment(numbers, 3, sample ? 1 : 0);
  if (n < 3 || Number.isNaN(sum)) return failure('#DIV/0!');
  return finite(sample ? (sum * n) / ((n - 1) * (n - 2)) : sum / n);
}

function kurtosis(numbers: readonly number[]): Cell {
  const n = numbers.length;
  const sum = moment(numbers, 4, 1);
  if (n < 4 || Number.isNaN(sum)) return failure('#DIV/0!');
  return finite((sum * n * (n + 1)) / ((n - 1) * (n - 2) * (n - 3)) - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3)));
}
