/** What the bench prints: the cells of the sheet in view, and nothing of the page around them. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shots, benchForTests, type BenchBrowser } from '../helpers/bench-page';
import { chromiumOfPages } from '../helpers/programs';
import '../../src/hosts/bench/window';

const executable = chromiumOfPages();

const countPages = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

describe.skipIf(!executable)('printing the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(() => bench?.close());

  const show = (sheet: string): Promise<void> =>
    page.evaluate(
      (name) => window.tarebook!.workbook!.select({ sheet: name, row: 0, column: 0, rows: 1, columns: 1 }),
      sheet,
    );

  it('shows the sheet in view as a table, its header on every page, and no grid', async () => {
    await show('Parts');
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const paper = page.locator('.sheet-paper');
    expect(await paper.locator('h1').textContent()).toBe('wing: Parts');
    expect(await paper.locator('thead tr').count()).toBe(1);
    expect((await paper.locator('thead td').allTextContents()).slice(0, 2)).toEqual(['Component', 'Part']);
    const first = await paper.locator('table.cells tbody tr').first().locator('td').allTextContents();
    expect(first[0]).toBe('Front spar');
    // A thickness as its cell shows it.
    expect(first[4]).toBe('0.032');
    expect(await page.locator('.grid').isVisible()).toBe(false);
    expect(await page.locator('.bar').isVisible()).toBe(false);
    // As wide as the page: landscape, less its margins.
    const { width } = (await paper.locator('table.cells').boundingBox())!;
    expect(width).toBeLessThanOrEqual(10 * 96);
    await page.screenshot({ path: join(shots, 'printed.png') });
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: null });
    expect(await paper.count()).toBe(0);
    expect(await page.locator('.bar').isVisible()).toBe(true);
  });

  it('makes pages of it, by the browser’s own print and by the menu', async () => {
    const pdf = await page.pdf({ path: join(shots, 'printed.pdf'), preferCSSPageSize: true });
    expect(countPages(pdf)).toBeGreaterThan(1);
    expect(countPages(pdf)).toBeLessThan(8);
    await show('Weights');
    const printed = page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          window.print = () => resolve(document.querySelector('.sheet-paper')?.textContent ?? '');
        }),
    );
    await page.getByRole('button', { name: 'More …' }).click();
    await page.getByRole('button', { name: /^Print sheet/ }).click();
    expect(await printed).toContain('Total');
    expect(bench.complaints).toEqual([]);
  });
});
