import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBars, type BarPart, type BarStock, type PlanOptions, type Progress } from '../../../src/core/stock';
import { checkBarPlan } from './check-plan';
import { solver } from './solver';

const plan = async (parts: readonly BarPart[], stock: readonly BarStock[], options: Partial<PlanOptions> = {}) => {
  const made = await planBars(parts, stock, { solver: await solver(), ...options });
  checkBarPlan(parts, stock, made);
  return made;
};

const STOCK: BarStock[] = [
  { name: 'Angle 12 ft', length: 144, cost: 31.5 },
  { name: 'Angle 6 ft', length: 72, cost: 17 },
];

describe('a plan of bars', () => {
  it('takes the lengths that cost least, not the fewest bars', async () => {
    const made = await plan([{ name: 'Stringer', length: 70, quantity: 3 }], STOCK);
    expect(made).toMatchObject({ status: 'optimal', cost: 48.5, lowerBound: 48.5, gap: 0 });
    expect(made.stockUsed.map(({ name, used }) => [name, used])).toEqual([
      ['Angle 12 ft', 1],
      ['Angle 6 ft', 1],
    ]);
  });

  it('counts the kerf between pieces and not behind the last', async () => {
    const three: BarPart[] = [{ name: 'a', length: 48, quantity: 3 }];
    expect((await plan(three, STOCK.slice(0, 1))).patterns).toHaveLength(1);
    expect((await plan(three, STOCK.slice(0, 1), { kerf: 0.1 })).cost).toBe(63);
    const exact = await plan([{ name: 'a', length: 47.9, quantity: 3 }], STOCK.slice(0, 1), { kerf: 0.15 });
    expect(exact.patterns).toMatchObject([{ times: 1, left: 0, keep: false }]);
  });

  it('spends offcuts first, also where they save no bar', async () => {
    const stock: BarStock[] = [
      ...STOCK.slice(0, 1),
      { name: 'Left, long', length: 75, cost: 9, offcut: true },
      { name: 'Left, short', length: 30, cost: 3, offcut: true, available: 2 },
    ];
    const made = await plan(
      [
        { name: 'a', length: 100, quantity: 1 },
        { name: 'b', length: 28, quantity: 1 },
      ],
      stock,
    );
    expect(made).toMatchObject({ status: 'optimal', cost: 31.5 });
    expect(made.stockUsed).toMatchObject([
      { name: 'Angle 12 ft', used: 1 },
      { name: 'Left, short', used: 1, costEach: 0, offcut: true },
    ]);
    expect(made.patterns.find(({ stock: name }) => name === 'Angle 12 ft')).toMatchObject({ left: 44, keep: true });
  });

  it('cuts what there is stock for and says what is missing', async () => {
    const made = await plan(
      [{ name: 'a', length: 100, quantity: 5 }],
      [{ name: 'Bar', length: 144, cost: 10, available: 3 }],
    );
    expect(made).toMatchObject({ status: 'short', missing: [{ part: 'a', quantity: 2 }], lowerBound: 0, gap: 1 });
  });

  it('takes small parts from scrap', async () => {
    const made = await plan(
      [
        { name: 'Clip', length: 1.5, quantity: 8 },
        { name: 'a', length: 60, quantity: 1 },
      ],
      STOCK,
      { scrapBelow: 2 },
    );
    expect(made.fromScrap).toEqual([{ part: 'Clip', quantity: 8 }]);
    expect(made.patterns.flatMap(({ cuts }) => cuts)).toHaveLength(1);
  });

  it('is for least length where no stock has a cost', async () => {
    const made = await plan(
      [{ name: 'a', length: 70, quantity: 1 }],
      [
        { name: 'long', length: 144, cost: 0 },
        { name: 'short', length: 72, cost: 0 },
      ],
    );
    expect(made).toMatchObject({ cost: 72, lowerBound: 72, status: 'optimal' });
  });

  it('keeps two parts of one length apart by name, and two stocks of one length', async () => {
    const made = await plan(
      [
        { name: 'left', length: 40, quantity: 2 },
        { name: 'right', length: 40, quantity: 3 },
      ],
      [
        { name: 'mine', length: 144, cost: 5, available: 1 },
        { name: 'shop', length: 144, cost: 9 },
      ],
    );
    expect(made.cost).toBe(14);
  });

  it('plans nothing for no parts', async () => {
    expect(await plan([], STOCK)).toMatchObject({
      status: 'optimal',
      cost: 0,
      lowerBound: 0,
      gap: 0,
      patterns: [],
      usePercent: 0,
    });
    expect(await plan([{ name: 'a', length: 5, quantity: 0 }], STOCK)).toMatchObject({
      status: 'optimal',
      patterns: [],
    });
  });

  it.each([
    [
      [{ name: 'Spar', length: 150, quantity: 1 }],
      STOCK,
      {},
      'length of part "Spar": got 150; takes up to 144, the longest bar of the stock',
    ],
    [[{ name: 'a', length: -1, quantity: 1 }], STOCK, {}, 'length of part "a": got -1; takes a length above 0'],
    [[{ name: 'a', length: 1, quantity: 1.5 }], STOCK, {}, 'quantity of part "a": got 1.5'],
    [[{ name: 'a', length: 1, quantity: 1 }], [{ name: 'x', length: 9, cost: Number.NaN }], {}, 'cost of stock "x"'],
    [
      [{ name: 'a', length: 1, quantity: 1 }],
      STOCK,
      { kerf: 80 },
      'kerf: got 80; takes less than the shortest stock, 72',
    ],
    [[{ name: 'a', length: 1, quantity: 1 }], [], {}, 'stock: got a blank; takes one bar or more'],
  ])('refuses what cannot be: %#', async (parts, stock, options, message) => {
    await expect(plan(parts, stock, options)).rejects.toThrow(message);
  });
});

