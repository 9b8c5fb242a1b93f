/** What we write and patch, read by programs that share no code with us. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { SaxesParser } from 'saxes';
import { afterAll, describe, expect, it } from 'vitest';
import type { WorkbookModel } from '../../src/sheet';
import { patchWorkbook, writeWorkbook, type WorkbookChanges } from '../../src/xlsx';
import { convertedByLibreOffice } from '../helpers/libreoffice';
import { python, soffice } from '../helpers/programs';
import { fixture, partsOf } from './parts';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Cells of a workbook's first sheet by openpyxl: values, then formulas and what else is there. */
const READ = `
import json, sys, openpyxl
plain = lambda value: value if isinstance(value, (int, float, str, bool)) or value is None else str(value)
values = openpyxl.load_workbook(sys.argv[1], data_only=True)
book = openpyxl.load_workbook(sys.argv[1])
sheet = book.worksheets[0]
print(json.dumps({
  'values': [[plain(cell.value) for cell in row] for row in values.worksheets[0].iter_rows()],
  'sheets': book.sheetnames,
  'tables': {name: getattr(table, 'ref', table) for each in book.worksheets for name, table in each.tables.items()},
  'frozen': sheet.freeze_panes,
  'merged': [str(one) for one in sheet.merged_cells.ranges],
  'lists': [[str(one.sqref), one.formula1] for one in sheet.data_validations.dataValidation],
  'formats': [[cell.number_format, cell.font.b, cell.fill.fgColor.rgb] for cell in sheet[2]],
}))`;

interface Seen {
  readonly values: unknown[][];
  readonly sheets: string[];
  readonly tables: Record<string, string>;
  readonly frozen: string | null;
  readonly merged: string[];
  readonly lists: [string, string][];
  readonly formats: [string, boolean, string][];
}

const pythonPath = python('openpyxl');
const officePath = soffice();

function openpyxl(bytes: Uint8Array): Seen {
  const path = join(folder, 'seen.xlsx');
  writeFileSync(path, bytes);
  const { status, stdout, stderr } = spawnSync(pythonPath!, ['-c', READ, path], { encoding: 'utf8' });
  expect(stderr.replace(/.*UserWarning.*\n.*\n/g, '')).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout) as Seen;
}

/** Commas, quotes, UTF-8, and cells as they are shown. */
const AS_SHOWN = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true';

function expectWellFormed(part: string, text: string): void {
  const parse = () => new SaxesParser({ xmlns: true }).write(Buffer.from(text, 'latin1').toString('utf8')).close();
  expect(parse, part).not.toThrow();
}

async function exceljs(bytes: Uint8Array): Promise<ExcelJS.Workbook> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes as unknown as ArrayBuffer);
  return book;
}

const on = (row: number, column: number, rows: number, columns: number) => ({
  sheet: 'Parts',
  row,
  column,
  rows,
  columns,
});
const model: WorkbookModel = {
  styles: [{}, { bold: true, fill: '#ddeeff' }, { numberFormat: '0.000' }],
  names: [{ name: 'Widths', refersTo: 'Parts!$B$2:$B$3' }],
  sheets: [
    {
      name: 'Parts',
      frozen: { rows: 1, columns: 0 },
      merges: [on(6, 0, 1, 2)],
      validations: [{ range: on(1, 5, 2, 1), choices: ['yes', 'no'] }],
      tables: [{ name: 'Sizes', range: on(0, 0, 3, 2), columns: ['length', 'wid<th>'] }],
      cells: [
        [
          { value: 'length', style: 1 },
          { value: 'wid<th>', style: 1 },
        ],
        [{ value: 3 }, { value: 2, style: 2 }, undefined, { value: 6, formula: 'A2*B2' }, { value: 'é "q" & <t>' }],
        [{ value: 4 }, { value: 2.5 }, undefined, { value: 10, formula: 'A3*B3' }, { value: true }],
        [
          { value: 7, formula: 'SUM(Sizes[length])' },
          { value: 24, formula: 'SUM(A2:A3*Widths*{1;2})-2' },
        ],
      ],
    },
    { name: 'Prices', cells: [[{ value: 1 }]], tables: [] },
  ],
};

const made = await writeWorkbook(model);

