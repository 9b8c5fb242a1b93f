import type { Cell, SheetModel, WorkbookModel } from '../../../../src/sheet';

const sheet = (name: string, rows: readonly (readonly (Cell | undefined)[])[]): SheetModel => ({
  name,
  cells: rows.map((row) => row.map((value) => ({ value: value ?? null }))),
  tables: [],
});

/** First row of the list, counted from 1, and how many rows it has. */
export const FIRST = 12;
export const ROWS = 29;

/** A parts list whose channels stand in rows 12 to 40, and a table of prices. */
export function partsBook(): WorkbookModel {
  const list = Array.from({ length: ROWS }, (_row, i): Cell[] => [
    `Rib ${i + 1}`,
    2.5 + i * 0.1,
    0.75,
    0.75,
    0.025,
    0.125,
  ]);
  const parts = sheet('Parts', [
    ['Channels of the wing'],
    ['Thickness of all', 0.025],
    ...Array.from({ length: FIRST - 4 }, () => []),
    ['Part', 'Web', 'Arm A', 'Arm B', 'Thickness', 'Radius', 'Flat'],
    ...list,
  ]);
  const prices = [
    ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
    ['MS20470AD4-4', 'rivet', 'lb', null, 30, 'USD', null],
    ['Sheet .025', 'sheet', 'each', 1, 88, 'USD', null],
  ];
  const priceSheet: SheetModel = {
    ...sheet('Prices', prices),
    tables: [
      {
        name: 'Prices',
        range: { sheet: 'Prices', row: 0, column: 0, rows: 3, columns: 7 },
        columns: prices[0]!.map(String),
      },
    ],
  };
  const locked: SheetModel = { ...sheet('Locked', [['kept']]), protected: true };
  return { sheets: [parts, priceSheet, locked], names: [{ name: 'skin', refersTo: 'Parts!$B$2' }], styles: [] };
}
