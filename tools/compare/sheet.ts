/** The sheet that the compared formulas look at, and where they stand on it. */
import { CellError, type Cell, type CellModel, type Matrix, type WorkbookModel } from '../../src/sheet';

const NA = new CellError('#N/A');
const DIV0 = new CellError('#DIV/0!');
const _ = null;

/** A1:J14 of the sheet Data. Columns: numbers, whole numbers, mixed, words, flags and errors, dates, texts that read as numbers, rising numbers, rising words, one in ten blank. */
export const DATA: readonly (readonly Cell[])[] = [
  [1, 4, 7.5, 'Rib', true, 46095, '5', 1, 'alpha', 2],
  [2, 5, -1, 'spar', false, 46096.5, '1,234.5', 3, 'bravo', 4],
  [3, 6, 0, 'skin', NA, 45351, '$10', 5, 'charlie', _],
  [-4.5, 7, 'text', 'rib', DIV0, 43831, '10%', 7.5, 'delta', 8],
  [10, 8, 4, 'x', _, 36526, '2026-03-14', 9, 'echo', 1],
  [0, 9, _, 'a*b', true, 60, 'TRUE', 11, 'foxtrot', 5],
  [0.1, 4, '12', 'a~b', 1, 46388.25, '12:30', 13, 'golf', 3],
  [1e6, 10, 'x y', _, 0, 45658, ' 7 ', 20, 'hotel', 9],
  [-0.25, 12, 3, 'What?', 'yes', 45716, '1e3', 40, 'india', 7],
  [2.5, 15, 3, '6061', _, 45717, 'abc', 80, 'juliet', 6],
  ['name', 'size', 'cost', 'kind'],
  ['rib', 4, 12.5, 'a'],
  ['spar', 6, 40, 'b'],
  ['skin', 8, 22, 'a'],
];

/** Formats by column: F holds dates. */
const DATE_COLUMN = 5;

export const FIRST_ROW = 100;
export const COLUMN = 20;
/** Rows from one formula to the next: room for what spills. */
export const APART = 12;

export interface Asked {
  readonly formula: string;
  /** Extent of an array formula; undefined for a formula of the plain kind. */
  readonly extent?: { readonly rows: number; readonly columns: number };
}

export const rowOf = (index: number): number => FIRST_ROW + index * APART;

/** A workbook with the data and each formula in its place: as array formulas where they have an extent, else plain. */
export function workbookOf(asked: readonly Asked[]): WorkbookModel {
  const cells: (CellModel | undefined)[][] = DATA.map((line) =>
    line.map((value, column) =>
      value === null
        ? undefined
        : { value, ...(column === DATE_COLUMN && typeof value === 'number' ? { style: 1 } : {}) },
    ),
  );
  asked.forEach(({ formula, extent }, index) => {
    const line: (CellModel | undefined)[] = (cells[rowOf(index)] ??= []);
    line[COLUMN] = extent
      ? { value: null, formula, spill: { ...extent, fixed: true } }
      : { value: null, formula, plain: true };
  });
  return {
    styles: [{}, { numberFormat: 'yyyy-mm-dd' }],
    names: [{ name: 'Total', refersTo: 'Data!$A$5' }],
    sheets: [
      {
        name: 'Data',
        cells,
        tables: [
          {
            name: 'Sizes',
            range: { sheet: 'Data', row: 10, column: 0, rows: 4, columns: 4 },
            columns: ['name', 'size', 'cost', 'kind'],
          },
        ],
      },
      { name: 'Other', cells: [[{ value: 11 }, { value: 'far' }], [{ value: 22 }]], tables: [] },
    ],
  };
}

/** What the index-th formula gives in a calculated workbook. */
export function resultOf(model: WorkbookModel, { extent }: Asked, index: number): Cell | Matrix {
  const { cells } = model.sheets[0]!;
  const row = rowOf(index);
  if (!extent) return cells[row]?.[COLUMN]?.value ?? null;
  return Array.from({ length: extent.rows }, (_line, r) =>
    Array.from({ length: extent.columns }, (_cell, c) => cells[row + r]?.[COLUMN + c]?.value ?? null),
  );
}
