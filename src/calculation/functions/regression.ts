/** Correlation of two lists, and lines fitted to them. Source: Microsoft, the pages on LINEST, LOGEST, TREND, GROWTH. */
import type { Cell, CellError, Matrix } from '../../sheet';
import { failure, finite, toMatrix, type Value } from '../values';
import { mean, total } from './aggregates';
import {
  errorIn,
  flagOf,
  fn,
  NUM,
  numberBlock,
  numberOf,
  transposed,
  unlessError,
  type Family,
  type FunctionSpec,
} from './define';
import { inverted, multiplied } from './linear';

interface Pairs {
  readonly a: number[];
  readonly b: number[];
}

/** The pairs of which both are numbers. */
export function pairsOf(first: Value, second: Value): Pairs | CellError {
  const left = toMatrix(first).flat();
  const right = toMatrix(second).flat();
  const error = errorIn([...left, ...right]);
  if (error) return error;
  if (left.length !== right.length) return failure('#N/A');
  const isPair = (_cell: Cell, at: number): boolean => typeof left[at] === 'number' && typeof right[at] === 'number';
  return { a: left.filter(isPair) as number[], b: right.filter(isPair) as number[] };
}

const orDiv0 = (value: number): Cell => (Number.isFinite(value) ? finite(value) : failure('#DIV/0!'));

const ofPairs = (least: number, apply: (a: number[], b: number[]) => number): FunctionSpec =>
  fn('vv', 2, ([first, second]) =>
    unlessError([pairsOf(first, second)], ({ a, b }) => (a.length < least ? failure('#DIV/0!') : orDiv0(apply(a, b)))),
  );

/** Sum of the products of the distances of both from their means. */
function products(a: readonly number[], b: readonly number[]): number {
  const [middleA, middleB] = [mean(a), mean(b)];
  return total(a.map((x, index) => (x - middleA) * (b[index]! - middleB)));
}

const slope = (ys: number[], xs: number[]): number => products(xs, ys) / products(xs, xs);
const intercept = (ys: number[], xs: number[]): number => mean(ys) - slope(ys, xs) * mean(xs);
const correlation = (a: number[], b: number[]): number => products(a, b) / Math.sqrt(products(a, a) * products(b, b));

/** Sums over pairs of numbers that stand opposite each other. */
const overPairs = (apply: (x: number, y: number) => number): FunctionSpec =>
  fn('vv', 2, ([first, second]) =>
    unlessError([pairsOf(first, second)], ({ a, b }) =>
      a.length ? finite(total(a.map((x, index) => apply(x, b[index]!)))) : failure('#DIV/0!'),
    ),
  );

interface Fit {
  /** One coefficient a column of x, and the constant last. */
  readonly coefficients: number[];
  readonly statistics: () => Cell[][];
  readonly isAcross: boolean;
}

/** x as rows of observations; 1, 2, 3 … where it is left out. */
function observations(ys: number[][], xs: Value): { y: number[]; x: number[][]; isAcross: boolean } | CellError {
  const y = ys.flat();
  const isAcross = ys.length === 1 && ys[0]!.length > 1;
  if (xs === undefined) return { y, x: y.map((_one, index) => [index + 1]), isAcross };
  return unlessError([numberBlock(xs)], (block) => {
    if (block.length === ys.length && block[0]!.length === ys[0]!.length)
      return { y, x: block.flat().map((value) => [value]), isAcross };
    if (ys[0]!.length === 1 && block.length === y.length) return { y, x: block, isAcross: false };
    if (isAcross && block[0]!.length === y.length) return { y, x: transposed(block) as number[][], isAcross };
    return failure('#REF!');
  });
}

/** Least squares by the normal equations, after the mean of each column is subtracted from it. */
function fitted(
  y: readonly number[],
  x: readonly number[][],
  withConstant: boolean,
  isAcross: boolean,
): Fit | CellError {
  const width = x[0]!.length;
  const n = y.length;
  const middles = Array.from({ length: width }, (_column, c) => (withConstant ? mean(x.map((row) => row[c]!)) : 0));
  const middle = withConstant ? mean(y) : 0;
  const moved = x.map((row) => row.map((value, c) => value - middles[c]!));
  const across = transposed(moved) as number[][];
  const inverse = inverted(multiplied(across, moved));
  if (!inverse) return NUM();
  const slopes = multiplied(
    inverse,
    multiplied(
      across,
      y.map((value) => [value - middle]),
    ),
  ).map(([value]) => value!);
  const constant = withConstant ? middle - total(slopes.map((value, c) => value * middles[c]!)) : 0;
  const statistics = (): Cell[][] => {
    const off = y.map((value, r) => value - constant - total(slopes.map((one, c) => one * x[r]![c]!)));
    const residual = total(off.map((value) => value * value));
    const whole = total(y.map((value) => (value - middle) ** 2));
    const freedom = n - width - (withConstant ? 1 : 0);
    const variance = residual / freedom;
    const errors = slopes.map((_one, c) => Math.sqrt(variance * inverse[c]![c]!));
    const spread = total(middles.flatMap((a, r) => middles.map((b, c) => a * b * inverse[r]![c]!)));
    const constantError = withConstant ? finite(Math.sqrt(variance * (1 / n + spread))) : failure('#N/A');
    const padding = Array.from({ length: width - 1 }, (): Cell => failure('#N/A'));
    const orNum = (value: number): Cell => (Number.isFinite(value) ? finite(value) : NUM());
    return [
      [...errors.map(orNum).reverse(), constantError],
      [orNum(1 - residual / whole), orNum(Math.sqrt(variance)), ...padding],
      [orNum((whole - residual) / width / variance), freedom, ...padding],
      [orNum(whole - residual), orNum(residual), ...padding],
    ];
  };
  return { coefficients: [...slopes, constant], statistics, isAcross };
}

