/** Sorting rows of a list, and what is saved of it. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, describe, expect, it } from 'vitest';
import type { RangeAddress } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';
import { recalculatingProfile } from '../../helpers/libreoffice';
import { python, soffice } from '../../helpers/programs';
import { partsOf } from '../../xlsx/parts';
import { ruleFaults } from '../../xlsx/structure/valid';
import { byLibreOffice } from '../../xlsx/structure/writers';
import { openBook } from './open-book';

const wing = new Uint8Array(readFileSync('sample-workbooks/wing.xlsx'));
const partsIn = (bytes: Uint8Array) => readWorkbook(bytes).sheets.find(({ name }) => name === 'Parts')!;
const key = (line: readonly unknown[]): string => line.map((cell) => String(cell ?? '')).join(' | ');

describe('the sample wing’s parts, sorted by a column that one formula fills', async () => {
  const { workbook, lists, read, saved } = await openBook(wing);
  const cells: RangeAddress = { sheet: 'Parts', row: 5, column: 0, rows: 78, columns: 19 };
  const before = await read(cells);

  it('finds the list around the cursor', () => {
    expect(lists.listAt({ sheet: 'Parts', row: 20, column: 3, rows: 1, columns: 1 })).toEqual({
      range: { ...cells, row: 4, rows: 79 },
      hasHeadings: true,
    });
  });

  it('takes the columns beside those whose rows are selected, and the longest list of a whole column', () => {
    const part: RangeAddress = { sheet: 'Parts', row: 5, column: 4, rows: 20, columns: 1 };
    expect(lists.listAt(part)).toEqual({ range: { ...part, column: 0, columns: 15 }, hasHeadings: false, part });
    expect(lists.listAt({ sheet: 'Parts', row: 0, column: 0, rows: 200, columns: 1 })?.range).toEqual({ ...cells, row: 4, rows: 79 }); // prettier-ignore
  });

  it('puts every row in order with all that is in it', async () => {
    expect(await workbook.lists.sort(cells, [{ column: 12, descending: true }])).toBeUndefined();
    const after = await read(cells);
    const weights = after.map((line) => line[12] as number);
    expect(weights).toEqual([...weights].sort((a, b) => b - a));
    expect(weights[0]).toBeGreaterThan(weights.at(-1)!);
    // Values of formulas are calculated from the rows' own cells: none has those of another.
    expect(after.map(key).sort()).toEqual(before.map(key).sort());
  });

  it('is saved so', async () => {
    const now = await read(cells);
    const model = partsIn(await saved());
    const file = now.map((line, r) => line.map((_cell, c) => model.cells[5 + r]?.[c]?.value ?? null));
    expect(file.map(key)).toEqual(now.map(key));
    expect(model.cells[5]?.[12]?.formula).toMatch(/^IF\(LEN\(H6:H140\)/);
    expect(model.cells[5]?.[12]?.spill).toEqual({ rows: 135, columns: 1 });
  });

  it('is taken back and made again as one step', async () => {
    const sorted = await read(cells);
    await workbook.undo();
    expect((await read(cells)).map(key)).toEqual(before.map(key));
    const formulas = (bytes: Uint8Array) => partsIn(bytes).cells.map((line) => line.map((cell) => cell?.formula));
    expect(formulas(await saved())).toEqual(formulas(wing));
    await workbook.redo();
    expect((await read(cells)).map(key)).toEqual(sorted.map(key));
  });
});

/** A list with everything that goes with rows, and what does not. */
async function list(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  book.created = book.modified = new Date(Date.UTC(2026, 2, 14));
  const sheet = book.addWorksheet('Parts');
  sheet.addRow(['part', 'length', 'width', 'area', 'share']);
  const rows: readonly (readonly unknown[])[] = [
    ['rib', 4, 2],
    ['angle', 12, 1],
    ['Strap', null, 3],
    ['skin', 4, 1],
    ['gusset', 'long', 5],
    ['bolt', true, 1],
    ['clip', 0.5, 7],
  ];
  rows.forEach(([part, length, width], index) => {
    const row = index + 2;
    sheet.addRow([part, length, width]);
    sheet.getCell(`D${row}`).value = { formula: `C${row}*10`, result: Number(width) * 10 };
    sheet.getCell(`E${row}`).value = { formula: `D${row}/SUM($C$2:$C$8)`, result: (Number(width) * 10) / 20 };
  });
  sheet.getCell('G1').value = { formula: 'A3', result: 'angle' };
  sheet.getCell('A3').font = { underline: true, bold: true, name: 'Courier New' };
  sheet.getCell('A8').note = 'two of each';
  sheet.getCell('A5').value = { text: 'skin', hyperlink: 'https://example.org/' };
  sheet.getRow(4).height = 40;
  sheet.getCell('C2').dataValidation = { type: 'list', formulae: ['"1,2,3"'] };
  sheet.getCell('C3').dataValidation = { type: 'list', formulae: ['"1,2,3"'] };
  return new Uint8Array(await book.xlsx.writeBuffer());
}

