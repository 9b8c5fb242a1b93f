/** Products, inverses and determinants of matrices. */
import { failure, finite } from '../values';
import { fn, made, NUM, numberBlock, numberOf, unlessError, type Family } from './define';

export const multiplied = (a: readonly number[][], b: readonly number[][]): number[][] =>
  a.map((line) => b[0]!.map((_cell, c) => line.reduce((sum, value, k) => sum + value * b[k]![c]!, 0)));

/** Gauss-Jordan elimination with the largest pivot first, which gives the determinant, too. */
function eliminated(matrix: readonly number[][]): { inverse: number[][]; determinant: number } {
  const n = matrix.length;
  const work = matrix.map((line, r) => [...line, ...Array.from({ length: n }, (_one, c) => (r === c ? 1 : 0))]);
  let determinant = 1;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(work[r]![c]!) > Math.abs(work[pivot]![c]!)) pivot = r;
    const value = work[pivot]![c]!;
    if (value === 0) return { inverse: [], determinant: 0 };
    if (pivot !== c) {
      [work[c], work[pivot]] = [work[pivot]!, work[c]!];
      determinant = -determinant;
    }
    determinant *= value;
    work[c] = work[c]!.map((cell) => cell / value);
    for (let r = 0; r < n; r++) {
      const factor = work[r]![c]!;
      if (r !== c && factor !== 0) work[r] = work[r]!.map((cell, k) => cell - factor * work[c]![k]!);
    }
  }
  return { inverse: work.map((line) => line.slice(n)), determinant };
}

/** undefined for a singular matrix. */
export function inverted(matrix: readonly number[][]): number[][] | undefined {
  const { inverse, determinant } = eliminated(matrix);
  const size = Math.max(...matrix.flat().map(Math.abs));
  return determinant === 0 || Math.abs(determinant) < 1e-15 * size ** matrix.length ? undefined : inverse;
}

const isSquare = (block: readonly number[][]): boolean => block.length === block[0]?.length;

export const linearFunctions: Family = {
  MMULT: fn(
    'vv',
    2,
    ([first, second]) =>
      unlessError([numberBlock(first), numberBlock(second)], (left, right) => {
        if (left[0]!.length !== right.length) return failure('#VALUE!');
        return multiplied(left, right).map((line) => line.map(finite));
      }),
    { arrays: true },
  ),
  MINVERSE: fn(
    'v',
    1,
    ([value]) =>
      unlessError([numberBlock(value)], (block) => {
        if (!isSquare(block)) return failure('#VALUE!');
        return inverted(block)?.map((line) => line.map(finite)) ?? NUM();
      }),
    { arrays: true },
  ),
  MDETERM: fn(
    'v',
    1,
    ([value]) =>
      unlessError([numberBlock(value)], (block) =>
        isSquare(block) ? finite(eliminated(block).determinant) : failure('#VALUE!'),
      ),
    { arrays: true },
  ),
  MUNIT: fn('v', 1, ([size]) =>
    unlessError([numberOf(size)], (n) => {
      if (n < 1 || n > 2000) return failure('#VALUE!');
      return made(Math.trunc(n), Math.trunc(n), (r, c) => (r === c ? 1 : 0));
    }),
  ),
};
