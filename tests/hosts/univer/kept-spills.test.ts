/** Results of several cells that a file brings for a formula that cannot be calculated here. */
import { describe, expect, it } from 'vitest';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import { CellError, type Cell, type CellModel, type WorkbookModel } from '../../../src/sheet';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../../src/xlsx';

const spilled = (value: Cell): CellModel => ({ value, spilled: true });

const MODEL: WorkbookModel = {
  styles: [],
  names: [],
  sheets: [
    {
      name: 'Parts',
      tables: [],
      cells: [
        [{ value: 'head' }],
        [{ value: 'a', formula: 'FOREIGN.LIST(A1)', spill: { rows: 3, columns: 2 } }, spilled(1)],
        [spilled('b'), spilled(2.5), { value: new CellError('#N/A'), formula: 'SUM(A2:B4)' }],
        [spilled(''), spilled(new CellError('#N/A')), { value: 3, formula: 'ROWS(A2#)' }],
      ],
    },
  ],
};

let opened = 0;
async function open() {
  const file = await writeWorkbook(MODEL);
  const loaded = readWorkbook(file);
  const engine = startEngine({ calculator: calculatorHere });
  const id = `kept ${(opened += 1)}`;
  loadWorkbook(engine, loaded, id, 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  const read = async (row: number, rows = 3) =>
    (await workbook.read({ sheet: 'Parts', row, column: 0, rows, columns: 2 })).map((line) =>
      line.map((cell) => (cell instanceof CellError ? cell.code : cell)),
    );
  const type = async (row: number, column: number, value: string | null) => {
    engine.api
      .getActiveWorkbook()!
      .getActiveSheet()
      .getRange(row, column)
      .setValue(value ?? '');
    await workbook.settled();
  };
  return { file, loaded, engine, workbook, read, type };
}

const ALL = [
  ['a', 1],
  ['b', 2.5],
  [null, '#N/A'],
];

describe('a formula of a file that is not known here', () => {
  it('shows all cells of its result, and saving changes none of them', async () => {
    const { file, loaded, workbook, read } = await open();
    expect(await read(1)).toEqual(ALL);
    expect(difference(loaded, workbook.toModel(loaded)).sheets ?? []).toEqual([]);
    const again = readWorkbook(patchWorkbook(file, difference(loaded, workbook.toModel(loaded))));
    expect(again.sheets[0]!.cells[1]![0]).toMatchObject({
      formula: 'FOREIGN.LIST(A1)',
      spill: { rows: 3, columns: 2 },
    });
  });

  it('keeps them as rows move above, and when that is taken back', async () => {
    const { engine, workbook, read } = await open();
    engine.api.getActiveWorkbook()!.getActiveSheet().insertRowsBefore(0, 2);
    await workbook.settled();
    expect(await read(3)).toEqual(ALL);
    expect((await workbook.readFormulas({ sheet: 'Parts', row: 3, column: 0, rows: 1, columns: 1 }))[0]).toEqual([
      '=FOREIGN.LIST(A3)',
    ]);
    await workbook.undo();
    await workbook.settled();
    expect(await read(1)).toEqual(ALL);
  });

  it('gives way to what is typed in its cells, and comes back', async () => {
    const { workbook, read, type } = await open();
    await type(2, 1, 'mine');
    expect(await read(1)).toEqual([
      ['a', null],
      [null, 'mine'],
      [null, null],
    ]);
    await workbook.undo();
    await workbook.settled();
    expect(await read(1)).toEqual(ALL);
    await type(1, 0, 'other');
    expect((await read(1))[1]).toEqual([null, null]);
    await workbook.undo();
    await workbook.settled();
    expect(await read(1)).toEqual(ALL);
  });
});
