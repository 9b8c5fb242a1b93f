/** Laws of money, which reconciles to the cent, and of stock, of which no plan uses less than the bound. */
import fc from 'fast-check';
import { describe, it } from 'vitest';
import type { Matrix } from '../../../src/sheet';
import { between, column, holds, law, near, orders, row, shuffled, table, value, whole } from '../tare';

const HEADER = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier'];
const cents = (amount: number): number => Math.round(amount * 100);
/** True where an amount is a whole number of cents, as it prints. */
const isMoney = (amount: number): boolean => Number(amount.toFixed(2)) === amount;

interface Offer {
  readonly price: number;
  readonly contents: number;
  /** Breaks: from so many, at this share of the price in per cent. */
  readonly breaks: readonly (readonly [from: number, percent: number])[];
}
const offer: fc.Arbitrary<Offer> = fc.record({
  price: whole(1, 100_000).map((one) => one / 100),
  contents: whole(1, 500),
  breaks: fc.uniqueArray(fc.tuple(whole(2, 60), whole(20, 130)), { selector: ([from]) => from, maxLength: 3 }),
});
const offers = fc.array(offer, { minLength: 1, maxLength: 4 });

const listOf = (all: readonly Offer[], currency = 'USD'): Matrix => [
  HEADER,
  ...all.flatMap(({ price, contents, breaks }, index): Matrix => [
    [`Item ${index}`, 'rivet', 'pack', contents, price, currency, '', 'A'],
    ...breaks.map(([from, percent]) => [
      `Item ${index}`,
      'rivet',
      'pack',
      contents,
      Math.max(0.01, Math.round(price * percent) / 100),
      currency,
      from,
      'A',
    ]),
  ]),
];
const item = (all: readonly Offer[], pick: number): string => `Item ${pick % all.length}`;

describe('buying', () => {
  it('is whole units at the price of a break that is reached, enough, and never dearer for less', () => {
    law([offers, whole(0, 9), whole(1, 20_000), whole(0, 5_000)], (all, pick, quantity, more) => {
      const list = listOf(all);
      const name = item(all, pick);
      const [units, bought, cost, left] = row('PRICE.BUY', name, quantity, list) as [number, number, number, number];
      holds(Number.isInteger(units) && units > 0, `${units} units`);
      holds(isMoney(cost), `${cost} is no amount of cents`);
      near(bought - quantity, left, bought);
      holds(left >= 0, `${left} left over`);
      const { price, contents, breaks } = all[pick % all.length]!;
      const paid = [
        price,
        ...breaks
          .filter(([from]) => from <= units)
          .map(([, percent]) => Math.max(0.01, Math.round(price * percent) / 100)),
      ];
      holds(
        paid.some((each) => cents(each) * units === cents(cost)),
        `${units} for ${cost}`,
      );
      holds(cents(cost) <= cents(price) * Math.ceil(quantity / contents), 'dearer than at the first price');
      holds(row('PRICE.BUY', name, quantity + more, list)[2]! >= cost, 'more costs less than less');
      near(bought, units * contents);
      near(value('PRICE.EACH', name, list, quantity) * contents * units, cost, cost, 1e-9);
    });
  });

  it('asks for no order of the price list, and a column is its rows', () => {
    law(
      [offers, fc.array(fc.tuple(whole(0, 9), whole(0, 5_000)), { minLength: 2, maxLength: 8 }), orders],
      (all, needs, keys) => {
        const list = listOf(all);
        const other = [HEADER, ...shuffled(list.slice(1), keys)];
        const [names, amounts] = [
          column(needs.map(([pick]) => item(all, pick))),
          column(needs.map(([, amount]) => amount)),
        ];
        const rows = table('PRICE.BUY', names, amounts, list);
        holds(String(table('PRICE.BUY', names, amounts, other)) === String(rows), 'another purchase');
        needs.forEach(([pick, amount], index) =>
          holds(String(row('PRICE.BUY', item(all, pick), amount, list)) === String(rows[index]), 'a row alone differs'),
        );
        // Cents add up as whole numbers: what is shown is what is summed.
        const total = rows.reduce((sum, cells) => sum + Number(cells[2]), 0);
        holds(Math.abs(total * 100 - rows.reduce((sum, cells) => sum + cents(Number(cells[2])), 0)) < 1e-4, `${total}`);
      },
    );
  });
});

