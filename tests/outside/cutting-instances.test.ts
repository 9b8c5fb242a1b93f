/**
 * Cutting plans against public instances with known best values (../shared/data, whose README names origin
 * and licence): Falkenauer's bin-packing sets u250, t60 and t120 (1996), and the two-stage guillotine
 * instances of Cintra et al. (2008) with several sheet sizes. Every plan is checked piece by piece. The time allowed is
 * the processor's, so that nothing else that runs decides a plan. `npm run fuzz` and `npm run benchmarks -- stock` take
 * all instances, `npm test` a part of the long ones.
 */
import { describe, expect, it } from 'vitest';
import { planBars, planSheets } from '../../src/core/stock';
import { barInstances, haveInstances, sheetInstance } from '../../tools/benchmarks/instances';
import { checkBarPlan, checkSheetPlan } from '../core/stock/check-plan';
import { processorTime, solver } from '../core/stock/solver';
import { MORE } from '../property/runs';

const here = haveInstances();
if (!here) console.log('skipped: data not here (../shared/data)');

const control = { seconds: 60, now: processorTime };
const oneIn = (step: number, index: number): boolean => MORE > 1 || index % step === 0;

describe.skipIf(!here)('bars', () => {
  const sets = here
    ? ([
        ['u250', barInstances('binpack2')],
        ['t60', barInstances('binpack5').filter((_, index) => oneIn(4, index))],
        ['t120', barInstances('binpack6').filter((_, index) => index < (MORE > 1 ? 5 : 2))],
      ] as const)
    : [];
  for (const [set, instances] of sets) {
    it.each(instances)(
      `${set}: $name needs no more bars than the best known`,
      { timeout: 180_000 },
      async ({ capacity, parts, bestKnown }) => {
        const stock = [{ name: 'bar', length: capacity, cost: 1 }];
        const plan = await planBars(parts, stock, { solver: await solver(), ...control });
        checkBarPlan(parts, stock, plan);
        expect(plan.cost).toBeLessThanOrEqual(bestKnown);
        // The bound is never above what is known to be possible.
        expect(plan.lowerBound).toBeLessThanOrEqual(Math.min(bestKnown, plan.cost) + 1e-9);
        expect(plan.lowerBound).toBeGreaterThanOrEqual(plan.cost - 1 - 1e-9);
      },
    );
  }
});

describe.skipIf(!here)('sheets in two stages', () => {
  it.each([1, 5, 2, 6].slice(0, MORE > 1 ? 4 : 2))(
    'gcut%id costs no more than a hundredth over the best known',
    { timeout: 180_000 },
    async (number) => {
      const { parts, stock, bestKnown } = sheetInstance(number);
      const plan = await planSheets(parts, stock, { solver: await solver(), ...control, strips: 'along' });
      checkSheetPlan(parts, stock, plan);
      expect(plan.cost).toBeLessThanOrEqual(bestKnown * 1.01);
      expect(plan.lowerBound).toBeLessThanOrEqual(bestKnown + 1e-6);
      expect(plan.gap).toBeLessThan(0.02);
    },
  );
});
