import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attainable } from '../../../src/core/stock/knapsack';
import { barBound, dualFeasible, sheetBound, quickBars, quickSheets } from '../../../src/core/stock/quick';

describe('dual feasible functions', () => {
  it('give 1 at most to pieces that fit one bar', () => {
    const shares = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(
        shares,
        fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 8 }),
        (random, weights) => {
          // A bar that is full to the last bit, and its limits taken from it and from other shares.
          const total = weights.reduce((sum, weight) => sum + weight, 0);
          const full = weights.map((weight) => weight / total);
          for (const u of dualFeasible([...full, ...random]))
            expect(full.reduce((sum, share) => sum + u(share), 0)).toBeLessThanOrEqual(1 + 1e-9);
        },
      ),
    );
  });
});

/** The fewest bars, by trying every way. */
function fewest(pieces: readonly number[], capacity: number): number {
  const sorted = [...pieces].sort((a, b) => b - a);
  let best = sorted.length;
  const bars: number[] = [];
  const place = (index: number): void => {
    if (bars.length >= best) return;
    if (index === sorted.length) {
      best = bars.length;
      return;
    }
    const tried = new Set<number>();
    for (let bar = 0; bar < bars.length; bar++) {
      if (bars[bar]! < sorted[index]! - 1e-9 || tried.has(bars[bar]!)) continue;
      tried.add(bars[bar]!);
      bars[bar] = bars[bar]! - sorted[index]!;
      place(index + 1);
      bars[bar] = bars[bar]! + sorted[index]!;
    }
    bars.push(capacity - sorted[index]!);
    place(index + 1);
    bars.pop();
  };
  place(0);
  return best;
}

describe('bounds of the worksheet functions', () => {
  it('never pass the fewest bars, and the plan is never better than they are', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 10, max: 100 }), { minLength: 1, maxLength: 9 }), (pieces) => {
        const bars = fewest(pieces, 100);
        expect(
          barBound(
            pieces,
            pieces.map(() => 1),
            100,
          ),
        ).toBeLessThanOrEqual(bars);
        expect(
          quickBars(
            pieces,
            pieces.map(() => 1),
            100,
            0,
          ).needed,
        ).toBeGreaterThanOrEqual(bars);
      }),
      { numRuns: 300 },
    );
  });

  it('count the kerf: three of 48 fill 144 with a shear and not with a saw', () => {
    expect(quickBars([48], [3], 144, 0)).toMatchObject({ needed: 1, lowerBound: 1, usePercent: 100 });
    expect(quickBars([48], [3], 144, 0.1)).toMatchObject({ needed: 2, lowerBound: 2 });
    // The last piece needs no cut behind it.
    expect(quickBars([47.95], [3], 144, 0.075).needed).toBe(1);
  });

  it('see that wide parts cannot lie beside each other, which area alone does not', () => {
    // Nine parts a little over a third in both directions: four to a sheet, by area more.
    const share = { along: 0.34, across: 0.34 };
    expect(sheetBound([{ ways: [share], quantity: 9 }])).toBe(3);
    expect(quickSheets([{ length: 34, width: 34, quantity: 9 }], 100, 100, 0, 'any')).toMatchObject({
      needed: 3,
      lowerBound: 3,
    });
  });

  it('hold for sheets: bound ≤ sheets, and area within use', () => {
    const part = fc.record({
      length: fc.integer({ min: 5, max: 60 }),
      width: fc.integer({ min: 5, max: 40 }),
      quantity: fc.integer({ min: 1, max: 9 }),
    });
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 8 }),
        fc.constantFrom('any' as const, 'along' as const),
        fc.constantFrom(0, 0.125),
        (parts, grain, kerf) => {
          const { needed, lowerBound, usePercent } = quickSheets(parts, 72, 48, kerf, grain);
          expect(lowerBound).toBeLessThanOrEqual(needed);
          expect(usePercent).toBeLessThanOrEqual(100 + 1e-9);
          const area = parts.reduce((sum, { length, width, quantity }) => sum + length * width * quantity, 0);
          expect(lowerBound).toBeGreaterThanOrEqual(Math.ceil(area / ((72 + kerf) * (48 + kerf)) - 1e-6));
        },
      ),
    );
  });
});

describe('costs that whole numbers of stock come to', () => {
  it('are the least of that much or more', () => {
    const stock = fc.array(
      fc.record({ cost: fc.integer({ min: 1, max: 40 }), available: fc.constantFrom(1, 2, Infinity) }),
      { minLength: 1, maxLength: 3 },
    );
    fc.assert(
      fc.property(stock, fc.integer({ min: 1, max: 100 }), (list, bound) => {
        let best = Infinity;
        const visit = (index: number, sum: number): void => {
          if (sum >= bound) best = Math.min(best, sum);
          if (index === list.length || sum >= bound) return;
          for (let count = 0; count <= Math.min(list[index]!.available, 101); count++)
            visit(index + 1, sum + count * list[index]!.cost);
        };
        visit(0, 0);
        // Where the stock cannot come to so much the bound is left as it is.
        expect(attainable(bound, list)).toBe(best === Infinity ? bound : best);
      }),
    );
  });

  it('count in cents', () => {
    expect(attainable(60.01, [{ cost: 31.5, available: Infinity }])).toBe(63);
    expect(
      attainable(99.99999999, [
        { cost: 100, available: Infinity },
        { cost: 33.35, available: 2 },
      ]),
    ).toBe(100);
  });
});
