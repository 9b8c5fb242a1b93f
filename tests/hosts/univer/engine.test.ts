import { IDescriptionService } from '@univerjs/sheets-formula';
import { describe, expect, it } from 'vitest';
import { Calculator } from '../../../src/calculation';
import { calculate, loadWorkbook, calculatorHere, startEngine } from '../../../src/hosts/univer';
import { sheetId } from '../../../src/hosts/univer/snapshot';
import type { CellModel, WorkbookModel } from '../../../src/sheet';

const formula = (text: string): CellModel => ({ value: null, formula: text });
const value = (cell: CellModel['value']): CellModel => ({ value: cell });

const model: WorkbookModel = {
  styles: [],
  names: [{ name: 'Widths', refersTo: 'Parts!$B$2:$B$4' }],
  sheets: [
    {
      name: 'Parts',
      cells: [
        [value('length'), value('width')],
        [value(3), value(2), formula('TARE.AREA.RECT(A2:A4,Widths)')],
        [value(-4), value(2), undefined, formula('SUM(Sizes[width])')],
        [undefined, undefined, undefined, formula('tare.area.rect(A2,B2)+1')],
      ],
      tables: [
        {
          name: 'Sizes',
          range: { sheet: 'Parts', row: 0, column: 0, rows: 3, columns: 2 },
          columns: ['length', 'width'],
        },
      ],
    },
  ],
};

describe('the engine', () => {
  it('spills columns, knows names and tables, and keeps the message behind an error', async () => {
    const engine = startEngine({ calculator: calculatorHere });
    loadWorkbook(engine, model, 'book', 'Book');
    await calculate(engine);
    const sheet = engine.api.getActiveWorkbook()!.getActiveSheet();
    expect(sheet.getRange('C2:C4').getValues().flat()).toEqual([6, '#VALUE!', '']);
    expect(sheet.getRange('D3:D4').getValues().flat()).toEqual([4, 7]);
    expect(engine.messages.explain('book', sheetId(0), 2, 2, '#VALUE!')).toContain(
      'length: got -4; takes inches above 0',
    );
    expect(engine.messages.explain('book', sheetId(0), 1, 2, '#VALUE!')).toBeUndefined();
  });

  it('offers the functions that are calculated here, and no other', () => {
    const engine = startEngine({ calculator: calculatorHere });
    loadWorkbook(engine, model, 'offers', 'Book');
    const offered = [...engine.injector.get(IDescriptionService).getDescriptions().values()];
    const names = offered.map(({ functionName }) => functionName);
    expect(names).toContain('VLOOKUP');
    expect(names).toContain('TARE.AREA.RECT');
    // Each one is called, with no arguments (but CELL, which hangs on its own): whatever else is wrong with that, its name is known.
    const calls = names.map((name) => formula(name === 'CELL' ? 'CELL("row")' : `${name}()`));
    const { unknown } = new Calculator({ ...model, sheets: [{ name: 'Calls', tables: [], cells: [calls] }] });
    expect(unknown.map(({ functionName }) => functionName)).toEqual([]);
    expect(names.length).toBeGreaterThan(300);
    expect(engine.injector.get(IDescriptionService).getSearchListByNameFirstLetter('LAMBDA')).toEqual([]);
  });
});