describe('value used', () => {
  it('is money, quantity times the price of one, and a column sums to its cents', () => {
    law([offers, fc.array(fc.tuple(whole(0, 9), between(0.1, 5_000)), { minLength: 1, maxLength: 8 })], (all, uses) => {
      const list = listOf(all);
      const values = table(
        'PRICE.COST',
        column([...uses, uses[0]!].map(([pick]) => item(all, pick))),
        column([...uses, uses[0]!].map(([, amount]) => amount)),
        list,
      ).map(([cell]) => Number(cell));
      values.forEach((amount, index) => {
        holds(isMoney(amount), `${amount} is no amount of cents`);
        const [pick, quantity] = uses[index % uses.length]!;
        const exact = quantity * value('PRICE.EACH', item(all, pick), list);
        holds(Math.abs(amount - exact) <= 0.005 + exact * 1e-9, `${amount} for ${exact}`);
      });
    });
  });

  it('counts yen in ones and dinars in thousandths', () => {
    law([offer, between(0.1, 5_000)], (one, quantity) => {
      for (const [currency, digits] of [
        ['JPY', 0],
        ['KWD', 3],
        ['EUR', 2],
      ] as const) {
        const amount = value('PRICE.COST', 'Item 0', quantity, listOf([one], currency));
        holds(Number(amount.toFixed(digits)) === amount, `${amount} ${currency}`);
      }
    });
  });

  it('is the same in mm-kg, for sheet by its area, bar by its length and stuff by its weight', () => {
    const list: Matrix = [
      HEADER,
      ['Skin', 'sheet', 'sheet', '48 x 144', 103.68, 'USD'],
      ['Angle', 'bar', 'each', '12 ft', 21.6, 'USD'],
      ['Primer', 'other', 'lb', '', 9.9, 'USD'],
      ['Bolt', 'other', '100', '', 48, 'USD'],
    ];
    law(
      [
        fc.constantFrom(['Skin', 645.16], ['Angle', 25.4], ['Primer', 0.45359237], ['Bolt', 1] as const),
        between(1, 30_000),
      ],
      ([name, factor], quantity) => {
        const [one, metric] = [String(name), quantity * Number(factor)];
        near(
          value('PRICE.EACH', one, list, null, 'mm-kg') * Number(factor),
          value('PRICE.EACH', one, list),
          undefined,
          1e-12,
        );
        near(
          value('PRICE.COST', one, metric, list, 'mm-kg'),
          value('PRICE.COST', one, quantity, list),
          undefined,
          0.011,
        );
        const [inch, mm] = [row('PRICE.BUY', one, quantity, list), row('PRICE.BUY', one, metric, list, 'mm-kg')];
        holds(inch[0] === mm[0] && inch[2] === mm[2], `${String(inch)} and ${String(mm)}`);
        near(mm[1]!, inch[1]! * Number(factor), undefined, 1e-12);
      },
    );
  });
});

