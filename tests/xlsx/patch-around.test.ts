/** What stands around cells: looks, tables, names, panes, widths, lists, dates. */
import { describe, expect, it } from 'vitest';
import type { TableModel } from '../../src/sheet';
import { patchWorkbook, readWorkbook, type SheetChanges, type WorkbookChanges } from '../../src/xlsx';
import { changedParts, fixture, partOf, workbookOf } from './parts';

const SHEET = 'xl/worksheets/sheet1.xml';
const on = (row: number, column: number, rows: number, columns: number, sheet = 'Parts') => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
const patched = (
  bytes: Uint8Array,
  sheet: Omit<SheetChanges, 'sheet'>,
  rest: Partial<WorkbookChanges> = {},
): Uint8Array => patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', ...sheet }], ...rest });

describe('looks', () => {
  const rows = '<row r="1"><c r="A1" s="1"><v>45000</v></c><c r="B1"><v>2</v></c></row>';

  it('are added once and made from those that the cell had', () => {
    const styles = [{ numberFormat: '0.000', bold: true, fill: '#ddeeff' }];
    const cells = [
      { row: 0, column: 0, value: 1, style: 0 },
      { row: 0, column: 1, value: 2, style: 0 },
      { row: 1, column: 1, value: 3, style: 0 },
    ];
    const after = patched(workbookOf(rows), { cells }, { styles });
    const read = readWorkbook(after);
    for (const { row, column } of cells)
      expect(read.styles[read.sheets[0]!.cells[row]![column]!.style!]).toEqual(styles[0]);
    const xml = partOf(after, 'xl/styles.xml');
    // The first keeps its format's protection; the two others share one.
    expect(xml).toMatch(/<cellXfs count="4">/);
    expect(xml.match(/<protection locked="0"\/>/g)).toHaveLength(2);
    expect(xml).toContain('<numFmts count="1"><numFmt numFmtId="164" formatCode="0.000"/></numFmts>');
  });

  it('that a file has already add nothing, unless they come with another protection', () => {
    const styles = [{ numberFormat: 'mm-dd-yy' }];
    const once = patched(workbookOf(rows), { cells: [{ row: 0, column: 1, value: 2, style: 0 }] }, { styles });
    expect(partOf(once, SHEET)).toContain('<c r="B1" s="2"><v>2</v></c>');
    const twice = patched(once, { cells: [{ row: 4, column: 1, value: 2, style: 0 }] }, { styles });
    expect(changedParts(once, twice)).toEqual([SHEET]);
    expect(partOf(twice, SHEET)).toContain('<c r="B5" s="2"><v>2</v></c>');
  });
});

