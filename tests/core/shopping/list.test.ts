import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { piecesPerPound } from '../../../src/core/fastener';
import { openPriceBook, readPriceList, sumMoney, type PriceCell } from '../../../src/core/price';
import {
  DEFAULT_SPARES,
  gatherNeeds,
  ownMoney,
  shoppingList,
  type Bought,
  type JointUse,
  type OnHand,
  type PartUse,
  type ShoppingTerms,
} from '../../../src/core/shopping';

const HEADER = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier'];
const NO_SPARES = { sheet: 0, bar: 0, 'solid rivet': 0, 'blind rivet': 0, other: 0 };
const TERMS: ShoppingTerms = { currency: 'USD', rates: [], spares: NO_SPARES, suppliers: [] };

interface Given {
  readonly parts?: readonly PartUse[];
  readonly joints?: readonly JointUse[];
  readonly bought?: readonly Bought[];
  readonly onHand?: readonly OnHand[];
  readonly terms?: Partial<ShoppingTerms>;
}
function list(rows: PriceCell[][], { parts = [], joints = [], bought = [], onHand = [], terms = {} }: Given) {
  const book = openPriceBook(readPriceList([HEADER, ...rows]), piecesPerPound);
  const needs = gatherNeeds(parts, joints, book);
  return shoppingList({ needs, bought, onHand, book, terms: { ...TERMS, ...terms } });
}
const part = (item: string, use: number, component = 'Wing'): PartUse => ({ component, item, use });
const SHEET: PriceCell[][] = [
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 100, 'USD', '', 'Metal'],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 70, 'USD', 4, 'Metal'],
];

describe('what is bought', () => {
  it('gathers an item over components and rounds up to whole sale units', () => {
    const { orders, toBuy } = list(SHEET, { parts: [part('Skin .025', 4000), part(' skin  .025', 4000, 'Tail')] });
    expect(orders).toHaveLength(1);
    expect(orders[0]!.lines[0]).toMatchObject({
      needed: 8000,
      uses: ['Wing', 'Tail'],
      purchase: { units: 2, cost: 200 },
      moreCostsLess: false,
    });
    expect(toBuy).toBe(200);
  });

  it('buys more where more costs less, and says so', () => {
    const { orders } = list(SHEET, { parts: [part('Skin .025', 3 * 6912)] });
    expect(orders[0]!.lines[0]).toMatchObject({
      purchase: { units: 4, cost: 280 },
      moreCostsLess: true,
      leftOver: 6912,
      leftOverValue: 100,
    });
  });

  it('adds spares by kind of hardware, whole pieces', () => {
    const rows: PriceCell[][] = [
      ['MS20470AD4-4', 'rivet', '100', '', 5, 'USD'],
      ['BLIND-AA-42', 'rivet', '100', '', 9, 'USD'],
      ['Bolt', 'other', 'each', '', 2, 'USD'],
    ];
    const { orders } = list(rows, {
      parts: [part('Bolt', 10)],
      joints: [
        { component: 'Wing', rivet: 'AN470AD4-4', count: 101 },
        { component: 'Tail', rivet: 'MS20470AD4-4', count: 100 },
        { component: 'Wing', rivet: 'BLIND-AA-42', count: 55 },
      ],
      terms: { spares: DEFAULT_SPARES },
    });
    const of = (item: string) => orders[0]!.lines.find((line) => line.item === item)!;
    expect(of('MS20470AD4-4')).toMatchObject({
      needed: 201,
      spares: 31,
      purchase: { units: 3 },
      hardware: 'solid rivet',
      uses: ['Wing', 'Tail'],
    });
    expect(of('BLIND-AA-42')).toMatchObject({ needed: 55, spares: 6, hardware: 'blind rivet' });
    expect(of('Bolt')).toMatchObject({ spares: 0, purchase: { units: 10 } });
  });

  it('names what the price list does not have', () => {
    const { orders, unpriced } = list(SHEET, { parts: [part('Skn .025', 100)] });
    expect(orders).toEqual([]);
    expect(unpriced[0]).toMatchObject({ item: 'Skn .025', quantity: 100 });
    expect(unpriced[0]!.message).toContain('Skin .025');
  });
});

