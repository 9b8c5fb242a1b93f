/** Prices: what a piece, a square inch or an inch costs, what is used is worth, and what has to be bought. */
import { piecesPerPound, type OwnRivets } from '../core/fastener';
import { checkLength, plain, rivets } from './parameters';
import { InputError, refuse } from '../core/input-error';
import { entryOf } from '../core/memoized';
import {
  openPriceBook,
  priceEach,
  purchase,
  readPriceList,
  valueUsed,
  type Measure,
  type PriceBook,
} from '../core/price';
import {
  asCellError,
  block,
  defineRowWise,
  defineWhole,
  fromInch,
  number,
  numbers,
  optional,
  text,
  texts,
  toInch,
  unitsParameter,
  type Definition,
  type Dimension,
  type UnitSystem,
} from './define';
import type { Cell, Matrix } from '../sheet/cell';

const TAKES_PRICES = 'the price list with its header row: Item, Kind, Sold by, Contents, Price, Currency, From';

/** The price lists by the block that they were read from. A host that gives one block to the calls of many cells has it read once. */
const booksRead = new WeakMap<Matrix, PriceBook>();

/** The price list as an argument. */
export const pricesParameter = block<PriceBook>('prices', {
  help: 'the price list, with its header row: Item, Kind, Sold by, Contents, Price, and where needed Currency, From (price breaks), Supplier',
  takes: TAKES_PRICES,
  read: (cells) =>
    entryOf(booksRead, cells, () => {
      const list = readPriceList(plain(cells));
      const { item = '', message = 'It has no row under its header' } = list.problems[0] ?? {};
      if (list.rows.length === 0 && item === '') throw new InputError('prices', cells, TAKES_PRICES, message);
      return openPriceBook(list, piecesPerPound);
    }),
});

/** By price list and table of own rivets: the list opened with the number of those rivets in a pound. */
const booksWithRivets = new WeakMap<OwnRivets, WeakMap<PriceBook, PriceBook>>();

export function withRivets(book: PriceBook, own: OwnRivets | undefined): PriceBook {
  if (!own) return book;
  const books = entryOf(booksWithRivets, own, () => new WeakMap<PriceBook, PriceBook>());
  return entryOf(books, book, () => openPriceBook(book.list, (name) => piecesPerPound(name, own)));
}

const item = text('item', { help: 'item of the price list; case does not count', of: 'an item of the price list' });
const QUANTITY = {
  help: 'how much is used: in² of sheet, inches of bar, pieces, or lb (with units "mm-kg": mm², mm, pieces, kg)',
  of: 'in² of sheet, inches of bar, pieces or lb,',
  limits: { min: 0, max: 1e9 },
} as const;
const quantity = number('quantity', QUANTITY);

const DIMENSION_OF: Readonly<Record<Measure, Dimension | undefined>> = {
  area: 'area',
  length: 'length',
  weight: 'weight',
  pieces: undefined,
};
/** A small price list for the examples. */
const LIST: Matrix = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 103.68, 'USD', 0],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 82.08, 'USD', 5],
  ['Angle 3/4', 'bar', 'each', '12 ft', 21.6, 'USD', ''],
  ['Bolt AN3-5', 'other', '100', '', 48, 'USD', ''],
];

