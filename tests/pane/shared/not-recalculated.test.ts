/** The tabs Weights and Balance, and the report that the pane saves, say what rests on a cell that was not recalculated. */
import { describe, expect, it } from 'vitest';
import { BalanceStore } from '../../../src/pane/views/balance/balance-store';
import { WeightsStore } from '../../../src/pane/views/weights/weights-store';
import { workbookReport } from '../../../src/pane/shared/report-page';
import { airplanes } from '../views/balance/models';
import { smallBook } from '../views/weights/small-book';
import { openPane, started } from '../open-pane';

describe('cells that were not recalculated', () => {
  it('mark the component and the total on the tab Weights, and stand in the report', async () => {
    const book = smallBook();
    book.sheets[0]!.cells[2]![5] = { value: 0.11, formula: 'NO.SUCH.FUNCTION(1)' };
    const { workbook, pane } = await openPane(book);
    const store = await started(new WeightsStore(pane));
    const { resting } = store.state;
    const component = String(book.sheets[0]!.cells[2]![0]!.value);
    expect([...resting.components]).toEqual([component]);
    expect(resting.marked).toEqual([
      expect.objectContaining({ sheet: 'Parts', row: 2, column: 5, because: expect.objectContaining({ row: 2 }) }),
    ]);
    const page = await workbookReport(workbook, '2026-11-29');
    expect(page).toContain(
      `The figures of ${component} and the totals rest on formulas that could not be recalculated.`,
    );
    expect(page).toContain('Parts!F3 keeps the file');
  });

  it('mark nothing where everything is known', async () => {
    const { pane, workbook } = await openPane(smallBook());
    expect((await started(new WeightsStore(pane))).state.resting.marked).toEqual([]);
    expect(await workbookReport(workbook, '2026-11-29')).not.toContain('Not recalculated');
  });

  it('of an airplane’s sheets are named on the tab Balance, with the formula that they rest on', async () => {
    const book = airplanes();
    const loading = book.sheets.find(({ name }) => name.startsWith('Loading'))!;
    const row = loading.cells.findIndex((line) => line.some((cell) => typeof cell?.value === 'number'));
    const column = loading.cells[row]!.findIndex((cell) => typeof cell?.value === 'number');
    const own = loading.cells[row]![column]!;
    loading.cells[row]![column] = { ...own, formula: 'Notes!A1*1' };
    const notes = { name: 'Notes', tables: [], cells: [[{ value: own.value, formula: 'NO.SUCH.FUNCTION(1)' }]] };
    const { pane } = await openPane({ ...book, sheets: [...book.sheets, notes] });
    const store = await started(new BalanceStore(pane));
    expect(store.state.marked.length).toBeGreaterThan(0);
    expect(store.state.marked.every(({ sheet }) => sheet !== 'Notes')).toBe(true);
    expect(store.state.marked[0]).toMatchObject({
      sheet: loading.name,
      because: { sheet: 'Notes', row: 0, column: 0 },
    });
  });
});