describe('what is there already', () => {
  const bought: Bought = { item: 'Skin .025', supplier: 'metal', units: 1, paid: 101.5, currency: 'USD' };

  it('is taken off: purchases by what their sale units hold, and the shelf', () => {
    const given = { parts: [part('Skin .025', 10_000)], bought: [bought] };
    expect(list(SHEET, given).orders[0]!.lines[0]).toMatchObject({ bought: 6912, short: 3088, purchase: { units: 1 } });
    const all = list(SHEET, { ...given, onHand: [{ item: 'Skin .025', quantity: 3088 }] });
    expect(all.orders).toEqual([]);
    expect(all.met[0]).toMatchObject({ short: 0, leftOver: 0 });
  });

  it('counts as spent, also where no part takes it', () => {
    const { spent, toBuy, total } = list(SHEET, {
      parts: [part('Skin .025', 10_000)],
      bought: [bought, { ...bought, item: 'Rivet gun', supplier: 'Tools', paid: 80.01 }],
    });
    expect({ spent, toBuy, total }).toEqual({ spent: 181.51, toBuy: 100, total: 281.51 });
  });
});

describe('suppliers', () => {
  const rows: PriceCell[][] = [
    ['Bolt', 'other', 'each', '', 10, 'USD', '', 'A'],
    ['Bolt', 'other', 'each', '', 9, 'USD', '', 'B'],
    ['Nut', 'other', 'each', '', 5, 'USD', '', 'A'],
  ];
  const parts = [part('Bolt', 3), part('Nut', 1)];

  it('are the cheapest by item while freight costs nothing', () => {
    expect(list(rows, { parts }).orders.map(({ supplier, total }) => [supplier, total])).toEqual([
      ['B', 27],
      ['A', 5],
    ]);
  });

  it('are fewer where a second freight costs more than it saves', () => {
    const suppliers = [
      { supplier: 'B', freight: 4, cutCharge: 0, cuts: 0 },
      { supplier: 'A', freight: 7, cutCharge: 1.255, cuts: 2 },
    ];
    const { orders, toBuy } = list(rows, { parts, terms: { suppliers } });
    expect(orders).toMatchObject([{ supplier: 'A', goods: 35, freight: 7, cutting: 2.51, total: 44.51 }]);
    expect(toBuy).toBe(44.51);
  });
});

describe('currencies', () => {
  const rows: PriceCell[][] = [
    ['Skin', 'other', 'each', '', 10.05, 'EUR', '', 'A'],
    ['Bolt', 'other', 'each', '', 2, 'GBP', '', 'B'],
    ['Nut', 'other', 'each', '', 1, '', '', 'B'],
  ];
  const parts = [part('Skin', 3), part('Bolt', 2), part('Nut', 4)];

  it('are turned into the own one by the user’s rate, line by line', () => {
    const { orders, toBuy } = list(rows, {
      parts,
      terms: {
        rates: [
          { currency: 'eur', rate: 1.0765, date: '2026-03-01' },
          { currency: 'GBP', rate: 1.3, date: '' },
        ],
      },
    });
    // 30.15 × 1.0765 = 32.456475
    expect(orders.find(({ supplier }) => supplier === 'A')!.goods).toBe(32.46);
    expect(toBuy).toBe(41.66);
  });

  it('without a rate are left out of the total and named', () => {
    const { withoutRate, toBuy } = list(rows, { parts, terms: { rates: [{ currency: 'EUR', rate: 1, date: '' }] } });
    expect(withoutRate).toEqual([{ currency: 'GBP', amount: 4, what: 'Bolt' }]);
    expect(toBuy).toBe(34.15);
  });

  it('round half up to the own minor unit', () => {
    expect(ownMoney('JPY', [{ currency: 'USD', rate: 150.5, date: '' }]).of(1, 'USD')).toBe(151);
    expect(ownMoney('USD', [{ currency: 'EUR', rate: 1.005, date: '' }]).of(1, 'EUR')).toBe(1.01);
  });
});

