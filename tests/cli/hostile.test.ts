/** Workbooks that fight back, through the command: what it says, what it leaves, and that nothing is lost. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { CellError, type CellModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { changedParts, fixture, partOf, partsOf, rowsOf, workbookOf } from '../xlsx/parts';
import { tarebook } from './tarebook';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const path = join(folder, 'book.xlsx');
/** The embedded engine is asked what it knows, and takes its time to start on a busy machine. */
const ENGINE = { timeout: 120_000 };

/** The file as `tarebook recalc` leaves it, and what it said. */
async function recalculated(
  bytes: Uint8Array,
): Promise<{ code: number; out: string; err: string; bytes: Uint8Array; values: unknown[][] }> {
  writeFileSync(path, bytes);
  const said = await tarebook('recalc', path);
  const after = new Uint8Array(readFileSync(path));
  const values = readWorkbook(after).sheets[0]!.cells.map((line) =>
    Array.from(line, (cell) => (cell?.value instanceof CellError ? cell.value.code : (cell?.value ?? null))),
  );
  return { ...said, bytes: after, values };
}

/** Parts that nobody reads here, bound to the workbook and its first sheet as their own programs bind them. */
const FOREIGN: Readonly<Record<string, string>> = {
  'xl/externalLinks/externalLink1.xml':
    '<externalLink xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>',
  'xl/pivotCache/pivotCacheDefinition1.xml':
    '<pivotCacheDefinition xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"  refreshOnLoad="1" />',
  'xl/pivotTables/pivotTable1.xml':
    '<pivotTableDefinition xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" name="P"\n/>',
  'xl/threadedComments/threadedComment1.xml':
    '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"/>',
  'xl/printerSettings/printerSettings1.bin': '\u0000\u0001\u00fe\u00ff not text',
  'customXml/item1.xml': '<note xmlns="urn:example">kept &amp; whole</note>',
  'xl/nobody/knows.dat': '\u00ff\u00d8\u0000',
};

function withForeign(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const change = (name: string, to: (text: string) => string): void =>
    void (parts[name] = strToU8(to(strFromU8(parts[name]!))));
  for (const [name, text] of Object.entries(FOREIGN)) parts[name] = strToU8(text, true);
  change('[Content_Types].xml', (text) =>
    text.replace(
      '</Types>',
      '<Default Extension="bin" ContentType="application/octet-stream"/><Default Extension="dat" ContentType="application/octet-stream"/></Types>',
    ),
  );
  change('xl/_rels/workbook.xml.rels', (text) =>
    text.replace(
      '</Relationships>',
      '<Relationship Id="rId901" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/externalLink" Target="externalLinks/externalLink1.xml"/></Relationships>',
    ),
  );
  change('xl/worksheets/_rels/sheet1.xml.rels', (text) =>
    text.replace(
      '</Relationships>',
      '<Relationship Id="rId902" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/pivotTable" Target="../pivotTables/pivotTable1.xml"/></Relationships>',
    ),
  );
  // A length that its formulas do not know yet.
  change('xl/worksheets/sheet1.xml', (text) => text.replace(/(<c r="B3"[^>]*><v>)5(<)/, '$19$2'));
  return zipSync(parts);
}

const around = (bytes: Uint8Array): string =>
  partOf(bytes, 'xl/worksheets/sheet1.xml').replace(/<sheetData>[^]*<\/sheetData>/, '<sheetData/>');

describe.each(['xlsxwriter', 'openpyxl', 'exceljs', 'libreoffice'])(
  'a workbook of %s with charts, pictures, pivots and parts that nobody knows',
  (writer) => {
    it('is recalculated with every one of them as it was', async () => {
      const before = withForeign(fixture(writer));
      const { code, bytes, values, err } = await recalculated(before);
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect([values[2]![1], values[2]![3], values[5]![3]]).toEqual([9, 13.5, 55.625]);
      for (const part of changedParts(before, bytes))
        expect(part).toMatch(/^(xl\/worksheets\/sheet1|xl\/metadata|xl\/_rels\/workbook\.xml|\[Content_Types\])/);
      const after = partsOf(bytes);
      for (const [name, text] of Object.entries(FOREIGN)) expect(after.get(name) === text, name).toBe(true);
      expect(around(bytes) === around(before)).toBe(true);
      for (const name of ['xl/_rels/workbook.xml.rels', 'xl/worksheets/_rels/sheet1.xml.rels'])
        expect(after.get(name)).toContain(name.includes('sheet1') ? 'rId902' : 'rId901');
    });
  },
);