describe('against every way of cutting', () => {
  /** The least cost by trying all. */
  function least(pieces: readonly number[], stock: readonly BarStock[], kerf: number): number {
    const sorted = [...pieces].sort((a, b) => b - a);
    let best = Infinity;
    const used = stock.map(() => 0);
    const bars: number[] = [];
    const place = (index: number, cost: number): void => {
      if (cost >= best - 1e-9) return;
      if (index === sorted.length) {
        best = cost;
        return;
      }
      const size = sorted[index]! + kerf;
      for (let bar = 0; bar < bars.length; bar++) {
        if (bars[bar]! < size - 1e-9 || bars.indexOf(bars[bar]!) < bar) continue;
        bars[bar] = bars[bar]! - size;
        place(index + 1, cost);
        bars[bar] = bars[bar]! + size;
      }
      stock.forEach((item, kind) => {
        if (item.length < sorted[index]! - 1e-9 || used[kind]! >= (item.available ?? Infinity)) return;
        used[kind] = used[kind]! + 1;
        bars.push(item.length + kerf - size);
        place(index + 1, cost + item.cost!);
        bars.pop();
        used[kind] = used[kind] - 1;
      });
    };
    place(0, 0);
    return best;
  }

  it('the cost is the least there is and the bound never above it', async () => {
    const stock = fc.array(
      fc.record({
        length: fc.integer({ min: 40, max: 120 }),
        cost: fc.integer({ min: 20, max: 90 }),
        available: fc.constantFrom(undefined, 1, 2),
      }),
      { minLength: 1, maxLength: 3 },
    );
    await fc.assert(
      fc.asyncProperty(
        stock,
        fc.array(fc.integer({ min: 10, max: 40 }), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(0, 0.125),
        async (list, lengths, kerf) => {
          const bars: BarStock[] = list.map(({ length, cost, available }, index) => ({
            name: `s${index}`,
            length,
            cost,
            ...(available === undefined ? {} : { available }),
          }));
          const made = await plan(
            lengths.map((length, index) => ({ name: `p${index}`, length, quantity: 1 })),
            bars,
            { kerf },
          );
          const best = least(lengths, bars, kerf);
          if (best === Infinity) {
            expect(made.status).toBe('short');
            return;
          }
          expect(made.missing).toEqual([]);
          expect(made.lowerBound).toBeLessThanOrEqual(best + 1e-6);
          expect(made.cost).toBe(best);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the search', () => {
  const parts: BarPart[] = Array.from({ length: 40 }, (_, index) => ({
    name: `p${index}`,
    length: 7 + ((index * 37) % 61) + (index % 7) / 8,
    quantity: 1 + (index % 5),
  }));

  it('gives the same plan for the same seed', async () => {
    const first = await plan(parts.slice(0, 20), STOCK, { seed: 4, kerf: 0.0625 });
    const second = await plan(parts.slice(0, 20), STOCK, { seed: 4, kerf: 0.0625 });
    expect({ ...second, seconds: 0 }).toEqual({ ...first, seconds: 0 });
  });

  it('reports what it has: the cost never rises and the bound never falls', async () => {
    const seen: Progress[] = [];
    const made = await plan(parts.slice(0, 30), STOCK, { progress: (progress) => seen.push(progress) });
    expect(seen.length).toBeGreaterThan(1);
    seen.slice(1).forEach((progress, index) => {
      expect(progress.cost ?? Infinity).toBeLessThanOrEqual(seen[index]!.cost ?? Infinity);
      expect(progress.lowerBound).toBeGreaterThanOrEqual(seen[index]!.lowerBound);
    });
    expect(seen[seen.length - 1]!.cost).toBeCloseTo(made.cost, 6);
  });

  it('can be cancelled at any step and then gives the best plan so far', async () => {
    for (const after of [0, 1, 2, 5]) {
      const signal = { aborted: after === 0 };
      let steps = 0;
      const made = await plan(parts, STOCK, {
        signal,
        progress: () => {
          steps += 1;
          signal.aborted = steps >= after;
        },
      });
      expect(made.missing).toEqual([]);
      expect(['optimal', 'cancelled']).toContain(made.status);
    }
  });

  it('ends in time', async () => {
    const many: BarPart[] = Array.from({ length: 200 }, (_, index) => ({
      name: `p${index}`,
      length: 3 + ((index * 7919) % 9973) / 97,
      quantity: 1 + (index % 9),
    }));
    // A clock that goes on by a millisecond each time it is looked at, so that no machine's speed decides.
    let looks = 0;
    const made = await plan(many, STOCK, { seconds: 0.2, now: () => (looks += 1) });
    expect(made.status).toBe('time limit');
    // A step that has begun is ended first.
    expect(looks).toBeLessThan(250);
    expect(made.gap).toBeLessThan(0.02);
  });
});
