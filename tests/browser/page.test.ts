import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { axeFindings } from '../helpers/axe';
import { chromiumOfPages } from '../helpers/programs';
import {
  openBytes,
  readOne,
  ready,
  root,
  shots,
  benchForTests,
  typeInto,
  type BenchBrowser,
} from '../helpers/bench-page';

const executable = chromiumOfPages();

declare global {
  interface Window {
    letSampleGo: () => void;
  }
}

describe.skipIf(!executable)('the page of the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  /** A second page on the bench, for the tests that open workbooks in it. */
  let another: Page | undefined;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(() => bench?.close());
  beforeEach(async () => {
    if (!(await page.getByRole('complementary', { name: 'Task pane' }).isVisible()))
      await page.getByRole('button', { name: 'Show pane' }).click();
  });

  const splitter = () => page.getByRole('separator', { name: 'Width of the task pane' });
  const paneWidth = async () => (await page.locator('.pane-frame').boundingBox())!.width;
  const focused = () =>
    page.evaluate(() => document.activeElement?.closest('.bar, .sheet, .pane-frame')?.className.split('-')[0]);

  it('shows the file that is given while the page still loads its sample, and keeps what is edited in it', async () => {
    const early = await bench.context.newPage();
    await early.addInitScript(() => {
      // A store of its own, in which nothing is kept yet: the page would show the sample.
      const { open } = IDBFactory.prototype;
      IDBFactory.prototype.open = function (name, version) {
        return open.call(this, `${name} early`, version);
      };
      const { fetch } = window;
      const held = new Promise<void>((letGo) => (window.letSampleGo = letGo));
      window.fetch = async (asked, options) => {
        if (String(asked).includes('samples/')) await held;
        return fetch(asked, options);
      };
    });
    await early.goto(bench.address);
    await openBytes(early, 'own.xlsx', readFileSync(join(root, 'sample-workbooks/rib.xlsx')));
    await early.evaluate(() => window.letSampleGo());
    await early.waitForLoadState('networkidle');
    await ready(early);
    expect(await early.title()).toBe('own – Tarebook');
    await typeInto(early, 'Parts', 60, 0, 'mine');
    await early.getByText('Kept in this browser').waitFor();
    expect(await readOne(early, 'Parts', 60, 0)).toBe('mine');
    await early.close();
  });

  it('has a pane whose width the arrow keys and the mouse change, and which it remembers', async () => {
    const before = await paneWidth();
    await splitter().focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    expect(await paneWidth()).toBe(before + 48);
    const { x, y, height } = (await splitter().boundingBox())!;
    await page.mouse.move(x + 3, y + height / 2);
    await page.mouse.down();
    await page.mouse.move(x - 57, y + height / 2, { steps: 4 });
    await page.mouse.up();
    expect(await paneWidth()).toBe(before + 108);
    await splitter().focus();
    await page.keyboard.press('End');
    expect(await splitter().getAttribute('aria-valuenow')).toBe('320');
    await page.keyboard.press('ArrowLeft');
    await page.reload();
    await ready(page);
    expect(await paneWidth()).toBe(344);
  });

  it('says why the selected cell shows an error, also with the pane hidden', async () => {
    await typeInto(page, 'Parts', 5, 4, '20');
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Parts', row: 5, column: 12, rows: 1, columns: 1 }),
    );
    await page.getByRole('button', { name: 'Hide pane' }).click();
    const status = page.getByRole('status', { name: 'Selected cell' });
    await expect.poll(() => status.textContent()).toContain('M6 #VALUE! thickness: got 20');
    await page.screenshot({ path: join(shots, 'explained.png') });
    await page.getByRole('button', { name: 'Show pane' }).click();
    await expect.poll(() => page.locator('aside.pane').textContent()).toContain('thickness: got 20');
    await page.keyboard.press('F6');
    await typeInto(page, 'Parts', 5, 4, '0.032');
    await expect.poll(() => readOne(page, 'Parts', 5, 12)).toBeGreaterThan(3);
  });

  it('is walked through with F6, forwards and backwards', async () => {
    await page.getByRole('button', { name: 'Open …' }).focus();
    const seen = [];
    for (const key of ['F6', 'F6', 'F6', 'Shift+F6', 'Shift+F6']) {
      await page.keyboard.press(key);
      seen.push(await focused());
    }
    expect(seen).toEqual(['sheet', 'pane', 'bar', 'pane', 'sheet']);
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => window.tarebook!.workbook!.selection())).toMatchObject({ rows: 1, columns: 1 });
  });

  it('takes what is typed as soon as a workbook is open', async () => {
    const other = (another = await bench.open());
    await other.keyboard.type('first');
    await other.keyboard.press('Enter');
    await expect.poll(() => readOne(other, 'Design', 0, 0)).toBe('first');
    await other.getByRole('button', { name: 'Open …' }).focus();
    await openBytes(other, 'opened.xlsx', readFileSync(join(root, 'sample-workbooks', 'wing.xlsx')));
    await other.keyboard.type('second');
    await other.keyboard.press('Enter');
    await expect.poll(() => readOne(other, 'Design', 0, 0)).toBe('second');
  });

  it('shows the text of the selected cell above the grid as soon as a workbook is open', async () => {
    const other = another ?? (await bench.open());
    await openBytes(other, 'opened.xlsx', readFileSync(join(root, 'sample-workbooks', 'rib.xlsx')));
    const bar = () => other.screenshot({ clip: { x: 190, y: 80, width: 500, height: 20 } });
    const select = (row: number) =>
      other.evaluate(
        (at) => window.tarebook!.workbook!.select({ sheet: 'Lesson', row: at, column: 0, rows: 1, columns: 1 }),
        row,
      );
    await other.waitForTimeout(600);
    const opened = await bar();
    await select(90);
    await expect.poll(async () => (await bar()).equals(opened)).toBe(false);
    await select(0);
    await expect.poll(async () => (await bar()).equals(opened)).toBe(true);
    await other.close();
  });

  it('saves with Ctrl+S from wherever the keyboard is', async () => {
    for (const place of ['.sheet', '.pane']) {
      while ((await focused()) !== place.slice(1)) await page.keyboard.press('F6');
      const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('ControlOrMeta+s')]);
      expect(download.suggestedFilename()).toBe('wing.xlsx');
    }
  });

  it('completes our functions in a cell, and explains their arguments', async () => {
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Design', row: 30, column: 0, rows: 1, columns: 1 }),
    );
    while ((await focused()) !== 'sheet') await page.keyboard.press('F6');
    await page.keyboard.type('=TARE.AREA.RE');
    await page.getByText('Area of a rectangle').waitFor();
    // The list comes with the first letters, and follows: Enter takes what stands at its top.
    await page.getByText('Returns the tangent of a number').waitFor({ state: 'detached' });
    await page.screenshot({ path: join(shots, 'completion.png') });
    await page.keyboard.press('Enter');
    await page
      .getByText(/TARE\.AREA\.RECT\(/)
      .first()
      .waitFor();
    await page.screenshot({ path: join(shots, 'arguments.png') });
    await page.keyboard.type('6,4)');
    await page.keyboard.press('Enter');
    await expect.poll(() => readOne(page, 'Design', 30, 0)).toBe(24);
  });

  it('works on with no network', async () => {
    await bench.context.setOffline(true);
    await typeInto(page, 'Design', 12, 1, '0.025');
    await expect.poll(() => readOne(page, 'Design', 12, 1)).toBe(0.025);
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
    await bench.context.setOffline(false);
  });

  it.each([['pane shown'], ['pane hidden'], ['menu open'], ['message shown']])(
    'has no violation that axe finds around the grid: %s',
    async (state) => {
      if (state === 'pane hidden') await page.getByRole('button', { name: 'Hide pane' }).click();
      if (state === 'menu open') await page.getByRole('button', { name: 'Open …' }).click();
      if (state === 'message shown')
        await page
          .getByLabel('Workbook file')
          .setInputFiles({ name: 'bad.xlsx', mimeType: 'text/plain', buffer: Buffer.from('bad') });
      await page.waitForTimeout(400);
      expect(await axeFindings(page, { without: ['.grid', '.pane-root'] })).toEqual([]);
      if (state === 'menu open') await page.keyboard.press('Escape');
      if (state === 'message shown') await page.locator('.notice-place').getByRole('button', { name: 'Close' }).click();
    },
  );

  it('has nothing to complain of', () => {
    expect(bench.outside).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});
