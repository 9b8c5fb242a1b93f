import { describe, expect, it } from 'vitest';
import {
  PRICE_COLUMNS,
  isoFromSerial,
  readPriceList,
  serialFromIso,
  validatePriceRow,
  type PriceCell,
  type RawPriceRow,
} from '../../../src/core/price';
import { CURRENCY_SIGNS } from '../../../src/core/price/read-price-list';

const HEADER = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier', 'Quoted on', 'Note'];
const list = (...rows: PriceCell[][]) => readPriceList([HEADER, ...rows]);
const only = (raw: RawPriceRow) => validatePriceRow({ item: 'x', kind: 'other', soldBy: 'each', price: 1, ...raw }, 4)!;

describe('the header row', () => {
  it('is found by label in any order and case, below a title, with other columns between', () => {
    const { rows, problems } = readPriceList([
      ['Prices of the spring', '', '', '', '', ''],
      ['PRICE', 'shelf', 'sold BY', 'item', 'Kind', 'contents'],
      [12, 'B', 'each', 'Tube', 'bar', '6 ft'],
    ]);
    expect(problems).toEqual([]);
    expect(rows).toMatchObject([
      { row: 3, item: 'Tube', price: 12, measure: 'length', contents: 72, from: 0, currency: '' },
    ]);
  });

  it('names the columns that are missing', () => {
    expect(
      readPriceList([
        ['Item', 'Price'],
        ['a', 1],
      ]).problems.map(({ message }) => message),
    ).toEqual([
      'row 1, header: got a blank; takes a column "Kind"',
      'row 1, header: got a blank; takes a column "Sold by"',
    ]);
    expect(readPriceList([['a', 'b']]).problems[0]!.message).toBe(
      'row 1, header: got "a, b"; takes the labels Item, Kind, Sold by, Price in one row',
    );
    expect(readPriceList([]).problems).toHaveLength(1);
  });

  it('has a label for every column of the schema', () => {
    expect(PRICE_COLUMNS.map(({ label }) => label)).toEqual(HEADER);
  });
});

describe('contents', () => {
  const read = (kind: string, soldBy: string, contents: PriceCell) => {
    const { row, problems } = only({ kind, soldBy, contents });
    return row
      ? { measure: row.measure, contents: row.contents, ...(row.size ? { size: row.size } : {}) }
      : problems[0]!.message;
  };

  it.each([
    ['sheet', 'sheet', '48 x 144', { measure: 'area', contents: 6912, size: { length: 144, width: 48 } }],
    ['sheet', 'sheet', '4×12 ft', { measure: 'area', contents: 6912, size: { length: 144, width: 48 } }],
    ['sheet', 'sheet', '48" by 144"', { measure: 'area', contents: 6912, size: { length: 144, width: 48 } }],
    ['sheet', 'lb', 412, { measure: 'area', contents: 412 }],
    ['sheet', 'lb', '2 ft²', { measure: 'area', contents: 288 }],
    ['bar', 'each', '12 ft', { measure: 'length', contents: 144 }],
    ['bar', 'each', '12 1/2 ft', { measure: 'length', contents: 150 }],
    ['bar', 'each', '1e2 ft', { measure: 'length', contents: 1200 }],
    ['bar', 'each', 144, { measure: 'length', contents: 144 }],
    ['bar', 'ft', '', { measure: 'length', contents: 12 }],
    ['rivet', '100', null, { measure: 'pieces', contents: 100 }],
    ['rivet', 'lb', '', { measure: 'pieces', contents: undefined }],
    ['rivet', 'lb', 0, { measure: 'pieces', contents: undefined }],
    ['rivet', 'pack', '250 pcs', { measure: 'pieces', contents: 250 }],
    ['other', 'lb', '', { measure: 'weight', contents: 1 }],
  ])('%s by %s holding %s', (kind, soldBy, contents, wanted) => {
    expect(read(kind, soldBy, contents)).toEqual(wanted);
  });

  it('takes millimetres where they are named, and guesses at them where they are not', () => {
    const metric = only({ kind: 'sheet', soldBy: 'sheet', contents: '1250 x 2500 mm' }).row!;
    expect(metric.size!.length).toBeCloseTo(2500 / 25.4, 12);
    expect(metric.contents).toBeCloseTo((1250 * 2500) / 645.16, 6);
    expect(read('sheet', 'sheet', '1250 x 2500')).toContain(
      'Larger than any sheet: with millimetres write mm behind it',
    );
  });

  it.each([
    ['sheet', 'sheet', 48, 'row 4, Contents: got 48; takes length x width of the sheet'],
    ['sheet', 'sheet', '48 x', 'Contents: got "48 x"'],
    ['bar', 'each', '', 'Contents: got a blank; takes the length of one bar'],
    ['bar', 'each', '12 yd', 'Contents: got "12 yd"'],
    ['rivet', 'pack', 2.5, 'Contents: got 2.5; takes the pieces in a pack'],
    ['sheet', 'ft', '', 'Sold by: got "ft"; takes sheet, each, lb or kg for a sheet'],
  ])('%s by %s holding %s is refused', (kind, soldBy, contents, message) => {
    expect(read(kind, soldBy, contents)).toContain(message);
  });
});

