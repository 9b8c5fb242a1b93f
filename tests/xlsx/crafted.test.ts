/**
 * Sheets that no spreadsheet program writes, and that files made by hand or by scripts have: cells out of order,
 * formulas before the one they share, names of ours inside extensions, addresses left out. They are read as other
 * programs read them, or refused with a clear line, and what is saved holds the same cells.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { CellError } from '../../src/sheet';
import { patchWorkbook, readWorkbook, XlsxError, type CellChange } from '../../src/xlsx';
import { convertedByLibreOffice } from '../helpers/libreoffice';
import { python, soffice } from '../helpers/programs';
import { changedParts, partOf, rowsOf, workbookOf } from './parts';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-crafted-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SHEET = 'xl/worksheets/sheet1.xml';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const STRICT = 'http://purl.oclc.org/ooxml';

/** The package with a relationship and a type for a part that the workbook leads to. */
function withParts(bytes: Uint8Array, part: string): Uint8Array {
  const parts = unzipSync(bytes);
  const edit = (name: string, change: (xml: string) => string): void =>
    void (parts[name] = strToU8(change(strFromU8(parts[name]!))));
  edit('xl/_rels/workbook.xml.rels', (xml) =>
    xml.replace(
      '</Relationships>',
      `<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${part}" Target="${part}.xml"/></Relationships>`,
    ),
  );
  edit('[Content_Types].xml', (xml) =>
    xml.replace(
      '</Types>',
      `<Override PartName="/xl/${part}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${part}+xml"/></Types>`,
    ),
  );
  return zipSync(parts);
}

type Shown = Record<string, string | number | boolean>;

/** Cells by address: "=formula → value" where there is a formula. */
function cellsOf(bytes: Uint8Array): Shown {
  const shown: Shown = {};
  readWorkbook(bytes).sheets[0]!.cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (!cell || (cell.value === null && cell.formula === undefined)) return;
      const value = cell.value instanceof CellError ? cell.value.code : (cell.value ?? '');
      shown[`${String.fromCharCode(65 + column)}${row + 1}`] =
        cell.formula === undefined ? value : `=${cell.formula} → ${String(value)}`;
    }),
  );
  return shown;
}

const change = (address: string, value: number, formula?: string | null): CellChange => ({
  row: Number(address.slice(1)) - 1,
  column: address.charCodeAt(0) - 65,
  value,
  ...(formula === undefined ? {} : { formula }),
});
const patched = (bytes: Uint8Array, ...cells: CellChange[]): Uint8Array =>
  patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells }] });

const n = (address: string, value: number): string => `<c r="${address}"><v>${value}</v></c>`;
const row = (number: number, cells: string): string => `<row r="${number}">${cells}</row>`;
const sheetOf = (inside: string): Uint8Array =>
  workbookOf('', {
    [SHEET]: `<worksheet xmlns="${MAIN}">${inside}</worksheet>`,
  });
const shared = (address: string, value: number, text?: string): string =>
  text === undefined
    ? `<c r="${address}"><f t="shared" si="0"/><v>${value}</v></c>`
    : `<c r="${address}"><f t="shared" ref="B1:B3" si="0">${text}</f><v>${value}</v></c>`;
const FOREIGN = '<extLst><ext uri="{x}"><sheetData><row r="1"><c r="A1"><v>99</v></c></row></sheetData></ext></extLst>';
const NUMBERS: Shown = { A1: 1, B1: 2, A2: 3, B2: 4, A3: 5 };
const TWICE: Shown = {
  A1: 1,
  B1: '=A1*2 → 2',
  A2: 2,
  B2: '=A2*2 → 4',
  A3: 3,
  B3: '=A3*2 → 6',
};

