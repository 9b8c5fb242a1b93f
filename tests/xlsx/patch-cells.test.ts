import { describe, expect, it } from 'vitest';
import { CellError } from '../../src/sheet';
import { patchWorkbook, readWorkbook, type CellChange } from '../../src/xlsx';
import { changedParts, partOf, rowsOf, workbookOf } from './parts';

const patched = (rows: string, cells: readonly CellChange[]): string =>
  rowsOf(patchWorkbook(workbookOf(rows), { sheets: [{ sheet: 'Parts', cells }] }));
const at = (row: number, column: number, value: CellChange['value'], more: Partial<CellChange> = {}): CellChange => ({
  row,
  column,
  value,
  ...more,
});

describe('a changed cell', () => {
  it.each([
    ['a number', '<c r="A1"><v>1</v></c>', at(0, 0, 2.5), '<c r="A1"><v>2.5</v></c>'],
    ['a number with its looks', '<c r="A1" s="1"><v>1</v></c>', at(0, 0, 2), '<c r="A1" s="1"><v>2</v></c>'],
    ['a shared string to a number', '<c r="A1" t="s"><v>0</v></c>', at(0, 0, 2), '<c r="A1"><v>2</v></c>'],
    [
      'a number to a text',
      '<c r="A1"><v>1</v></c>',
      at(0, 0, 'a<b>&"c"'),
      '<c r="A1" t="inlineStr"><is><t>a&lt;b&gt;&amp;&quot;c&quot;</t></is></c>',
    ],
    [
      'a text with spaces',
      '<c r="A1"/>',
      at(0, 0, ' x'),
      '<c r="A1" t="inlineStr"><is><t xml:space="preserve"> x</t></is></c>',
    ],
    ['a flag', '<c r="A1"><v>1</v></c>', at(0, 0, false), '<c r="A1" t="b"><v>0</v></c>'],
    ['a result', '<c r="A1"><f>B1+1</f><v>1</v></c>', at(0, 0, 7), '<c r="A1"><f>B1+1</f><v>7</v></c>'],
    ['a result to a text', '<c r="A1"><f>B1</f><v>1</v></c>', at(0, 0, 'x'), '<c r="A1" t="str"><f>B1</f><v>x</v></c>'],
    [
      'a result to an error',
      '<c r="A1"><f ca="1">B1</f><v>1</v></c>',
      at(0, 0, new CellError('#N/A')),
      '<c r="A1" t="e"><f ca="1">B1</f><v>#N/A</v></c>',
    ],
    [
      'a result to nothing',
      '<c r="A1"><f>B1</f><v>1</v></c>',
      at(0, 0, null),
      '<c r="A1" t="str"><f>B1</f><v></v></c>',
    ],
    [
      'a formula that goes',
      '<c r="A1"><f>B1</f><v>1</v></c>',
      at(0, 0, 3, { formula: null }),
      '<c r="A1"><v>3</v></c>',
    ],
    [
      'a typed formula that nobody can read, which as a formula would damage the file',
      '<c r="A1"><v>1</v></c>',
      at(0, 0, new CellError('#VALUE!'), { formula: 'SUM(M6]' }),
      '<c r="A1" t="inlineStr"><is><t>=SUM(M6]</t></is></c>',
    ],
    [
      'a formula that comes',
      '<c r="A1"><v>1</v></c>',
      at(0, 0, 3, { formula: 'B1&"<"' }),
      '<c r="A1"><f>B1&amp;&quot;&lt;&quot;</f><v>3</v></c>',
    ],
    [
      'a cell that is emptied',
      '<c r="A1"><v>1</v></c><c r="B1"><v>2</v></c>',
      at(0, 0, null),
      '<c r="B1"><v>2</v></c>',
    ],
    ['a cell that is emptied and keeps its looks', '<c r="A1" s="1"><v>1</v></c>', at(0, 0, null), '<c r="A1" s="1"/>'],
    [
      'elements that are not understood',
      '<c r="A1"><v>1</v><extLst><ext uri="x"/></extLst></c>',
      at(0, 0, 2),
      '<c r="A1"><v>2</v><extLst><ext uri="x"/></extLst></c>',
    ],
    ["a value's own metadata goes", '<c r="A1" vm="3" t="e"><v>#VALUE!</v></c>', at(0, 0, 2), '<c r="A1"><v>2</v></c>'],
    [
      'characters that XML cannot hold',
      '<c r="A1"/>',
      at(0, 0, 'a\u0001_x0041_'),
      '<c r="A1" t="inlineStr"><is><t>a_x0001__x005F_x0041_</t></is></c>',
    ],
  ])('%s', (_case, before, change, after) => {
    expect(patched(`<row r="1">${before}</row>`, [change])).toBe(`<row r="1">${after}</row>`);
  });
});