describe('bars', () => {
  const pieces = fc.array(fc.tuple(between(1, 140), whole(1, 30)), { minLength: 1, maxLength: 8 });
  const kerfs = fc.constantFrom(0, 0.0625, 0.125);
  const plan = (list: readonly (readonly [number, number])[], stock: number, kerf: number): [number, number, number] =>
    row('STOCK.BARS', column(list.map(([length]) => length)), column(list.map(([, count]) => count)), stock, kerf) as [
      number,
      number,
      number,
    ];

  it('are no fewer than the bound, nor than their length; use is what the pieces are of them', () => {
    law([pieces, whole(140, 300), kerfs], (list, stock, kerf) => {
      const [needed, bound, use] = plan(list, stock, kerf);
      const total = list.reduce((sum, [length, count]) => sum + length * count, 0);
      holds(
        bound <= needed && bound >= Math.ceil(total / stock - 1e-6),
        `${needed} bars, bound ${bound}, ${total} of ${stock}`,
      );
      holds(needed <= list.reduce((sum, [, count]) => sum + count, 0), `${needed} bars`);
      near(use, (100 * total) / (needed * stock));
      holds(use <= 100 + 1e-9, `${use} %`);
    });
  });

  it('ask for no order; their bound does not fall with more pieces nor rise with a longer bar', () => {
    law([pieces, whole(140, 300), kerfs, orders, whole(1, 60)], (list, stock, kerf, keys, longer) => {
      const [needed, bound] = plan(list, stock, kerf);
      const other = plan(shuffled(list, keys), stock, kerf);
      holds(other[1] === bound, `bound ${bound}, then ${other[1]}`);
      const more = plan([...list, list[0]!], stock, kerf);
      holds(more[0] >= bound && more[1] >= bound, `bound ${bound}, with more ${more[1]}`);
      holds(plan(list, stock + longer, kerf)[1] <= needed, 'a bound on longer bars above a plan of shorter ones');
    });
  });

  it('that were cut up without waste are the bound, whatever the plan needs', () => {
    const cuts = fc.array(fc.uniqueArray(whole(1, 143), { minLength: 1, maxLength: 5 }), {
      minLength: 1,
      maxLength: 12,
    });
    law([cuts, kerfs], (bars, kerf) => {
      const list = bars.flatMap((marks) => {
        const places = [0, ...marks.sort((a, b) => a - b), 144];
        // A kerf lies behind each piece, so that the bar and its last kerf are shared out.
        return places
          .slice(1)
          .map((place, index): [number, number] => [((place - places[index]!) / 144) * (144 + kerf) - kerf, 1]);
      });
      const [needed, bound] = plan(
        list.filter(([length]) => length > 0),
        144,
        kerf,
      );
      holds(bound <= bars.length && needed >= bound, `bound ${bound} for pieces of ${bars.length} bars`);
      if (kerf === 0) holds(bound === bars.length, `bound ${bound} for ${bars.length} full bars`);
    });
  });

  it('of pieces that are whole bars are the pieces', () => {
    law([whole(10, 300), whole(1, 200), kerfs], (stock, count, kerf) => {
      const [needed, bound, use] = plan([[stock, count]], stock, kerf);
      holds(needed === count && bound === count, `${needed}, ${bound}`);
      near(use, 100);
    });
  });
});

describe('sheets', () => {
  const parts = fc.array(fc.tuple(between(1, 96), between(1, 47), whole(1, 12)), { minLength: 1, maxLength: 6 });
  const plan = (
    list: readonly (readonly [number, number, number])[],
    grain: string,
    kerf = 0.0625,
  ): [number, number, number] =>
    row(
      'STOCK.SHEETS',
      column(list.map(([length]) => length)),
      column(list.map(([, width]) => width)),
      column(list.map(([, , count]) => count)),
      144,
      48,
      kerf,
      grain,
    ) as [number, number, number];

  it('are no fewer than the bound, nor than their area; a grain takes no fewer by the bound', () => {
    law([parts, orders], (list, keys) => {
      const [needed, bound, use] = plan(list, 'any');
      const area = list.reduce((sum, [length, width, count]) => sum + length * width * count, 0);
      holds(bound <= needed && bound >= Math.ceil(area / (144 * 48) - 1e-6), `${needed} sheets, bound ${bound}`);
      near(use, (100 * area) / (needed * 144 * 48));
      const along = plan(list, 'along');
      holds(along[0] >= bound && along[1] >= bound, `along the grain ${along[1]}, any way ${bound}`);
      holds(plan(shuffled(list, keys), 'any')[1] === bound, 'another bound in another order');
    });
  });

  it('that were cut up without waste are the bound, whatever the plan needs', () => {
    const cuts = fc.array(fc.tuple(whole(1, 143), whole(1, 47), whole(1, 47)), { minLength: 1, maxLength: 6 });
    law([cuts, fc.constantFrom('any', 'along')], (sheets, grain) => {
      const list = sheets.flatMap(([across, left, right]): [number, number, number][] => [
        [across, left, 1],
        [across, 48 - left, 1],
        [144 - across, right, 1],
        [144 - across, 48 - right, 1],
      ]);
      const [needed, bound] = plan(list, grain, 0);
      holds(bound === sheets.length && needed >= bound, `bound ${bound} for the parts of ${sheets.length} sheets`);
    });
  });

  it('turned with their sheet are the same', () => {
    law([parts], (list) => {
      const [needed, bound] = plan(list, 'along', 0);
      const turned = row(
        'STOCK.SHEETS',
        column(list.map(([, width]) => width)),
        column(list.map(([length]) => length)),
        column(list.map(([, , count]) => count)),
        144,
        48,
        0,
        'across',
      ) as [number, number];
      holds(turned[0] === needed && turned[1] === bound, `${needed}, ${bound} and ${String(turned)}`);
    });
  });
});