const rows: RangeAddress = { sheet: 'Parts', row: 1, column: 0, rows: 7, columns: 5 };
const folder = mkdtempSync(join(tmpdir(), 'tarebook-sort-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a list', async () => {
  const bytes = await list();

  it('has numbers before texts, blanks last, and those alike in the order that they had', async () => {
    const { workbook, read } = await openBook(bytes);
    expect(await workbook.lists.sort(rows, [{ column: 1, descending: false }])).toBeUndefined();
    const parts = { ...rows, columns: 2 };
    expect((await read(parts)).map(key)).toEqual(['clip | 0.5', 'rib | 4', 'skin | 4', 'angle | 12', 'gusset | long', 'bolt | true', 'Strap | ']); // prettier-ignore
    await workbook.lists.sort(rows, [{ column: 1, descending: true }]);
    expect((await read(parts)).map(key)).toEqual(['bolt | true', 'gusset | long', 'angle | 12', 'rib | 4', 'skin | 4', 'clip | 0.5', 'Strap | ']); // prettier-ignore
    await workbook.lists.sort(rows, [
      { column: 1, descending: false },
      { column: 0, descending: true },
    ]);
    expect((await read(parts)).slice(1, 3).map(key)).toEqual(['skin | 4', 'rib | 4']);
  });

  it('takes looks, heights, notes, links and choices with its rows, and formulas their relative references', async () => {
    const { workbook, saved } = await openBook(bytes);
    await workbook.lists.sort(rows, [{ column: 0, descending: false }]);
    const made = await saved();
    expect(ruleFaults(made)).toEqual([]);
    const sheet = partsIn(made);
    const column = (index: number) => sheet.cells.slice(1, 8).map((line) => line[index]?.value);
    expect(column(0)).toEqual(['angle', 'bolt', 'clip', 'gusset', 'rib', 'skin', 'Strap']);
    expect(sheet.cells[1]![3]!.formula).toBe('C2*10');
    expect(sheet.cells[7]![4]!.formula).toBe('D8/SUM($C$2:$C$8)');
    // What names a cell of the list from beside it names the same cell, and shows who is there now.
    expect(sheet.cells[0]![6]).toMatchObject({ formula: 'A3', value: 'bolt' });
    expect([...(sheet.rowHeights ?? [])]).toEqual([[7, 40]]);
    expect(sheet.validations?.map(({ range }) => range.row)).toEqual([1, 5]);
    const parts = partsOf(made);
    expect(parts.get('xl/worksheets/sheet1.xml')).toMatch(/<hyperlink [^>]*ref="A7"/);
    expect(parts.get('xl/comments1.xml')).toMatch(/<comment ref="A4"/);
    expect(parts.get('xl/drawings/vmlDrawing1.vml')).toMatch(/<x:Row>3<\/x:Row>/);
    // The looks that the bench does not show went along, too.
    const style = /<c r="A2" s="(\d+)"/.exec(parts.get('xl/worksheets/sheet1.xml')!)?.[1];
    const before = /<c r="A3" s="(\d+)"/.exec(partsOf(bytes).get('xl/worksheets/sheet1.xml')!)?.[1];
    expect(style).toBe(before);
  });

  it('keeps rows that are not shown in their places', async () => {
    const { workbook, book, read } = await openBook(bytes);
    book.getSheetByName('Parts')!.hideRows(2, 1);
    await workbook.lists.sort(rows, [{ column: 0, descending: false }]);
    expect((await read({ ...rows, columns: 1 })).map(key)).toEqual(['bolt', 'angle', 'clip', 'gusset', 'rib', 'skin', 'Strap']); // prettier-ignore
  });

  it('is not sorted where a merged cell or a formula that fills some of the rows is in it', async () => {
    const { workbook, book, read } = await openBook(bytes);
    const sheet = book.getSheetByName('Parts')!;
    const before = await read(rows);
    sheet.getRange('A3:B3').merge();
    expect(await workbook.lists.sort(rows, [{ column: 2, descending: false }])).toBe(
      'A3:B3 is one merged cell. Unmerge it first.',
    );
    await workbook.undo();
    await workbook.apply('fill', [
      {
        kind: 'write',
        range: { sheet: 'Parts', row: 3, column: 5, rows: 1, columns: 1 },
        cells: [[{ formula: 'C4:C6*2' }]],
      },
    ]);
    await workbook.settled();
    expect(await workbook.lists.sort({ ...rows, columns: 6 }, [{ column: 2, descending: false }])).toMatch(
      /^The formula in F4 fills F4:F6, which is only a part of these rows\./,
    );
    expect(await read(rows)).toEqual(before);
    expect(await workbook.lists.sort(rows, [{ column: 2, descending: false }])).toBeUndefined();
  });

  const UNO = python('uno');
  const OFFICE = soffice();
  it.skipIf(!UNO || !OFFICE)('stands as LibreOffice sorts it', { timeout: 180_000 }, async () => {
    const keys = [
      { column: 2, descending: false },
      { column: 0, descending: true },
    ];
    const office = { python: UNO!, soffice: OFFICE!, profile: recalculatingProfile(folder) };
    const edits = [{ kind: 'sort', ...rows, keys }];
    const theirs = partsIn(byLibreOffice(office, folder, new Map([['', { from: bytes, edits }]])).get('')!);
    const { workbook, saved } = await openBook(bytes);
    await workbook.lists.sort(rows, keys);
    const ours = partsIn(await saved());
    const texts = ({ cells }: typeof ours) =>
      cells
        .slice(0, 8)
        .map((line) =>
          line.slice(0, 7).map((cell) => String(cell?.formula ?? cell?.value ?? '').replace('TRUE()', 'true')),
        );
    expect(texts(ours)).toEqual(texts(theirs));
  });
});
