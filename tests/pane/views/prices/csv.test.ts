import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rowsAsCsv } from '../../../../src/pane/shared/csv-import';
import { guard, unguard } from '../../../../src/project';
import { readCsv, writeCsv, mapByLabel, planImport } from '../../../../src/pane/views/prices/csv';
import { pricePlaces } from '../../../../src/core/price';
import { checkLines } from '../../../../src/pane/views/prices/lines';
import { decodeText, type Cell } from '../../../../src/sheet';
import { HEADERS, PRICE_ROWS } from './price-book-model';

const places = pricePlaces(HEADERS);
const lines = (rows: readonly (readonly Cell[])[]) =>
  checkLines(
    places,
    rows.map((cells, index) => ({ id: index + 1, cells, formulas: [] })),
  );
const plan = (text: string, existing: readonly (readonly Cell[])[] = []) => {
  const file = readCsv(text);
  return planImport(file, mapByLabel(file.headers, HEADERS), HEADERS, places, lines(existing));
};
const HEADER = 'Item,Kind,Sold by,Contents,Price,Currency,From,Supplier,Quoted on,Note';

describe('reading a CSV file', () => {
  it('takes what looks like a formula for text, and numbers for numbers', () => {
    const { add } = plan(
      `Item,Kind,Sold by,Price,Note,Shelf,Supplier\n=1+1,other,each,5,@home,-5,+44 shed\n"-rod end",other,each,6,=HYPERLINK("x"),-T3,\t7`,
    );
    expect(add).toEqual([
      ['=1+1', 'other', 'each', null, 5, null, null, '+44 shed', null, '@home', -5],
      ['-rod end', 'other', 'each', null, 6, null, null, '\t7', null, '=HYPERLINK("x")', '-T3'],
    ]);
  });

  it('refuses a formula where a number is wanted, and says so', () => {
    const { add, refused } = plan('Item,Kind,Sold by,Price\nbolt,other,each,=2*3\nnut,other,each,-5');
    expect(add).toEqual([]);
    expect(refused.map(({ number, why }) => [number, why])).toEqual([
      [2, expect.stringContaining('Price: got "=2*3"; takes a price')],
      [3, expect.stringContaining('Price: got -5; takes a price')],
    ]);
  });

  it('keeps part numbers as they are written', () => {
    const { add } = plan('Item,Kind,Sold by,Price,Note\n00123,other,each,1,12.50\n5E3,other,each,1,007');
    expect(add.map((row) => [row[0], row[9]])).toEqual([
      ['00123', '12.50'],
      ['5E3', '007'],
    ]);
  });

  it('finds columns by their labels in any order and case, and a header under a title', () => {
    const { add, leftOut } = plan('Spring order\n\nprice,ITEM,sold by,kind,colour\n4,bolt,each,other,blue');
    expect(add[0]!.slice(0, 5)).toEqual(['bolt', 'other', 'each', null, 4]);
    expect(leftOut).toEqual(['colour']);
  });

  it('names the required columns that are not there', () => {
    expect(plan('Item,Price\nbolt,4').missing).toEqual(['Kind', 'Sold by']);
  });

  it('reads semicolons with decimal commas, tabs, a byte order mark, quotes and line breaks', () => {
    expect(plan('\uFEFFItem;Kind;Sold by;Price\nbolt;other;each;4,25').add[0]![4]).toBe(4.25);
    expect(plan('Item\tKind\tSold by\tPrice\nbolt\tother\teach\t"1,234.5"').add[0]![4]).toBe(1234.5);
    expect(plan('Item,Kind,Sold by,Price,Note\n"bolt, long",other,each,4,"two\nlines"').add[0]!).toEqual([
      'bolt, long',
      'other',
      'each',
      null,
      4,
      null,
      null,
      null,
      null,
      'two\nlines',
      null,
    ]);
  });

  it('reads dates as year-month-day only', () => {
    const { add, refused } = plan(
      `${HEADER}\nbolt,other,each,,4,usd,,Shed,2026-02-28,\nnut,other,each,,4,usd,,Shed,28/02/2026,`,
    );
    expect(add[0]![8]).toBe(46081);
    expect(refused[0]!.why).toContain('Quoted on: got "28/02/2026"');
  });

  it('says what is wrong with a file that cannot be read', () => {
    expect(() => readCsv('')).toThrow('The file is empty');
    expect(() => readCsv('Item,Price\n"bolt,4')).toThrow('quotation mark');
  });

  it('loses no row: each is added, changed, the same or refused', () => {
    const { add, change, same, refused } = plan(
      `${HEADER}\nHinge pin .090,other,pack,10,18.9,USD,,Rivet Shed,,\nMS20470AD4-4,rivet,lb,,33,USD,,Rivet Shed,,\nnew,other,each,,1,,,,,\nnew,other,each,,2,,,,,\n,other,each,,2,,,,,\nwide,other,each,,2,,,,,,,,extra`,
      PRICE_ROWS,
    );
    expect(add.length).toBe(1);
    expect(same).toBe(1);
    expect(refused.map(({ number }) => number)).toEqual([5, 6, 7]);
    expect(refused[0]!.why).toContain('the same item as row 4 of the file');
    // A blank of the file leaves what the list knows.
    expect(change).toEqual([
      {
        id: 5,
        cells: [
          'MS20470AD4-4',
          'rivet',
          'lb',
          undefined,
          33,
          'USD',
          undefined,
          'Rivet Shed',
          undefined,
          undefined,
          undefined,
        ],
      },
    ]);
  });

  it('decodes UTF-8 and, where a file is not, the older Windows encoding', () => {
    expect(decodeText(new TextEncoder().encode('½ hard').buffer)).toBe('½ hard');
    expect(decodeText(Uint8Array.from([0xbd, 0x20, 0x68]).buffer)).toBe('½ h');
  });
});