const formula = (address: string, text: string, value: string | number = 0): string =>
  `<c r="${address}"><f>${text}</f><v>${value}</v></c>`;
const number = (address: string, value: number, style = 0): string =>
  `<c r="${address}" s="${style}"><v>${value}</v></c>`;

describe('formulas that cannot be calculated', () => {
  it('in a circle keep their values and are named; the rest is calculated', async () => {
    const { code, err, values } = await recalculated(
      workbookOf(
        `<row r="1">${formula('A1', 'B1+1', 7)}${formula('B1', 'A1+1', 8)}${formula('C1', '2*3')}${formula('D1', 'D1', 9)}${formula('E1', 'A1*2')}</row>`,
      ),
    );
    expect(code).toBe(0);
    expect(err.trimEnd().split('\n')).toEqual([
      "These formulas go round in a circle: Parts!A1 and 2 more keep the file's values",
      'Not recalculated: 1 formula rests on kept values:',
      'Parts!E1 rests on Parts!A1',
    ]);
    expect(values).toEqual([[7, 8, 6, 9, 14]]);
  });

  it('of another workbook, or of a function that is not known, keep formula and value', ENGINE, async () => {
    const rows = `<row r="1">${formula('A1', '[1]Prices!$B$2*2', 12)}${formula('B1', 'FOREIGN.THING(1)', 3)}${formula('C1', 'A1+B1')}${formula('D1', 'OTHER(', 4)}</row>`;
    const { code, err, values, bytes } = await recalculated(workbookOf(rows));
    expect(code).toBe(0);
    expect(err.trimEnd().split('\n')).toEqual([
      "Another workbook is not read here: Parts!A1 keeps the file's value",
      "FOREIGN.THING is not known here: Parts!B1 keeps the file's value",
      expect.stringMatching(/: Parts!D1 keeps the file's value$/),
      'Not recalculated: 1 formula rests on kept values:',
      'Parts!C1 rests on Parts!A1',
    ]);
    expect(values).toEqual([[12, 3, 15, 4]]);
    for (const text of ['<f>[1]Prices!$B$2*2</f><v>12</v>', '<f>FOREIGN.THING(1)</f><v>3</v>', '<f>OTHER(</f><v>4</v>'])
      expect(rowsOf(bytes)).toContain(text);
  });

  it('nested without end are kept, and named', async () => {
    const deep = `${'('.repeat(5000)}1${')'.repeat(5000)}`;
    const { code, err, values } = await recalculated(
      workbookOf(
        `<row r="1">${formula('A1', deep, 5)}${formula('B1', `${'-'.repeat(20_000)}1`, 6)}${formula('C1', 'A1+1')}</row>`,
      ),
    );
    expect(code).toBe(0);
    expect(err).toMatch(/more than 200 brackets.*: Parts!A1 /);
    expect(values[0]![0]).toBe(5);
    expect(values[0]![2]).toBe(6);
  });
});

describe('names and places', () => {
  it('names that shadow functions, cells of other sheets and each other are told apart', async () => {
    const workbook = partOf(workbookOf(''), 'xl/workbook.xml').replace(/^<\?.*?\?>/, '');
    const names =
      '<definedNames><definedName name="Sum">Parts!$A$1</definedName><definedName name="TARE.AREA.RECT">Parts!$A$2</definedName><definedName name="Waste">Parts!$A$1</definedName><definedName name="Waste" localSheetId="0">Parts!$A$2</definedName></definedNames>';
    const rows = `<row r="1">${number('A1', 10)}${formula('B1', 'Sum*2')}${formula('C1', 'SUM(A1:A2)')}${formula('D1', 'Waste')}</row><row r="2">${number('A2', 3)}${formula('B2', 'TARE.AREA.RECT+1')}${formula('C2', '_xldudf_TARE_AREA_RECT(A1,A2)')}</row>`;
    const { code, values } = await recalculated(
      workbookOf(rows, { 'xl/workbook.xml': workbook.replace('</sheets>', `</sheets>${names}`) }),
    );
    expect(code).toBe(0);
    expect(values).toEqual([
      [10, 20, 13, 3],
      [3, 4, 30],
    ]);
  });

  it('a result that would spill into merged cells is an error there, as in a spreadsheet', async () => {
    const spill = '<c r="B1" cm="1"><f t="array" ref="B1:B3">A1:A3*2</f><v>0</v></c>';
    const sheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">${number('A1', 1)}${spill}</row><row r="2">${number('A2', 2)}</row><row r="3">${number('A3', 3)}</row></sheetData><mergeCells count="1"><mergeCell ref="B3:C3"/></mergeCells></worksheet>`;
    const { code, err, bytes } = await recalculated(workbookOf('', { 'xl/worksheets/sheet1.xml': sheet }));
    expect(code).toBe(1);
    expect(err).toMatch(/Parts!B1: #SPILL!.*merged/);
    expect(partOf(bytes, 'xl/worksheets/sheet1.xml')).toContain(
      '<mergeCells count="1"><mergeCell ref="B3:C3"/></mergeCells>',
    );
  });

  it('a protected sheet and hidden rows stay so, and their formulas are calculated', async () => {
    const protection =
      '<sheetProtection algorithmName="SHA-512" hashValue="aGFzaA==" saltValue="c2FsdA==" spinCount="100000" sheet="1" objects="1"/>';
    const sheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">${number('A1', 4)}${formula('B1', 'A1*2')}</row><row r="2" hidden="1">${number('A2', 5)}${formula('B2', 'A2*2')}</row><row r="3">${formula('B3', 'SUBTOTAL(109,A1:A2)')}</row></sheetData>${protection}</worksheet>`;
    const { code, values, bytes } = await recalculated(workbookOf('', { 'xl/worksheets/sheet1.xml': sheet }));
    expect(code).toBe(0);
    expect(values).toEqual([
      [4, 8],
      [5, 10],
      [null, 4],
    ]);
    const xml = partOf(bytes, 'xl/worksheets/sheet1.xml');
    expect(xml).toContain(`</sheetData>${protection}`);
    expect(xml).toContain('<row r="2" hidden="1">');
  });

  it('dates counted from 1904 are calculated as the days they show, and written as the file counts', async () => {
    const workbook = partOf(workbookOf(''), 'xl/workbook.xml')
      .replace(/^<\?.*?\?>/, '')
      .replace('<sheets>', '<workbookPr date1904="1"/><sheets>');
    // Style 1 is a date: day 44,620 from 1904 is 1 March 2026.
    const rows = `<row r="1">${number('A1', 44_620, 1)}<c r="B1" s="1"><f>A1+1</f><v>0</v></c>${formula('C1', 'YEAR(A1)')}${formula('D1', 'B1-A1')}</row>`;
    const { code, bytes } = await recalculated(workbookOf(rows, { 'xl/workbook.xml': workbook }));
    expect(code).toBe(0);
    expect(rowsOf(bytes)).toContain('<f>A1+1</f><v>44621</v>');
    expect(rowsOf(bytes)).toContain('<f>YEAR(A1)</f><v>2026</v>');
    expect(rowsOf(bytes)).toContain('<f>B1-A1</f><v>1</v>');
  });

  it('a thousand sheets that sum each other are calculated', ENGINE, async () => {
    const sheets = Array.from({ length: 1000 }, (_one, index) => ({
      name: `S${index + 1}`,
      tables: [],
      cells: [[{ value: index === 0 ? 1 : 0, ...(index === 0 ? {} : { formula: `S${index}!A1+1` }) }]],
    }));
    writeFileSync(path, await writeWorkbook({ styles: [], names: [], sheets: sheets.toReversed() }));
    expect(await tarebook('recalc', path)).toMatchObject({ code: 0, out: `${path}: 999 cells changed\n` });
    expect(readWorkbook(readFileSync(path)).sheets[0]!.cells[0]![0]!.value).toBe(1000);
  });
});

describe('words that are keys of every object', () => {
  const KEYS = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];

  it('are components, materials, items and sheets like any other word', async () => {
    const line = (...values: (string | number)[]): CellModel[] =>
      values.map((value) =>
        typeof value === 'string' && value.startsWith('=') ? { value: null, formula: value.slice(1) } : { value },
      );
    const parts = [
      line('Component', 'Part', 'Weight (lb)', 'Arm (in)', 'Material'),
      ...KEYS.map((key, index) => line(key, key, index + 1, 10, `=TARE.MATERIAL.DENSITY("${key}")`)),
    ];
    const prices = [
      line('Item', 'Kind', 'Sold by', 'Contents', 'Price'),
      line('__proto__', 'other', 'each', '', 2),
      ...KEYS.map((key) => line(`=TARE.PRICE.EACH("${key}",A1:E2)`)),
    ];
    const sheets = [
      {
        name: 'Parts',
        cells: parts,
        tables: [
          {
            name: 'constructor',
            range: { sheet: 'Parts', row: 0, column: 0, rows: 5, columns: 5 },
            columns: ['Component', 'Part', 'Weight (lb)', 'Arm (in)', 'Material'],
          },
        ],
      },
      { name: '__proto__', cells: prices, tables: [] },
      {
        name: 'valueOf',
        cells: [
          line('=TARE.ROLLUP(Parts!A2:A5,Parts!C2:C5,Parts!D2:D5)'),
          [],
          [],
          [],
          [],
          [],
          line("=SUM(constructor[Arm (in)])+'__proto__'!A3"),
        ],
        tables: [],
      },
    ];
    writeFileSync(path, await writeWorkbook({ styles: [], names: [], sheets }));
    const { code, err } = await tarebook('recalc', path);
    expect(code).toBe(1);
    expect(err).not.toMatch(/fault|undefined|\[object|native code/);
    const after = readWorkbook(readFileSync(path));
    const shown = (sheet: number, row: number, column: number): unknown => {
      const value = after.sheets[sheet]!.cells[row]?.[column]?.value;
      return value instanceof CellError ? value.code : value;
    };
    KEYS.forEach((_key, index) => expect(shown(0, index + 1, 4)).toBe('#N/A'));
    expect(KEYS.map((_key, index) => shown(1, index + 2, 0))).toEqual([2, '#N/A', '#N/A', '#N/A']);
    expect([0, 1, 2, 3, 4].map((row) => [shown(2, row, 0), shown(2, row, 1)])).toEqual([
      ...KEYS.map((key, index) => [key, index + 1]),
      ['Total', 10],
    ]);
    expect(shown(2, 6, 0)).toBe(42);
    const report = await tarebook('report', path, '--json');
    expect(
      (JSON.parse(report.out) as { components: { name: string; weight: number }[] }).components.map(
        ({ name, weight }) => [name, weight],
      ),
    ).toEqual(KEYS.map((key, index) => [key, index + 1]));
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });
});

describe('what others will open', () => {
  it('a cut list has no field that a spreadsheet would run', async () => {
    const [parts, stock, out] = ['parts.csv', 'stock.csv', 'cut.csv'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    writeFileSync(
      parts,
      'name,length,quantity\n"=HYPERLINK(""http://x"")",10,1\n@SUM(1),11,1\n-2+3,12,1\n+1,13,1\n"\t=1",14,1\n',
    );
    writeFileSync(stock, 'name,length,cost\n=1+1,100,1\n');
    expect((await tarebook('cut', '--parts', parts, '--stock', stock, '--csv', out, '--seconds', '1')).code).toBe(0);
    const fields = readFileSync(out, 'utf8')
      .split('\r\n')
      .flatMap((line) => line.split(','));
    expect(fields.filter((field) => /^"?[=+\-@\t]/.test(field) && !/^-?\d+(\.\d+)?$/.test(field))).toEqual([]);
    expect(readFileSync(out, 'utf8')).toContain("'-2+3");
  });

  it('a report sends no commands to the terminal', async () => {
    const cells = [
      ['Component', 'Part', 'Weight (lb)', 'Arm (in)'],
      ['\u001b[2Jwing\u0007\u009b31m', 'x', 1, 2],
    ].map((line) => line.map((value) => ({ value })));
    writeFileSync(path, await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Parts', cells, tables: [] }] }));
    const { out } = await tarebook('report', path);
    expect(out).toContain('wing');
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  });
});
