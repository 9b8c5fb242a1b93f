/** The message behind an error cell, from calling the function of its formula again. */
import { describe, expect, it } from 'vitest';
import type { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import { open } from './fake/open';

describe('explain', () => {
  const failing = async (formula: string, code = '#VALUE!'): Promise<ExcelWorkbook> => {
    const { workbook, book } = await open();
    book.sheet('Blank').set(0, 0, { value: code, type: 'Error', formula });
    book.sheet('Parts').set(1, 1, { value: -3, type: 'Double' });
    return workbook;
  };

  it.each([
    ['=TARE.AREA.RECT(-3,2)', 'length: got -3'],
    ['=TARE.AREA.RECT(Parts!B2, 2)', 'length: got -3'],
    ['=TARE.AREA.RECT(\'Parts\'!$B$2,2,"mm-kg")', 'length: got -3'],
    ['=tare.area.rect("three",2)', 'length: got "three"'],
    ['=TARE.WEIGHT.SHEET(TARE.AREA.RECT(12,4),0.02,-1)', 'material: got -1'],
  ])('calls %s again', async (formula, message) => {
    expect(await (await failing(formula)).explain('Blank', 0, 0)).toContain(message);
  });

  it.each([
    ['=TARE.AREA.RECT(-3,2)+1'],
    ['=SUM(A1:A3)'],
    ['=TARE.NO.SUCH(1)'],
    ['=TARE.AREA.RECT(SUM(B1:B2),2)'],
    ['=TARE.AREA.RECT(3,2)'],
  ])('says nothing of %s', async (formula) => {
    expect(await (await failing(formula)).explain('Blank', 0, 0)).toBeUndefined();
  });

  it('says nothing where another error is shown than the function gives', async () => {
    expect(await (await failing('=TARE.AREA.RECT(-3,2)', '#REF!')).explain('Blank', 0, 0)).toBeUndefined();
  });

  it('finds the row of a spilled column, from a table’s column or a name', async () => {
    for (const source of ['Parts[width]', 'Widths', 'Parts!B2:B4']) {
      const { workbook, book } = await open();
      const blank = book.sheet('Blank');
      book.sheet('Parts').set(2, 1, { value: -7, type: 'Double' });
      blank.set(0, 0, { value: 25, type: 'Double', formula: `=TARE.AREA.RECT(${source},2)` });
      blank.set(1, 0, { value: '#VALUE!', type: 'Error' });
      blank.looks.set('1,0', { spillParent: { row: 0, column: 0, rows: 1, columns: 1 } });
      expect(await workbook.explain('Blank', 1, 0), source).toContain('length: got -7');
      expect(await workbook.explain('Blank', 0, 0)).toBeUndefined();
    }
  });

  it('reads a table’s cell of the formula’s own row', async () => {
    const { workbook, book } = await open();
    book.sheet('Parts').set(2, 1, { value: -7, type: 'Double' });
    book.sheet('Parts').set(2, 4, { value: '#VALUE!', type: 'Error', formula: '=TARE.AREA.RECT(Parts[@width],2)' });
    expect(await workbook.explain('Parts', 2, 4)).toContain('length: got -7');
  });
});