const lineOf = ([ys, xs, constant]: readonly Value[], exponential: boolean): Fit | CellError =>
  unlessError([numberBlock(ys), flagOf(constant, true)], (block, withConstant) =>
    unlessError([observations(block, xs)], ({ y, x, isAcross }) => {
      if (exponential && y.some((value) => value <= 0)) return NUM();
      return fitted(exponential ? y.map(Math.log) : y, x, withConstant, isAcross);
    }),
  );

/** Coefficients from the last column of x to the first, the constant behind them. */
const estimate = (exponential: boolean): FunctionSpec =>
  fn(
    'vvcc',
    1,
    (args) =>
      unlessError([lineOf(args, exponential), flagOf(args[3])], ({ coefficients, statistics }, more) => {
        const line = [...coefficients.slice(0, -1).reverse(), coefficients.at(-1)!].map((value) =>
          finite(exponential ? Math.exp(value) : value),
        );
        return more ? [line, ...statistics()] : [line];
      }),
    { arrays: true },
  );

/** The given x, or the x of the observations; 1, 2, 3 … where there are none. */
const soughtX = (ys: Value, xs: Value): Value =>
  xs ?? toMatrix(ys).map((line, r) => line.map((_cell, c) => r * line.length + c + 1));

const along = (exponential: boolean): FunctionSpec =>
  fn(
    'vvvc',
    1,
    // An error that is given comes before one that is found out.
    ([ys, xs, wanted, constant]) =>
      unlessError([wanted], () =>
        unlessError([lineOf([ys, xs, constant], exponential)], ({ coefficients, isAcross }) =>
          unlessError([numberBlock(wanted ?? soughtX(ys, xs))], (at) => {
            const width = coefficients.length - 1;
            const value = (x: readonly number[]): Cell => {
              const sum = coefficients.at(-1)! + total(x.map((one, c) => one * coefficients[c]!));
              return finite(exponential ? Math.exp(sum) : sum);
            };
            if (width === 1) return at.map((line) => line.map((x) => value([x])));
            const rows = isAcross ? (transposed(at) as number[][]) : at;
            if (rows[0]!.length !== width) return failure('#REF!');
            const result: Matrix = rows.map((row) => [value(row)]);
            return isAcross ? transposed(result) : result;
          }),
        ),
      ),
    { arrays: true },
  );

export const regressionFunctions: Family = {
  CORREL: ofPairs(2, correlation),
  PEARSON: 'CORREL',
  RSQ: ofPairs(2, (a, b) => correlation(a, b) ** 2),
  SLOPE: ofPairs(2, slope),
  INTERCEPT: ofPairs(2, intercept),
  STEYX: ofPairs(3, (ys, xs) =>
    Math.sqrt((products(ys, ys) - products(xs, ys) ** 2 / products(xs, xs)) / (ys.length - 2)),
  ),
  COVAR: ofPairs(1, (a, b) => products(a, b) / a.length),
  'COVARIANCE.P': 'COVAR',
  'COVARIANCE.S': ofPairs(2, (a, b) => products(a, b) / (a.length - 1)),
  SUMX2MY2: overPairs((x, y) => x * x - y * y),
  SUMX2PY2: overPairs((x, y) => x * x + y * y),
  SUMXMY2: overPairs((x, y) => (x - y) ** 2),
  FORECAST: fn('cvv', 3, ([x, ys, xs]) =>
    unlessError([numberOf(x)], (at) =>
      unlessError([pairsOf(ys, xs)], ({ a, b }) => orDiv0(intercept(a, b) + slope(a, b) * at)),
    ),
  ),
  'FORECAST.LINEAR': 'FORECAST',
  LINEST: estimate(false),
  LOGEST: estimate(true),
  TREND: along(false),
  GROWTH: along(true),
};