describe('tables', () => {
  const bytes = fixture('xlsxwriter');
  const sizes = readWorkbook(bytes).sheets[1]!.tables[0]!;
  const table = (after: Uint8Array): string => partOf(after, 'xl/tables/table1.xml');

  it('are read without their row of totals', () => {
    expect(sizes).toEqual({
      name: 'Sizes',
      range: on(1, 1, 5, 3, 'Table'),
      totals: true,
      columns: ['part', 'length', 'width of\nsheet'],
    });
  });

  it('are named in the formulas of their cells that leave the name out, and the file keeps its spelling', () => {
    expect(partOf(bytes, 'xl/worksheets/sheet2.xml')).toContain('<f>SUBTOTAL(109,[length])</f>');
    const model = readWorkbook(bytes);
    expect(model.sheets[1]!.cells[6]![2]!.formula).toBe('SUBTOTAL(109,Sizes[length])');
    const after = patchWorkbook(bytes, {
      sheets: [{ sheet: 'Table', cells: [{ row: 6, column: 2, value: 54, formula: 'SUBTOTAL(109,Sizes[length])' }] }],
    });
    expect(readWorkbook(after).sheets[1]!.cells[6]![2]).toMatchObject({
      value: 54,
      formula: 'SUBTOTAL(109,Sizes[length])',
    });
    const rows =
      '<row r="1"><c r="A1" t="inlineStr"><is><t>a</t></is></c></row><row r="2"><c r="A2"><f>[1]Prices!A1+SUM([a])+[@a]+T[a]+[2]!Rate</f><v>1</v></c></row><row r="3"><c r="A3"><f>SUM([a])</f><v>1</v></c></row>';
    const one = patched(workbookOf(rows), { tables: [{ name: 'T', range: on(0, 0, 2, 1), columns: ['a'] }] });
    const { cells } = readWorkbook(one).sheets[0]!;
    expect(cells[1]![0]!.formula).toBe('[1]Prices!A1+SUM(T[a])+T[@a]+T[a]+[2]!Rate');
    // Outside of a table there is none to be meant.
    expect(cells[2]![0]!.formula).toBe('SUM([a])');
  });

  it('grow with their filter and totals', () => {
    const grown: TableModel = { ...sizes, range: { ...sizes.range, rows: 7 } };
    const after = patchWorkbook(bytes, { sheets: [{ sheet: 'Table', tables: [grown] }] });
    expect(table(after)).toMatch(/ ref="B2:D9" .*<autoFilter ref="B2:D8"\/>/);
    expect(readWorkbook(after).sheets[1]!.tables).toEqual([grown]);
    expect(changedParts(bytes, after)).toEqual(['xl/tables/table1.xml']);
  });

  it('follow their header cells', () => {
    const after = patchWorkbook(bytes, {
      sheets: [{ sheet: 'Table', cells: [{ row: 1, column: 2, value: 'run & <reach>' }] }],
    });
    expect(table(after)).toMatch(/<tableColumn id="2" name="run &amp; &lt;reach&gt;" totalsRowFunction="sum"\/?>/);
  });

  it('take columns in and give them up', () => {
    const after = patchWorkbook(bytes, {
      sheets: [
        {
          sheet: 'Table',
          tables: [{ ...sizes, range: { ...sizes.range, columns: 3 }, columns: ['part', 'gauge', 'length'] }],
        },
      ],
    });
    expect(table(after)).toMatch(
      /<tableColumns count="3"><tableColumn id="1" name="part"[^>]*>.*name="gauge"\/><tableColumn id="2" name="length"/,
    );
  });

  it('come with part, type and relationship', () => {
    const fresh: TableModel = { name: 'Gauges', range: on(0, 0, 2, 2), columns: ['no', 'in'] };
    const cells = [
      ['no', 'in'],
      [20, 0.032],
    ].flatMap((line, row) => line.map((value, column) => ({ row, column, value })));
    const one = patched(workbookOf(''), { cells, tables: [fresh] });
    expect(readWorkbook(one).sheets[0]!.tables).toEqual([fresh]);
    expect(changedParts(workbookOf(''), one)).toEqual([
      '[Content_Types].xml',
      'xl/tables/table1.xml',
      'xl/worksheets/_rels/sheet1.xml.rels',
      SHEET,
    ]);
    const two = patchWorkbook(one, {
      sheets: [],
      newSheets: [
        {
          name: 'More',
          cells: [[{ value: 'a' }], [{ value: 1 }]],
          tables: [{ name: 'Other', range: on(0, 0, 2, 1, 'More'), columns: ['a'] }],
        },
      ],
    });
    expect(partOf(two, 'xl/tables/table2.xml')).toContain('id="2"');
  });

  it('without names for all columns are refused', () => {
    expect(() =>
      patched(workbookOf(''), { tables: [{ name: 'T', range: on(0, 0, 2, 2), columns: ['a', 'A'] }] }),
    ).toThrow(/no two columns may have the same name/);
  });
});

describe('names', () => {
  const bytes = fixture('openpyxl');

  it('come, change and go', () => {
    const came = patchWorkbook(bytes, {
      sheets: [],
      names: [
        { name: 'Waste', refersTo: 'Parts!$B$2' },
        { name: 'lengths', refersTo: 'Parts!$B$2:$B$4' },
        { name: 'Own', refersTo: "'Rib''s own'!$A$1", scope: "Rib's own" },
      ],
    });
    expect(readWorkbook(came).names).toEqual([
      { name: 'Lengths', refersTo: 'Parts!$B$2:$B$4' },
      { name: 'Waste', refersTo: 'Parts!$B$2' },
      { name: 'Own', refersTo: "'Rib''s own'!$A$1", scope: "Rib's own" },
    ]);
    const gone = patchWorkbook(came, { sheets: [], removedNames: [{ name: 'Waste' }, { name: 'Lengths' }] });
    expect(readWorkbook(gone).names.map(({ name }) => name)).toEqual(['Own']);
    expect(partOf(gone, 'xl/workbook.xml')).toContain('_xlnm.Print_Titles');
  });

  it('leave no empty list', () => {
    const one = patchWorkbook(workbookOf(''), { sheets: [], names: [{ name: 'A_1', refersTo: 'Parts!$A$1' }] });
    expect(partOf(one, 'xl/workbook.xml')).toContain(
      '</sheets><definedNames><definedName name="A_1">Parts!$A$1</definedName></definedNames>',
    );
    expect(
      partOf(patchWorkbook(one, { sheets: [], removedNames: [{ name: 'A_1' }] }), 'xl/workbook.xml'),
    ).not.toContain('definedNames');
  });
});