describe('cells that come', () => {
  it('stand in order between the others', () => {
    const before = '<row r="2"><c r="B2"><v>1</v></c><c r="D2"><v>2</v></c></row>';
    const after = patched(before, [at(1, 4, 5), at(1, 0, 3), at(1, 2, 4)]);
    expect(after).toBe(
      '<row r="2"><c r="A2"><v>3</v></c><c r="B2"><v>1</v></c><c r="C2"><v>4</v></c><c r="D2"><v>2</v></c><c r="E2"><v>5</v></c></row>',
    );
  });

  it('bring rows before, between and after the others', () => {
    const after = patched('<row r="2"><c r="A2"><v>1</v></c></row><row r="4"/>', [
      at(0, 0, 1),
      at(2, 0, 3),
      at(3, 1, 4),
      at(5, 0, 6),
    ]);
    expect(after).toBe(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>1</v></c></row><row r="3"><c r="A3"><v>3</v></c></row><row r="4"><c r="B4"><v>4</v></c></row><row r="6"><c r="A6"><v>6</v></c></row>',
    );
  });

  it('take a hint of the columns away that they make wrong, and no other', () => {
    expect(patched('<row r="1" spans="1:2" ht="20"><c r="A1"><v>1</v></c></row>', [at(0, 1, 2)])).toContain(
      'spans="1:2"',
    );
    expect(patched('<row r="1" spans="1:2" ht="20"><c r="A1"><v>1</v></c></row>', [at(0, 2, 2)])).toMatch(
      /^<row r="1" ht="20">/,
    );
  });

  it('fill an empty sheet', () => {
    const sheet =
      '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="A1"/><sheetData/><pageMargins/></worksheet>';
    const bytes = patchWorkbook(workbookOf('', { 'xl/worksheets/sheet1.xml': sheet }), {
      sheets: [{ sheet: 'Parts', cells: [at(1, 1, 5)] }],
    });
    expect(partOf(bytes, 'xl/worksheets/sheet1.xml')).toBe(
      sheet
        .replace('<sheetData/>', '<sheetData><row r="2"><c r="B2"><v>5</v></c></row></sheetData>')
        .replace('ref="A1"', 'ref="A1:B2"'),
    );
  });

  it('find their place among cells without addresses', () => {
    const bytes = patchWorkbook(workbookOf('<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>'), {
      sheets: [{ sheet: 'Parts', cells: [at(0, 1, 9), at(1, 1, 8)] }],
    });
    expect(readWorkbook(bytes).sheets[0]!.cells.map((line) => line.map((cell) => cell?.value))).toEqual([
      [1, 9],
      [3, 8],
    ]);
  });
});

describe('shared formulas', () => {
  const rows =
    '<row r="1"><c r="B1"><f t="shared" ref="B1:B3" si="4">A1*$A$1+SUM(A$1:A1)</f><v>0</v></c></row><row r="2"><c r="B2"><f t="shared" si="4"/><v>0</v></c></row><row r="3"><c r="B3"><f t="shared" si="4"/><v>0</v></c></row>';

  it('are read as each cell has them', () => {
    const { cells } = readWorkbook(workbookOf(rows)).sheets[0]!;
    expect(cells.map((line) => line[1]!.formula)).toEqual([
      'A1*$A$1+SUM(A$1:A1)',
      'A2*$A$1+SUM(A$1:A2)',
      'A3*$A$1+SUM(A$1:A3)',
    ]);
  });

  it('keep their sharing while only values change', () => {
    expect(patched(rows, [at(1, 1, 5)])).toBe(
      rows.replace('si="4"/><v>0</v></c></row><row r="3">', 'si="4"/><v>5</v></c></row><row r="3">'),
    );
  });

  it('are written out when the cell that holds their text is changed', () => {
    const after = patched(rows, [at(0, 1, 1, { formula: null }), at(2, 1, 6)]);
    expect(after).toBe(
      '<row r="1"><c r="B1"><v>1</v></c></row><row r="2"><c r="B2"><f>A2*$A$1+SUM(A$1:A2)</f><v>0</v></c></row><row r="3"><c r="B3"><f>A3*$A$1+SUM(A$1:A3)</f><v>6</v></c></row>',
    );
  });
});

