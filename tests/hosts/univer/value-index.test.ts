import { describe, expect, it } from 'vitest';
import { calculate, loadWorkbook, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import type { CellModel, WorkbookModel } from '../../../src/sheet';

const value = (cell: CellModel['value']): CellModel => ({ value: cell });

describe('look-ups in a spilled column', () => {
  const rows = 3000;
  const model: WorkbookModel = {
    styles: [],
    names: [],
    sheets: [
      {
        name: 'Parts',
        tables: [],
        cells: [
          [
            value(1),
            { value: null, formula: `TARE.AREA.RECT(A1:A${rows},2)` },
            { value: null, formula: `MATCH(400,B1:B${rows},0)` },
            { value: null, formula: `MATCH("x",A1:A${rows + 5},0)` },
            { value: null, formula: `COUNTIF(B1:B${rows},400)` },
          ],
          ...Array.from({ length: rows - 1 }, (_none, index) => [index === 9 ? undefined : value(index + 2)]),
          [],
          [value('X')],
        ],
      },
    ],
  };

  it('find values, blanks and texts, and follow edits', async () => {
    const engine = startEngine();
    loadWorkbook(engine, model, 'value index', 'Book');
    const workbook = new UniverWorkbook(engine, 'value index', 'headless', 'Book');
    const found = async () => {
      await calculate(engine);
      return (await workbook.read({ sheet: 'Parts', row: 0, column: 2, rows: 1, columns: 3 }))[0];
    };
    const put = (row: number, cell: number | string | null) =>
      workbook.apply('put', [
        { kind: 'write', range: { sheet: 'Parts', row, column: 0, rows: 1, columns: 1 }, cells: [[cell]] },
      ]);
    expect(await found()).toEqual([200, rows + 2, 1]);
    await put(199, 7);
    await put(20, 200);
    expect(await found()).toEqual([21, rows + 2, 1]);
    await put(19, 200);
    await put(2, 'x');
    expect(await found()).toEqual([20, 3, 2]);
    await put(2, null);
    await put(9, 200);
    expect(await found()).toEqual([10, rows + 2, 3]);
  });
});
