/** The price list is read once after an edit, whichever tabs there are, and hidden tabs read nothing. */
import { afterEach, beforeEach, expect, it, onTestFinished, vi } from 'vitest';
import type * as Prices from '../../../src/core/price/read-price-list';
import { openPane } from '../open-pane';
import { HEADERS, priceBook } from '../views/prices/price-book-model';

let parses = 0;

beforeEach(() => {
  vi.resetModules();
  vi.doMock('../../../src/core/price/read-price-list', async (original) => {
    const real = await original<typeof Prices>();
    return {
      ...real,
      readPriceList: (...args: Parameters<typeof real.readPriceList>) => {
        parses += 1;
        return real.readPriceList(...args);
      },
    };
  });
});
afterEach(() => {
  vi.doUnmock('../../../src/core/price/read-price-list');
  vi.resetModules();
});

/** All tabs that show prices, each read once; then the price list alone is in view. */
async function openTabs() {
  // These see the price list by way of the reader that counts.
  const { PricesStore } = await import('../../../src/pane/views/prices/prices-store');
  const { WeightsStore } = await import('../../../src/pane/views/weights/weights-store');
  const { BuyingStore } = await import('../../../src/pane/views/buying/buying-store');
  const { RivetsStore } = await import('../../../src/pane/views/rivets/rivets-store');
  const { pane, type, workbook, settle } = await openPane(priceBook());
  const prices = new PricesStore(pane);
  const others = [new WeightsStore(pane), new BuyingStore(pane), new RivetsStore(pane)] as const;
  for (const store of [prices, ...others]) {
    store.start();
    onTestFinished(() => store.stop());
    await store.refresh();
  }
  for (const store of others) store.bringUp(false);
  parses = 0;
  return { prices, others, type, workbook, settle };
}

const PRICE = HEADERS.indexOf('Price');
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 300));

it('one edit in the sheet: one reading of the price list, also when the other tabs come into view', async () => {
  const { prices, others, type, settle } = await openTabs();
  const { table } = prices.state;
  type(table!.range.sheet, table!.range.row + 1, table!.range.column + PRICE, 155);
  await expect.poll(() => prices.state.lines[0]!.row?.price).toBe(155);
  await settle();
  await pause();
  expect(parses).toBe(1);
  for (const store of others) {
    store.bringUp(true);
    await store.refresh();
  }
  const [, buying, rivets] = others;
  expect(buying.state.sheets!.book.list.rows[0]!.price).toBe(155);
  expect(rivets.state.sheets.book.list.rows[0]!.price).toBe(155);
  expect(parses).toBe(1);
});

it('one edit in the tab: one reading, made when it is shown, before the sheet has it', async () => {
  const { prices, workbook, settle } = await openTabs();
  const { id } = prices.state.lines[0]!;
  prices.editCell(id, 'price');
  prices.type(id, 'price', '161.5');
  const saved = prices.save(id);
  expect(prices.state.lines[0]!.row?.price).toBe(161.5);
  expect(await saved).toBe(true);
  await settle();
  await pause();
  const { range } = prices.state.table!;
  const at = { ...range, row: range.row + 1, column: range.column + PRICE, rows: 1, columns: 1 };
  expect(await workbook.read(at)).toEqual([[161.5]]);
  expect(prices.state.lines[0]!.row?.price).toBe(161.5);
  expect(parses).toBe(1);
});

it('a tab that is not in view reads nothing', async () => {
  const { prices, others, type, workbook, settle } = await openTabs();
  prices.bringUp(false);
  const read = [vi.spyOn(workbook, 'outline'), vi.spyOn(workbook, 'readSheets'), vi.spyOn(workbook, 'read')];
  const { range } = prices.state.table!;
  type(range.sheet, range.row + 1, range.column + PRICE, 99);
  await settle();
  await pause();
  expect(read.map((spy) => spy.mock.calls.length)).toEqual([0, 0, 0]);
  expect(others[1].state.sheets!.book.list.rows[0]!.price).not.toBe(99);
  others[1].bringUp(true);
  await expect.poll(() => others[1].state.sheets!.book.list.rows[0]!.price).toBe(99);
});
