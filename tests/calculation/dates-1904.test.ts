/** A workbook that counts its days from 1904: every function of dates, and dates in texts, against LibreOffice. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { Calculator } from '../../src/calculation';
import { withResults } from '../../src/calculation/results';
import { DAYS_1904, showsDate, type Cell, type CellModel, type WorkbookModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';

/** A1 is 14 March 2026, A2 29 February 2028 at noon, A3 1 January 1904: as the file counts them. */
const DAYS = [44_633, 45_350.5, 0];

/** What a cell without a format shows: values worked out by hand from the file's own count (46095 - 1462 = 44633). */
const ANSWERS: readonly (readonly [formula: string, gives: Cell])[] = [
  ['A1', 44_633],
  ['A1+1', 44_634],
  ['A2-A1', 717.5],
  ['DATE(2026,3,14)', 44_633],
  ['DATE(1904,1,1)', 0],
  ['DATE(1904,3,1)-DATE(1904,2,28)', 2],
  ['YEAR(A1)', 2026],
  ['MONTH(A2)', 2],
  ['DAY(A2)', 29],
  ['YEAR(A3)', 1904],
  ['HOUR(A2)', 12],
  ['WEEKDAY(A1)', 7],
  ['WEEKDAY(A3)', 6],
  ['WEEKNUM(A1)', 11],
  ['ISOWEEKNUM(A1)', 11],
  ['EDATE(A1,12)', 44_998],
  ['EOMONTH(A1,0)', 44_650],
  ['DAYS(DATE(2026,4,1),A1)', 18],
  ['DAYS360(A1,DATE(2027,3,14))', 360],
  ['YEARFRAC(A1,DATE(2027,3,14))', 1],
  ['DATEDIF(A1,A2,"m")', 23],
  ['NETWORKDAYS(A1,DATE(2026,3,20))', 5],
  ['WORKDAY(A1,1)', 44_635],
  ['DATEVALUE("2026-03-14")', 44_633],
  ['"2026-03-14"+0', 44_633],
  ['VALUE("2026-03-14")', 44_633],
  ['TEXT(A1,"yyyy-mm-dd")', '2026-03-14'],
  ['TEXT(A1,"dddd")', 'Saturday'],
  ['TEXT(0,"d mmm yyyy")', '1 Jan 1904'],
  ['COUNTIF(A1:A3,A1)', 1],
  ['COUNTIF(A1:A3,">=2026-03-14")', 2],
  ['COUNTIF(A1:A3,"2026-03-14")', 1],
  ['SUM(A1:A3)', 89_983.5],
  ['TIME(12,0,0)', 0.5],
];

async function workbook(): Promise<Uint8Array> {
  const cells: (CellModel | undefined)[][] = DAYS.map((value) => [{ value, style: 1 }]);
  ANSWERS.forEach(([formula], index) => ((cells[index] ??= [])[1] = { value: null, formula, plain: true }));
  const model: WorkbookModel = {
    sheets: [{ name: 'Data', cells, tables: [] }],
    names: [],
    styles: [{}, { numberFormat: 'yyyy-mm-dd' }],
  };
  const parts = unzipSync(await writeWorkbook(model));
  const xml = strFromU8(parts['xl/workbook.xml']!);
  const marked = xml.replace('<sheets>', '<workbookPr date1904="1"/><sheets>');
  return zipSync({ ...parts, 'xl/workbook.xml': strToU8(marked) });
}

const shown = (model: WorkbookModel): Cell[] =>
  ANSWERS.map((_answer, index) => model.sheets[0]!.cells[index]?.[1]?.value ?? null);

describe('a workbook that counts from 1904', async () => {
  const bytes = await workbook();
  const model = readWorkbook(bytes);
  const ours = shown(withResults(model, new Calculator(model).run().results).model);

  it.each(ANSWERS.map(([formula, gives], index) => ({ formula, gives, index })))('$formula', ({ gives, index }) => {
    expect(ours[index]).toEqual(gives);
  });

  it('shows a date in a cell that shows dates as the day that it is', () => {
    const cells = model.sheets[0]!.cells.map((line) => [...line]);
    cells[0]![2] = { value: null, formula: 'A1+1', plain: true, style: 1 };
    const dated = { ...model, sheets: [{ ...model.sheets[0]!, cells }] };
    const result = withResults(dated, new Calculator(dated).run().results).model;
    // The model has days since 1900 in cells that show dates: 46096 is 15 March 2026.
    expect(result.sheets[0]!.cells[0]![2]!.value).toBe(46_096);
  });

  it.skipIf(!soffice())('is what LibreOffice shows', () => {
    const read = readWorkbook(recalculatedByLibreOffice(soffice()!, bytes));
    // LibreOffice gives a formula the format of a date where it gives one: there the model has days since 1900.
    const theirs = ANSWERS.map((_answer, index) => {
      const cell = read.sheets[0]!.cells[index]![1]!;
      const isDate = showsDate(read.styles[cell.style ?? 0]?.numberFormat ?? '');
      return typeof cell.value === 'number' && isDate ? cell.value - DAYS_1904 : cell.value;
    });
    expect(theirs).toEqual(ours);
  });
});
