/** Notes as other writers put them into a file, and where they stand after edits of the structure. */
import { describe, expect, it } from 'vitest';
import ExcelJS from 'exceljs';
import { shiftWorkbook } from '../../../src/xlsx';
import { readExtras } from '../../../src/xlsx/extras/read';
import { withoutCells } from '../../../src/xlsx/extras/without-cells';
import { python } from '../../helpers/programs';
import { made, withThread } from './made';

const notesOf = (bytes: Uint8Array, sheet = 'Parts') =>
  readExtras(bytes)
    .get(sheet)!
    .notes.map(({ row, column, text }) => [row, column, text]);

const withOpenpyxl = python('openpyxl');
const withXlsxwriter = python('xlsxwriter');

describe.skipIf(!withOpenpyxl)('notes by openpyxl', () => {
  const bytes = made(withOpenpyxl, 'openpyxl-notes');

  it('are read with who wrote them, once', () => {
    expect(notesOf(bytes)).toEqual([
      [2, 0, 'Ann: two of each,\nleft & right <hand>'],
      [5, 1, 'Ann:\ndrilled #40'],
    ]);
    expect(notesOf(bytes, 'Other')).toEqual([[1, 2, 'on the other sheet']]);
  });

  it('move with their cells in the file without cells as in the file', () => {
    const operations = [
      { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 1, count: 2 },
      { kind: 'delete', sheet: 'Parts', axis: 'rows', at: 4, count: 1 },
      { kind: 'renameSheet', sheet: 'Parts', name: 'List' },
    ] as const;
    const bare = shiftWorkbook(withoutCells(bytes), operations);
    expect(notesOf(bare, 'List')).toEqual([[6, 1, 'Ann:\ndrilled #40']]);
    expect(readExtras(bare)).toEqual(readExtras(shiftWorkbook(bytes, operations)));
  });

  it('give way to the thread of comments that they stand for', () => {
    expect(notesOf(withThread(bytes, 'A3'))).toEqual([
      [2, 0, 'Ann: Is this drilled?\nBen: Yes, #40'],
      [5, 1, 'Ann:\ndrilled #40'],
    ]);
  });
});

describe.skipIf(!withXlsxwriter)('notes by XlsxWriter', () => {
  it('are read, also of empty cells', () => {
    expect(notesOf(made(withXlsxwriter, 'xlsxwriter-notes'))).toEqual([
      [2, 0, 'Ben: two of each'],
      [19, 3, 'on an empty cell'],
    ]);
  });
});

it('notes by exceljs, in runs of several looks', async () => {
  const book = new ExcelJS.Workbook();
  book.addWorksheet('Parts').getCell('B2').note = {
    texts: [{ font: { bold: true }, text: 'cut: ' }, { text: '0.040 in' }],
  };
  expect(notesOf(new Uint8Array(await book.xlsx.writeBuffer()))).toEqual([
    [1, 1, expect.stringMatching(/cut: 0\.040 in$/)],
  ]);
});