/** What each sheet holds. */
const CRAFTED: readonly (readonly [name: string, bytes: Uint8Array, cells: Shown])[] = [
  [
    'rows out of order',
    workbookOf(row(3, n('A3', 5)) + row(1, n('A1', 1) + n('B1', 2)) + row(2, n('A2', 3) + n('B2', 4))),
    NUMBERS,
  ],
  [
    'cells out of order',
    workbookOf(row(1, n('B1', 2) + n('A1', 1)) + row(2, n('B2', 4) + n('A2', 3)) + row(3, n('A3', 5))),
    NUMBERS,
  ],
  [
    'a row in two pieces',
    workbookOf(row(1, n('A1', 1)) + row(2, n('A2', 3) + n('B2', 4)) + row(1, n('B1', 2)) + row(3, n('A3', 5))),
    NUMBERS,
  ],
  [
    'no addresses at all',
    workbookOf(
      '<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row>',
    ),
    NUMBERS,
  ],
  [
    'addresses here and there',
    workbookOf(
      `<row>${n('A1', 1)}<c><v>2</v></c></row><row r="2"><c><v>3</v></c>${n('B2', 4)}</row><row>${n('A3', 5)}</row>`,
    ),
    NUMBERS,
  ],
  [
    'a shared formula after cells that go by it',
    workbookOf(
      row(1, n('A1', 1) + shared('B1', 2)) +
        row(2, n('A2', 2) + shared('B2', 4)) +
        row(3, n('A3', 3) + shared('B3', 6, 'A3*2')),
    ),
    TWICE,
  ],
  [
    'a shared formula in rows out of order',
    workbookOf(
      row(3, n('A3', 3) + shared('B3', 6)) +
        row(2, n('A2', 2) + shared('B2', 4)) +
        row(1, n('A1', 1) + shared('B1', 2, 'A1*2')),
    ),
    TWICE,
  ],
  [
    'cells of another schema after the sheet’s own',
    sheetOf(
      `<sheetData>${row(1, n('A1', 1) + n('B1', 2))}${row(2, n('A2', 3) + n('B2', 4))}${row(3, n('A3', 5))}</sheetData>${FOREIGN}`,
    ),
    NUMBERS,
  ],
  [
    'cells of another schema inside a row and a cell',
    workbookOf(
      `<row r="1">${n('A1', 1)}<c r="B1"><v>2</v>${FOREIGN}</c>${FOREIGN}</row>${row(2, n('A2', 3) + n('B2', 4))}${row(3, n('A3', 5))}`,
    ),
    NUMBERS,
  ],
  [
    'every element under a prefix',
    workbookOf('', {
      [SHEET]: `<x:worksheet xmlns:x="${MAIN}"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c><x:c r="B1"><x:v>2</x:v></x:c></x:row><x:row r="2"><x:c r="A2"><x:v>3</x:v></x:c><x:c r="B2"><x:v>4</x:v></x:c></x:row><x:row r="3"><x:c r="A3"><x:v>5</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
    }),
    NUMBERS,
  ],
  [
    'texts in the cells, with their spaces',
    workbookOf(
      row(
        1,
        '<c r="A1" t="inlineStr"><is><t xml:space="preserve"> a  b </t></is></c><c r="B1" t="inlineStr"><is><r><t>run </t></r><r><t>on</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c>',
      ) + row(2, '<c r="A2" t="str"><f>"x"&amp;1</f><v>x1</v></c><c r="B2" t="b"><v>1</v></c>'),
    ),
    { A1: ' a  b ', B1: 'run on', A2: '="x"&1 → x1', B2: true },
  ],
  [
    'comments, instructions and CDATA between and in the cells',
    workbookOf(
      `<!-- <sheetData> --><?x y?>${row(1, '<c r="A1" t="str"><f>"a&lt;"&amp;"b"</f><v><![CDATA[a<b]]></v></c><!-- c --><c r="B1"><v><!-- 9 -->2</v></c>')}<row r="2"><c r="A2" t="inlineStr"><is><t><![CDATA[x & y]]></t></is></c><c r="B2"><f><![CDATA[B1*2]]></f><v>4</v></c></row>`,
    ),
    { A1: '="a<"&"b" → a<b', B1: 2, A2: 'x & y', B2: '=B1*2 → 4' },
  ],
  [
    'a mark of the byte order before the sheet',
    workbookOf('', {
      [SHEET]: `\uFEFF<worksheet xmlns="${MAIN}"><sheetData>${row(1, n('A1', 1) + n('B1', 2))}</sheetData></worksheet>`,
    }),
    { A1: 1, B1: 2 },
  ],
  [
    'errors, truths, texts, numbers that say that they are',
    workbookOf(
      row(1, '<c r="A1" t="e"><v>#DIV/0!</v></c><c r="B1" t="n"><v>-1.5E-3</v></c>') +
        row(2, '<c r="A2" t="str"><v>6061-T6</v></c><c r="B2" t="b"><v>1</v></c>'),
    ),
    { A1: '#DIV/0!', B1: -0.0015, A2: '6061-T6', B2: true },
  ],
  [
    'shared texts with runs, phonetic hints and spaces',
    withParts(
      workbookOf(
        row(1, '<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>2</v></c>') + row(2, '<c r="A2" t="s"><v>1</v></c>'),
        {
          'xl/sharedStrings.xml': `<sst xmlns="${MAIN}" count="3" uniqueCount="3"><si><r><rPr><b/></rPr><t xml:space="preserve">web </t></r><r><t>upper</t></r></si><si><t>\u6771</t><rPh sb="0" eb="1"><t>\u3072</t></rPh><phoneticPr fontId="0"/></si><si><t xml:space="preserve"> b </t></si></sst>`,
        },
      ),
      'sharedStrings',
    ),
    { A1: 'web upper', A2: '\u6771', B1: ' b ' },
  ],
  [
    'no styles at all',
    workbookOf(row(1, n('A1', 1)) + row(2, n('A2', 2)), {
      'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    }),
    { A1: 1, A2: 2 },
  ],
  [
    'spaces and line breaks between all elements, single quotes, blank cells and rows',
    workbookOf('', {
      [SHEET]: `<worksheet\n xmlns='${MAIN}' >\n <sheetData >\n  <row r='1' >\n   <c r='A1' ><v >1</v ></c >\n   <c r='B1'/>\n  </row >\n  <row r='2'/>\n  <row r='3'>\n <c r = 'A3'><f> A1 * 2 </f><v>2</v></c></row>\n </sheetData>\n</worksheet>\n`,
    }),
    { A1: 1, A3: '= A1 * 2  → 2' },
  ],
];

const sameButOne = (cells: Shown, address: string, value: string | number): Shown => ({ ...cells, [address]: value });

describe.each(CRAFTED)('%s', (_name, bytes, cells) => {
  it('is read', () => expect(cellsOf(bytes)).toEqual(cells));

  it.each(['A1', 'B2', 'C1', 'B5'])('keeps every other cell where %s is written', (address) => {
    const after = patched(bytes, change(address, 777, null));
    expect(cellsOf(after)).toEqual(sameButOne(cells, address, 777));
    expect(changedParts(bytes, after)).toEqual([SHEET]);
  });

  it('keeps the formulas that go by one that is replaced', () => {
    for (const address of ['B1', 'B3']) {
      const after = patched(bytes, change(address, 9, '4+5'));
      expect(cellsOf(after)).toEqual(sameButOne(cells, address, '=4+5 → 9'));
    }
  });

  it('is written in order, each address once', () => {
    const xml = partOf(patched(bytes, change('A1', 777, null), change('B2', 778, null)), SHEET);
    const own = xml.replace(/<extLst>[^]*?<\/extLst>/g, '');
    const rows = [...own.matchAll(/<(?:x:)?row\b[^>]*\br="(\d+)"/g)].map(([, at]) => Number(at));
    expect(rows).toEqual([...new Set(rows)].sort((a, b) => a - b));
    const written = [...own.matchAll(/<(?:x:)?c\b[^>]*\br="([A-Z]+\d+)"/g)].map(([, at]) => at!);
    const inOrder = [...written].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)) || (a < b ? -1 : 1));
    expect(written).toEqual([...new Set(inOrder)]);
  });
});

describe('what is in order stays as it stands', () => {
  it('also the bytes of rows that have no address, foreign parts and spaces', () => {
    const rows = `\n <row  r="1" foo:bar="1" xmlns:foo="urn:foo">${n('A1', 1)}<!-- note --><c r='B1' ><v>2</v></c></row >\n${row(2, n('A2', 3))}`;
    const after = patched(sheetOf(`<sheetData>${rows}</sheetData>${FOREIGN}`), change('A2', 8));
    expect(partOf(after, SHEET)).toBe(
      `<worksheet xmlns="${MAIN}"><sheetData>${rows.replace('<v>3</v>', '<v>8</v>')}</sheetData>${FOREIGN}</worksheet>`,
    );
  });
});

describe('what could be read in two ways is refused', () => {
  it.each<[string, string, RegExp]>([
    ['a cell twice in a row', row(1, n('A1', 1) + n('A1', 2)), /^Sheet Parts: the file holds the cell A1 twice$/],
    ['a cell twice in two rows', row(1, n('A1', 1)) + row(1, n('A1', 2)), /holds the cell A1 twice/],
    ['a cell in the row of another', row(1, n('A2', 1)), /^Sheet Parts: a cell of row 2 is in row 1$/],
    ['an address that is none', row(1, '<c r="?"><v>1</v></c>'), /^Sheet Parts: a column is out of bounds$/],
    ['an address with signs', row(1, '<c r="$A$1"><v>1</v></c>'), /a column is out of bounds/],
    ['a row that is no number', '<row r="one"/>', /^Sheet Parts: a row number is out of bounds$/],
    ['half a row', '<row r="1.5"/>', /a row number is out of bounds/],
    ['a cell without a row', n('A1', 1), /^Sheet Parts: a cell is outside of a row$/],
    ['a row in a row', `<row r="1">${row(2, '')}</row>`, /^Sheet Parts: a row is inside a row$/],
    [
      'a text that is not there',
      row(1, '<c r="A1" t="s"><v>7</v></c>'),
      /goes by a shared text that the file does not hold$/,
    ],
  ])('%s', (_name, rows, message) => {
    expect(() => readWorkbook(workbookOf(rows))).toThrow(XlsxError);
    expect(() => readWorkbook(workbookOf(rows))).toThrow(message);
  });

  it('cells in two places, or in none', () => {
    expect(() => readWorkbook(sheetOf(`<sheetData/><sheetData>${row(1, n('A1', 1))}</sheetData>`))).toThrow(
      /^Sheet Parts: its cells are in two places of the file$/,
    );
    expect(() => patched(sheetOf(FOREIGN), change('A1', 1))).toThrow(/no cells element/);
  });

  it('a number that is none, or larger than any, counts as an error and not as a blank', () =>
    expect(
      cellsOf(workbookOf(row(1, '<c r="A1"><v>1e400</v></c><c r="B1"><v>ten</v></c><c r="C1"><v></v></c>'))),
    ).toEqual({ A1: '#NUM!', B1: '#VALUE!' }));
});

describe('parts that stand elsewhere', () => {
  const TARGETS = [
    'worksheets/sheet1.xml',
    '/xl/worksheets/sheet1.xml',
    './worksheets/sheet1.xml',
    '../xl/worksheets/sheet1.xml',
  ];
  it.each(TARGETS)('a sheet at %s', (target) => {
    const type = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
    const bytes = workbookOf(row(1, n('A1', 1)), {
      'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${type}/worksheet" Target="${target}"/></Relationships>`,
    });
    expect(cellsOf(bytes)).toEqual({ A1: 1 });
    const after = patched(bytes, change('A1', 2));
    expect(cellsOf(after)).toEqual({ A1: 2 });
    expect(changedParts(bytes, after)).toEqual([SHEET]);
  });
});

