import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import {
  openBytes,
  ready,
  readOne,
  read,
  root,
  shots,
  benchForTests,
  typeInto,
  type BenchBrowser,
} from '../helpers/bench-page';
import '../../src/hosts/bench/window';

const executable = chromiumOfPages();

describe.skipIf(!executable)('the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(() => bench?.close());

  const rollUp = async (component: string): Promise<{ weight: number; moment: number; cost: number }> => {
    const rows = await read(page, { sheet: 'Weights', row: 5, column: 0, rows: 20, columns: 5 });
    const row = rows.find(([name]) => name === component)!;
    return { weight: Number(row[1]), moment: Number(row[3]), cost: Number(row[4]) };
  };
  const shot = (name: string): Promise<Buffer> => page.screenshot({ path: join(shots, `${name}.png`) });

  it('shows the sample wing at the first start', async () => {
    expect(await page.title()).toBe('wing – Tarebook');
    expect((await rollUp('Total')).weight).toBeGreaterThan(50);
    await shot('start');
  });

  it('follows a thickness that is typed in the grid up to the roll-up', async () => {
    const row = 5;
    const before = { spar: await rollUp('Front spar'), total: await rollUp('Total') };
    expect(await readOne(page, 'Parts', row, 1)).toContain('Web');
    expect(Number(await readOne(page, 'Parts', row, 4))).toBe(0.032);
    for (const thickness of ['0.040', '0.063', '0.025', '0.050']) {
      const recalculated = page.evaluate(
        () =>
          new Promise<void>(
            (done) => void window.tarebook!.workbook!.onChange(({ by }) => by === 'recalculation' && done()),
          ),
      );
      await typeInto(page, 'Parts', row, 4, thickness);
      await recalculated;
    }
    const after = { spar: await rollUp('Front spar'), total: await rollUp('Total') };
    const grown = after.spar.weight - before.spar.weight;
    expect(grown).toBeGreaterThan(0);
    expect(after.total.weight - before.total.weight).toBeCloseTo(grown, 9);
    expect(after.total.moment).toBeGreaterThan(before.total.moment);
    expect(after.spar.cost).not.toBe(before.spar.cost);
    await shot('thickness');
  });

  it('offers the choices of a cell, and refuses what is none of them', async () => {
    const [row, column] = [8, 9];
    await page.evaluate((range) => window.tarebook!.workbook!.select(range), {
      sheet: 'Parts',
      row,
      column,
      rows: 1,
      columns: 1,
    });
    await page.waitForTimeout(300);
    await page.keyboard.press('F2');
    await page.getByText('existing', { exact: true }).click();
    await expect.poll(() => readOne(page, 'Parts', row, column)).toBe('existing');
    await typeInto(page, 'Parts', row, column, 'weighed');
    await expect.poll(() => readOne(page, 'Parts', row, column)).toBe('weighed');
    await typeInto(page, 'Parts', row, column, 'guessed');
    await page.waitForTimeout(300);
    await shot('choices');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    expect(await readOne(page, 'Parts', row, column)).toBe('weighed');
  });

  it('follows a price that is typed in the pane up to the cost', async () => {
    const before = await rollUp('Total');
    const cell = page
      .locator('tr, [role=row]')
      .filter({ hasText: '6061-T6 .020 sheet' })
      .first()
      .locator('[data-cell$=":price"]');
    await cell.dblclick();
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('182.60');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await rollUp('Total')).cost).not.toBe(before.cost);
    const prices = (await read(page, { sheet: 'Prices', row: 0, column: 0, rows: 70, columns: 12 })).flat();
    expect(prices).toContain(182.6);
    await shot('price');
  });

  it('keeps the edits through a reload', async () => {
    const total = await rollUp('Total');
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
    await page.reload();
    await ready(page);
    expect(await readOne(page, 'Parts', 5, 4)).toBe(0.05);
    expect(await rollUp('Total')).toEqual(total);
    await shot('reloaded');
  });

  it('saves the workbook as a file, and opens it again', async () => {
    const total = await rollUp('Total');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as .xlsx' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('wing.xlsx');
    const file = join(shots, 'saved.xlsx');
    await download.saveAs(file);
    const weights = readWorkbook(readFileSync(file)).sheets.find(({ name }) => name === 'Weights')!;
    expect(weights.cells.find((row) => row?.[0]?.value === 'Total')?.[1]?.value).toBeCloseTo(total.weight, 9);
    // By its bytes: a browser without a locale finds no path with other letters than English ones.
    await openBytes(page, 'saved.xlsx', readFileSync(file));
    expect(await readOne(page, 'Parts', 5, 4)).toBe(0.05);
    expect((await rollUp('Total')).weight).toBeCloseTo(total.weight, 9);
    await shot('reopened');
  });

  it('saves a copy for those who have no Tarebook', async () => {
    const total = await rollUp('Total');
    await page.getByRole('button', { name: 'More …' }).click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /^Save as values/ }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('saved values.xlsx');
    const file = join(shots, 'values.xlsx');
    await download.saveAs(file);
    const { sheets } = readWorkbook(readFileSync(file));
    expect(sheets.flatMap(({ cells }) => cells.flat()).filter((cell) => cell?.formula?.includes('TARE.'))).toEqual([]);
    const weights = sheets.find(({ name }) => name === 'Weights')!;
    expect(weights.cells.find((row) => row?.[0]?.value === 'Total')?.[1]?.value).toBeCloseTo(total.weight, 9);
    expect(await page.locator('.notice-place').textContent()).toContain('formulas are values in it');
    // The keyboard is where it was.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('More …');
  });

  it('passes its self-check', async () => {
    const bytes = readFileSync(join(root, 'sample-workbooks', 'self-check.xlsx'));
    await openBytes(page, 'self-check.xlsx', bytes);
    await expect.poll(() => readOne(page, 'Self-check', 2, 1)).toMatch(/^All \d{3} checks pass$/);
  });

  it('keeps to its own origin and has nothing to complain of', () => {
    expect(bench.outside).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});
