/** Formulas of ours that show #NAME? in Excel: seen, counted, written again in one step. */
import { afterEach, describe, expect, it } from 'vitest';
import { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import type { PaneContext } from '../../../src/pane/shared/view';
import { asTypedHere, findUnbound, writingAgain, UnboundStore } from '../../../src/pane/unbound';
import { FakeBook } from '../../hosts/excel/fake/book';
import { FakeExcel } from '../../hosts/excel/client/excel';

let clean: (() => void) | undefined;
afterEach(() => clean?.());

describe('the formula to write', () => {
  it.each([
    ['=_xldudf_TARE_AREA_RECT(A1,B1)', '=TARE.AREA.RECT(A1,B1)'],
    ['=[2]!_xldudf_TARE_AREA_RECT(A1, 2)*3', '=TARE.AREA.RECT(A1, 2)*3'],
    ['=IF(A1,\'C:\\kit\\[other.xlsx]\'!_xldudf_TARE_WEIGHT_SHEET(1,2,"x"),0)', '=IF(A1,TARE.WEIGHT.SHEET(1,2,"x"),0)'],
    ["='https://place/Other add-in.xlam'!TARE.AREA.RECT(1,2)", '=TARE.AREA.RECT(1,2)'],
    ['=tare.area.rect(1,2)', '=TARE.AREA.RECT(1,2)'],
    ['=_xll.TARE.AREA.RECT(1,2)', '=TARE.AREA.RECT(1,2)'],
    // Excel takes no name of two letters.
    ['=TARE.CG(A1:A3,B1:B3)', '=TARE.CG.ARM(A1:A3,B1:B3)'],
    ["='My parts'!A1+TARE.AREA.RECT('My parts'!B1,2)", "='My parts'!A1+TARE.AREA.RECT('My parts'!B1,2)"],
    ['="TARE.AREA.RECT(1,2)"&TARE.AREA.RECT(1,2)', '="TARE.AREA.RECT(1,2)"&TARE.AREA.RECT(1,2)'],
  ])('for %s is %s', (formula, typed) => {
    expect(asTypedHere(formula, 'excel')).toBe(typed);
  });

  it.each(['=SUM(A1:A3)', '=NOSUCH(1)', '=TARE.NOSUCH(1)', '="TARE.AREA.RECT(1,2)"', '=[2]!OTHER(1)', '=TARE'])(
    'is none for %s, which is not of ours',
    (formula) => {
      expect(asTypedHere(formula, 'excel')).toBeUndefined();
    },
  );

  it('keeps the name of two letters outside of Excel', () => {
    expect(asTypedHere('=TARE.CG(A1:A3,B1:B3)', 'bench')).toBe('=TARE.CG(A1:A3,B1:B3)');
  });
});

async function open(cells: readonly (readonly [number, number, string, string?])[]) {
  const book = FakeBook.of({ sheets: [{ name: 'Parts', cells: [], tables: [] }], names: [], styles: [] });
  for (const [row, column, formula, shows] of cells)
    book.sheet('Parts').set(row, column, { formula, value: shows ?? '#NAME?', type: shows ? 'String' : 'Error' });
  const excel = new FakeExcel(book, { calculates: true });
  clean = excel.install();
  const workbook = await ExcelWorkbook.open();
  const store = new UnboundStore({ workbook } as unknown as PaneContext);
  const formula = async (row: number, column: number): Promise<string | null> =>
    (await workbook.readFormulas({ sheet: 'Parts', row, column, rows: 1, columns: 1 }))[0]![0]!;
  const value = async (row: number, column: number): Promise<unknown> =>
    (await workbook.read({ sheet: 'Parts', row, column, rows: 1, columns: 1 }))[0]![0];
  return { book, excel, workbook, store, formula, value };
}

describe('the pane', () => {
  it('counts them, writes them again in one step, and one undo takes it back', async () => {
    const { store, workbook, formula, value } = await open([
      [0, 0, '=_xldudf_TARE_AREA_RECT(2,3)'],
      [1, 0, '=[2]!_xldudf_TARE_AREA_RECT(2,4)'],
      [5, 2, '=TARE.AREA.RECT(2,5)+1'],
      [6, 2, '=NOSUCH(1)'],
      [7, 2, '=TARE.AREA.RECT(1,1)', 'a result'],
    ]);
    await store.look();
    expect(store.state.found).toHaveLength(3);
    await store.writeAgain();
    expect([await value(0, 0), await value(1, 0), await value(5, 2)]).toEqual([6, 8, 11]);
    expect(await formula(6, 2)).toBe('=NOSUCH(1)');
    expect(store.state).toMatchObject({ found: [], still: [], written: 3, busy: false, wrong: undefined });
    await store.undo();
    expect(await formula(0, 0)).toBe('=_xldudf_TARE_AREA_RECT(2,3)');
    expect(await formula(1, 0)).toBe('=[2]!_xldudf_TARE_AREA_RECT(2,4)');
    expect(store.state.written).toBe(0);
    expect(await workbook.undo()).toBe(false);
  });

  it('says of those that are still unknown that another name is in them, and does not offer them again', async () => {
    const { store, book } = await open([[0, 0, '=TARE.AREA.RECT(2,Missing)']]);
    await store.look();
    await store.writeAgain();
    book.sheet('Parts').set(0, 0, { formula: '=TARE.AREA.RECT(2,Missing)', value: '#NAME?', type: 'Error' });
    await store.look();
    expect(store.state).toMatchObject({ found: [], still: [{ sheet: 'Parts', row: 0, column: 0 }] });
    await store.writeAgain();
    expect(store.state.still).toHaveLength(1);
  });

  it('says why Excel refuses, and changes nothing', async () => {
    const { store, book, formula } = await open([[0, 0, '=_xldudf_TARE_AREA_RECT(2,3)']]);
    book.sheet('Parts').protected = true;
    await store.look();
    await store.writeAgain();
    expect(store.state.wrong).toMatch(/protected.*Unprotect the sheet/);
    expect(store.state.found).toHaveLength(1);
    expect(await formula(0, 0)).toBe('=_xldudf_TARE_AREA_RECT(2,3)');
  });

  it('looks through a large sheet in pieces, and writes a column as one edit', async () => {
    const { workbook } = await open(
      Array.from({ length: 300 }, (_none, row) => [row, 0, '=_xldudf_TARE_AREA_RECT(1,2)'] as const),
    );
    let pauses = 0;
    const found = await findUnbound(workbook, async () => void pauses++);
    expect(found).toHaveLength(300);
    expect(pauses).toBe(1);
    expect(writingAgain(found).map((edit) => edit.kind === 'write' && edit.range)).toEqual([
      { sheet: 'Parts', row: 0, column: 0, rows: 300, columns: 1 },
    ]);
  });
});
