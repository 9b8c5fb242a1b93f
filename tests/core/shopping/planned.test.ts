import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openPriceBook, readPriceList, type PriceCell } from '../../../src/core/price';
import { DEFAULT_SPARES, gatherNeeds, shoppingList, type Bought, type PlannedItem } from '../../../src/core/shopping';

const HEADER = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier'];
const SHEET = 48 * 144;
const SIZE = { length: 144, width: 48 };
const ROWS: PriceCell[][] = [
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 100, 'USD', '', 'Metal'],
  ['Skin .025', 'sheet', 'sheet', '48 x 96', 60, 'USD', '', 'Metal'],
  ['Tube', 'bar', 'each', '12 ft', 20, 'USD', '', 'Metal'],
];
const PLAN: PlannedItem = {
  item: ' skin .025',
  covers: 10_000,
  stock: [{ pieces: 3, contents: SHEET, size: SIZE }],
  free: 3 * SHEET - 10_000,
  shelf: 0,
  again: 0,
  againParts: 0,
};

function list(
  use: number,
  plan: Partial<PlannedItem> | undefined = {},
  bought: readonly Bought[] = [],
  item = 'Skin .025',
) {
  const book = openPriceBook(readPriceList([HEADER, ...ROWS]));
  const terms = { currency: 'USD', rates: [], spares: DEFAULT_SPARES, suppliers: [] };
  const needs = gatherNeeds([{ component: 'Wing', item, use }], [], book);
  return shoppingList({ needs, bought, onHand: [], book, terms, plans: plan ? [{ ...PLAN, ...plan }] : [] });
}
const lines = (...given: Parameters<typeof list>) => list(...given).orders.flatMap((order) => order.lines);
const sheets = (units: number): Bought[] => [
  { item: 'Skin .025', supplier: 'Metal', units, paid: 100 * units, currency: '' },
];

describe('an item that a cutting plan takes', () => {
  it('is bought in the plan’s sheets, and in no other size, without spares', () => {
    expect(list(10_000, undefined).orders).not.toEqual([]);
    const [line] = lines(10_000);
    expect(line).toMatchObject({
      purchase: { units: 3, offer: { contents: SHEET } },
      spares: 0,
      planned: { pieces: 3, besides: 0 },
      leftOver: 3 * SHEET - 10_000,
    });
    expect(line!.planned!.byMeasure).toBeCloseTo((10_000 * 1.15) / SHEET, 12);
    // By area the smaller sheets would be cheaper.
    expect(lines(10_000, { stock: [], covers: 0, free: 0 })[0]).toMatchObject({
      purchase: { offer: { contents: 48 * 96 } },
    });
  });

  it('is bought less what was bought already', () => {
    expect(lines(10_000, {}, sheets(2))[0]).toMatchObject({ bought: 2 * SHEET, purchase: { units: 1 } });
    expect(list(10_000, {}, sheets(3))).toMatchObject({ orders: [], met: [{ planned: { pieces: 3 }, short: 0 }] });
  });

  it('of two sizes is a line for each, which together are the need', () => {
    const two = lines(10_000, {
      stock: [
        { pieces: 1, contents: SHEET, size: SIZE },
        { pieces: 2, contents: 48 * 96, size: { length: 96, width: 48 } },
      ],
      free: 5000,
    });
    expect(two.map(({ purchase, planned }) => [purchase!.units, planned!.size!.length, planned!.byMeasure])).toEqual([
      [1, 144, undefined],
      [2, 96, undefined],
    ]);
    expect(two.reduce((sum, { needed }) => sum + needed, 0)).toBeCloseTo(10_000, 9);
  });

  it('counts rows without a cut size by area, as far as the plan’s sheets have no room for them', () => {
    expect(lines(10_000 + 2000, { free: 4000 })[0]).toMatchObject({
      purchase: { units: 3 },
      planned: { besides: 0 },
      spares: 0,
    });
    const more = lines(10_000 + 2000, { free: 1000 })[0]!;
    expect(more.spares).toBeCloseTo(300, 9);
    expect(more.planned!.besides).toBeCloseTo(1300, 9);
    expect(more.purchase!.units).toBe(4);
  });

  it('of which the shelf holds enough is not bought', () => {
    expect(list(10_000, { stock: [], free: 0, shelf: 12_000 })).toMatchObject({
      orders: [],
      met: [{ planned: { pieces: 0 }, leftOver: 2000 }],
    });
  });

  it('is not met twice by a leftover of what was bought', () => {
    // Two sheets were bought; the plan takes two and a leftover of them, and has no room for what it cuts from it.
    const again = { stock: [{ pieces: 2, contents: SHEET, size: SIZE }], shelf: 2000, again: 2000, againParts: 1900 };
    expect(lines(10_000, { ...again, free: 500 }, sheets(2))[0]).toMatchObject({ purchase: { units: 1 } });
    expect(list(10_000, { ...again, free: 5000 }, sheets(2)).orders).toEqual([]);
    expect(lines(10_000, { ...again, free: 500 })[0]).toMatchObject({ purchase: { units: 2 } });
  });

  it('leaves other items alone', () => {
    expect(lines(300, {}, [], 'Tube')[0]).toMatchObject({ planned: undefined, spares: 30, purchase: { units: 3 } });
  });

  it('always has the plan’s pieces at hand, bought or to be bought', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 1, max: 9000 }),
        (pieces, had, most) => {
          // No plan cuts more from its sheets than they have.
          const use = Math.min(most, pieces * SHEET);
          const result = list(
            use,
            { covers: use, stock: [{ pieces, contents: SHEET, size: SIZE }], free: pieces * SHEET - use },
            sheets(had),
          );
          const units = result.orders
            .flatMap((order) => order.lines)
            .reduce((sum, { purchase }) => sum + purchase!.units, 0);
          expect(units).toBe(Math.max(0, pieces - had));
        },
      ),
    );
  });
});