describe('names of parts with signs that are spelled out', () => {
  it.each([
    ['worksheets/my%20sheet.xml', 'xl/worksheets/my%20sheet.xml'],
    ['worksheets/my%20sheet.xml', 'xl/worksheets/my sheet.xml'],
    ['worksheets/my sheet.xml', 'xl/worksheets/my%20sheet.xml'],
    ['worksheets/Sheet1.XML', 'xl/worksheets/sheet1.xml'],
    ['worksheets/bl%C3%A4tter.xml', 'xl/worksheets/bl%C3%A4tter.xml'],
  ])('a sheet at %s in %s', (target, part) => {
    const parts = unzipSync(workbookOf(row(1, n('A1', 1))));
    const sheet = parts[SHEET]!;
    delete parts[SHEET];
    parts[part] = sheet;
    parts['xl/_rels/workbook.xml.rels'] = strToU8(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="${target}"/></Relationships>`,
    );
    const bytes = zipSync(parts);
    expect(cellsOf(bytes)).toEqual({ A1: 1 });
    const after = patched(bytes, change('A1', 2));
    expect(cellsOf(after)).toEqual({ A1: 2 });
    expect(changedParts(bytes, after)).toEqual([part]);
  });
});

describe('a sheet in two bytes a character', () => {
  it.each(['utf-16le', 'utf-16be'])('%s is read and changed, or refused in one line', (encoding) => {
    const parts = unzipSync(workbookOf(row(1, n('A1', 1) + '<c r="B1" t="str"><v>é東</v></c>')));
    const text = `\uFEFF<?xml version="1.0" encoding="UTF-16"?>${strFromU8(parts[SHEET]!)}`;
    const bytes = new Uint8Array(text.length * 2);
    const view = new DataView(bytes.buffer);
    for (let at = 0; at < text.length; at++) view.setUint16(at * 2, text.charCodeAt(at), encoding === 'utf-16le');
    parts[SHEET] = bytes;
    const file = zipSync(parts);
    let read: Shown;
    try {
      read = cellsOf(file);
    } catch (error) {
      expect(error).toBeInstanceOf(XlsxError);
      return;
    }
    expect(read).toEqual({ A1: 1, B1: 'é東' });
    expect(cellsOf(patched(file, change('A1', 2)))).toEqual({ A1: 2, B1: 'é東' });
  });
});

describe('formulas over several cells', () => {
  const ARRAY = '<c r="A1"><f t="array" ref="A1:A3">B1:B3*2</f><v>2</v></c>';
  const TABLE = '<c r="A1"><f t="dataTable" ref="A1:A3" dt2D="0" dtr="0" r1="C1"/><v>2</v></c>';
  const rows = (first: string): string =>
    row(1, first + n('B1', 1)) + row(2, n('A2', 4) + n('B2', 2)) + row(3, n('A3', 6) + n('B3', 3));

  it('an array formula keeps its cells where another cell is written', () => {
    const bytes = workbookOf(rows(ARRAY));
    expect(cellsOf(bytes)).toEqual({ A1: '=B1:B3*2 → 2', B1: 1, A2: 4, B2: 2, A3: 6, B3: 3 });
    const after = patched(bytes, change('C2', 5));
    expect(partOf(after, SHEET)).toContain(ARRAY);
    expect(cellsOf(after)).toEqual({ ...cellsOf(bytes), C2: 5 });
  });

  it('a data table stays as it is where another cell is written', () => {
    const bytes = workbookOf(rows(TABLE));
    expect(cellsOf(bytes)).toMatchObject({ B1: 1, A2: 4, B2: 2, A3: 6, B3: 3 });
    const after = patched(bytes, change('C2', 5));
    expect(partOf(after, SHEET)).toContain(TABLE);
    expect(cellsOf(after)).toEqual({ ...cellsOf(bytes), C2: 5 });
  });
});

describe('a workbook in the strict form', () => {
  const strict = Object.fromEntries(
    ['_rels/.rels', 'xl/workbook.xml', 'xl/_rels/workbook.xml.rels', 'xl/styles.xml', SHEET].map((name) => [
      name,
      partOf(workbookOf(row(1, n('A1', 1) + '<c r="B1" t="d"><v>2026-03-31</v></c>')), name)
        .replace(/^<\?xml[^>]*>/, '')
        .replaceAll(MAIN, `${STRICT}/spreadsheetml/main`)
        .replaceAll(
          'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
          `${STRICT}/officeDocument/relationships`,
        ),
    ]),
  );
  const bytes = workbookOf('', strict);

  it('is read, with dates that are written out', () => expect(cellsOf(bytes)).toEqual({ A1: 1, B1: 46112 }));

  it('stays in it: new sheets, tables and relationships too', () => {
    const table = {
      name: 'Sizes',
      range: { sheet: 'Parts', row: 3, column: 0, rows: 2, columns: 1 },
      columns: ['a'],
    };
    const after = patchWorkbook(bytes, {
      sheets: [{ sheet: 'Parts', cells: [change('A1', 2)], tables: [table] }],
      newSheets: [{ name: 'New', cells: [[{ value: 4 }]], tables: [] }],
    });
    expect(readWorkbook(after).sheets.map(({ name }) => name)).toEqual(['Parts', 'New']);
    expect(readWorkbook(after).sheets[0]!.tables).toEqual([table]);
    for (const part of [
      SHEET,
      'xl/workbook.xml',
      'xl/_rels/workbook.xml.rels',
      'xl/worksheets/sheet2.xml',
      'xl/tables/table1.xml',
      'xl/worksheets/_rels/sheet1.xml.rels',
    ])
      expect(partOf(after, part), part).not.toContain('schemas.openxmlformats.org/spreadsheetml');
    for (const part of ['xl/workbook.xml', 'xl/_rels/workbook.xml.rels', 'xl/worksheets/_rels/sheet1.xml.rels'])
      expect(partOf(after, part), part).not.toContain('schemas.openxmlformats.org/officeDocument');
  });
});

const OPENPYXL = `
import json, sys, openpyxl
out = []
for path in sys.argv[1:]:
  book = openpyxl.load_workbook(path)
  values = openpyxl.load_workbook(path, data_only=True).worksheets[0]
  out.append({c.coordinate: values[c.coordinate].value for r in book.worksheets[0].iter_rows() for c in r if c.value is not None})
print(json.dumps(out))`;
const pythonPath = python('openpyxl');
const officePath = soffice();
const valueOnly = (cells: Shown): Shown =>
  Object.fromEntries(
    Object.entries(cells).map(([address, shown]) => {
      const text = typeof shown === 'string' ? (/^=.* → (.*)$/.exec(shown)?.[1] ?? shown) : shown;
      if (text === 'true' || text === true) return [address, true];
      return [address, typeof text === 'string' && !Number.isNaN(Number(text)) ? Number(text) : text];
    }),
  );

describe('others read the same', () => {
  const files = CRAFTED.flatMap(([name, bytes, cells], index) => {
    const after = patched(bytes, change('C1', 777));
    return [
      { name, path: join(folder, `as-${index}.xlsx`), bytes, cells },
      {
        name,
        path: join(folder, `to-${index}.xlsx`),
        bytes: after,
        cells: sameButOne(cells, 'C1', 777),
      },
    ];
  });
  for (const { path, bytes } of files) writeFileSync(path, bytes);

  it.runIf(pythonPath)('openpyxl', () => {
    const { stdout, stderr } = spawnSync(pythonPath!, ['-c', OPENPYXL, ...files.map(({ path }) => path)], {
      encoding: 'utf8',
    });
    expect(stderr.replace(/.*UserWarning.*\n.*\n/g, '')).toBe('');
    (JSON.parse(stdout) as Shown[]).forEach((seen, index) => {
      // It takes the cells of an extension that stand under our namespace for the sheet's own; LibreOffice does not.
      if (!files[index]!.name.includes('another schema'))
        expect(seen, files[index]!.path).toEqual(valueOnly(files[index]!.cells));
    });
  });

  it.runIf(officePath)('LibreOffice', { timeout: 240_000 }, () => {
    const again = convertedByLibreOffice(
      officePath!,
      files.map(({ bytes }) => bytes),
      { recalculates: false },
    );
    for (const [index, { path, cells }] of files.entries()) {
      const seen = valueOnly(cellsOf(again[index]!));
      expect(seen, path).toEqual(valueOnly(cells));
    }
  });
});

describe('rows of a part', () => {
  it('come out under their numbers', () =>
    expect(rowsOf(patched(workbookOf('<row r="2"/><row r="1"/>'), change('A1', 1)))).toBe(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"/>',
    ));
});
