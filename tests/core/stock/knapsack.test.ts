import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Knapsack } from '../../../src/core/stock/knapsack';

/** The best value by trying every combination. */
function brute(items: readonly { size: number; bound: number; value: number }[], capacity: number, from = 0): number {
  if (from === items.length) return 0;
  const { size, bound, value } = items[from]!;
  let best = 0;
  for (let copies = 0; copies <= bound && copies * size <= capacity + 1e-9; copies++)
    best = Math.max(best, copies * value + brute(items, capacity - copies * size, from + 1));
  return best;
}

const items = (sizes: fc.Arbitrary<number>) =>
  fc.array(fc.record({ size: sizes, bound: fc.integer({ min: 0, max: 4 }), value: fc.integer({ min: 0, max: 60 }) }), {
    minLength: 1,
    maxLength: 6,
  });

describe('the bounded knapsack', () => {
  it.each([
    ['sizes on a grid of sixteenths', fc.integer({ min: 8, max: 400 }).map((n) => n / 16)],
    ['sizes of any decimals, where a rough grid guides a search', fc.double({ min: 0.3, max: 25, noNaN: true })],
  ])('is the best of all packings: %s', (_label, sizes) => {
    fc.assert(
      fc.property(items(sizes), fc.constantFrom(10, 33.3, 47.0625), (list, capacity) => {
        const knapsack = new Knapsack(list, [capacity, capacity / 2]);
        knapsack.solve(list.map(({ value }) => value));
        for (let prefix = 0; prefix <= list.length; prefix++) {
          [capacity, capacity / 2].forEach((room, which) => {
            const wanted = brute(list.slice(0, prefix), room);
            expect(knapsack.upper(prefix, which)).toBeGreaterThanOrEqual(wanted - 1e-9);
            const { counts, value } = knapsack.best(prefix, which);
            expect(value).toBeCloseTo(wanted, 9);
            expect(counts.reduce((sum, count, index) => sum + count * list[index]!.size, 0)).toBeLessThanOrEqual(
              room + 1e-6,
            );
            expect(knapsack.upper(prefix, which)).toBeCloseTo(wanted, 9);
          });
        }
      }),
      { numRuns: 150 },
    );
  });

  it('takes tighter bounds for one run', () => {
    const knapsack = new Knapsack([{ size: 5, bound: 9 }], [20]);
    knapsack.solve([1], [2]);
    expect(knapsack.best(1, 0).value).toBe(2);
    knapsack.solve([1]);
    expect(knapsack.best(1, 0).value).toBe(4);
  });

  it('fits what fills a bar to the last bit, whatever the sum of decimals is', () => {
    const knapsack = new Knapsack(
      [
        { size: 0.1, bound: 10 },
        { size: 33.333333333333336, bound: 3 },
      ],
      [0.30000000000000004, 100],
    );
    knapsack.solve([1, 50]);
    expect(knapsack.best(1, 0).counts[0]).toBe(3);
    expect(knapsack.best(2, 1).counts[1]).toBe(3);
  });
});
