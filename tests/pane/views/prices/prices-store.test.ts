import { describe, expect, it, vi } from 'vitest';
import { ImportDesk } from '../../../../src/pane/views/prices/import-panel';
import { PricesStore } from '../../../../src/pane/views/prices/prices-store';
import { WorkbookError, type RangeAddress, type WorkbookModel } from '../../../../src/sheet';
import { looseList, noPrices, priceBook, PRICE_ROWS } from './price-book-model';
import { openPane, started } from '../../open-pane';

// The engines end with the test file: one that is taken away shortly after a calculation throws from a timer of its own.

async function open(model: WorkbookModel) {
  const { engine, workbook, saved, settings, pane } = await openPane(model);
  const store = await started(new PricesStore(pane));
  const sheet = engine.api.getWorkbook('book')!.getSheetByName('Prices');
  return {
    workbook,
    store,
    desk: new ImportDesk(store),
    saved,
    settings,
    type: (row: number, column: number, value: number | string) => void sheet!.getRange(row, column).setValue(value),
    sheet,
  };
}

const at = (row: number, column: number, rows = 1, columns = 1): RangeAddress => ({
  sheet: 'Prices',
  row,
  column,
  rows,
  columns,
});
const idOf = (store: PricesStore, item: string): number => store.state.lines.find((line) => line.cells[0] === item)!.id;
const bytes = (text: string): Promise<ArrayBuffer> => Promise.resolve(new TextEncoder().encode(text).buffer);

describe('reading the list', () => {
  it('shows the table with its columns in any order', async () => {
    const { store } = await open(
      priceBook(
        PRICE_ROWS.map((row) => [...row].reverse()),
        ['Shelf', 'Note', 'Quoted on', 'Supplier', 'From', 'Currency', 'Price', 'Contents', 'Sold by', 'Kind', 'Item'],
      ),
    );
    expect(store.state.status).toBe('ready');
    expect(store.state.lines[0]!.row?.price).toBe(148);
  });

  it('says which column is missing', async () => {
    const { store } = await open(priceBook([['bolt', 'other', 4]], ['Item', 'Kind', 'Price']));
    expect(store.state.status).toBe('lacking');
    expect(store.state.mend).toContain('has no column Sold by');
  });

  it('says that there is no list, and finds rows that could be one', async () => {
    expect((await open(noPrices)).store.state).toMatchObject({ status: 'absent', candidate: undefined });
    expect((await open(looseList())).store.state).toMatchObject({
      status: 'absent',
      candidate: { range: { row: 2, column: 0, rows: 4, columns: 11 } },
    });
  });

  it('tells a failure of the workbook', async () => {
    const { store, workbook } = await open(priceBook());
    vi.spyOn(workbook, 'tables').mockRejectedValue(new WorkbookError('host', 'The host is busy'));
    await store.refresh();
    expect(store.state).toMatchObject({
      status: 'failed',
      mend: 'The price list could not be read. The host is busy. Finish what is being typed in the sheet, then try again.',
    });
  });
});

describe('a first list', () => {
  it('is a real table on a visible sheet, right in every row, and undone in one step', async () => {
    const { store, workbook } = await open(noPrices);
    await store.makeList();
    expect(store.state.status).toBe('ready');
    expect(store.state.lines.length).toBe(9);
    expect(store.state.lines.flatMap(({ problems }) => [...problems.values()])).toEqual([]);
    expect(store.state.added).toContain('9 invented example rows');
    expect(store.state.lines.every(({ cells }) => String(cells[9]).includes('invented'))).toBe(true);
    expect((await workbook.sheets()).map(({ name, visible }) => [name, visible])).toEqual([
      ['Parts', true],
      ['Prices', true],
    ]);
    expect((await workbook.tables())[0]).toMatchObject({ name: 'Prices', range: { rows: 10, columns: 10 } });
    await store.undo();
    expect(store.state.status).toBe('absent');
    expect((await workbook.sheets()).length).toBe(1);
  });

  it('goes beside a sheet of that name that holds something else', async () => {
    const { store, workbook } = await open({
      ...noPrices,
      sheets: [{ name: 'prices', cells: [[{ value: 'my thoughts' }]], tables: [] }],
    });
    await store.makeList();
    expect(store.state.table?.range.sheet).toBe('Prices 2');
    expect(await workbook.read({ sheet: 'prices', row: 0, column: 0, rows: 1, columns: 1 })).toEqual([['my thoughts']]);
  });

  it('is made of rows that are there, none of them changed', async () => {
    const { store, workbook } = await open(looseList());
    const before = await workbook.read(at(0, 0, 6, 11));
    await store.makeList();
    expect(store.state.lines.map(({ cells }) => cells[4])).toEqual([148, 131.5, 92.4]);
    expect(await workbook.read(at(0, 0, 6, 11))).toEqual(before);
  });
});

