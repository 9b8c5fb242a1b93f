import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CellError, type Cell } from '../../../src/functions';
import { arrange, AS_IN_SHEET, type Arrangement } from '../../../src/pane/prices/arrange';
import { cellText, readField } from '../../../src/pane/prices/fields';
import { checkLines, findPlaces, keepIds, missingColumns } from '../../../src/pane/prices/lines';
import { ageWord, monthsBetween } from '../../../src/pane/prices/quote-age';
import { priceDigits, unitDigits, unitPrice } from '../../../src/pane/prices/unit-price';
import { HEADERS, PRICE_ROWS } from './price-book-model';

const places = findPlaces(HEADERS);
const lines = (rows: readonly (readonly Cell[])[] = PRICE_ROWS) => checkLines(places, rows.map((cells, index) => ({ id: index + 1, cells, formulas: [] })));

describe('fields', () => {
  it('shows dates as year-month-day and formulas as they are typed', () => {
    expect(cellText('quotedOn', 46112)).toBe('2026-03-31');
    expect(cellText('price', 12, '=10*1.2')).toBe('=10*1.2');
    expect(cellText('price', new CellError('#N/A'))).toBe('#N/A');
    expect(cellText('note', null)).toBe('');
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
});

describe('the rows of the list', () => {
  it('finds columns in any order and names those that are missing', () => {
    expect(findPlaces(['Note', 'PRICE', 'Item']).get('price')).toBe(1);
    expect(missingColumns(findPlaces(['Item', 'Price'])).map(({ header }) => header)).toEqual(['Kind', 'Sold by']);
  });

  it('tells what is wrong by column, duplicates and error cells included', () => {
    const checked = lines([...PRICE_ROWS.slice(0, 2), ['Sheet 2024-T3 .025', 'sheet', 'sheet', '48 x 144', 99, 'USD', 5, 'Harbor Metals'], ['bar', 'bar', 'pack', null, new CellError('#REF!')], [null, '']]);
    expect(checked.map(({ problems }) => [...problems.keys()])).toEqual([[], [], ['from'], ['soldBy', 'price'], []]);
    expect(checked[3]!.problems.get('price')).toContain('got "#REF!"');
    expect(checked[4]!.blank).toBe(true);
  });

  it('gives unit prices as the worksheet functions do, solid rivets by their weight', () => {
    const units = lines().map(({ row }) => unitPrice(row!));
    expect(units[0]).toEqual({ each: 148 / 6912, per: '/in²' });
    expect(units[3]).toEqual({ each: 23.7 / 144, per: '/in' });
    expect(units[5]!.each).toBeCloseTo(0.112, 12);
    expect(units[4]!.per).toBe('each');
    expect(units[4]!.each).toBeGreaterThan(0.005);
    expect(units[4]!.each).toBeLessThan(0.05);
    const unknown = unitPrice(lines([['our own rivet', 'rivet', 'lb', null, 20]])[0]!.row!);
    expect(unknown.each).toBeUndefined();
    expect(unknown.why).toContain('designation');
  });

  it('shows as many decimals as the prices need', () => {
    expect(unitDigits([0.0214, 1.89, undefined])).toBe(4);
    expect(unitDigits([0.00012, 5])).toBe(5);
    expect(priceDigits(148, 'USD')).toBe('148.00');
    expect(priceDigits(0.125, '')).toBe('0.125');
    expect(priceDigits(1200, 'JPY')).toBe('1200');
  });
});

describe('ids', () => {
  const before = [{ id: 1, cells: ['a', 1] }, { id: 2, cells: ['b', 2] }, { id: 3, cells: ['c', 3] }];
  const ids = (now: Cell[][]) => {
    let next = 100;
    return keepIds(before, now, () => (next += 1));
  };

  it('follow rows that are edited, moved, inserted and removed', () => {
    expect(ids([['a', 1], ['b', 9], ['c', 3]])).toEqual([1, 2, 3]);
    expect(ids([['c', 3], ['a', 1], ['b', 2]])).toEqual([3, 1, 2]);
    expect(ids([['new', 0], ['a', 1], ['b', 2], ['c', 3]])).toEqual([101, 1, 2, 3]);
    expect(ids([['a', 1], ['c', 3]])).toEqual([1, 3]);
    expect(ids([['c', 3], ['b', 7], ['a', 1]])).toEqual([3, 2, 1]);
    expect(ids([['renamed', 1], ['b', 2], ['c', 3]])).toEqual([1, 2, 3]);
  });

  it('are never given twice', () => {
    const rows = fc.array(fc.tuple(fc.constantFrom('a', 'b', 'c', ''), fc.integer({ min: 0, max: 3 })), { maxLength: 8 });
    fc.assert(
      fc.property(rows, rows, (old, now) => {
        let next = 100;
        const given = keepIds(old.map((cells, id) => ({ id, cells })), now, () => (next += 1));
        expect(new Set(given).size).toBe(now.length);
      }),
    );
  });
});

describe('the arrangement', () => {
  const ageing = { today: '2026-03-31', oldAfter: 12 };
  const items = (change: Partial<Arrangement>, given = lines()) => arrange(given, places, { ...AS_IN_SHEET, ...change }, ageing).map(({ id }) => id);

  it('keeps the order of the sheet and leaves blank rows out', () => {
    expect(items({}, lines([...PRICE_ROWS, [null]]))).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('sorts by text, number, date and unit price, blanks last both ways', () => {
    expect(items({ sort: 'price' })[0]).toBe(6);
    expect(items({ sort: 'price', descending: true })[0]).toBe(8);
    expect(items({ sort: 'unit' }).at(-1)).toBe(8);
    expect(items({ sort: 'quotedOn' }).at(-1)).toBe(7);
    expect(items({ sort: 'quotedOn', descending: true }).at(-1)).toBe(7);
    expect(items({ sort: 'item' }, lines([['rib 10', 'other', 'each', null, 1], ['Rib 9', 'other', 'each', null, 1]]))).toEqual([2, 1]);
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
    expect(ageWord('2025-01-20', '2026-03-31', 12)).toBe('old: 14 months');
    expect(ageWord('2025-04-01', '2026-03-31', 12)).toBeUndefined();
    expect(ageWord('2025-03-31', '2026-03-31', 12)).toBe('old: 12 months');
    expect(ageWord('2022-03-31', '2026-03-31', 12)).toBe('old: 4 years');
    expect(ageWord('2026-04-01', '2026-03-31', 12)).toBe('dated ahead');
    expect(ageWord('2020-01-01', '2026-03-31', 0)).toBeUndefined();
  });
});
