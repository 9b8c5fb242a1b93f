/** In an Excel whose pane can save no file: rows become a sheet, other files a text to copy, and it is said. */
import { afterEach, describe, expect, it } from 'vitest';
import { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import { HandOverStore } from '../../../src/pane/handover';
import { PricesStore } from '../../../src/pane/views/prices/prices-store';
import { FakeBook } from '../../hosts/excel/fake/book';
import { FakeExcel } from '../../hosts/excel/client/excel';
import { openPane, started } from '../open-pane';

let clean: (() => void) | undefined;
afterEach(() => clean?.());

async function open(names: readonly string[] = ['Parts']) {
  const book = FakeBook.of({ sheets: names.map((name) => ({ name, cells: [], tables: [] })), names: [], styles: [] });
  clean = new FakeExcel(book).install();
  const workbook = await ExcelWorkbook.open();
  return { book, workbook, store: new HandOverStore(workbook) };
}

describe('a file of rows', () => {
  it('is a new sheet, numbers as numbers and nothing as a formula, and one undo takes it away', async () => {
    const { store, workbook } = await open();
    await store.take('prices.csv', '\uFEFFItem,Price,Note\r\n"Skin, .025",103.68,\'=1+1\r\nBolt,.48,0012x\r\n');
    expect(store.state.handed).toEqual({ kind: 'sheet', name: 'prices.csv', sheet: 'prices' });
    const used = (await workbook.usedRange('prices'))!;
    expect(await workbook.read(used)).toEqual([
      ['Item', 'Price', 'Note'],
      ['Skin, .025', 103.68, '=1+1'],
      ['Bolt', 0.48, '0012x'],
    ]);
    expect((await workbook.readFormulas(used)).flat().filter(Boolean)).toEqual([]);
    expect(await workbook.undo()).toBe(true);
    expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Parts']);
  });

  it('takes a name that is free, short enough, and one that Excel allows', async () => {
    const long = 'cutting-plan-of-2024-t3-sheet-0.025-in.csv';
    const { store } = await open(['Prices', 'cutting-plan-of-2024-t3-sheet-0']);
    await store.take('prices.csv', 'a\r\n1\r\n');
    expect(store.state.handed).toMatchObject({ sheet: 'prices 2' });
    await store.take(long, 'a\r\n1\r\n');
    expect(store.state.handed).toMatchObject({ sheet: 'cutting-plan-of-2024-t3-sheet 2' });
    await store.take('a/b:c.csv', 'a\r\n1\r\n');
    expect(store.state.handed).toMatchObject({ sheet: 'a-b-c' });
  });

  it('that Excel refuses is said, with the reason', async () => {
    const { store, workbook } = await open();
    workbook.apply = async () => Promise.reject(new Error('no'));
    await store.take('prices.csv', 'a\r\n');
    expect(store.state.handed).toEqual({ kind: 'refused', name: 'prices.csv', why: 'no.' });
  });
});

it('another file is a text to copy', async () => {
  const { store, workbook } = await open();
  await store.take('report.html', '<p>x</p>');
  expect(store.state.handed).toEqual({ kind: 'text', name: 'report.html', text: '<p>x</p>' });
  expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Parts']);
});

it('a view says nothing of a file that was saved where none was', async () => {
  const cells = [
    ['Item', 'Kind', 'Price'].map((value) => ({ value })),
    [{ value: 'Bolt' }, { value: 'bolt' }, { value: 1 }],
  ];
  const model = {
    sheets: [
      {
        name: 'Prices',
        cells,
        tables: [
          {
            name: 'Prices',
            range: { sheet: 'Prices', row: 0, column: 0, rows: 2, columns: 3 },
            columns: ['Item', 'Kind', 'Price'],
          },
        ],
      },
    ],
    names: [],
    styles: [],
  };
  for (const [saved, message] of [
    [false, undefined],
    [undefined, expect.stringContaining('Exported') as string],
  ] as const) {
    const { pane } = await openPane(model, { saveFile: () => saved });
    const store = await started(new PricesStore(pane));
    store.exportCsv();
    expect(store.state.message?.text).toEqual(message);
  }
});
