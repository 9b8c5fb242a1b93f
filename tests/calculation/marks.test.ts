/** A formula that cannot be calculated keeps its value; it and what rests on it are marked, and nothing else changes. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Calculator, keptSentence, recalculate } from '../../src/calculation';
import { CellError, cellName, type CellModel, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';

const formula = (text: string, value: CellModel['value'] = null): CellModel => ({ value, formula: text });
const sheet = (name: string, cells: SheetModel['cells']): SheetModel => ({ name, cells, tables: [] });
const book = (...sheets: SheetModel[]): WorkbookModel => ({ sheets, names: [], styles: [] });
const namesOf = (places: readonly { sheet: string; row: number; column: number }[]): string[] =>
  places.map(({ sheet: name, row, column }) => `${name}!${cellName(row, column)}`).sort();

describe('a formula that cannot be calculated', () => {
  it('keeps its value, is named, and marks what rests on it through ranges, names, spills and sheets', () => {
    const model: WorkbookModel = {
      ...book(
        sheet('Parts', [
          [formula('NOSUCH.FN(B1,1)', 45), { value: 2 }, formula('A1*2', 0), formula('B1*2', 0)],
          [formula('SUM(A1:B1)', 0), formula('Due+1', 0), formula('A1:B1*1', 0), undefined, formula('SUM(C2#)', 0)],
          [formula('IF(B1=2,B1,A1)', 0), formula('ROWS(A1:A9)', 0), formula('IFERROR(A1,0)', 0)],
        ]),
        sheet('Other', [[formula('Parts!A2/2', 0), formula('Parts!B1', 0)]]),
      ),
      names: [{ name: 'Due', refersTo: 'Parts!$A$1' }],
    };
    const { kept, notRecalculated, model: after } = recalculate(model);
    expect(kept.map(keptSentence)).toEqual(["NOSUCH.FN is not known here: Parts!A1 keeps the file's value"]);
    expect(namesOf(notRecalculated)).toEqual(
      ['Other!A1', 'Parts!A1', 'Parts!A2', 'Parts!B2', 'Parts!C1', 'Parts!C2', 'Parts!C3', 'Parts!E2'].sort(),
    );
    expect(new Set(namesOf(notRecalculated.map(({ because }) => because)))).toEqual(new Set(['Parts!A1']));
    expect(after.sheets[0]!.cells[0]![0]).toEqual(formula('NOSUCH.FN(B1,1)', 45));
    expect(after.sheets[0]!.cells[1]![0]!.value).toBe(47);
  });

  it('is named in one sentence where nobody can read it', () => {
    const { kept } = recalculate(book(sheet('Parts', [[formula('SUM(M6]', 3)]])));
    expect(kept.map(keptSentence)).toEqual([
      '"]" closes nothing here. Type ) in its place: Parts!A1 keeps the file\'s value',
    ]);
  });

  it('is named where an unknown function is handed on by its bare name', () => {
    const { kept, model } = recalculate(book(sheet('Parts', [[formula('MAP(B1:C1,BAHTTEXT)', 'ten')]])));
    expect(kept.map(keptSentence)).toEqual(["BAHTTEXT is not known here: Parts!A1 keeps the file's value"]);
    expect(model.sheets[0]!.cells[0]![0]!.value).toBe('ten');
  });

  it('without a value is an error, and no number', () => {
    const { model, kept } = recalculate(book(sheet('Parts', [[formula('NOSUCH(1)'), formula('A1+1')]])));
    expect(kept).toEqual([]);
    for (const cell of model.sheets[0]!.cells[0]!) expect(cell!.value).toMatchObject({ code: '#NAME?' });
  });

  it.each([['[1]Prices!A1'], ['OTHER('], ['A2']])('%s marks, too: other workbooks, no formulas, circles', (text) => {
    const { notRecalculated } = recalculate(
      book(sheet('Parts', [[formula(text, 1), formula('A1+1', 2)], [formula('A1', 1)]])),
    );
    expect(namesOf(notRecalculated)).toEqual(expect.arrayContaining(['Parts!A1', 'Parts!B1']));
  });

  it('is followed by edits: marks come and go', () => {
    const model = book(
      sheet('Parts', [[formula('NOSUCH(1)', 5), formula('A1*2', 0), formula('B1+1', 0), formula('1+1', 0)]]),
    );
    const calculator = new Calculator(model, true);
    const marked = ({ notRecalculated }: ReturnType<Calculator['run']>): number[] =>
      notRecalculated.map(({ column }) => column).sort();
    expect(marked(calculator.run())).toEqual([0, 1, 2]);
    calculator.edit(0, 0, 0, { value: 5 });
    expect(marked(calculator.update())).toEqual([]);
    calculator.edit(0, 0, 0, formula('NOSUCH(2)', 7));
    const again = calculator.update();
    expect(marked(again)).toEqual([0, 1, 2]);
    expect(again.results.map(({ column, result }) => [column, result])).toEqual([
      [1, 14],
      [2, 15],
    ]);
  });

  it('may stand on a sheet with blank rows', () => {
    const cells: (CellModel | undefined)[][] = [];
    cells[3] = [formula('NOSUCH(1)', 5), formula('A4+1', 0)];
    cells[6] = [formula('B4+1', 0)];
    const holes = [...cells] as typeof cells;
    for (const lines of [cells, holes]) {
      const { model } = recalculate(book(sheet('Parts', lines)));
      expect(model.sheets[0]!.cells[6]![0]!.value).toBe(7);
    }
  });
});

const SAMPLES = fileURLToPath(new URL('../../sample-workbooks', import.meta.url));

describe('an unknown function in a sample workbook', () => {
  it.each(readdirSync(SAMPLES).filter((name) => name.endsWith('.xlsx')))('changes no other cell: %s', (name) => {
    const model = readWorkbook(readFileSync(join(SAMPLES, name)));
    const plain = recalculate(model);
    const [first, ...rest] = model.sheets;
    const row = first!.cells.length + 3;
    const cells = [...first!.cells];
    cells[row] = [formula('NOSUCH.FN(A1)', 5)];
    const after = recalculate({ ...model, sheets: [{ ...first!, cells }, ...rest] });
    expect(after.model.sheets[0]!.cells[row]![0]).toEqual(formula('NOSUCH.FN(A1)', 5));
    after.model.sheets[0]!.cells.length = plain.model.sheets[0]!.cells.length;
    expect(after.model).toEqual(plain.model);
    expect(after.notRecalculated).toHaveLength(1);
    expect(plain.notRecalculated).toEqual([]);
    expect(plain.problems.filter(({ error }) => error instanceof CellError && error.code === '#NAME?')).toEqual([]);
  });
});