describe('writing a CSV file', () => {
  it('comes back as it went out', () => {
    const text = writeCsv(HEADERS, places, lines(PRICE_ROWS));
    expect(text.split('\r\n')[1]).toBe(
      'Sheet 2024-T3 .025,sheet,sheet,48 x 144,148,USD,,Harbor Metals,2026-02-10,,rack 2',
    );
    expect(plan(text).add).toEqual(PRICE_ROWS);
    const again = plan(text, PRICE_ROWS);
    expect([again.same, again.add.length, again.change.length, again.refused.length]).toEqual([
      PRICE_ROWS.length,
      0,
      0,
      0,
    ]);
  });

  it('guards text that a spreadsheet would run, and takes the guard off again', () => {
    expect(guard('=1+1')).toBe("'=1+1");
    expect(guard('-T3')).toBe("'-T3");
    expect(guard('-5')).toBe('-5');
    fc.assert(
      fc.property(
        fc.string(),
        (text) => unguard(guard(text)) === text || (text.startsWith("'") && /^-?[\d.]/.test(text.slice(1))),
      ),
    );
  });

  it('round-trips any note', () => {
    fc.assert(
      fc.property(
        fc.string({ minLength: 1 }).filter((text) => text.trim() !== '' && !/^[+-]?[\d.]/.test(text.trim())),
        (note) => {
          const row = ['bolt', 'other', 'each', null, 4, null, null, null, null, note, null];
          expect(plan(writeCsv(HEADERS, places, lines([row]))).add[0]![9]).toBe(note);
        },
      ),
    );
  });

  it('gives refused rows back with the reason', () => {
    expect(rowsAsCsv(['Item', 'Price'], [{ cells: ['=x', 'two'], why: 'Price: got "two"' }])).toBe(
      'Item,Price,Why refused\r\n\'=x,two,"Price: got ""two"""\r\n',
    );
  });
});
