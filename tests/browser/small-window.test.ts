import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import { shots, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';

const executable = chromiumOfPages();

/** A narrow window, and the one that a page of 1366 × 768 is at 200 % zoom. */
const NARROW = { width: 390, height: 844 };
const ZOOMED = { width: 683, height: 384 };
const USUAL = { width: 1366, height: 768 };

describe.skipIf(!executable)('the bench in a small window', () => {
  let bench: BenchBrowser;
  let page: Page;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(() => bench?.close());

  const frozen = async (size: { readonly width: number; readonly height: number }) => {
    await page.setViewportSize(size);
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Parts', row: 8, column: 6, rows: 1, columns: 1 }),
    );
    await page.waitForTimeout(600);
    await page.screenshot({ path: join(shots, `small-${size.width}.png`) });
    const [header] = await page.locator('canvas[id^="univer-sheet-main"]').all();
    return header!.boundingBox();
  };

  /** The cell that the grid has under a point, as its own hit test tells after a click there. */
  const cellAt = async (x: number, y: number): Promise<{ readonly row: number; readonly column: number }> => {
    await page.mouse.click(x, y);
    await page.waitForTimeout(200);
    return (await page.evaluate(() => window.tarebook!.workbook!.selection()))!;
  };

  it('shows the columns that are worked in where frozen ones would fill the window', async () => {
    const box = (await frozen(NARROW))!;
    expect((await cellAt(box.x + 60, box.y + box.height / 2)).column).toBeGreaterThan(1);
  });

  it('shows rows of the list where frozen ones would fill the window', async () => {
    const box = (await frozen(ZOOMED))!;
    await page.mouse.move(box.x + box.width / 2, box.y + 60);
    await page.mouse.wheel(0, 600);
    await page.waitForTimeout(400);
    expect((await cellAt(box.x + box.width / 2, box.y + 40)).row).toBeGreaterThan(5);
  });

  it('has every button of its bar within the window', async () => {
    await page.setViewportSize(NARROW);
    for (const button of await page.locator('.bar button').all()) {
      if (!(await button.isVisible())) continue;
      const { x, width } = (await button.boundingBox())!;
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x + width).toBeLessThanOrEqual(NARROW.width);
    }
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(NARROW.width);
  });

  it('freezes again what is frozen when there is room, and saves it from any window', async () => {
    const box = (await frozen(USUAL))!;
    expect((await cellAt(box.x + 60, box.y + box.height / 2)).column).toBe(0);
    await page.setViewportSize(NARROW);
    await typeInto(page, 'Parts', 8, 4, '0.063');
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('ControlOrMeta+s')]);
    const { sheets } = readWorkbook(new Uint8Array(readFileSync(await download.path())));
    expect(sheets.find(({ name }) => name === 'Parts')!.frozen).toEqual({ rows: 5, columns: 2 });
    await page.setViewportSize(USUAL);
    // The grid is drawn anew in the next moments.
    await page.waitForTimeout(1000);
  });

  it('tells what the row comes to while it is typed, its weight out of sight', async () => {
    const line = page.getByRole('status', { name: 'Selected cell', exact: true });
    await typeInto(page, 'Parts', 6, 4, '0.050');
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Parts', row: 6, column: 4, rows: 1, columns: 1 }),
    );
    await expect.poll(() => line.textContent()).toMatch(/^Upper cap angles: Weight [\d.]+ lb · Moment/);
    const before = await line.textContent();
    await typeInto(page, 'Parts', 6, 4, '0.100');
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Parts', row: 6, column: 4, rows: 1, columns: 1 }),
    );
    const weight = (text: string | null) => Number(/Weight ([\d.]+)/.exec(text ?? '')?.[1]);
    await expect.poll(async () => weight(await line.textContent())).toBeCloseTo(2 * weight(before), 2);
  });

  it('names every button and box around the grid', async () => {
    const nameless = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('.grid button, .grid a, .grid input')]
        .filter((control) => control.checkVisibility({ visibilityProperty: true }))
        .filter((control) => control.offsetWidth > 0 && control.closest('.univer-hidden') === null)
        .filter((control) => !control.textContent.trim() && !control.getAttribute('aria-label'))
        .map((control) => control.outerHTML.slice(0, 200)),
    );
    expect(nameless).toEqual([]);
  });

  it('has nothing to complain of', () => {
    // The engine says this of the line of a formula while a window becomes narrow, and draws it all the same.
    expect(bench.complaints.filter((text) => !text.startsWith('The column width is less than 0'))).toEqual([]);
  });
});