export const prices: readonly Definition[] = [
  defineRowWise({
    name: 'PRICE.EACH',
    family: 'Prices',
    summary: 'Price of one piece, square inch, inch or pound of an item.',
    parameters: [
      item,
      pricesParameter,
      optional(
        number('quantity', {
          ...QUANTITY,
          help: `${QUANTITY.help}; with it, the price at the break where that much is bought`,
        }),
      ),
      unitsParameter,
      rivets,
    ],
    result: { kind: 'number', help: 'money for one unit of use, not rounded' },
    formula:
      'price of a sale unit / its contents, at the lowest break; with a quantity, at the break where PRICE.BUY buys it',
    source: 'definition',
    limits: [
      'Of several suppliers the cheapest is taken',
      'A rivet sold by weight counts the pieces of its computed weight',
    ],
    examples: [
      { args: ['Skin .025', LIST], gives: 0.015, note: 'per in² of a 48 × 144 sheet' },
      { args: ['Skin .025', LIST, 34_560], gives: 0.011875, note: 'five sheets reach the break' },
      { args: ['Angle 3/4', LIST, null, 'mm-kg'], gives: 0.15 / 25.4, note: 'per mm' },
    ],
    compute(name, book, amount, units, own) {
      const found = withRivets(book, own).find(name);
      if (units === 'in-lb') return priceEach(found, amount);
      const dimension = DIMENSION_OF[found.measure];
      const each = priceEach(found, amount === undefined ? undefined : toInch(amount, dimension, units));
      // Money for one unit of use, in the user's unit of it.
      return toInch(each, dimension, units);
    },
  }),
  defineRowWise({
    name: 'PRICE.COST',
    family: 'Prices',
    summary: 'Value of the material that a part uses, at the price of the lowest break.',
    parameters: [item, quantity, pricesParameter, unitsParameter, rivets],
    result: { kind: 'number', help: "money, rounded half up to the currency's minor unit" },
    formula: 'quantity × price of the lowest break / contents',
    source: 'definition',
    limits: [
      'Value used, not money spent: sale units are not rounded up and quantity breaks not used; PRICE.BUY does both',
      'Each value is rounded to the cent, so that a column adds up to what it shows',
    ],
    examples: [
      { args: ['Skin .025', 864, LIST], gives: 12.96, note: 'a 24 × 36 skin' },
      { args: [[['Angle 3/4'], ['bolt an3-5']], [[30], [4]], LIST], gives: [[4.5], [1.92]] },
    ],
    compute(name, amount, book, units, own) {
      const found = withRivets(book, own).find(name);
      return valueUsed(found, toInch(amount, DIMENSION_OF[found.measure], units));
    },
  }),
  defineWhole({
    name: 'PRICE.BUY',
    family: 'Prices',
    summary:
      'What has to be bought for a quantity: whole sale units, what they hold, their cost and what is left over.',
    parameters: [
      texts('item', { help: 'item of the price list, or a column of items', of: 'items of the price list' }),
      numbers('quantity', QUANTITY),
      pricesParameter,
      unitsParameter,
      rivets,
    ],
    result: {
      kind: 'table',
      columns: [{ name: 'sale units' }, { name: 'quantity bought' }, { name: 'cost' }, { name: 'left over' }],
      help: 'one row an item; the cost is rounded half up to the minor unit of its currency',
    },
    formula:
      'sale units = quantity / contents rounded up; every break and supplier is tried, also buying more where that costs less',
    source: 'definition',
    limits: [
      'Cut and freight charges are not in it',
      'Nesting is not in it: for sheets and bars see STOCK.SHEETS and STOCK.BARS',
    ],
    examples: [
      { args: ['Skin .025', 20_000, LIST], gives: [[3, 20_736, 311.04, 736]] },
      {
        args: ['Skin .025', 27_000, LIST],
        gives: [[5, 34_560, 410.4, 7560]],
        note: 'four would do, but five cost less',
      },
      {
        args: [[['Skin .025'], ['Angle 3/4']], [[30_000], [300]], LIST],
        gives: [
          [5, 34_560, 410.4, 4560],
          [3, 432, 64.8, 132],
        ],
      },
    ],
    compute(names, amounts, list, units, own) {
      const book = withRivets(list, own);
      checkLength('quantity', amounts, 'item', names.length);
      return names.map((name, index) => buyRow(name, amounts[index] ?? null, book, units));
    },
  }),
];

/** One row of PRICE.BUY; what is wrong with it stays in it. */
function buyRow(name: string | null, amount: number | null, book: PriceBook, units: UnitSystem): Cell[] {
  if (name === null && amount === null) return ['', '', '', ''];
  try {
    const [wanted, used] = [
      name ?? refuse('item', null, 'an item of the price list'),
      amount ?? refuse('quantity', null, 'how much is used'),
    ];
    const found = book.find(wanted);
    const dimension = DIMENSION_OF[found.measure];
    const bought = purchase(found, toInch(used, dimension, units));
    return [
      bought.units,
      fromInch(bought.quantity, dimension, units),
      bought.cost,
      fromInch(bought.leftOver, dimension, units),
    ];
  } catch (error) {
    const cell = asCellError(error);
    return [cell, cell, cell, cell];
  }
}