describe('editing', () => {
  it('writes one cell, shows it at once, and undo and redo move it', async () => {
    const { store, workbook } = await open(priceBook());
    const id = idOf(store, 'MS20470AD4-4');
    store.editCell(id, 'price');
    store.type(id, 'price', '33.25');
    const saving = store.save(id);
    expect(store.state.lines[4]!.row?.price).toBe(33.25);
    expect(await saving).toBe(true);
    expect(await workbook.read(at(5, 4))).toEqual([[33.25]]);
    await store.undo();
    expect(store.state.lines[4]!.row?.price).toBe(31);
    await store.redo();
    expect(store.state.lines[4]!.row?.price).toBe(33.25);
  });

  it('keeps a wrong value in its field, and writes nothing', async () => {
    const { store, workbook } = await open(priceBook());
    const apply = vi.spyOn(workbook, 'apply');
    const id = idOf(store, 'MS20470AD4-4');
    store.editCell(id, 'price', '-3');
    expect(await store.save(id)).toBe(false);
    expect(store.draft(id)!.shown.has('price')).toBe(true);
    expect(apply).not.toHaveBeenCalled();
  });

  it('lets a cell in that makes another wrong, and names the other', async () => {
    const { store } = await open(priceBook());
    const id = idOf(store, 'Hinge pin .090');
    store.editCell(id, 'contents', '');
    expect(await store.save(id)).toBe(false);
    store.cancel(id);
    store.editCell(id, 'kind', 'sheet');
    expect(await store.save(id)).toBe(true);
    expect([...store.line(id)!.problems.keys()]).toEqual(['soldBy']);
  });

  it('keeps what is typed when the sheet changes under it, and follows the row', async () => {
    const { store, workbook, type, sheet } = await open(priceBook());
    const id = idOf(store, 'MS20470AD4-4');
    store.editCell(id, 'price', '40');
    type(5, 4, 35);
    type(5, 9, 'called them');
    sheet!.insertRowsBefore(1, 1);
    await expect.poll(() => store.state.lines[5]!.id).toBe(id);
    expect(store.draft(id)!.texts.price).toBe('40');
    expect(await store.save(id)).toBe(true);
    expect(await workbook.read(at(6, 0, 1, 10))).toEqual([
      ['MS20470AD4-4', 'rivet', 'lb', null, 40, 'USD', null, 'Rivet Shed', 46037, 'called them'],
    ]);
  });

  it('writes to the row where it stands when it is saved, even before the change in the sheet was read', async () => {
    const { store, workbook, sheet } = await open(priceBook());
    const id = idOf(store, 'MS20470AD4-4');
    store.editCell(id, 'price', '40');
    sheet!.insertRowsBefore(1, 1);
    await store.save(id);
    expect((await workbook.read(at(6, 4)))[0]).toEqual([40]);
    expect((await workbook.read(at(5, 4)))[0]).toEqual([23.7]);
  });

  it('does not write into another row when its own is gone', async () => {
    const { store, workbook } = await open(priceBook());
    const id = idOf(store, 'MS20470AD4-4');
    store.editCell(id, 'price', '40');
    await workbook.apply('remove', [{ kind: 'removeTableRows', table: 'Prices', at: 4, count: 1 }]);
    await store.refresh();
    expect(await store.save(id)).toBe(false);
    expect(store.draft(id)!.refused).toContain('no longer in the sheet');
    expect((await workbook.read(at(1, 4, 7)))?.flat()).not.toContain(40);
  });

  it('shows formulas as they are, and writes a number field with "=" as a formula', async () => {
    const { store, workbook } = await open(priceBook());
    const id = idOf(store, 'Hinge pin .090');
    store.editCell(id, 'price', '=20*0.9');
    expect(await store.save(id)).toBe(true);
    expect(await workbook.readFormulas(at(7, 4))).toEqual([['=20*0.9']]);
    await expect.poll(() => store.line(id)!.row?.price).toBe(18);
    store.editCell(id, 'price');
    expect(store.draft(id)!.texts.price).toBe('=20*0.9');
    store.cancel(id);
    store.editCell(id, 'item', '=1+1');
    await store.save(id);
    expect(await workbook.read(at(7, 0))).toEqual([['=1+1']]);
    expect(await workbook.readFormulas(at(7, 0))).toEqual([[null]]);
  });

  it('gives the typed text back with the reason where the workbook refuses', async () => {
    const { store, workbook } = await open(priceBook());
    const id = idOf(store, 'MS20470AD4-4');
    vi.spyOn(workbook, 'apply').mockRejectedValueOnce(
      new WorkbookError('protected', 'The sheet "Prices" is protected'),
    );
    store.editCell(id, 'price', '40');
    expect(await store.save(id)).toBe(false);
    expect(store.draft(id)).toMatchObject({
      texts: { price: '40' },
      refused: 'The sheet "Prices" is protected. Unprotect the sheet, then try again.',
    });
    expect(store.line(id)!.row?.price).toBe(31);
  });

  it('saves a whole row as one step, only the fields that were changed', async () => {
    const { store, workbook, type } = await open(priceBook());
    const id = idOf(store, 'Hinge pin .090');
    store.openRow(id);
    store.type(id, 'soldBy', 'each');
    store.type(id, 'contents', '');
    store.type(id, 'quotedOn', '2026-03-30');
    type(7, 9, 'from the sheet');
    await store.refresh();
    expect(await store.save(id)).toBe(true);
    expect(await workbook.read(at(7, 2, 1, 8))).toEqual([
      ['each', null, 18.9, 'USD', null, 'Rivet Shed', 46111, 'from the sheet'],
    ]);
    await store.undo();
    expect(await workbook.read(at(7, 2, 1, 2))).toEqual([['pack', 10]]);
  });
});

