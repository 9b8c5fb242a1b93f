/** Workbooks with price lists, invented. */
import { PRICE_COLUMNS, serialFromIso } from '../../../../src/core/price';
import type { Cell, CellModel, WorkbookModel } from '../../../../src/sheet';

const date = (iso: string): number => serialFromIso(iso)!;

/** Columns in the list's own order; the last is a column of the user's own. */
export const PRICE_ROWS: readonly (readonly Cell[])[] = [
  [
    'Sheet 2024-T3 .025',
    'sheet',
    'sheet',
    '48 x 144',
    148,
    'USD',
    null,
    'Harbor Metals',
    date('2026-02-10'),
    null,
    'rack 2',
  ],
  [
    'Sheet 2024-T3 .025',
    'sheet',
    'sheet',
    '48 x 144',
    131.5,
    'USD',
    5,
    'Harbor Metals',
    date('2026-02-10'),
    'crate extra',
    'rack 2',
  ],
  [
    'Sheet 6061-T6 .040',
    'sheet',
    'sheet',
    '1250 x 2500 mm',
    92.4,
    'EUR',
    null,
    'Plains Supply',
    date('2025-01-20'),
    null,
    null,
  ],
  ['Angle 3/4 x 3/4 x 1/8', 'bar', 'each', '12 ft', 23.7, 'USD', null, 'Harbor Metals', date('2025-11-02'), null, null],
  ['MS20470AD4-4', 'rivet', 'lb', null, 31, 'USD', null, 'Rivet Shed', date('2026-01-15'), null, 'bin 7'],
  ['Blind rivet 1/8 x 1/4', 'rivet', 100, null, 11.2, 'USD', null, 'Rivet Shed', date('2026-01-15'), null, null],
  ['Hinge pin .090', 'other', 'pack', 10, 18.9, 'USD', null, 'Rivet Shed', null, null, null],
  ['Primer, quart', 'other', 'each', null, 1142.5, 'USD', null, 'Plains Supply', date('2024-06-30'), 'two part', null],
];

export const HEADERS = [...PRICE_COLUMNS.map(({ label }) => label), 'Shelf'];

const cells = (rows: readonly (readonly Cell[])[]): CellModel[][] => rows.map((row) => row.map((value) => ({ value })));

/** A workbook with the sheet and table Prices, and a parts sheet that works with it. */
export function priceBook(
  rows: readonly (readonly Cell[])[] = PRICE_ROWS,
  headers: readonly string[] = HEADERS,
): WorkbookModel {
  const range = { sheet: 'Prices', row: 0, column: 0, rows: rows.length + 1, columns: headers.length };
  return {
    styles: [],
    names: [],
    sheets: [
      { name: 'Prices', cells: cells([headers, ...rows]), tables: [{ name: 'Prices', range, columns: headers }] },
      {
        name: 'Parts',
        cells: [
          [{ value: 'part' }, { value: 'area' }, { value: 'cost' }],
          [
            { value: 'skin' },
            { value: 864 },
            { value: null, formula: 'TARE.PRICE.COST("Sheet 2024-T3 .025",B2,Prices!A1:K20)' },
          ],
          [
            { value: 'wrong' },
            { value: -5 },
            { value: null, formula: 'TARE.PRICE.COST("Sheet 2024-T3 .025",B3,Prices!A1:K20)' },
          ],
        ],
        tables: [],
      },
    ],
  };
}

/** A workbook without any price list. */
export const noPrices: WorkbookModel = {
  styles: [],
  names: [],
  sheets: [{ name: 'Parts', cells: [[{ value: 'part' }]], tables: [] }],
};

/** A sheet Prices whose rows read as a price list, but are no table. */
export function looseList(): WorkbookModel {
  return {
    styles: [],
    names: [],
    sheets: [{ name: 'Prices', cells: cells([['My prices'], [], HEADERS, ...PRICE_ROWS.slice(0, 3)]), tables: [] }],
  };
}
