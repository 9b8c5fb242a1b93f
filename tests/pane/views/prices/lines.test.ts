import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { CellError, type Cell } from '../../../../src/sheet';
import {
  arrange,
  AS_IN_SHEET,
  type Arrangement,
  ageWord,
  monthsBetween,
  quoteAge,
} from '../../../../src/pane/views/prices/arrange';
import { setLocale } from '../../../../src/pane/locale';
import { fieldText, readField, unreadField } from '../../../../src/pane/views/prices/fields';
import { pricePlaces } from '../../../../src/core/price';
import { checkLines, keepIds, missingColumns } from '../../../../src/pane/views/prices/lines';
import { quotedText } from '../../../../src/pane/shared/quantities';
import { noUnitPrice, perUse, unitDigits, unitPrice } from '../../../../src/pane/views/prices/price-words';
import { HEADERS, PRICE_ROWS } from './price-book-model';

const places = pricePlaces(HEADERS);
const lines = (rows: readonly (readonly Cell[])[] = PRICE_ROWS) =>
  checkLines(
    places,
    rows.map((cells, index) => ({ id: index + 1, cells, formulas: [] })),
  );

afterEach(() => setLocale());

describe('fields', () => {
  it('shows dates as year-month-day and formulas as they are typed', () => {
    expect(fieldText('quotedOn', 46112)).toBe('2026-03-31');
    expect(fieldText('price', 12, '=10*1.2')).toBe('=10*1.2');
    expect(fieldText('price', new CellError('#N/A'))).toBe('#N/A');
    expect(fieldText('note', null)).toBe('');
  });

  it('reads numbers, grouped numbers, dates and choices; keeps what it cannot read', () => {
    expect(readField('price', ' 12.50 ')).toBe(12.5);
    expect(readField('price', '1,234.5')).toBe(1234.5);
    expect(readField('price', '=10*1.2')).toEqual({ formula: '=10*1.2' });
    expect(readField('price', '12,5')).toBe('12,5');
    expect(readField('quotedOn', '2026-03-31')).toBe(46112);
    expect(readField('quotedOn', '31.3.2026')).toBe('31.3.2026');
    expect(readField('kind', 'Sheet')).toBe('sheet');
    expect(readField('soldBy', '100')).toBe(100);
    expect(readField('item', '=1+1')).toBe('=1+1');
    expect(readField('note', '')).toBeNull();
  });

  it('say why a number is none, and not what is wrong with a text', () => {
    expect(unreadField('price', '12,5')).toBe('“12,5”: write the decimals as 12.5');
    expect(unreadField('from', 'five')).toBe('“five” is not a number');
    expect(['', '=A1', '1 1/2'].map((text) => unreadField('price', text))).toEqual([undefined, undefined, undefined]);
    expect(unreadField('note', '12,5')).toBeUndefined();
  });

  it('take and show the decimal sign of the place', () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    expect(readField('price', '1.234,50')).toBe(1234.5);
    expect([fieldText('price', 1234.5), fieldText('from', 5), fieldText('item', 12.5)]).toEqual([
      '1234,5',
      '5',
      '12.5',
    ]);
    expect(unreadField('price', '1.234')).toContain('can be read in two ways');
  });
});

describe('contents as they are typed', () => {
  it.each([
    ['en-US', '48 x 144', '48 x 144'],
    ['en-US', '47 1/2 x 144', '47.5 x 144'],
    ['en-US', '3/4 x 1-1/2', '0.75 x 1.5'],
    ['en-US', '12.50', '12.50'],
    ['en-US', '1,250 x 2,500 mm', '1250 x 2500 mm'],
    ['en-US', 'a box, 3 trays', 'a box, 3 trays'],
    ['en-US', '144', 144],
    ['de-DE', '47,5 x 144', '47.5 x 144'],
    ['de-DE', '12,5 ft', '12.5 ft'],
    ['de-DE', '0,5', 0.5],
    ['de-DE', '1250 x 2500 mm', '1250 x 2500 mm'],
    ['fr-FR', '1 250 x 2 500,5 mm', '1250 x 2500.5 mm'],
  ])('in %s “%s” is the cell %s, and shown as it was', (numbers, typed, cell) => {
    setLocale({ language: 'en', numbers });
    expect(readField('contents', typed)).toBe(cell);
    expect(readField('contents', fieldText('contents', cell))).toBe(cell);
  });

  it('are refused where a number can be read in two ways', () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    expect(unreadField('contents', '1.250 x 2500 mm')).toBe('“1.250” can be read in two ways: write 1250 or 1,250');
    expect(fieldText('contents', '1250.5 x 2500 mm')).toBe('1250,5 x 2500 mm');
  });
});

