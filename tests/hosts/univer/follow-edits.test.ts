/** Formulas and names that follow what is done to rows, columns, cells and sheets in the engine. */
import { ICommandService } from '@univerjs/core';
import { MoveRangeCommand } from '@univerjs/sheets';
import { describe, expect, it } from 'vitest';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import type { CellModel, WorkbookModel } from '../../../src/sheet';

const formula = (text: string): CellModel => ({ value: null, formula: text });
const numbers = (...values: number[]): CellModel[] => values.map((value) => ({ value }));

const FORMULAS = [
  'SUM( A2:A4 )*.50',
  '\'Left wing\'!$A$3&"A3"',
  'Parts!A3+[2]Parts!A3',
  'A2#&B$3',
  'SUM(A2:A4,',
  'Rate*A4',
];

const SUMS = [
  'SUM( Parts!A2:A4 )*.50',
  '\'Left wing\'!$A$3&"A3"',
  'Parts!A3+[2]Parts!A3',
  'Parts!A2#&B$3',
  'SUM(Parts!A2:A4,',
  'Rate*Parts!A4',
];

const MODEL: WorkbookModel = {
  styles: [],
  names: [
    { name: 'Rate', refersTo: 'Parts!$B$3' },
    { name: 'Both', refersTo: "SUM(Parts!$A$2:$A$4,'Left wing'!$A$3)" },
  ],
  sheets: [
    {
      name: 'Parts',
      tables: [],
      cells: [[{ value: 'a' }, { value: 'b' }], numbers(1, 2), numbers(3, 4), numbers(5, 6)],
    },
    { name: 'Left wing', tables: [], cells: [[], [], numbers(7)] },
    { name: 'Sums', tables: [], cells: SUMS.map((text) => [formula(text)]) },
    { name: 'Beside', tables: [], cells: [] },
  ],
};