describe('the other columns', () => {
  it.each([
    [{ price: -3 }, 'row 4, Price: got -3; takes a price above 0, as a bare number'],
    [{ price: 0 }, 'Price: got 0; takes a price above 0'],
    [{ price: '$12' }, 'Leave out $ and name the currency in its own column'],
    [{ price: null }, 'Price: got a blank'],
    [{ currency: '$' }, '$ may be USD, CAD, AUD or NZD'],
    [{ from: -1 }, 'From: got -1'],
    [{ quotedOn: 'last spring' }, 'Quoted on: got "last spring"'],
    [{ quotedOn: '2026-02-30' }, 'Quoted on: got "2026-02-30"'],
    [{ kind: 'plate' }, 'Kind: got "plate"; takes sheet, bar, rivet or other'],
    [{ item: ' ' }, 'Item: got " "'],
  ] as [RawPriceRow, string][])('%j is a problem', (raw, message) => {
    const { row, problems } = only(raw);
    expect(row).toBeUndefined();
    expect(problems.map((problem) => problem.message).join()).toContain(message);
  });

  it('reads dates from serials and from text', () => {
    expect(only({ quotedOn: 46_112 }).row!.quotedOn).toBe('2026-03-31');
    expect(only({ quotedOn: '2026-03-31' }).row!.quotedOn).toBe('2026-03-31');
    expect(serialFromIso('2026-03-31')).toBe(46_112);
    expect(isoFromSerial(61)).toBe('1900-03-01');
  });

  it('names every problem of a row, not the first alone', () => {
    expect(only({ price: 'dear', kind: 'plate', currency: 'euro' }).problems.map(({ column }) => column)).toEqual([
      'kind',
      'price',
      'currency',
    ]);
  });
});

describe('the list', () => {
  it('passes over blank rows, also where a host hands over 0 for a blank', () => {
    expect(list(['', null, undefined, '', '', '', '', '', '', ''], [0, 0, 0, 0, 0, 0, 0, 0, 0, 0])).toEqual({
      rows: [],
      problems: [],
    });
  });

  it('keeps the right rows beside a wrong one, and gives its row number', () => {
    const { rows, problems } = list(
      ['a', 'other', 'each', '', 1],
      ['b', 'other', 'each', '', 'x'],
      ['c', 'other', 'each', '', 2],
    );
    expect(rows.map(({ item }) => item)).toEqual(['a', 'c']);
    expect(problems).toMatchObject([{ row: 3, column: 'price', item: 'b' }]);
  });

  it('takes breaks of one item and refuses the same break twice', () => {
    const { rows, problems } = list(
      ['a', 'other', 'each', '', 3, 'USD', ''],
      ['A', 'other', 'each', '', 2, 'USD', 10],
      ['a', 'other', 'each', '', 4, 'usd', 1],
    );
    expect(rows).toHaveLength(2);
    expect(problems[0]!.message).toBe(
      'row 4, From: got 0; takes another quantity than row 2, which prices the same item',
    );
  });
});

describe('signs of currencies', () => {
  it('are those of Unicode, spelled out', () => {
    const spelled = new RegExp(`[${CURRENCY_SIGNS}]`);
    for (let code = 0; code < 0x10000; code++) {
      const character = String.fromCharCode(code);
      if (/\p{Sc}/u.test(character)) expect(spelled.test(character), code.toString(16)).toBe(true);
      // A newer Unicode than the one of this engine may have signs that it lacks.
      else if (spelled.test(character)) expect(code, code.toString(16)).toBe(0x20c1);
    }
  });
});
