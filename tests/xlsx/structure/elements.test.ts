/** Every element that names cells, one after the other: what stands in the file after two rows came, and after one went. */
import { describe, expect, it } from 'vitest';
import { fixedObstacles, refusalOf, shiftWorkbook, type Operation } from '../../../src/xlsx';
import { partOf, workbookOf } from '../parts';

const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const SHEET = 'xl/worksheets/sheet1.xml';
const come: Operation = { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 1, count: 2 };
const goes: Operation = { kind: 'delete', sheet: 'Parts', axis: 'rows', at: 3, count: 1 };
const column: Operation = { kind: 'insert', sheet: 'Parts', axis: 'columns', at: 1, count: 1 };

const X14 =
  'xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"';

/** What stands before sheetData, behind it, and what becomes of it; null: it goes. */
const ELEMENTS: readonly (readonly [name: string, was: string, come: string, goes: string | null])[] = [
  ['cells that a sheet is tied to', '<sheetPr syncRef="A4"/>', '<sheetPr syncRef="A6"/>', '<sheetPr/>'],
  ['the used range', '<dimension ref="A1:C9"/>', '<dimension ref="A1:C11"/>', '<dimension ref="A1:C8"/>'],
  ['the first cell seen', '<sheetViews><sheetView topLeftCell="A4" workbookViewId="0"/></sheetViews>', '<sheetViews><sheetView topLeftCell="A6" workbookViewId="0"/></sheetViews>', '<sheetViews><sheetView topLeftCell="A4" workbookViewId="0"/></sheetViews>'],
  ['a selection', '<sheetViews><sheetView workbookViewId="0"><selection activeCell="B4" sqref="B4 C5:D6"/></sheetView></sheetViews>', '<sheetViews><sheetView workbookViewId="0"><selection activeCell="B6" sqref="B6 C7:D8"/></sheetView></sheetViews>', '<sheetViews><sheetView workbookViewId="0"><selection activeCell="B4" sqref="B4 C4:D5"/></sheetView></sheetViews>'],
  ['protected ranges', '<protectedRanges><protectedRange sqref="A4 B5" name="r"/></protectedRanges>', '<protectedRanges><protectedRange sqref="A6 B7" name="r"/></protectedRanges>', '<protectedRanges><protectedRange sqref="B4" name="r"/></protectedRanges>'],
  ['scenarios', '<scenarios><scenario name="s" count="2"><inputCells r="B4" val="1"/><inputCells r="B5" val="2"/></scenario></scenarios>', '<scenarios><scenario name="s" count="2"><inputCells r="B6" val="1"/><inputCells r="B7" val="2"/></scenario></scenarios>', '<scenarios><scenario name="s" count="1"><inputCells r="B4" val="2"/></scenario></scenarios>'],
  ['a filter and its order', '<autoFilter ref="A3:C9"><sortState ref="A4:C9"><sortCondition ref="B4:B9"/></sortState></autoFilter>', '<autoFilter ref="A5:C11"><sortState ref="A6:C11"><sortCondition ref="B6:B11"/></sortState></autoFilter>', '<autoFilter ref="A3:C8"><sortState ref="A4:C8"><sortCondition ref="B4:B8"/></sortState></autoFilter>'],
  ['a view of one person', '<customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000000}" topLeftCell="A4"><rowBreaks count="1" manualBreakCount="1"><brk id="3" man="1"/></rowBreaks><autoFilter ref="A3:B9"/></customSheetView></customSheetViews>', '<customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000000}" topLeftCell="A6"><rowBreaks count="1" manualBreakCount="1"><brk id="5" man="1"/></rowBreaks><autoFilter ref="A5:B11"/></customSheetView></customSheetViews>', '<customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000000}" topLeftCell="A4"><autoFilter ref="A3:B8"/></customSheetView></customSheetViews>'],
  ['merged cells', '<mergeCells count="2"><mergeCell ref="A4:B4"/><mergeCell ref="D4:D5"/></mergeCells>', '<mergeCells count="2"><mergeCell ref="A6:B6"/><mergeCell ref="D6:D7"/></mergeCells>', null],
  ['a rule of looks', '<conditionalFormatting sqref="A4:A9"><cfRule type="expression" priority="1"><formula>A4&gt;$B$2</formula></cfRule></conditionalFormatting>', '<conditionalFormatting sqref="A6:A11"><cfRule type="expression" priority="1"><formula>A6&gt;$B$4</formula></cfRule></conditionalFormatting>', '<conditionalFormatting sqref="A4:A8"><cfRule type="expression" priority="1"><formula>A4&gt;$B$2</formula></cfRule></conditionalFormatting>'],
  ['a scale by a cell', '<conditionalFormatting sqref="A5:A9"><cfRule type="dataBar" priority="1"><dataBar><cfvo type="formula" val="$C$5"/><cfvo type="num" val="4"/><color rgb="FF0000FF"/></dataBar></cfRule></conditionalFormatting>', '<conditionalFormatting sqref="A7:A11"><cfRule type="dataBar" priority="1"><dataBar><cfvo type="formula" val="$C$7"/><cfvo type="num" val="4"/><color rgb="FF0000FF"/></dataBar></cfRule></conditionalFormatting>', '<conditionalFormatting sqref="A4:A8"><cfRule type="dataBar" priority="1"><dataBar><cfvo type="formula" val="$C$4"/><cfvo type="num" val="4"/><color rgb="FF0000FF"/></dataBar></cfRule></conditionalFormatting>'],
  ['a list', '<dataValidations count="1"><dataValidation type="list" sqref="A4"><formula1>$C$4:$C$6</formula1></dataValidation></dataValidations>', '<dataValidations count="1"><dataValidation type="list" sqref="A6"><formula1>$C$6:$C$8</formula1></dataValidation></dataValidations>', null],
  ['a link', '<hyperlinks><hyperlink ref="A4" location="Parts!B9"/><hyperlink ref="A5" location="Parts!B4"/></hyperlinks>', '<hyperlinks><hyperlink ref="A6" location="Parts!B11"/><hyperlink ref="A7" location="Parts!B6"/></hyperlinks>', '<hyperlinks><hyperlink ref="A4" location="Parts!B4"/></hyperlinks>'],
  ['page breaks', '<rowBreaks count="2" manualBreakCount="2"><brk id="3" max="16383" man="1"/><brk id="8" max="16383" man="1"/></rowBreaks>', '<rowBreaks count="2" manualBreakCount="2"><brk id="5" max="16383" man="1"/><brk id="10" max="16383" man="1"/></rowBreaks>', '<rowBreaks count="1" manualBreakCount="1"><brk id="7" max="16383" man="1"/></rowBreaks>'],
  ['watched cells', '<cellWatches><cellWatch r="A4"/><cellWatch r="A5"/></cellWatches>', '<cellWatches><cellWatch r="A6"/><cellWatch r="A7"/></cellWatches>', '<cellWatches><cellWatch r="A4"/></cellWatches>'],
  ['errors passed over', '<ignoredErrors><ignoredError sqref="A4:A5" evalError="1"/></ignoredErrors>', '<ignoredErrors><ignoredError sqref="A6:A7" evalError="1"/></ignoredErrors>', '<ignoredErrors><ignoredError sqref="A4" evalError="1"/></ignoredErrors>'],
  ['a rule of looks in an extension', `<extLst><ext ${X14} uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="expression" priority="1"><xm:f>A4&gt;Parts!$B$5</xm:f></x14:cfRule><xm:sqref>A4:A9</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>`, `<extLst><ext ${X14} uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="expression" priority="1"><xm:f>A6&gt;Parts!$B$7</xm:f></x14:cfRule><xm:sqref>A6:A11</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>`, `<extLst><ext ${X14} uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="expression" priority="1"><xm:f>A4&gt;Parts!$B$4</xm:f></x14:cfRule><xm:sqref>A4:A8</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>`],
  ['a list in an extension', `<extLst><ext ${X14} uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"><x14:dataValidations count="1"><x14:dataValidation type="list"><x14:formula1><xm:f>Parts!$C$5</xm:f></x14:formula1><xm:sqref>A4</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>`, `<extLst><ext ${X14} uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"><x14:dataValidations count="1"><x14:dataValidation type="list"><x14:formula1><xm:f>Parts!$C$7</xm:f></x14:formula1><xm:sqref>A6</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>`, null],
  ['sparklines', `<extLst><ext ${X14} uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Parts!B4:D4</xm:f><xm:sqref>E4</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>`, `<extLst><ext ${X14} uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Parts!B6:D6</xm:f><xm:sqref>E6</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>`, null],
]; // prettier-ignore

