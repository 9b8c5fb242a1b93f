import { describe, expect, it } from 'vitest';
import { planBars, planLeftovers, planSheets, partsOf } from '../../../src/core/stock';
import { loadHighsSolver } from '../../../src/core/stock/highs-solver';

describe('what a plan leaves', () => {
  it('of bars: the ends that are worth keeping, those of one length together', async () => {
    const plan = await planBars(
      [{ name: 'Rod', length: 100, quantity: 3 }],
      [{ name: 'Tube', length: 144, cost: 10 }],
      { solver: await loadHighsSolver(), keepFrom: 12 },
    );
    expect(planLeftovers(plan)).toEqual([{ stock: 'Tube', length: 44, count: 3 }]);
    expect(plan.patterns.reduce((sum, pattern) => sum + partsOf(pattern), 0)).toBe(300);
    expect(
      planLeftovers(
        await planBars([{ name: 'Rod', length: 140, quantity: 3 }], [{ name: 'Tube', length: 144, cost: 10 }], {
          solver: await loadHighsSolver(),
          keepFrom: 12,
        }),
      ),
    ).toEqual([]);
  });

  it('of sheets: rectangles, their length as the grain runs, and together with the parts no more than the sheets', async () => {
    const plan = await planSheets(
      [{ name: 'Skin', length: 96, width: 30, quantity: 2 }],
      [{ name: 'Sheet', length: 144, width: 48, cost: 97.2 }],
      { solver: await loadHighsSolver(), keepFrom: 3 },
    );
    const leftovers = planLeftovers(plan);
    expect(leftovers).toContainEqual({ stock: 'Sheet', length: 144, width: 18, count: 2 });
    expect(leftovers).toContainEqual({ stock: 'Sheet', length: 48, width: 30, count: 2 });
    const area = leftovers.reduce((sum, { length, width, count }) => sum + length * width! * count, 0);
    expect(area + 2 * 96 * 30).toBeLessThanOrEqual(2 * 144 * 48);
  });
});
