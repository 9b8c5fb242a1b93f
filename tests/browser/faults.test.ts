import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import { changedParts, fixture } from '../xlsx/parts';
import {
  openBytes,
  openWithWorkers,
  read,
  ready,
  readOne,
  shots,
  benchForTests,
  typeInto,
  type BenchBrowser,
} from '../helpers/bench-page';
import { withProtection } from './protected-file';

const executable = chromiumOfPages();
const cell = (text: string | number) => ({ value: text });
const small = () =>
  writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Small', cells: [[cell('a'), cell(1)]], tables: [] }] });

describe.skipIf(!executable)('the bench under fault', () => {
  let bench: BenchBrowser;
  let shared: Page | undefined;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
  });
  afterAll(() => bench?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') shared = undefined;
    for (const page of bench.context.pages()) if (page !== shared) await page.close();
  });
  /** A page for tests that end with a page that works: starting one takes longer than most of them. */
  const sharedPage = async (): Promise<Page> => (shared ??= await openWithWorkers(bench));

  const status = (page: Page): Promise<string | null> =>
    page.getByRole('status', { name: 'Where the edits are kept' }).textContent();
  const kept = (page: Page): Promise<void> =>
    page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();

  it('refuses a bad file with one message and leaves the open workbook as it is', async () => {
    const page = await sharedPage();
    await typeInto(page, 'Design', 12, 1, '0.025');
    for (const [name, text] of [
      ['notes.xlsx', 'no workbook at all'],
      ['empty.xlsx', ''],
    ] as const) {
      await page.getByLabel('Workbook file').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
      const alert = page.locator('.notice-place');
      await expect.poll(() => alert.textContent()).toMatch(/\S/);
      expect((await alert.textContent())!.split('\n')).toHaveLength(1);
      await page.screenshot({ path: join(shots, 'bad-file.png') });
      await alert.getByRole('button', { name: 'Close' }).click();
    }
    expect(await page.title()).toBe('wing – Tarebook');
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.025);
    await typeInto(page, 'Design', 12, 1, '0.020');
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.02);
  });

  it('takes the first rows of a large file away again where the file turns out to be damaged', async () => {
    const page = await sharedPage();
    await typeInto(page, 'Design', 12, 1, '0.025');
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Design', row: 9, column: 0, rows: 1, columns: 1 }),
    );
    await page.waitForTimeout(600);
    const grid = page.locator('canvas[id^="univer-sheet-main"]');
    const before = await grid.screenshot();
    const cells = Array.from({ length: 40_000 }, (_, row) => [{ value: `Part ${row} of a long list` }, { value: row }]);
    const bytes = await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'List', cells, tables: [] }] });
    // Within the packed cells, behind those of the first rows.
    bytes[Math.floor(bytes.length / 2)]! ^= 0xff;
    await page.evaluate(() => void performance.clearMarks());
    await page
      .getByLabel('Workbook file')
      .setInputFiles({ name: 'long.xlsx', mimeType: 'text/plain', buffer: Buffer.from(bytes) });
    const alert = page.locator('.notice-place');
    await expect.poll(() => alert.textContent()).toContain('Take another copy of the file.');
    expect(await page.evaluate(() => performance.getEntriesByName('first rows').length)).toBeGreaterThan(0);
    await alert.getByRole('button', { name: 'Close' }).click();
    expect(await page.title()).toBe('wing – Tarebook');
    // The grid shows what it showed.
    await expect.poll(async () => (await grid.screenshot()).equals(before)).toBe(true);
    await typeInto(page, 'Design', 12, 1, '0.020');
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.02);
  });

  it('says so where code cannot be fetched, and fetches it when it is asked again', async () => {
    const page = await sharedPage();
    const again = async (alert: RegExp): Promise<void> => {
      const notice = page.getByRole('alert').filter({ hasText: alert });
      await notice.waitFor();
      await page.unroute('**/*.js');
      await notice.getByRole('button', { name: 'Try again' }).click();
      await notice.waitFor({ state: 'detached' });
    };
    await page.route('**/*.js', (route) => route.abort());
    await page.getByRole('tab', { name: 'Balance' }).click();
    await again(/^The tab “Balance” could not be shown\. Nothing in the workbook has changed\./);
    await page.getByRole('tab', { name: 'Loading' }).waitFor();
    await page.route('**/*.js', (route) => route.abort());
    await page.keyboard.press('F6');
    await page.locator('canvas').first().click();
    await page.keyboard.press('Control+f');
    await again(/^Finding, sorting and filtering could not be shown\./);
    await page.getByRole('dialog', { name: 'Find and replace' }).waitFor();
    expect(await readOne(page, 'Design', 12, 1)).not.toBe(null);
  });

  it('opens a workbook that is dropped on the page', async () => {
    const page = await sharedPage();
    const bytes = Array.from(await small());
    await page.evaluate((file) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([new Uint8Array(file)], 'dropped.xlsx'));
      const target = document.querySelector('canvas')!;
      for (const type of ['dragover', 'drop'])
        target.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }, bytes);
    await page.waitForFunction(() => document.title === 'dropped – Tarebook');
    await ready(page);
    expect(await read(page, { sheet: 'Small', row: 0, column: 0, rows: 1, columns: 2 })).toEqual([['a', 1]]);
  });

  it('tells the second tab on a workbook, and hands it over when it is asked', async () => {
    const first = await bench.open();
    await openBytes(first, 'shared.xlsx', await small());
    await typeInto(first, 'Small', 0, 1, '2');
    await kept(first);
    const second = await bench.open();
    expect(await readOne(second, 'Small', 0, 1)).toBe(2);
    expect(await status(second)).toContain('Open in another tab');
    await second.screenshot({ path: join(shots, 'second-tab.png') });
    // Typed a moment before: not lost in handing over.
    await typeInto(first, 'Small', 0, 1, '3');
    await second.getByRole('button', { name: 'Edit it here' }).click();
    await ready(second);
    await expect.poll(() => readOne(second, 'Small', 0, 1)).toBe(3);
    await expect.poll(() => status(first)).toContain('Open in another tab');
    await typeInto(second, 'Small', 0, 1, '4');
    await kept(second);
    await first.bringToFront();
    await typeInto(first, 'Small', 0, 1, '99');
    await first.waitForTimeout(800);
    await first.close({ runBeforeUnload: false });
    await second.reload();
    await ready(second);
    expect(await readOne(second, 'Small', 0, 1)).toBe(4);
  }, 60_000);

  it('goes on without storage, says so, and asks before the page is left', async () => {
    const page = await bench.context.newPage();
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('Storage is refused', 'SecurityError');
      };
    });
    await page.goto(bench.address);
    await ready(page);
    expect(await status(page)).toContain('Not kept in this browser');
    await typeInto(page, 'Design', 12, 1, '0.025');
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.025);
    const [dialog] = await Promise.all([page.waitForEvent('dialog'), page.close({ runBeforeUnload: true })]);
    expect(dialog.type()).toBe('beforeunload');
    await dialog.accept();
  });

  it('goes on when storage gets full, and keeps what waits once there is room again', async () => {
    const page = await sharedPage();
    await openBytes(page, 'full.xlsx', await small());
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function refuse() {
        throw new DOMException('', 'QuotaExceededError');
      };
      (window as unknown as { room: () => void }).room = () => (IDBObjectStore.prototype.put = put);
    });
    await typeInto(page, 'Small', 0, 1, '5');
    await expect.poll(() => status(page)).toContain('storage is full');
    await page.evaluate(() => (window as unknown as { room: () => void }).room());
    await typeInto(page, 'Small', 1, 1, '6');
    await kept(page);
    await page.reload();
    await ready(page);
    expect(await read(page, { sheet: 'Small', row: 0, column: 1, rows: 2, columns: 1 })).toEqual([[5], [6]]);
  });

  it('offers the workbooks that this browser has kept', async () => {
    const page = await sharedPage();
    await openBytes(page, 'one.xlsx', await small());
    await typeInto(page, 'Small', 0, 1, '11');
    await kept(page);
    await openBytes(page, 'two.xlsx', await small());
    await page.getByRole('button', { name: 'Open …' }).click();
    await page.screenshot({ path: join(shots, 'open-menu.png') });
    await page.getByRole('button', { name: /^one/ }).click();
    await page.waitForFunction(() => document.title === 'one – Tarebook');
    await ready(page);
    expect(await readOne(page, 'Small', 0, 1)).toBe(11);
  });

  it('does not let a protected sheet be typed into', async () => {
    const page = await sharedPage();
    await openBytes(page, 'locked.xlsx', withProtection(await small(), 1));
    await typeInto(page, 'Small', 0, 1, '7');
    await page.waitForTimeout(500);
    await page.screenshot({ path: join(shots, 'protected.png') });
    expect(await readOne(page, 'Small', 0, 1)).toBe(1);
  });

  /** The file that the button gives. */
  const saved = async (page: Page): Promise<Uint8Array> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as .xlsx' }).click(),
    ]);
    const file = join(shots, 'fault-saved.xlsx');
    await download.saveAs(file);
    return new Uint8Array(readFileSync(file));
  };

  it.each(['xlsxwriter', 'openpyxl', 'exceljs', 'libreoffice', 'prefixed'])(
    'saves a workbook of %s with every part that it does not know as it was',
    async (writer) => {
      const bytes = fixture(writer);
      const page = await sharedPage();
      await openBytes(page, `${writer}.xlsx`, bytes);
      await typeInto(page, 'Parts', 2, 1, '9');
      await expect.poll(() => readOne(page, 'Parts', 5, 3)).toBe(55.625);
      const after = await saved(page);
      for (const part of changedParts(bytes, after))
        expect(part).toMatch(/^(xl\/worksheets\/sheet1|xl\/metadata|xl\/_rels\/workbook\.xml|\[Content_Types\])/);
      const { cells } = readWorkbook(after).sheets[0]!;
      expect([cells[2]![1]!.value, cells[2]![3]!.value, cells[5]![3]!.value]).toEqual([9, 13.5, 55.625]);
    },
  );

  it('computes around a circle, a function that nobody knows and another file, and saves all three as they came', async () => {
    const row = [
      { value: 7, formula: 'B1+1' },
      { value: 8, formula: 'A1+1' },
      { value: 3, formula: 'FOREIGN.THING(1)' },
      { value: 12, formula: '[1]Prices!$B$2*2' },
      { value: 4 },
      { value: 19, formula: 'E1+C1+D1' },
    ];
    const page = await sharedPage();
    await openBytes(
      page,
      'stubborn.xlsx',
      await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Small', cells: [row], tables: [] }] }),
    );
    expect(await page.locator('.notice-place').textContent()).toContain('FOREIGN.THING');
    await typeInto(page, 'Small', 0, 4, '5');
    await expect.poll(() => readOne(page, 'Small', 0, 5)).toBe(20);
    const { cells } = readWorkbook(await saved(page)).sheets[0]!;
    expect(cells[0]!.map((one) => one?.formula)).toEqual(row.map(({ formula }) => formula));
    expect([2, 3, 4, 5].map((column) => cells[0]![column]!.value)).toEqual([3, 12, 5, 20]);
  });

  it('takes an edit of the pane while one of the grid is being calculated', async () => {
    const cells = Array.from({ length: 4000 }, (_one, index) => [
      cell(index),
      { value: index, formula: index === 0 ? 'A1' : `B${index}+A${index + 1}` },
    ]);
    const page = await sharedPage();
    await openBytes(
      page,
      'chain.xlsx',
      await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Chain', cells, tables: [] }] }),
    );
    const sum = (4000 * 3999) / 2;
    await expect.poll(() => readOne(page, 'Chain', 3999, 1)).toBe(sum);
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Chain', row: 0, column: 0, rows: 1, columns: 1 }),
    );
    await page.waitForTimeout(300);
    await page.keyboard.type('1000');
    await page.keyboard.press('Enter');
    // As the pane writes, a moment after the key, and again before that is calculated.
    for (const row of [1, 2])
      await page.evaluate(
        (at) =>
          void window.tarebook!.workbook!.apply('pane', [
            { kind: 'write', range: { sheet: 'Chain', row: at, column: 0, rows: 1, columns: 1 }, cells: [[100 + at]] },
          ]),
        row,
      );
    await expect.poll(() => readOne(page, 'Chain', 3999, 1)).toBe(sum + 1000 + 100 + 100);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => readOne(page, 'Chain', 3999, 1)).toBe(sum + 1000 + 100);
  });

  it('loses nothing when the worker that calculates dies, and goes on calculating', async () => {
    const page = await sharedPage();
    const workers = (): Promise<number> => page.evaluate(() => window.workers.length);
    const bytes = await writeWorkbook({
      names: [],
      styles: [],
      sheets: [{ name: 'Sums', tables: [], cells: [[{ value: 2 }, { value: null, formula: 'A1*2' }]] }],
    });
    await openBytes(page, 'sums.xlsx', bytes);
    await typeInto(page, 'Sums', 0, 0, '3');
    await expect.poll(() => readOne(page, 'Sums', 0, 1)).toBe(6);
    const before = await workers();
    await page.evaluate(() => window.workers[0]!.terminate());
    await typeInto(page, 'Sums', 0, 0, '5');
    await expect.poll(() => readOne(page, 'Sums', 0, 1)).toBe(10);
    await typeInto(page, 'Sums', 0, 2, '=B1+1');
    await expect.poll(() => readOne(page, 'Sums', 0, 2)).toBe(11);
    expect(await workers()).toBe(before + 1);
    expect(await status(page)).not.toMatch(/Not calculated/);
  });

  it('says so when the worker that plans the cutting dies, and plans again', async () => {
    const page = await sharedPage();
    await openBytes(page, 'buying.xlsx', new Uint8Array(readFileSync('sample-workbooks/buying.xlsx')));
    await page.getByRole('tablist', { name: 'Views' }).getByRole('tab', { name: 'Buying' }).click();
    // What the page waits for in vain need not be waited for here.
    await page.clock.install();
    await page.evaluate(() => void (window.nextDies = true));
    await page.getByRole('button', { name: 'Make the plan' }).click();
    await page.getByRole('button', { name: /^End now/ }).click();
    await page.clock.runFor(15_000);
    await page
      .getByRole('alert')
      .filter({ hasText: /The planning stopped/ })
      .waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Make the plan' }).click();
    await page.getByRole('button', { name: 'Save as DXF' }).waitFor({ timeout: 30_000 });
  });
});