describe('the rows of the list', () => {
  it('finds columns in any order and names those that are missing', () => {
    expect(pricePlaces(['Note', 'PRICE', 'Item']).get('price')).toBe(1);
    expect(missingColumns(pricePlaces(['Item', 'Price'])).map(({ label }) => label)).toEqual(['Kind', 'Sold by']);
  });

  it('tells what is wrong by column, duplicates and error cells included', () => {
    const checked = lines([
      ...PRICE_ROWS.slice(0, 2),
      ['Sheet 2024-T3 .025', 'sheet', 'sheet', '48 x 144', 99, 'USD', 5, 'Harbor Metals'],
      ['bar', 'bar', 'pack', null, new CellError('#REF!')],
      [null, ''],
    ]);
    expect(checked.map(({ problems }) => [...problems.keys()])).toEqual([[], [], ['from'], ['soldBy', 'price'], []]);
    expect(checked[3]!.problems.get('price')).toContain('got "#REF!"');
    expect(checked[4]!.blank).toBe(true);
  });

  it('gives unit prices as the worksheet functions do, solid rivets by their weight', () => {
    const rows = lines().map(({ row }) => row!);
    const prices = rows.map((row) => unitPrice(row, 'in-lb'));
    expect([prices[0], prices[3]]).toEqual([148 / 6912, 23.7 / 144]);
    expect(prices[5]).toBeCloseTo(0.112, 12);
    expect(prices[4]).toBeGreaterThan(0.005);
    expect(prices[4]).toBeLessThan(0.05);
    expect([0, 3, 4].map((index) => perUse(rows[index]!.measure, 'in-lb'))).toEqual(['/in²', '/in', 'each']);
    const [unknown] = lines([['our own rivet', 'rivet', 'lb', null, 20]]);
    expect(unitPrice(unknown!.row!, 'in-lb')).toBeUndefined();
    expect(noUnitPrice(unknown!.row!)).toContain('designation');
    expect(noUnitPrice(rows[0]!)).toBeUndefined();
  });

  it('gives them for metric units where the workbook counts in those', () => {
    const rows = lines([...PRICE_ROWS, ['Filler', 'other', 'kg', null, 20]]).map(({ row }) => row!);
    expect(unitPrice(rows[2]!, 'mm-kg')).toBeCloseTo(92.4 / (1.25 * 2.5), 10);
    expect(unitPrice(rows[3]!, 'mm-kg')).toBeCloseTo(23.7 / 3.6576, 10);
    expect(unitPrice(rows[8]!, 'mm-kg')).toBeCloseTo(20, 10);
    expect(unitPrice(rows[5]!, 'mm-kg')).toBeCloseTo(0.112, 12);
    expect([2, 3, 8, 5].map((index) => perUse(rows[index]!.measure, 'mm-kg'))).toEqual(['/m²', '/m', '/kg', 'each']);
  });

  it('shows as many decimals as the prices need', () => {
    expect(unitDigits([0.0214, 1.89, undefined], 'in-lb')).toBe(4);
    expect(unitDigits([0.00012, 5], 'in-lb')).toBe(5);
    expect(unitDigits([33.2, 5], 'mm-kg')).toBe(2);
    expect(quotedText(148, 'USD')).toBe('148.00');
    expect(quotedText(0.125, '')).toBe('0.125');
    expect(quotedText(1200, 'JPY')).toBe('1,200');
  });
});

