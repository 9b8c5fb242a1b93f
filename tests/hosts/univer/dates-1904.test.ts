/** A workbook that counts its days from 1904, on the bench: opened, edited, reformatted, against recalculating what was left. */
import { describe, expect, it } from 'vitest';
import { recalculate } from '../../../src/calculation';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import type { Cell, CellInput, CellModel, WorkbookModel } from '../../../src/sheet';

const DATE = 1;
/** 14 March 2026 as cells that show dates hold it here, and as a file that counts from 1904 does (46095 - 1462). */
const [DAY, COUNTED] = [46_095, 44_633];

const model = (): WorkbookModel => ({
  styles: [{}, { numberFormat: 'yyyy-mm-dd' }],
  names: [],
  dates1904: true,
  sheets: [
    {
      name: 'Log',
      tables: [],
      cells: [
        [
          { value: DAY, style: DATE },
          { value: null, formula: 'A1' },
          { value: null, formula: 'A1', style: DATE },
        ],
        [
          { value: DAY + 10, style: DATE },
          { value: null, formula: 'DATE(2026,3,14)' },
          { value: null, formula: 'EDATE(A1,1)', style: DATE },
        ],
        [{ value: COUNTED }, { value: null, formula: 'A1=A3' }, { value: null, formula: 'YEAR(A3)' }],
        [undefined, { value: null, formula: 'A2-A1' }, { value: null, formula: 'TEXT(A1,"d mmm yyyy")' }],
      ],
    },
  ],
});

let opened = 0;
async function open() {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `dates ${(opened += 1)}`;
  loadWorkbook(engine, model(), id, 'Book');
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  await calculate(engine);
  const read = async (row: number, column: number): Promise<Cell> =>
    (await workbook.read({ sheet: 'Log', row, column, rows: 1, columns: 1 }))[0]![0]!;
  const type = async (row: number, column: number, content: CellInput): Promise<void> => {
    const range = { sheet: 'Log', row, column, rows: 1, columns: 1 };
    await workbook.apply('edit', [{ kind: 'write', range, cells: [[content]] }]);
    await workbook.settled();
  };
  return { engine, id, workbook, read, type };
}

const valuesOf = ({ sheets }: WorkbookModel): unknown =>
  sheets[0]!.cells.map((line) => Array.from(line ?? [], (cell) => cell?.value ?? null));

function recalculated(workbook: UniverWorkbook): WorkbookModel {
  const now = workbook.toModel();
  const bare = (cell: CellModel | undefined): CellModel | undefined =>
    cell?.formula === undefined ? cell : { ...cell, value: null };
  return recalculate({
    ...now,
    sheets: now.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map((line) => Array.from(line, bare)) })),
  }).model;
}

describe('days from 1904 on the bench', () => {
  it('are right when the workbook opens', async () => {
    const { workbook, read } = await open();
    // A cell without a format shows the file's own count.
    expect(await read(0, 1)).toBe(COUNTED);
    expect(await read(0, 2)).toBe(DAY);
    expect(await read(1, 1)).toBe(COUNTED);
    expect(await read(1, 2)).toBe(DAY + 31);
    expect(await read(2, 1)).toBe(true);
    expect(await read(2, 2)).toBe(2026);
    expect(await read(3, 1)).toBe(10);
    expect(await read(3, 2)).toBe('14 Mar 2026');
    expect(workbook.toModel().dates1904).toBe(true);
    expect(await workbook.dates1904()).toMatchObject({
      shown: expect.arrayContaining([{ sheet: 'Log', row: 0, column: 0 }]),
    });
  });

  it('are right after edits, and in formulas that are typed and take the format of a date', async () => {
    const { workbook, read, type } = await open();
    await type(0, 0, DAY + 1);
    expect(await read(0, 1)).toBe(COUNTED + 1);
    await type(5, 0, { formula: '=A1+1' });
    expect(await read(5, 0)).toBe(DAY + 2);
    await type(5, 1, { formula: '=DATE(2026,3,14)' });
    expect(await read(5, 1)).toBe(DAY);
    await type(5, 2, { formula: '=A6-B6' });
    await type(5, 3, { formula: '=YEAR(A6)' });
    expect(await read(5, 3)).toBe(2026);
    expect(valuesOf(workbook.toModel())).toEqual(valuesOf(recalculated(workbook)));
  });

  it('follow a format that makes a number a date', async () => {
    const { workbook, read } = await open();
    await workbook.apply('look', [
      { kind: 'format', range: { sheet: 'Log', row: 2, column: 2, rows: 1, columns: 1 }, numberFormat: '0' },
      { kind: 'format', range: { sheet: 'Log', row: 1, column: 1, rows: 1, columns: 1 }, numberFormat: 'd mmm yy' },
    ]);
    await workbook.settled();
    expect(await read(1, 1)).toBe(DAY);
    expect(valuesOf(workbook.toModel())).toEqual(valuesOf(recalculated(workbook)));
  });
});