const BEFORE_CELLS = /^<(sheetPr|dimension|sheetViews)/;
const rows = '<row r="1"><c r="A1"><v>1</v></c></row>';
const sheetWith = (element: string, data = rows): string =>
  `<worksheet ${MAIN} xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">${BEFORE_CELLS.test(element) ? element : ''}<sheetData>${data}</sheetData>${BEFORE_CELLS.test(element) ? '' : element}</worksheet>`;
const afterIn = (element: string, operation: Operation): string =>
  partOf(shiftWorkbook(workbookOf('', { [SHEET]: sheetWith(element) }), [operation]), SHEET);

describe.each(ELEMENTS)('%s', (_name, was, come2, goes1) => {
  it('follow rows that come', () => expect(afterIn(was, come)).toContain(come2));
  it('follow rows that go', () => {
    if (goes1 !== null) expect(afterIn(was, goes)).toContain(goes1);
    else expect(afterIn(was, goes).replace(/<mergeCells count="0"><\/mergeCells>/, '')).toBe(sheetWith(''));
  });
});

const relations = (...targets: readonly (readonly [type: string, target: string])[]): string =>
  `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${targets.map(([type, target], index) => `<Relationship Id="rId${index + 1}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${type}" Target="${target}"/>`).join('')}</Relationships>`;

