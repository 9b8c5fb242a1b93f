import { describe, expect, it } from 'vitest';
import { SALE_UNITS } from '../../src/core/price';
import { DEFAULT_SPARES } from '../../src/core/shopping';
import { CellError, type Cell } from '../../src/sheet';
import {
  BUYING_COLUMNS,
  BUYING_FIRST,
  newBuyingSheet,
  newPurchasesSheet,
  newStockSheet,
  PARTS,
  PURCHASES,
  readBuying,
  readParts,
  readPurchases,
  readStockSheet,
  STOCK,
  USUAL_CUTTING,
} from '../../src/project';
import { type Edit } from '../../src/sheet';
import { sheet, valuesOf } from './sheets';

/** A sheet's cells as its edits write them, with some typed over. */
function made(
  edits: readonly Edit[],
  typed: readonly (readonly [row: number, column: number, cells: readonly Cell[]])[] = [],
): Cell[][] {
  const write = edits.find((edit) => edit.kind === 'write')!;
  const cells =
    write.kind === 'write'
      ? write.cells.map((row) =>
          row.map((cell): Cell =>
            typeof cell === 'object' && cell !== null && !(cell instanceof CellError) ? null : cell,
          ),
        )
      : [];
  for (const [row, column, contents] of typed) {
    const line = (cells[row] ??= []);
    contents.forEach((cell, index) => (line[column + index] = cell));
  }
  return Array.from(cells, (row) => Array.from(row ?? [], (cell) => cell ?? null));
}

describe('stock', () => {
  it('reads sheets, bars and leftovers; the length of a sheet whose grain runs across is its width', () => {
    const { pieces, problems } = readStockSheet(
      valuesOf({
        Stock: sheet(STOCK, [
          { name: 'Skin', material: '6061-T6', thickness: 0.025, length: 144, width: 48, cost: 97.2 },
          { name: 'Rest', length: 20, width: 30, grain: 'across', offcut: 'yes', off: 'yes' },
          { name: 'Tube', length: 72, available: 3, cost: 0 },
        ]),
      }),
    )!;
    expect(problems).toEqual([]);
    expect(pieces).toMatchObject([
      { name: 'Skin', length: 144, width: 48, available: undefined, offcut: false, takesOff: false, cost: 97.2 },
      { length: 30, width: 20, available: 1, offcut: true, takesOff: true },
      { length: 72, width: undefined, available: 3 },
    ]);
  });

  it('names a length that is none by its cell', () => {
    const { pieces, problems } = readStockSheet(valuesOf({ Stock: sheet(STOCK, [{ name: 'Skin', length: -2 }]) }))!;
    expect(pieces).toEqual([]);
    expect(problems).toEqual([{ sheet: 'Stock', cell: 'D3', message: 'got -2; takes inches above 0' }]);
  });

  it('is read on a new sheet', () => {
    expect(readStockSheet(valuesOf({ Stock: made(newStockSheet()) }))).toMatchObject({ pieces: [], problems: [] });
  });
});