describe('formulas that spill', () => {
  it('are bound by a record that is made once', () => {
    const bytes = workbookOf('<row r="1"><c r="A1"><v>2</v></c></row>');
    const after = patchWorkbook(bytes, {
      sheets: [
        {
          sheet: 'Parts',
          cells: [
            at(0, 1, 4, { formula: 'TARE.AREA.RECT(A1,2)' }),
            at(1, 1, 1, { formula: 'SORT(A1:A2)', spill: { rows: 2, columns: 1 } }),
            at(2, 1, 2),
          ],
        },
      ],
    });
    expect(rowsOf(after)).toBe(
      '<row r="1"><c r="A1"><v>2</v></c><c r="B1" cm="1"><f t="array" ref="B1">_xldudf_TARE_AREA_RECT(A1,2)</f><v>4</v></c></row><row r="2"><c r="B2" cm="1"><f t="array" ref="B2:B3">_xlfn._xlws.SORT(A1:A2)</f><v>1</v></c></row><row r="3"><c r="B3"><v>2</v></c></row>',
    );
    expect(changedParts(bytes, after)).toEqual([
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
      'xl/metadata.xml',
      'xl/worksheets/sheet1.xml',
    ]);
    expect(partOf(after, 'xl/metadata.xml')).toContain('fDynamic="1"');
    const twice = patchWorkbook(after, {
      sheets: [{ sheet: 'Parts', cells: [at(4, 0, 4, { formula: 'TARE.AREA.RECT(1,2)' })] }],
    });
    expect(partOf(twice, 'xl/metadata.xml')).toBe(partOf(after, 'xl/metadata.xml'));
  });

  it('get a new extent', () => {
    const rows =
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A2" ca="1">_xlfn.SEQUENCE(2)</f><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>';
    expect(patched(rows, [at(0, 0, 1, { spill: { rows: 3, columns: 1 } }), at(2, 0, 3)])).toBe(
      rows.replace('A1:A2', 'A1:A3') + '<row r="3"><c r="A3"><v>3</v></c></row>',
    );
  });

  it('join a record of another kind', () => {
    const metadata =
      '<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><metadataTypes count="1"><metadataType name="XLRICHVALUE" minSupportedVersion="120000"/></metadataTypes><futureMetadata name="XLRICHVALUE" count="1"><bk/></futureMetadata><valueMetadata count="1"><bk><rc t="1" v="0"/></bk></valueMetadata></metadata>';
    const types = partOf(workbookOf(''), '[Content_Types].xml')
      .replace(/^<\?.*?\?>/, '')
      .replace(
        '</Types>',
        '<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/></Types>',
      );
    const relations = partOf(workbookOf(''), 'xl/_rels/workbook.xml.rels')
      .replace(/^<\?.*?\?>/, '')
      .replace(
        '</Relationships>',
        '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
      );
    const bytes = workbookOf('', {
      'xl/metadata.xml': metadata,
      '[Content_Types].xml': types,
      'xl/_rels/workbook.xml.rels': relations,
    });
    const after = partOf(
      patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells: [at(0, 0, 2, { formula: 'TARE.AREA.RECT(1,2)' })] }] }),
      'xl/metadata.xml',
    );
    expect(after).toMatch(
      /<metadataTypes count="2">.*XLDAPR.*<\/metadataTypes><futureMetadata name="XLRICHVALUE".*<futureMetadata name="XLDAPR".*<cellMetadata count="1"><bk><rc t="2" v="0"\/><\/bk><\/cellMetadata><valueMetadata/,
    );
  });
});

describe('a chain of formulas', () => {
  const chain = {
    'xl/calcChain.xml':
      '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="A1" i="1"/></calcChain>',
  };
  const extra = (): Record<string, string> => ({
    ...chain,
    '[Content_Types].xml': partOf(workbookOf(''), '[Content_Types].xml')
      .replace(/^<\?.*?\?>/, '')
      .replace(
        '</Types>',
        '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>',
      ),
    'xl/_rels/workbook.xml.rels': partOf(workbookOf(''), 'xl/_rels/workbook.xml.rels')
      .replace(/^<\?.*?\?>/, '')
      .replace(
        '</Relationships>',
        '<Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>',
      ),
  });

  it('stays while formulas stay', () => {
    const bytes = workbookOf('<row r="1"><c r="A1"><f>1+1</f><v>1</v></c></row>', extra());
    expect(changedParts(bytes, patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells: [at(0, 0, 2)] }] }))).toEqual([
      'xl/worksheets/sheet1.xml',
    ]);
  });

  it('goes with its type and relationship when a formula goes', () => {
    const bytes = workbookOf('<row r="1"><c r="A1"><f>1+1</f><v>1</v></c></row>', extra());
    const after = patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells: [at(0, 0, 2, { formula: null })] }] });
    expect(changedParts(bytes, after)).toEqual([
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
      'xl/calcChain.xml',
      'xl/worksheets/sheet1.xml',
    ]);
    expect(partOf(after, '[Content_Types].xml')).not.toContain('calcChain');
    expect(partOf(after, 'xl/_rels/workbook.xml.rels')).not.toContain('calcChain');
  });
});