describe('parts beside the sheet', () => {
  const RELS = 'xl/worksheets/_rels/sheet1.xml.rels';

  it('threads of comments follow, and go with their cell', () => {
    const thread = '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="A4" id="{1}"><text>one</text></threadedComment><threadedComment ref="A5" id="{2}"><text>two</text></threadedComment></ThreadedComments>'; // prettier-ignore
    const bytes = workbookOf(rows, { [RELS]: relations(['threadedComment', '../threadedComments/threadedComment1.xml']), 'xl/threadedComments/threadedComment1.xml': thread }); // prettier-ignore
    const after = (operation: Operation): string => partOf(shiftWorkbook(bytes, [operation]), 'xl/threadedComments/threadedComment1.xml'); // prettier-ignore
    expect(after(come).match(/ref="\w+"/g)).toEqual(['ref="A6"', 'ref="A7"']);
    expect(after(goes).match(/ref="\w+"/g)).toEqual(['ref="A4"']);
  });

  it('a drawing follows as it says: it grows, it moves, it stays', () => {
    const anchor = (edit: string): string => `<xdr:twoCellAnchor${edit}><xdr:from><xdr:col>0</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>0</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>3</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>5</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to><xdr:sp textlink="Parts!$B$4"/><xdr:clientData/></xdr:twoCellAnchor>`; // prettier-ignore
    const drawing = `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing">${['', ' editAs="oneCell"', ' editAs="absolute"'].map(anchor).join('')}</xdr:wsDr>`; // prettier-ignore
    const bytes = workbookOf(rows, { [RELS]: relations(['drawing', '../drawings/drawing1.xml']), 'xl/drawings/drawing1.xml': drawing }); // prettier-ignore
    const after = partOf(shiftWorkbook(bytes, [come]), 'xl/drawings/drawing1.xml');
    expect([...after.matchAll(/<xdr:row>(\d+)</g)].map(([, row]) => Number(row))).toEqual([0, 7, 0, 5, 0, 5]);
    expect(after.match(/textlink="[^"]*"/g)).toEqual(Array.from({ length: 3 }, () => 'textlink="Parts!$B$6"'));
  });

  it('a pivot table is not cut, and follows with its source', () => {
    const bytes = workbookOf(rows, {
      [RELS]: relations(['pivotTable', '../pivotTables/pivotTable1.xml']),
      'xl/pivotTables/pivotTable1.xml': `<pivotTableDefinition ${MAIN} name="Sum"><location ref="F3:G6" firstHeaderRow="1" firstDataRow="1" firstDataCol="1"/></pivotTableDefinition>`,
      'xl/pivotCache/pivotCacheDefinition1.xml': `<pivotCacheDefinition ${MAIN}><cacheSource type="worksheet"><worksheetSource ref="A1:C9" sheet="Parts"/></cacheSource></pivotCacheDefinition>`,
      '[Content_Types].xml': partOf(workbookOf(''), '[Content_Types].xml').replace(/^<\?xml[^>]*>/, '').replace('</Types>', '<Override PartName="/xl/pivotCache/pivotCacheDefinition1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.pivotCacheDefinition+xml"/></Types>'), // prettier-ignore
    });
    const made = shiftWorkbook(bytes, [come]);
    expect(partOf(made, 'xl/pivotTables/pivotTable1.xml')).toContain('ref="F5:G8"');
    expect(partOf(made, 'xl/pivotCache/pivotCacheDefinition1.xml')).toContain('<worksheetSource ref="A1:C11" sheet="Parts"/>'); // prettier-ignore
    expect(partOf(made, 'xl/pivotCache/pivotCacheDefinition1.xml')).toContain('refreshOnLoad="1"');
    expect(() => shiftWorkbook(bytes, [goes])).toThrow('F3:G6 on Parts is the pivot table Sum.');
    expect(refusalOf({ ...goes, at: 0, count: 9 }, fixedObstacles(bytes))).toContain('pivot');
  });
});

describe('cells', () => {
  const after = (data: string, ...operations: Operation[]): string =>
    /<sheetData>(.*)<\/sheetData>/s.exec(partOf(shiftWorkbook(workbookOf(data), operations), SHEET))![1]!;

  it('that share a formula have it for themselves', () =>
    expect(after('<row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1+B2</f></c></row><row r="2"><c r="A2"><f t="shared" si="0"/></c></row><row r="3"><c r="A3"><f t="shared" si="0"/></c></row>', come)).toBe('<row r="1"><c r="A1"><f>B1+B4</f></c></row><row r="4"><c r="A4"><f>B4+B5</f></c></row><row r="5"><c r="A5"><f>B5+B6</f></c></row>')); // prettier-ignore

  it('move also with functions that nobody knows', () =>
    expect(after('<row r="1"><c r="A1"><f>FOREIGN.THING(A3,[1]Prices!A3)</f></c></row>', come)).toContain('FOREIGN.THING(A5,[1]Prices!A3)')); // prettier-ignore

  it('that one formula fills are not cut', () => {
    const data = '<row r="2"><c r="A2"><f t="array" ref="A2:A9">B2:B9*2</f></c></row>';
    expect(() => after(data, goes)).toThrow('One formula fills A2:A9 on Parts. Cells cannot come or go inside it.');
    expect(after(data, { ...goes, at: 0 })).toContain('<f t="array" ref="A1:A8">B1:B8*2</f>');
    expect(after(data, column)).toContain('<f t="array" ref="A2:A9">C2:C9*2</f>');
  });

  it('of a what-if table follow with the cells that it varies', () =>
    expect(after('<row r="3"><c r="B3"><f t="dataTable" ref="B3:B6" dt2D="0" dtr="0" r1="C2"/><v>1</v></c></row>', come)).toContain('ref="B5:B8" dt2D="0" dtr="0" r1="C4"')); // prettier-ignore

  it('of a row that stands twice are all kept, and a blank one with the address of another is none', () => {
    const twice = '<row r="1"><c r="A1"><v>1</v></c><c r="A1"/></row><row r="1"><c r="B1"><v>2</v></c></row>';
    expect(after(twice, come)).toBe('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row>');
  });

  it('at the end of a sheet are not pushed off it', () =>
    expect(() => after('<row r="1048576"><c r="A1048576"><v>1</v></c></row>', come)).toThrow('pushed off'));
});
