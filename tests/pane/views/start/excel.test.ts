/** Making a workbook ready through Office.js, against the stand-in for Excel. */
import { afterEach, expect, it } from 'vitest';
import { ExcelWorkbook } from '../../../../src/hosts/excel/workbook';
import { addProjectSheet, makeReady } from '../../../../src/pane/views/start/make';
import type { PaneContext } from '../../../../src/pane/shared/view';
import { CellError, type Cell, type WorkbookModel } from '../../../../src/sheet';
import { FakeBook } from '../../../hosts/excel/fake/book';
import { FakeExcel } from '../../../hosts/excel/client/excel';

let clean: (() => void) | undefined;
afterEach(() => clean?.());

async function open(sheets: WorkbookModel['sheets'] = [{ name: 'Sheet1', cells: [], tables: [] }]) {
  const excel = new FakeExcel(FakeBook.of({ sheets, names: [], styles: [] }), { calculates: true });
  clean = excel.install();
  const workbook = await ExcelWorkbook.open();
  const pane = { workbook, today: () => '2026-03-31' } as unknown as PaneContext;
  const all = async (sheet: string): Promise<Cell[][]> => workbook.read((await workbook.usedRange(sheet))!);
  return { excel, workbook, pane, all };
}

it('takes a handful of requests, computes at once, and is undone in one step', async () => {
  const { excel, workbook, pane, all } = await open();
  const before = excel.traffic.syncs;
  const made = await makeReady(pane, 'in-lb', true);
  expect(excel.traffic.syncs - before).toBeLessThanOrEqual(8);
  expect(made.added.map(({ sheet }) => sheet)).toEqual(['Prices', 'Rivets', 'Parts', 'Joints', 'Hardware', 'Budget']);
  const cells = (await Promise.all(made.added.map(({ sheet }) => all(sheet)))).flat(2);
  expect(cells.filter((cell) => cell instanceof CellError)).toEqual([]);
  // 10.3833 lb with the body of a blind rivet whose stem is retained, .170 in; the 256 of this one lose their stem and
  // are .042 in longer: 256 × π/4 (.125² − .076²) × .042 × .0969 lb/in³ (5052) = .0081 lb.
  // 10.3914 lb, and the hardware of the example: two pins of .036 lb and eight screws ISO 4017 M5x16, each
  // (√3/2 × 8² × 3.5 + π/4 × 4.4804² × 16) mm³ of steel at .284 lb/in³ = .00773 lb.
  expect((await all('Budget'))[8]!.slice(3, 5)).toEqual(['Total', expect.closeTo(10.5252, 4)]);
  const budget = excel.book.sheet('Budget');
  const title = 'Weight against budget (lb)';
  // Header and room for 30 components of the sums beside the budgets, D5 to G36, drawn behind the last column.
  expect(budget.charts).toEqual([
    {
      name: title,
      title,
      type: 'BarClustered',
      source: { row: 4, column: 3, rows: 32, columns: 4 },
      at: { row: 4, column: 14, rows: 32, columns: 9 },
      isReversed: true,
    },
  ]);
  for (const { sheet } of made.added)
    expect(excel.book.sheet(sheet).page).toMatchObject({
      orientation: 'Landscape',
      zoom: { horizontalFitToPages: 1 },
      rightFooter: 'Page &P of &N',
    });
  expect(excel.book.sheet('Parts').page.titleRows).toBe('$5:$5');
  expect(await workbook.undo()).toBe(true);
  expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Sheet1']);
  expect(await workbook.tables()).toEqual([]);
});

it('adds one sheet in the units of those that are there', async () => {
  const cells = [
    ['Joint', 'Component', 'Sheet 1 (mm)', 'Rivets', 'Weight (kg)'],
    ['lap', 'Wing', 1, 4, 0.01],
  ].map((line) => line.map((value) => ({ value })));
  const { pane, all, workbook } = await open([{ name: 'Joints', cells, tables: [] }]);
  await addProjectSheet(pane, 'Parts');
  expect((await all('Parts'))[4]!.slice(4, 7)).toEqual(['Thickness (mm)', 'Flat area (mm²)', 'Each (kg)']);
  expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Joints', 'Prices', 'Parts']);
});
