import { describe, expect, it } from 'vitest';
import { CellError, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { difference, readWorkbook, writeWorkbook } from '../../src/xlsx';

const on = (row: number, column: number, rows: number, columns: number) => ({
  sheet: 'Parts',
  row,
  column,
  rows,
  columns,
});

const model: WorkbookModel = {
  styles: [
    {},
    { bold: true, fill: '#ddeeff', borderBottom: true },
    { numberFormat: '0.000' },
    { numberFormat: '$#,##0.00', align: 'right', color: '#aa0000', italic: true, size: 14 },
  ],
  names: [{ name: 'Widths', refersTo: 'Parts!$B$2:$B$3' }],
  sheets: [
    {
      name: 'Parts',
      frozen: { rows: 1, columns: 1 },
      columnWidths: [20, undefined, 12],
      merges: [on(8, 0, 1, 3)],
      cells: [
        [
          { value: 'length', style: 1 },
          { value: 'wid<th&"', style: 1 },
          { value: 'area', style: 1 },
        ],
        [
          { value: 3 },
          { value: 2 },
          { value: 6, formula: 'TARE.AREA.RECT(A2:A3,Widths)', spill: { rows: 2, columns: 1 }, style: 2 },
        ],
        [
          { value: 4 },
          { value: 2.5 },
          { value: 10, spilled: true, style: 2 },
          { value: 16, formula: 'SUM(Sizes[length])+9', style: 3 },
          { value: true },
          { value: new CellError('#N/A') },
        ],
        [
          { value: ' two\nlines _x0041_ ' },
          { value: 'x', formula: 'IF(A2>1,"x","y")' },
          { value: 6, formula: 'XLOOKUP(3,A2:A3,B2:B3)' },
        ],
      ],
      tables: [{ name: 'Sizes', range: on(0, 0, 3, 3), columns: ['length', 'wid<th&"', 'area'] }],
      validations: [{ range: on(4, 1, 5, 1), choices: ['a', 'b'] }],
    },
    { name: "Rib's sheet", hidden: true, cells: [[{ value: 1 }]], tables: [] },
  ],
};

/** A file says of its formulas that they are plain. */
const withoutMarks = (sheets: readonly SheetModel[]): SheetModel[] =>
  sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((line) => line.map((cell) => cell && (({ plain: _plain, ...rest }) => rest)(cell))),
  }));

describe('a new workbook', () => {
  it('reads back as it was written', async () => {
    const read = readWorkbook(await writeWorkbook(model));
    expect(withoutMarks(read.sheets)).toEqual(model.sheets);
    expect(read.names).toEqual(model.names);
    expect(difference(read, model)).toMatchObject({ sheets: [], newSheets: [], names: [] });
  });

  it('is the same file every time', async () => {
    expect(await writeWorkbook(model)).toEqual(await writeWorkbook(model));
  });
});