describe('a new workbook', () => {
  const bytes = made;

  it('is well-formed in every part', () => {
    for (const [name, text] of partsOf(bytes)) expectWellFormed(name, text);
  });

  it.skipIf(!pythonPath)('is read by openpyxl', () => {
    const seen = openpyxl(bytes);
    expect(seen.sheets).toEqual(['Parts', 'Prices']);
    expect(seen.values.slice(0, 4).map((row) => row.slice(0, 5))).toEqual([
      ['length', 'wid<th>', null, null, null],
      [3, 2, null, 6, 'é "q" & <t>'],
      [4, 2.5, null, 10, true],
      [7, 24, null, null, null],
    ]);
    expect(seen).toMatchObject({
      tables: { Sizes: 'A1:B3' },
      frozen: 'A2',
      merged: ['A7:B7'],
      lists: [['F2:F3', '"yes,no"']],
    });
    expect(seen.formats[1]![0]).toBe('0.000');
  });

  it('is read by exceljs', async () => {
    const book = await exceljs(bytes);
    const sheet = book.getWorksheet('Parts')!;
    expect(sheet.getCell('D3').value).toMatchObject({ formula: 'A3*B3', result: 10 });
    expect(sheet.getCell('E2').value).toBe('é "q" & <t>');
    expect(sheet.getCell('A1').font.bold).toBe(true);
    expect(sheet.getTable('Sizes')).toBeDefined();
  });

  it.skipIf(!officePath)('is shown by LibreOffice', () => {
    expect(shown()[0]!.split('\n').slice(0, 4)).toEqual([
      'length,wid<th>,,,',
      '3,2.000,,6,"é ""q"" & <t>"',
      '4,2.5,,10,TRUE',
      '7,24,,,',
    ]);
  });
});

const CHANGES: WorkbookChanges = {
  styles: [{ numberFormat: '0.000', bold: true }],
  names: [{ name: 'Fresh', refersTo: 'Added!$A$2' }],
  sheets: [
    {
      sheet: 'Parts',
      cells: [
        { row: 1, column: 1, value: 41, style: 0 },
        { row: 1, column: 3, value: 30.75 },
        { row: 20, column: 0, value: 'added & <more>' },
        { row: 21, column: 0, value: 72, formula: 'B2+31' },
        { row: 22, column: 0, value: 2, formula: 'SORT(B2:B3)', spill: { rows: 2, columns: 1 } },
        { row: 23, column: 0, value: 41 },
      ],
      columnWidths: new Map([[5, 22]]),
      merges: [{ sheet: 'Parts', row: 30, column: 0, rows: 1, columns: 3 }],
      validations: [{ range: { sheet: 'Parts', row: 31, column: 0, rows: 2, columns: 1 }, choices: ['x', 'y'] }],
    },
  ],
  newSheets: [
    {
      name: 'Added',
      cells: [[{ value: 'a' }], [{ value: 1 }]],
      tables: [
        { name: 'AddedTable', range: { sheet: 'Added', row: 0, column: 0, rows: 2, columns: 1 }, columns: ['a'] },
      ],
    },
  ],
};

const WRITERS = ['xlsxwriter', 'openpyxl', 'exceljs', 'libreoffice', 'prefixed'];
const patched = WRITERS.map((writer) => patchWorkbook(fixture(writer), CHANGES));

/** The first sheets of the new workbook and of the patched ones as LibreOffice shows them. */
let shownByOffice: readonly string[] | undefined;
const shown = (): readonly string[] =>
  (shownByOffice ??= convertedByLibreOffice(officePath!, [made, ...patched], {
    to: AS_SHOWN,
    recalculates: false,
  }).map((text) => text.toString('utf8')));

describe.each(WRITERS.map((writer, index) => [writer, index] as const))('a patched workbook of %s', (writer, index) => {
  const bytes = patched[index]!;

  it('is well-formed in every part', () => {
    for (const [name, text] of partsOf(bytes)) {
      if (/\.(xml|rels|vml)$/.test(name)) expectWellFormed(name, text);
    }
  });

  it.skipIf(!pythonPath)('is read by openpyxl', () => {
    const seen = openpyxl(bytes);
    expect(seen.values[1]!.slice(0, 4)).toEqual(['rib cap', 41, 0.75, 30.75]);
    expect(seen.values.slice(20, 24).map(([first]) => first)).toEqual(['added & <more>', 72, 2, 41]);
    expect(seen.sheets.at(-1)).toBe('Added');
    expect(seen.tables).toMatchObject({ AddedTable: 'A1:A2' });
    expect(seen.merged).toContain('A31:C31');
    expect(seen.lists).toContainEqual(['A32:A33', '"x,y"']);
    expect(seen.formats[1]!.slice(0, 2)).toEqual(['0.000', true]);
  });

  it.skipIf(!officePath)('is shown by LibreOffice', () => {
    const lines = shown()[1 + index]!.split('\n');
    expect(lines[1]).toMatch(/^rib cap,41\.000,0\.75,30\.75/);
    expect(lines[20]).toMatch(/^added & <more>,/);
  });

  // It reads neither absolute targets nor elements with a prefix, patched or not.
  it.skipIf(writer === 'prefixed' || writer === 'openpyxl')('is read by exceljs', async () => {
    const book = await exceljs(bytes);
    expect(book.getWorksheet('Parts')!.getCell('B2').value).toBe(41);
    expect(book.getWorksheet('Added')!.getCell('A2').value).toBe(1);
  });
});