describe('adding and removing', () => {
  it('adds below, keeps supplier and currency for the next, and refuses what is not complete', async () => {
    const { store, workbook } = await open(priceBook());
    store.openNew();
    expect(store.draft('new')!.texts).toMatchObject({ quotedOn: '2026-03-31', currency: 'USD' });
    store.type('new', 'item', 'Bolt 3/16 x 1');
    expect(await store.save('new')).toBe(false);
    store.type('new', 'kind', 'other');
    store.type('new', 'soldBy', '100');
    store.type('new', 'price', '48');
    store.type('new', 'supplier', 'Harbor Metals');
    expect(await store.save('new')).toBe(true);
    expect(await workbook.read(at(9, 0, 1, 11))).toEqual([
      ['Bolt 3/16 x 1', 'other', 100, null, 48, 'USD', null, 'Harbor Metals', 46112, null, null],
    ]);
    expect((await workbook.tables())[0]!.range.rows).toBe(10);
    expect(store.draft('new')!.texts).toEqual({
      kind: 'other',
      soldBy: '100',
      supplier: 'Harbor Metals',
      currency: 'USD',
      quotedOn: '2026-03-31',
    });
    await store.undo();
    expect((await workbook.tables())[0]!.range.rows).toBe(9);
  });

  it('refuses a second price from the same quantity', async () => {
    const { store } = await open(priceBook());
    store.openNew(store.state.lines[0]);
    store.type('new', 'price', '120');
    expect(await store.save('new')).toBe(false);
    expect(store.draft('new')!.clash?.get('from')).toContain('another quantity');
    store.type('new', 'from', '10');
    expect(await store.save('new')).toBe(true);
  });

  it('fills a blank row that waits at the end', async () => {
    const { store, workbook } = await open(
      priceBook([...PRICE_ROWS.slice(0, 1), [null, null, null, null, null, null, null, null, null, null, null]]),
    );
    store.openNew(store.state.lines[0]);
    store.type('new', 'item', 'other sheet');
    store.type('new', 'price', '120');
    await store.save('new');
    expect((await workbook.tables())[0]!.range.rows).toBe(3);
    expect(await workbook.read(at(2, 0))).toEqual([['other sheet']]);
  });

  it('removes a row and brings it back; the last row is emptied', async () => {
    const { store, workbook } = await open(priceBook(PRICE_ROWS.slice(0, 2)));
    await store.remove(store.state.lines[0]!.id);
    expect(store.state.lines.map(({ cells }) => cells[4])).toEqual([131.5]);
    expect(store.state.message?.text).toContain('Removed Sheet 2024-T3 .025');
    await store.remove(store.state.lines[0]!.id);
    expect((await workbook.tables())[0]!.range.rows).toBe(2);
    expect(await workbook.read(at(1, 0, 1, 11))).toEqual([new Array(11).fill(null)]);
    await store.undo();
    await store.undo();
    expect(store.state.lines.map(({ cells }) => cells[4])).toEqual([148, 131.5]);
    await store.undo();
    expect(store.state.message?.text).toBe('Nothing to undo.');
  });
});