describe('for any list', () => {
  const cents = fc.integer({ min: 1, max: 99_999 }).map((value) => value / 100);
  const rows = fc.array(
    fc.record({ price: cents, supplier: fc.constantFrom('A', 'B', 'C'), currency: fc.constantFrom('USD', 'EUR') }),
    { minLength: 1, maxLength: 8 },
  );

  it('the lines sum to the orders, the orders to the list, to the cent, and everything needed is had', () => {
    fc.assert(
      fc.property(
        rows,
        fc.array(fc.double({ min: 0.01, max: 500, noNaN: true }), { minLength: 8, maxLength: 8 }),
        cents,
        (items, uses, freight) => {
          const prices = items.map(({ price, supplier, currency }, index): PriceCell[] => [
            `Item ${index}`,
            'other',
            'lb',
            '',
            price,
            currency,
            '',
            supplier,
          ]);
          const made = list(prices, {
            parts: items.map((_, index) => part(`Item ${index}`, uses[index]!)),
            terms: {
              rates: [{ currency: 'EUR', rate: 1.0937, date: '' }],
              suppliers: [{ supplier: 'A', freight, cutCharge: 0, cuts: 0 }],
              spares: { ...NO_SPARES, other: 0.07 },
            },
          });
          for (const { lines, goods, freight: carriage, cutting, total } of made.orders) {
            expect(goods).toBe(
              sumMoney(
                lines.map(({ cost }) => cost!),
                'USD',
              ),
            );
            expect(total).toBe(sumMoney([goods, carriage, cutting], 'USD'));
            for (const { needed, spares, purchase } of lines)
              expect(purchase!.quantity).toBeGreaterThanOrEqual((needed + spares) * (1 - 1e-8));
          }
          expect(made.toBuy).toBe(
            sumMoney(
              made.orders.map(({ total }) => total),
              'USD',
            ),
          );
          expect(made.orders.flatMap(({ lines }) => lines)).toHaveLength(items.length);
        },
      ),
    );
  });
});

describe('a purchase in sale units', () => {
  const RIVET = 'MS20470AD4-4';
  const rows: PriceCell[][] = [
    [RIVET, 'rivet', '100', '', 5, 'USD', '', 'Nuts & Co'],
    [RIVET, 'rivet', 'lb', '', 60, 'USD', '', 'Metal'],
    [RIVET, 'rivet', '1000', '', 40, 'USD', '', 'Both'],
    [RIVET, 'rivet', '100', '', 6, 'USD', '', 'Both'],
  ];
  const had = (supplier: string, soldBy?: string) => {
    const bought = [{ item: RIVET, supplier, units: 2, paid: 1, currency: 'USD', ...(soldBy ? { soldBy } : {}) }];
    const made = list(rows, { joints: [{ component: 'Wing', rivet: RIVET, count: 1e6 }], bought });
    return { bought: made.orders[0]!.lines[0]!.bought, unclear: made.unclear.length };
  };

  it('is two hundred where the supplier sells by the hundred, whatever others sell by', () => {
    expect(had(' nuts & CO')).toEqual({ bought: 200, unclear: 0 });
    // A pound is the pieces of its computed weight: some 1,700.
    expect(had('Metal').bought).toBeGreaterThan(3000);
  });
  it('is what the purchase says', () => {
    expect(had('Both', '1000')).toEqual({ bought: 2000, unclear: 0 });
    expect(had('Both', '100')).toEqual({ bought: 200, unclear: 0 });
    expect(had('Somebody', 'each')).toEqual({ bought: 2, unclear: 0 });
    expect(had('Somebody', '100')).toEqual({ bought: 200, unclear: 0 });
  });
  it('counts as nothing, and is named, where it may be pieces, hundreds or pounds', () => {
    expect(had('Both')).toEqual({ bought: 0, unclear: 1 });
    expect(had('Somebody')).toEqual({ bought: 0, unclear: 1 });
  });
});