describe('the frame of a sheet', () => {
  it('takes panes, widths, merges and lists in their order', () => {
    const after = patched(workbookOf(''), {
      frozen: { rows: 1, columns: 2 },
      columnWidths: new Map([[1, 14.5]]),
      merges: [on(3, 0, 1, 2)],
      validations: [{ range: on(1, 0, 5, 1), choices: ['a', 'b "c"'] }],
    });
    const xml = partOf(after, SHEET);
    expect(xml.replace(/<(\w+)[^>]*>/g, '<$1>')).toMatch(
      /<sheetViews>.*<\/sheetViews><cols>.*<\/cols><sheetData>.*<mergeCells>.*<dataValidations>/,
    );
    expect(readWorkbook(after).sheets[0]).toMatchObject({
      frozen: { rows: 1, columns: 2 },
      merges: [on(3, 0, 1, 2)],
      validations: [{ range: on(1, 0, 5, 1), choices: ['a', 'b "c"'] }],
    });
    expect(readWorkbook(after).sheets[0]!.columnWidths![1]).toBe(14.5);
  });

  it('splits a run of widths', () => {
    const sheet =
      '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cols><col min="1" max="3" width="9" style="2" customWidth="1"/></cols><sheetData></sheetData></worksheet>';
    const after = partOf(patched(workbookOf('', { [SHEET]: sheet }), { columnWidths: new Map([[1, 20]]) }), SHEET);
    expect(after).toContain(
      '<col min="1" max="1" width="9" style="2" customWidth="1"/><col min="2" max="2" width="20" style="2" customWidth="1"/><col min="3" max="3" width="9" style="2" customWidth="1"/>',
    );
  });

  it('lets a new list take the place of the old one', () => {
    const list = (choices: string[]) => ({ validations: [{ range: on(1, 0, 5, 1), choices }] });
    const after = patched(patched(workbookOf(''), list(['a'])), list(['b']));
    expect(readWorkbook(after).sheets[0]!.validations).toEqual([{ range: on(1, 0, 5, 1), choices: ['b'] }]);
  });

  it('moves a list with its cells, and keeps what else the file says of it', () => {
    const lists =
      '<dataValidations count="2"><dataValidation type="list" prompt="pick one" sqref="B2:B6 D2:D6"><formula1>"a,b"</formula1></dataValidation>' +
      '<dataValidation type="list" sqref="F2"><formula1>"c"</formula1></dataValidation></dataValidations>';
    const sheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData></sheetData>${lists}</worksheet>`;
    const file = workbookOf('', { [SHEET]: sheet });
    const after = patched(file, {
      movedValidations: [{ from: on(1, 1, 5, 1), to: on(1, 1, 6, 1) }, { from: on(1, 5, 1, 1) }],
    });
    expect(partOf(after, SHEET)).toContain(
      '<dataValidations count="1"><dataValidation type="list" prompt="pick one" sqref="B2:B7 D2:D6">',
    );
    const none = patched(after, { movedValidations: [{ from: on(1, 1, 6, 1) }, { from: on(1, 3, 5, 1) }] });
    expect(partOf(none, SHEET)).not.toContain('dataValidation');
  });

  it('refuses a list that no program would read', () => {
    expect(() => patched(workbookOf(''), { validations: [{ range: on(0, 0, 1, 1), choices: ['a,b'] }] })).toThrow(
      /keep its choices in cells/,
    );
  });
});

describe('dates counted from 1904', () => {
  const bytes = fixture('dates1904');
  const [from1900, from1904] = [readWorkbook(fixture('xlsxwriter')), readWorkbook(bytes)];

  it('are read as days since 1900', () => {
    expect(from1904.sheets[0]!.cells[1]![4]!.value).toBe(46082);
    expect(from1904.sheets[0]!.cells.map((line) => line[4]?.value)).toEqual(
      from1900.sheets[0]!.cells.map((line) => line[4]?.value),
    );
  });

  it('are written as the file counts', () => {
    const after = patched(bytes, { cells: [{ row: 1, column: 4, value: 46083 }] });
    expect(partOf(after, SHEET)).toMatch(/<c r="E2" s="2"><v>44621<\/v><\/c>/);
    expect(readWorkbook(after).sheets[0]!.cells[1]![4]!.value).toBe(46083);
  });
});

it('a sheet that is not there is refused', () => {
  expect(() => patchWorkbook(workbookOf(''), { sheets: [{ sheet: 'Nothing', cells: [] }] })).toThrow(
    /no sheet Nothing/,
  );
});