let opened = 0;
async function open() {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `follow ${(opened += 1)}`;
  const own = FORMULAS.map((text): (CellModel | undefined)[] => [undefined, undefined, undefined, formula(text)]);
  const parts = MODEL.sheets[0]!;
  const cells = Array.from({ length: 12 }, (_row, row) => [
    ...(parts.cells[row] ?? []),
    ...(own[row - 6]?.slice(parts.cells[row]?.length ?? 0) ?? []),
  ]);
  loadWorkbook(engine, { ...MODEL, sheets: [{ ...parts, cells }, ...MODEL.sheets.slice(1)] }, id, 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  const book = engine.api.getActiveWorkbook()!;
  const formulas = async (sheet: string, row = 0, column = 0): Promise<(string | null)[]> =>
    (await workbook.readFormulas({ sheet, row, column, rows: FORMULAS.length, columns: 1 })).flat();
  const own1 = (row = 6): Promise<(string | null)[]> => formulas('Parts', row, 3);
  const names = async (): Promise<string[]> => (await workbook.names()).map(({ refersTo }) => refersTo);
  return { engine, workbook, book, formulas, own: own1, names };
}

describe('formulas of the sheet itself', () => {
  it('follow a row that comes in the middle, and one that goes', async () => {
    const { workbook, book, own, names } = await open();
    const before = await own();
    expect(before).toEqual(FORMULAS.map((text) => `=${text}`));
    book.getSheetByName('Parts')!.insertRowsBefore(2, 1);
    await workbook.settled();
    expect(await own(7)).toEqual([
      '=SUM( A2:A5 )*.50',
      '=\'Left wing\'!$A$3&"A3"',
      '=Parts!A4+[2]Parts!A3',
      '=A2#&B$4',
      '=SUM(A2:A5,',
      '=Rate*A5',
    ]);
    expect(await names()).toEqual(['Parts!$B$4', "SUM(Parts!$A$2:$A$5,'Left wing'!$A$3)"]);
    await workbook.undo();
    await workbook.settled();
    expect(await own()).toEqual(before);
    expect(await names()).toEqual(['Parts!$B$3', "SUM(Parts!$A$2:$A$4,'Left wing'!$A$3)"]);
    book.getSheetByName('Parts')!.deleteRows(2, 1);
    await workbook.settled();
    expect((await own(5)).slice(0, 4)).toEqual([
      '=SUM( A2:A3 )*.50',
      '=\'Left wing\'!$A$3&"A3"',
      '=Parts!#REF!+[2]Parts!A3',
      '=A2#&#REF!',
    ]);
    await workbook.undo();
    await workbook.settled();
    expect(await own()).toEqual(before);
  });

  it('follow rows that are put elsewhere', async () => {
    const { workbook, book, own } = await open();
    const sheet = book.getSheetByName('Parts')!;
    sheet.moveRows(sheet.getRange('3:3'), 5);
    await workbook.settled();
    expect(await own()).toEqual([
      '=SUM( A2:A3 )*.50',
      '=\'Left wing\'!$A$3&"A3"',
      '=Parts!A5+[2]Parts!A3',
      '=A2#&B$5',
      '=SUM(A2:A3,',
      '=Rate*A3',
    ]);
    await workbook.undo();
    await workbook.settled();
    expect(await own()).toEqual(FORMULAS.map((text) => `=${text}`));
  });
});

describe('formulas of other sheets', () => {
  it('follow the name of a sheet, and keep everything else of their text', async () => {
    const { workbook, book, formulas, names } = await open();
    book.getSheetByName('Parts')!.setName("Rib's list");
    await workbook.settled();
    expect(await formulas('Sums')).toEqual([
      "=SUM( 'Rib''s list'!A2:A4 )*.50",
      '=\'Left wing\'!$A$3&"A3"',
      "='Rib''s list'!A3+[2]Parts!A3",
      "='Rib''s list'!A2#&B$3",
      "=SUM('Rib''s list'!A2:A4,",
      "=Rate*'Rib''s list'!A4",
    ]);
    expect((await names())[0]).toBe("'Rib''s list'!$B$3");
    await workbook.undo();
    expect((await formulas('Sums'))[0]).toBe('=SUM( Parts!A2:A4 )*.50');
  });

  it('say #REF! for a sheet that goes, and have it again after an undo', async () => {
    const { engine, workbook, book, formulas } = await open();
    const before = await formulas('Sums');
    book.deleteSheet(book.getSheetByName('Left wing')!);
    await workbook.settled();
    expect((await formulas('Sums'))[1]).toBe('=#REF!&"A3"');
    await workbook.undo();
    await workbook.settled();
    expect(await formulas('Sums')).toEqual(before);
    engine.univer.dispose();
  });

  it('through several sheets end at the next one where the last of them goes', async () => {
    const engine = startEngine({ calculator: calculatorHere });
    const sheet = (name: string, text?: string) => ({
      name,
      tables: [],
      cells: [[text === undefined ? { value: 1 } : formula(text)]],
    });
    const sheets = [sheet('Jan'), sheet('Feb'), sheet('Mar'), sheet('Year', 'SUM(Jan:Mar!A1)')];
    loadWorkbook(engine, { styles: [], names: [], sheets }, 'through', 'Book');
    await calculate(engine);
    const workbook = new UniverWorkbook(engine, 'through', 'headless', 'Book');
    const book = engine.api.getActiveWorkbook()!;
    const year = async () => {
      await workbook.settled();
      const range = { sheet: 'Year', row: 0, column: 0, rows: 1, columns: 1 };
      return [(await workbook.readFormulas(range))[0]![0], (await workbook.read(range))[0]![0]];
    };
    book.deleteSheet(book.getSheetByName('Mar')!);
    expect(await year()).toEqual(['=SUM(Jan:Feb!A1)', 2]);
    await workbook.undo();
    expect(await year()).toEqual(['=SUM(Jan:Mar!A1)', 3]);
    engine.univer.dispose();
  });

  it('follow cells that are cut and pasted onto another sheet, and so do those that go with them', async () => {
    const { engine, workbook, book, formulas } = await open();
    const id = (name: string): string => book.getSheetByName(name)!.getSheetId();
    await engine.injector.get(ICommandService).executeCommand(MoveRangeCommand.id, {
      fromRange: { startRow: 1, endRow: 6, startColumn: 0, endColumn: 3 },
      toRange: { startRow: 11, endRow: 16, startColumn: 1, endColumn: 4 },
      fromSubUnitId: id('Parts'),
      toSubUnitId: id('Beside'),
      fromUnitId: workbook.id,
      toUnitId: workbook.id,
    });
    await workbook.settled();
    expect((await formulas('Sums'))[0]).toBe('=SUM( Beside!B12:B14 )*.50');
    expect((await formulas('Beside', 16, 4))[0]).toBe('=SUM( Beside!B12:B14 )*.50');
    expect((await workbook.read({ sheet: 'Beside', row: 16, column: 4, rows: 1, columns: 1 }))[0]).toEqual([4.5]);
    await workbook.undo();
    await workbook.settled();
    expect((await formulas('Sums'))[0]).toBe('=SUM( Parts!A2:A4 )*.50');
  });
});
