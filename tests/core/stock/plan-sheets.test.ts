import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planSheets, type SheetPart, type SheetPlanOptions, type SheetStock } from '../../../src/core/stock';
import { placements } from '../../../src/core/stock/plan';
import { checkSheetPlan } from './check-plan';
import { processorTime, solver } from './solver';
import { wingParts } from '../../helpers/wing-parts';

const plan = async (
  parts: readonly SheetPart[],
  stock: readonly SheetStock[],
  options: Partial<SheetPlanOptions> = {},
) => {
  const made = await planSheets(parts, stock, { solver: await solver(), seconds: 10, now: processorTime, ...options });
  checkSheetPlan(parts, stock, made);
  return made;
};

const SHEET: SheetStock = { name: '4 × 12', length: 144, width: 48, cost: 120 };
const HALF: SheetStock = { name: '4 × 6', length: 72, width: 48, cost: 70 };

describe('a plan of sheets', () => {
  it('cuts strips along the sheet, then pieces from each, and trims the narrower ones', async () => {
    const made = await plan(
      [
        { name: 'Web', length: 60, width: 10, quantity: 4 },
        { name: 'Flange', length: 23, width: 8, quantity: 2 },
      ],
      [{ ...SHEET, width: 20.125 }],
      { kerf: 0.125 },
    );
    expect(made).toMatchObject({ status: 'optimal', cost: 120 });
    const { strips } = made.patterns[0]!;
    expect(strips.map(({ width }) => width)).toEqual([10, 10]);
    expect(
      strips
        .flatMap(({ pieces }) => pieces)
        .filter(({ part }) => part === 'Flange')
        .every(({ width }) => width === 8),
    ).toBe(true);
  });

  it('keeps the direction of parts unless they may be turned', async () => {
    const part = { name: 'a', length: 40, width: 60, quantity: 1 } as const;
    await expect(plan([part], [SHEET])).rejects.toThrow(
      'part "a": got "40 × 60"; takes a part that fits a sheet of the stock, the largest being 144 × 48. It lies along the sheet: turned it would fit',
    );
    const made = await plan([{ ...part, lie: 'any' }], [SHEET]);
    expect(made.patterns[0]!.strips[0]).toMatchObject({ width: 40, pieces: [{ length: 60, turned: true }] });
    expect((await plan([{ ...part, lie: 'across' }], [SHEET])).patterns[0]!.strips[0]!.pieces[0]!.turned).toBe(true);
  });

  it('takes the size that costs least, and both where that is less', async () => {
    const half = await plan([{ name: 'a', length: 70, width: 40, quantity: 1 }], [SHEET, HALF]);
    expect(half.stockUsed).toMatchObject([{ name: '4 × 6', used: 1 }]);
    const both = await plan([{ name: 'a', length: 70, width: 40, quantity: 3 }], [SHEET, HALF]);
    expect(both).toMatchObject({ status: 'optimal', cost: 190 });
  });

  it('spends offcuts first, also where they save no sheet', async () => {
    const offcut: SheetStock = { name: 'Shelf', length: 30, width: 12, cost: 8, offcut: true };
    const made = await plan(
      [
        { name: 'a', length: 100, width: 20, quantity: 1 },
        { name: 'b', length: 14, width: 12, quantity: 2 },
      ],
      [SHEET, offcut],
    );
    expect(made.stockUsed).toMatchObject([{ name: '4 × 12' }, { name: 'Shelf', used: 1, cost: 0 }]);
    expect(made.patterns[0]).toMatchObject({ stock: 'Shelf', offcut: true });
    expect(made.cost).toBe(120);
  });

  it('cuts across the sheet where that is asked for or better', async () => {
    const part: SheetPart = { name: 'a', length: 30, width: 48, quantity: 4 };
    const across = await plan([part], [SHEET], { strips: 'across' });
    expect(across.patterns[0]).toMatchObject({
      direction: 'across',
      strips: [{ width: 30 }, { width: 30 }, { width: 30 }, { width: 30 }],
    });
    expect(placements(across.patterns[0]!).map(({ x, y }) => [x, y])).toEqual([
      [0, 0],
      [30, 0],
      [60, 0],
      [90, 0],
    ]);
    const mixed: SheetPart[] = [
      { name: 'a', length: 100, width: 24, quantity: 2 },
      { name: 'b', length: 22, width: 48, quantity: 2 },
    ];
    expect((await plan(mixed, [SHEET])).cost).toBe(240);
    expect(await plan(mixed, [SHEET], { strips: 'either' })).toMatchObject({
      cost: 120,
      patterns: [{ direction: 'across' }],
    });
  });

  it('cuts what there is stock for and says what is missing', async () => {
    const made = await plan([{ name: 'a', length: 100, width: 40, quantity: 5 }], [{ ...SHEET, available: 3 }]);
    expect(made).toMatchObject({ status: 'short', missing: [{ part: 'a', quantity: 2 }] });
  });

  it('takes small parts from scrap, and names leftovers worth keeping', async () => {
    const made = await plan(
      [
        { name: 'Clip', length: 1.5, width: 1, quantity: 30 },
        { name: 'a', length: 100, width: 30, quantity: 1 },
      ],
      [SHEET],
      { scrapBelow: 2, keepFrom: 6 },
    );
    expect(made.fromScrap).toEqual([{ part: 'Clip', quantity: 30 }]);
    expect(made.patterns[0]!.leftovers).toEqual([
      { x: 100, y: 0, length: 44, width: 30 },
      { x: 0, y: 30, length: 144, width: 18 },
    ]);
    expect(
      (await plan([{ name: 'a', length: 100, width: 30, quantity: 1 }], [SHEET], { keepFrom: 20 })).patterns[0]!
        .leftovers,
    ).toHaveLength(1);
  });

  it('plans nothing for no parts', async () => {
    expect(await plan([], [SHEET])).toMatchObject({ status: 'optimal', cost: 0, patterns: [] });
  });

  it('gives the same plan for the same seed', async () => {
    const parts = wingParts('along').slice(0, 12);
    const first = await plan(parts, [SHEET, HALF], { seed: 3, kerf: 0.0625, seconds: Infinity });
    const second = await plan(parts, [SHEET, HALF], { seed: 3, kerf: 0.0625, seconds: Infinity });
    expect({ ...second, seconds: 0 }).toEqual({ ...first, seconds: 0 });
    // Without a limit of time, a busy machine takes as long as it takes.
  }, 120_000);

  it('can be cancelled at any step and then gives the best plan so far', async () => {
    for (const after of [0, 1, 2, 3]) {
      const signal = { aborted: after === 0 };
      let steps = 0;
      const made = await plan(wingParts('any').slice(0, 30), [SHEET, HALF], {
        kerf: 0.04,
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
});

describe('any parts and stock', () => {
  const part = fc.record({
    length: fc.integer({ min: 3, max: 50 }),
    width: fc.integer({ min: 2, max: 30 }),
    quantity: fc.integer({ min: 1, max: 4 }),
    lie: fc.constantFrom('along' as const, 'across' as const, 'any' as const),
  });
  const sheet = fc.record({
    length: fc.integer({ min: 50, max: 100 }),
    width: fc.integer({ min: 50, max: 70 }),
    cost: fc.integer({ min: 10, max: 90 }),
    available: fc.constantFrom(undefined, 1, 3),
    offcut: fc.boolean(),
  });

  it('give a plan that holds, with a bound that is no more than the cost', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(part, { minLength: 1, maxLength: 6 }),
        fc.array(sheet, { minLength: 1, maxLength: 3 }),
        fc.constantFrom(0, 0.125, 0.0371),
        fc.constantFrom('along' as const, 'across' as const, 'either' as const),
        async (parts, sheets, kerf, strips) => {
          const stock = sheets.map(({ available, ...rest }, index): SheetStock => ({
            name: `s${index}`,
            ...rest,
            ...(available === undefined ? {} : { available }),
          }));
          await plan(
            parts.map((one, index) => ({ name: `p${index}`, ...one })),
            stock,
            { kerf, strips, seconds: 2 },
          );
        },
      ),
      { numRuns: 40 },
    );
  }, 120_000);
});
