import { expect, it } from 'vitest';
import { memoized } from '../../src/core/memoized';

it('computes a value once, forgets when full, and keeps nothing of what throws', () => {
  const asked: number[] = [];
  const half = memoized((n: number) => {
    asked.push(n);
    if (n < 0) throw new Error('negative');
    return n / 2;
  }, 2);
  expect([half(4), half(4), half(6), half(4)]).toEqual([2, 2, 3, 2]);
  expect(asked).toEqual([4, 6]);
  half(8);
  half(4);
  expect(asked).toEqual([4, 6, 8, 4]);
  expect(() => half(-1)).toThrow('negative');
  expect(() => half(-1)).toThrow('negative');
});
