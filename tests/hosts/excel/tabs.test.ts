/** How often a tab of the pane goes to Excel when it is opened, and when something changes. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import { MatchStore } from '../../../src/pane/match/match-store';
import type { PaneContext } from '../../../src/pane/shared/view';
import { BalanceStore } from '../../../src/pane/views/balance/balance-store';
import { BuyingStore } from '../../../src/pane/views/buying/buying-store';
import { InsertStore } from '../../../src/pane/views/formula/insert-store';
import { PricesStore } from '../../../src/pane/views/prices/prices-store';
import { RivetsStore } from '../../../src/pane/views/rivets/rivets-store';
import { WeightsStore } from '../../../src/pane/views/weights/weights-store';
import type { CellModel, WorkbookModel } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';
import { FakeBook } from './fake/book';
import { FakeExcel } from './client/excel';
import { ownClock } from './fake/open';

const TABS = [PricesStore, WeightsStore, BalanceStore, RivetsStore, BuyingStore, InsertStore, MatchStore];
/** Opens of a tab, at the most: what there is, how far it goes, and the cells. */
const MOST = 3;

const sample = (name: string): WorkbookModel['sheets'] =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../../sample-workbooks/${name}`, import.meta.url)))).sheets;

/** The samples' sheets as one workbook, with a list whose columns are matched. */
function everything(): WorkbookModel {
  const names = new Set<string>();
  const samples = ['buying.xlsx', 'rivet-choice.xlsx', 'weighing.xlsx', 'budget.xlsx'].flatMap(sample);
  const line = (...cells: (string | number)[]): CellModel[] => cells.map((value) => ({ value }));
  const sheets = samples.filter(({ name }) => !names.has(name.toLowerCase()) && names.add(name.toLowerCase()));
  const tables = new Set<string>();
  return {
    names: [],
    styles: [],
    sheets: [
      ...sheets.map((sheet) => ({
        ...sheet,
        tables: sheet.tables.filter(({ name }) => !tables.has(name) && tables.add(name)),
        cells: sheet.cells.map((cells) =>
          (cells ?? []).map((cell): CellModel | undefined => cell && { value: cell.value }),
        ),
      })),
      { name: 'Tail list', tables: [], cells: [line('Part', 'Mass (lb)'), line('Fin', 2)] },
      {
        name: 'Matches',
        tables: [],
        cells: [
          line('Sheet', 'Header', 'Means', 'Unit', 'Read as'),
          line('Tail list', 'Part', 'Part'),
          line('Tail list', 'Mass (lb)', 'Weight', 'lb', 'all pieces'),
        ],
      },
    ] as WorkbookModel['sheets'],
  };
}

let clean: (() => void)[] = [];
afterEach(() => {
  clean.forEach((one) => one());
  clean = [];
});

/** Until nothing more is asked. */
const settled = ownClock();

async function open(Tab: (typeof TABS)[number], shared?: { readonly pane: PaneContext; readonly excel: FakeExcel }) {
  let pane = shared?.pane;
  let excel = shared?.excel;
  if (!pane || !excel) {
    excel = new FakeExcel(FakeBook.of(everything()));
    clean.push(excel.install());
    const workbook = await ExcelWorkbook.open();
    pane = {
      workbook,
      settings: { get: () => undefined, set: () => undefined },
      today: () => '2026-03-31',
      saveFile: () => undefined,
    };
  }
  const store = new Tab(pane);
  const start = async (): Promise<void> => {
    store.start();
    clean.push(() => store.stop());
    await settled();
  };
  return { excel, pane, store, start };
}

describe('a tab goes to Excel', () => {
  it.each(TABS.map((Tab) => [Tab.name, Tab] as const))('at most three times to open: %s', async (_name, Tab) => {
    const { excel, store, start } = await open(Tab);
    const before = excel.traffic.syncs;
    await start();
    expect(store.state.status).not.toBe('failed');
    expect(excel.traffic.syncs - before).toBeGreaterThan(0);
    expect(excel.traffic.syncs - before).toBeLessThanOrEqual(MOST);
  });

  it('once to open where another tab has read the same sheets', async () => {
    const { excel, pane, start } = await open(WeightsStore);
    await start();
    const second = await open(WeightsStore, { pane, excel });
    const before = excel.traffic.syncs;
    await second.start();
    // One reads; the library may send another that names the workbook and asks nothing of it.
    expect(excel.traffic.syncs - before).toBeLessThanOrEqual(2);
  });

  it('not at all while another tab is in view; then once for all changes, and for the changed sheet alone', async () => {
    const { excel, store, start } = await open(WeightsStore);
    await start();
    const weight = (store as WeightsStore).state.model!.total.current;
    store.bringUp(false);
    const { form, rows } = (store as WeightsStore).state.model!.parts;
    const row = rows.find((one) => one.weight !== undefined)!;
    for (const more of [1, 2, 3]) {
      excel.type(form.sheet, row.row, form.columns.weight!, row.weight! + more);
      await settled();
    }
    expect((store as WeightsStore).state.model!.total.current).toBe(weight);
    const before = excel.traffic.syncs;
    store.bringUp(true);
    await settled();
    expect((store as WeightsStore).state.model!.total.current).toBeCloseTo(weight + 3, 9);
    expect(excel.traffic.syncs - before).toBeLessThanOrEqual(MOST);
  });
});
