import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openPriceBook, priceEach, purchase, readPriceList, valueUsed, type PriceCell } from '../../../src/core/price';
import { InputError, NotListedError } from '../../../src/core/input-error';

const HEADER = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier'];
const open = (rows: PriceCell[][], perPound?: (item: string) => number | undefined) =>
  openPriceBook(readPriceList([HEADER, ...rows]), perPound);

const BREAKS: PriceCell[][] = [
  ['Sheet', 'sheet', 'sheet', '48 x 144', 100, 'USD', ''],
  ['Sheet', 'sheet', 'sheet', '48 x 144', 70, 'USD', 4],
  ['Sheet', 'sheet', 'sheet', '48 x 144', 60, 'USD', 10],
];

describe('look-up', () => {
  it('ignores case and spacing, and names near items for an unknown one', () => {
    const book = open([
      ['Skin  .025', 'other', 'each', '', 1],
      ['Skin .032', 'other', 'each', '', 1],
      ['Bolt', 'other', 'each', '', 1],
    ]);
    expect(book.find(' skin .025 ').item).toBe('Skin  .025');
    expect(() => book.find('Skn .032')).toThrow(NotListedError);
    expect(() => book.find('Skn .032')).toThrow(/Near to it: Skin \.032/);
    expect(() => book.find('zzzzzzzzzzzzzz')).toThrow(/takes an item of the price list$/);
  });

  it('does not price an item from its right rows while another of them is wrong', () => {
    const book = open([...BREAKS, ['Sheet', 'sheet', 'sheet', '48 x 144', 'x', 'USD', 20]]);
    expect(() => book.find('Sheet')).toThrow(/row 5, Price: got "x"/);
  });

  it('refuses to compare currencies or units', () => {
    expect(() =>
      open([
        ['a', 'other', 'each', '', 1, 'USD'],
        ['a', 'other', 'each', '', 1, 'EUR', '', 'B'],
      ]).find('a'),
    ).toThrow(/row 2 of the price list has USD, row 3 EUR/);
    expect(() =>
      open([
        ['a', 'other', 'each', '', 1],
        ['a', 'other', 'ft', '', 1],
      ]).find('a'),
    ).toThrow(InputError);
  });
});

describe('price of one and value used', () => {
  it('are those of the lowest break', () => {
    const sheet = open(BREAKS).find('sheet');
    expect(priceEach(sheet)).toBe(100 / 6912);
    expect(priceEach(sheet, 10 * 6912)).toBe(60 / 6912);
    expect(valueUsed(sheet, 3456)).toBe(50);
  });

  it('round half up in decimals: 0.5 of 2.01 is 1.005, which binary fractions put below the half', () => {
    const item = open([['a', 'other', 'lb', '', 2.01, 'USD']]).find('a');
    expect(valueUsed(item, 0.5)).toBe(1.01);
    expect(valueUsed(open([['a', 'other', 'lb', '', 2.01, 'JPY']]).find('a'), 0.5)).toBe(1);
    expect(valueUsed(open([['a', 'other', 'lb', '', 2.01, 'KWD']]).find('a'), 0.5)).toBe(1.005);
  });

  it('take the cheapest of several suppliers, by the unit of use and not by the sale unit', () => {
    const item = open([
      ['Tube', 'bar', 'each', '6 ft', 18, 'USD', '', 'A'],
      ['Tube', 'bar', 'each', '12 ft', 30, 'USD', '', 'B'],
    ]).find('tube');
    expect(priceEach(item)).toBe(30 / 144);
    expect(purchase(item, 60)).toMatchObject({ units: 1, cost: 18, leftOver: 12 });
    expect(purchase(item, 140)).toMatchObject({ units: 1, cost: 30 });
  });
});

describe('rivets by the pound', () => {
  const rows: PriceCell[][] = [
    ['MS20470AD4-6', 'rivet', 'lb', '', 14, 'USD'],
    ['Odd', 'rivet', 'lb', '', 14, 'USD'],
    ['Counted', 'rivet', 'lb', 800, 14, 'USD'],
  ];
  const book = open(rows, (item) => (item === 'MS20470AD4-6' ? 1680 : undefined));

  it('count the pieces of the computed weight', () => {
    expect(priceEach(book.find('ms20470ad4-6'))).toBe(14 / 1680);
    expect(purchase(book.find('MS20470AD4-6'), 1700)).toMatchObject({ units: 2, quantity: 3360, leftOver: 1660 });
  });

  it('need a designation or their pieces', () => {
    expect(() => book.find('Odd')).toThrow(/designation, since it is sold by weight \(row 3/);
    expect(purchase(book.find('Counted'), 100).quantity).toBe(800);
  });
});

describe('what is bought', () => {
  const sheet = open(BREAKS).find('Sheet');

  it('buys more where more costs less', () => {
    expect(purchase(sheet, 2 * 6912)).toMatchObject({ units: 2, price: 100, cost: 200 });
    expect(purchase(sheet, 3 * 6912)).toMatchObject({ units: 4, price: 70, cost: 280, leftOver: 6912 });
    expect(purchase(sheet, 8 * 6912)).toMatchObject({ units: 8, price: 70, cost: 560 });
    expect(purchase(sheet, 9 * 6912)).toMatchObject({ units: 10, price: 60, cost: 600 });
  });

  it('takes no extra unit for the rounding of a quantity, and none for nothing', () => {
    expect(purchase(sheet, 6912 * (1 + 1e-12)).units).toBe(1);
    expect(purchase(sheet, 0)).toMatchObject({ units: 0, cost: 0, leftOver: 0 });
  });

  it('is never dearer than buying at any one break, and always enough', () => {
    const breaks = fc.array(
      fc.record({ from: fc.integer({ min: 2, max: 60 }), price: fc.integer({ min: 1, max: 5000 }) }),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(
        breaks,
        fc.integer({ min: 1, max: 9999 }),
        fc.integer({ min: 1, max: 20_000 }),
        (more, cents, quantity) => {
          const unique = [...new Map(more.map((one) => [one.from, one])).values()];
          const rows: PriceCell[][] = [
            ['x', 'rivet', '100', '', cents / 100, 'USD', ''],
            ...unique.map(({ from, price }) => ['x', 'rivet', '100', '', price / 100, 'USD', from]),
          ];
          const bought = purchase(open(rows).find('x'), quantity);
          expect(bought.quantity).toBeGreaterThanOrEqual(quantity);
          expect(bought.leftOver).toBe(bought.quantity - quantity);
          for (const [, , , , price, , from] of rows) {
            const units = Math.max(Math.ceil(quantity / 100), Number(from) || 1);
            expect(bought.cost).toBeLessThanOrEqual((units * Math.round(Number(price) * 100)) / 100 + 1e-9);
          }
        },
      ),
    );
  });
});