describe('purchases', () => {
  it('are read on a new sheet, with the day as text', () => {
    const cells = made(newPurchasesSheet(), [[5, 0, [46000, 'Metal', 'Skin', 2, 194.4, 'usd', null]]]);
    expect(readPurchases(valuesOf({ Purchases: cells }))).toMatchObject({
      problems: [],
      purchases: [{ date: '2025-12-09', supplier: 'Metal', item: 'Skin', units: 2, paid: 194.4, currency: 'USD' }],
    });
  });

  it('say on a new sheet what one of the quantity is, chosen from the sale units', () => {
    const edits = newPurchasesSheet();
    const cells = made(edits, [[5, 0, [46000, 'Metal', 'MS20470AD3-3', 2, 24, 'usd', null, 100]]]);
    expect(readPurchases(valuesOf({ Purchases: cells }))).toMatchObject({
      problems: [],
      purchases: [{ units: 2, soldBy: '100' }],
    });
    expect(edits.filter(({ kind }) => kind === 'choices')).toEqual([
      { kind: 'choices', range: expect.objectContaining({ row: 5, column: 7 }), choices: SALE_UNITS },
    ]);
  });

  it('name the header that is repeated further down', () => {
    const cells = sheet(PURCHASES, [{ date: '2026-01-05', item: 'Skin', paid: 120 }]);
    const { purchases, problems } = readPurchases(valuesOf({ Purchases: [...cells, cells[1]!] }))!;
    expect(purchases).toHaveLength(1);
    expect(problems).toEqual([{ sheet: 'Purchases', cell: 'A4', message: 'repeats the header: the row is left out' }]);
  });

  it('without what was paid are not counted, and named', () => {
    const { purchases, problems } = readPurchases(
      valuesOf({ Purchases: sheet(PURCHASES, [{ date: '2026-01-05', item: 'Skin', paid: 'much' }]) }),
    )!;
    expect(purchases).toEqual([]);
    expect(problems[0]).toMatchObject({
      cell: 'E3',
      message: 'got "much"; takes money, 0 or more; not counted until then',
    });
  });
});

describe('terms of buying', () => {
  it('on a new sheet are the usual ones', () => {
    const { terms, cutting, problems } = readBuying(valuesOf({ Buying: made(newBuyingSheet('EUR')) }), 'USD')!;
    expect(problems).toEqual([]);
    expect(terms).toEqual({ currency: 'EUR', rates: [], spares: DEFAULT_SPARES, suppliers: [] });
    expect(cutting).toEqual(USUAL_CUTTING);
  });

  it('are read from the three lists', () => {
    const cells = made(newBuyingSheet('EUR'), [
      [BUYING_FIRST - 1, BUYING_COLUMNS.spares, ['sheet', '20%']],
      [BUYING_FIRST, BUYING_COLUMNS.spares, ['bar', 5]],
      [BUYING_FIRST - 1, BUYING_COLUMNS.charges, ['Metal', 65, 2.5, 4]],
      [BUYING_FIRST - 1, BUYING_COLUMNS.rates, ['usd', 0.92, '2026-03-01']],
    ]);
    const { terms, problems } = readBuying(valuesOf({ Buying: cells }), 'USD')!;
    expect(problems).toEqual([]);
    expect(terms).toMatchObject({
      spares: { sheet: 0.2, bar: 0.05 },
      suppliers: [{ supplier: 'Metal', freight: 65, cutCharge: 2.5, cuts: 4 }],
      rates: [{ currency: 'USD', rate: 0.92, date: '2026-03-01' }],
    });
  });

  it('name what cannot be read', () => {
    const cells = made(newBuyingSheet('euro'), [
      [5, 1, [12]],
      [BUYING_FIRST - 1, BUYING_COLUMNS.spares, ['paint', 0.1]],
      [BUYING_FIRST - 1, BUYING_COLUMNS.rates, ['USD', 0]],
    ]);
    const { terms, problems } = readBuying(valuesOf({ Buying: cells }), 'USD')!;
    expect(terms.currency).toBe('USD');
    expect(problems.map(({ cell }) => cell)).toEqual(['B5', 'A12', 'J12', 'B6']);
  });
});

describe('parts', () => {
  it('have the sizes that they are cut from', () => {
    const { rows, problems } = readParts(
      valuesOf({
        Parts: sheet(PARTS, [
          { component: 'Wing', part: 'Rib', weight: 1, cutLength: 30, cutWidth: 9.5, grain: 'Across' },
          { component: 'Wing', part: 'Web', weight: 1, cutLength: 0 },
        ]),
      }),
    )!;
    expect(rows[0]).toMatchObject({ cutLength: 30, cutWidth: 9.5, grain: 'across' });
    expect(rows[1]!.cutLength).toBeUndefined();
    expect(problems[0]!.message).toBe('got 0; takes inches above 0');
  });
});