describe('sorting and settings', () => {
  it('does not reorder the sheet by sorting the view, and does when asked', async () => {
    const { store, workbook } = await open(priceBook());
    store.arrange({ sort: 'price', descending: true });
    expect((await workbook.read(at(1, 4)))[0]).toEqual([148]);
    const order = [...store.state.lines].sort((a, b) => Number(b.cells[4]) - Number(a.cells[4])).map(({ id }) => id);
    await store.sortSheet(order);
    expect((await workbook.read(at(1, 4, 8))).flat()).toEqual([1142.5, 148, 131.5, 92.4, 31, 23.7, 18.9, 11.2]);
    expect(store.state.lines.map(({ id }) => id)).toEqual(order);
    expect(store.state.arrangement.sort).toBe('sheet');
    await store.undo();
    expect((await workbook.read(at(1, 4)))[0]).toEqual([148]);
  });

  it('does not reorder rows with formulas', async () => {
    const { store, type } = await open(priceBook());
    type(1, 4, '=100*1.5');
    await expect.poll(() => store.state.lines[0]!.formulas[4]).toBe('=100*1.5');
    await store.sortSheet([...store.state.lines].reverse().map(({ id }) => id));
    expect(store.state.message).toMatchObject({ tone: 'failed', text: expect.stringContaining('formulas') });
  });

  it('keeps the age of an old quote with the person, not in the workbook', async () => {
    const { store, settings } = await open(priceBook());
    store.setOldAfter(6);
    expect([...settings.values()]).toEqual(['6']);
  });
});

describe('importing', () => {
  it('adds, updates and reports as one step of undo', async () => {
    const { store, desk, workbook, saved } = await open(priceBook());
    await desk.open(
      'spring.csv',
      bytes(
        'Item,Kind,Sold by,Contents,Price,Currency,Supplier,Quoted on\nMS20470AD4-4,rivet,lb,,33,USD,Rivet Shed,2026-03-01\nnew pin,other,each,,2,USD,Rivet Shed,2026-03-01\nbad,other,each,,two,USD,,',
      ),
    );
    await desk.bringIn();
    expect(store.state.report).toMatchObject({ added: 1, updated: 1, same: 0, refused: [{ number: 4 }] });
    expect(await workbook.read(at(5, 4))).toEqual([[33]]);
    expect(await workbook.read(at(5, 10))).toEqual([['bin 7']]);
    expect(await workbook.read(at(9, 0, 1, 9))).toEqual([
      ['new pin', 'other', 'each', null, 2, 'USD', null, 'Rivet Shed', 46082],
    ]);
    desk.saveRefused();
    expect(saved[0]!.text).toContain('bad,other,each,,two,USD,,,"Price: got ""two""');
    await store.undo();
    expect(await workbook.read(at(5, 4))).toEqual([[31]]);
    expect((await workbook.tables())[0]!.range.rows).toBe(9);
  });

  it('leaves rows of the list alone where that is chosen', async () => {
    const { store, desk, workbook } = await open(priceBook());
    await desk.open(
      'a.csv',
      bytes('Item,Kind,Sold by,Price,Currency,Supplier\nMS20470AD4-4,rivet,lb,33,USD,Rivet Shed'),
    );
    desk.setUpdate(false);
    await desk.bringIn();
    expect(store.state.report).toMatchObject({ updated: 0, kept: 1 });
    expect(await workbook.read(at(5, 4))).toEqual([[31]]);
  });

  it('writes formula-like text as text', async () => {
    const { desk, workbook } = await open(priceBook());
    await desk.open('a.csv', bytes('Item,Kind,Sold by,Price,Note\n=1+1,other,each,3,=2+2'));
    await desk.bringIn();
    expect(await workbook.read(at(9, 0))).toEqual([['=1+1']]);
    expect(await workbook.readFormulas(at(9, 0, 1, 10))).toEqual([new Array(10).fill(null)]);
  });

  it('maps a column by hand', async () => {
    const { store, desk } = await open(priceBook());
    await desk.open('a.csv', bytes('What,Kind,Sold by,Price\nbolt,other,each,3'));
    desk.map(0, 0);
    await desk.bringIn();
    expect(store.state.report?.added).toBe(1);
  });

  it('says what is wrong with a file', async () => {
    const { store, desk } = await open(priceBook());
    await desk.open('a.csv', bytes(''));
    expect(store.state.message).toMatchObject({
      tone: 'failed',
      text: expect.stringContaining('a.csv was not brought in. The file is empty'),
    });
  });
});