describe('ids', () => {
  const before = [
    { id: 1, cells: ['a', 1] },
    { id: 2, cells: ['b', 2] },
    { id: 3, cells: ['c', 3] },
  ];
  const ids = (now: Cell[][]) => {
    let next = 100;
    return keepIds(before, now, () => (next += 1));
  };

  it('follow rows that are edited, moved, inserted and removed', () => {
    expect(
      ids([
        ['a', 1],
        ['b', 9],
        ['c', 3],
      ]),
    ).toEqual([1, 2, 3]);
    expect(
      ids([
        ['c', 3],
        ['a', 1],
        ['b', 2],
      ]),
    ).toEqual([3, 1, 2]);
    expect(
      ids([
        ['new', 0],
        ['a', 1],
        ['b', 2],
        ['c', 3],
      ]),
    ).toEqual([101, 1, 2, 3]);
    expect(
      ids([
        ['a', 1],
        ['c', 3],
      ]),
    ).toEqual([1, 3]);
    expect(
      ids([
        ['c', 3],
        ['b', 7],
        ['a', 1],
      ]),
    ).toEqual([3, 2, 1]);
    expect(
      ids([
        ['renamed', 1],
        ['b', 2],
        ['c', 3],
      ]),
    ).toEqual([1, 2, 3]);
  });

  it('are never given twice', () => {
    const rows = fc.array(fc.tuple(fc.constantFrom('a', 'b', 'c', ''), fc.integer({ min: 0, max: 3 })), {
      maxLength: 8,
    });
    fc.assert(
      fc.property(rows, rows, (old, now) => {
        let next = 100;
        const given = keepIds(
          old.map((cells, id) => ({ id, cells })),
          now,
          () => (next += 1),
        );
        expect(new Set(given).size).toBe(now.length);
      }),
    );
  });
});

describe('the arrangement', () => {
  const ageing = { today: '2026-03-31', oldAfter: 12 };
  const items = (change: Partial<Arrangement>, given = lines()) =>
    arrange(given, places, { ...AS_IN_SHEET, ...change }, ageing).map(({ id }) => id);

  it('keeps the order of the sheet and leaves blank rows out', () => {
    expect(items({}, lines([...PRICE_ROWS, [null]]))).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('sorts by text, number, date and unit price, blanks last both ways', () => {
    expect(items({ sort: 'price' })[0]).toBe(6);
    expect(items({ sort: 'price', descending: true })[0]).toBe(8);
    expect(items({ sort: 'unit' }).at(-1)).toBe(8);
    expect(items({ sort: 'quotedOn' }).at(-1)).toBe(7);
    expect(items({ sort: 'quotedOn', descending: true }).at(-1)).toBe(7);
    expect(
      items(
        { sort: 'item' },
        lines([
          ['rib 10', 'other', 'each', null, 1],
          ['Rib 9', 'other', 'each', null, 1],
        ]),
      ),
    ).toEqual([2, 1]);
  });

  it('filters by every word, in any column, and by kind, age and fault', () => {
    expect(items({ text: 'harbor bar' })).toEqual([4]);
    expect(items({ text: 'rack' })).toEqual([1, 2]);
    expect(items({ show: 'rivet' })).toEqual([5, 6]);
    expect(items({ show: 'old' })).toEqual([3, 8]);
    expect(items({ show: 'mend' }, lines([['x', 'other', 'each', null, -1], PRICE_ROWS[0]!]))).toEqual([1]);
  });
});

describe('the age of a quote', () => {
  it('counts whole months and says them', () => {
    expect(monthsBetween('2025-01-31', '2025-03-30')).toBe(1);
    expect(monthsBetween('2025-01-31', '2025-03-31')).toBe(2);
    expect(ageWord(quoteAge('2025-01-20', '2026-03-31', 12))).toBe('old: 14 months');
    expect(ageWord(quoteAge('2025-04-01', '2026-03-31', 12))).toBeUndefined();
    expect(ageWord(quoteAge('2025-03-31', '2026-03-31', 12))).toBe('old: 12 months');
    expect(ageWord(quoteAge('2022-03-31', '2026-03-31', 12))).toBe('old: 4 years');
    expect(ageWord(quoteAge('2026-04-01', '2026-03-31', 12))).toBe('dated ahead');
    expect(ageWord(quoteAge('2020-01-01', '2026-03-31', 0))).toBeUndefined();
  });
});
