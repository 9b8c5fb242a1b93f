/** Finding and replacing, sorting and filtering on the page, by keyboard and mouse, and what other programs see of the saved file. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { chromiumOfPages, python, soffice } from '../helpers/programs';
import { axeFindings } from '../helpers/axe';
import { read, readOne, ready, shots, benchForTests, type BenchBrowser } from '../helpers/bench-page';
import '../../src/hosts/bench/window';

const executable = chromiumOfPages();
const PYTHON = python('openpyxl', 'xlsxwriter');
const OFFICE = soffice();

describe.skipIf(!executable)('lists on the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-lists-'));
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(async () => {
    await bench?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const shot = (name: string): Promise<Buffer> => page.screenshot({ path: join(shots, `${name}.png`) });
  const select = async (row: number, column: number): Promise<void> => {
    await page.evaluate((range) => window.tarebook!.workbook!.select(range), {
      sheet: 'Parts',
      row,
      column,
      rows: 1,
      columns: 1,
    });
  };
  const panel = (name: string) => page.getByRole('dialog', { name });
  const column = async (index: number, rows = 78) =>
    (await read(page, { sheet: 'Parts', row: 5, column: index, rows, columns: 1 })).flat();
  const settle = () => page.evaluate(() => window.tarebook!.workbook!.settled());

  it('finds with Ctrl+F and goes on with Enter, the keyboard staying in the field', async () => {
    await select(5, 0);
    await page.keyboard.press('Control+f');
    await panel('Find and replace').waitFor();
    await page.keyboard.type('Rear spar clips');
    await page.keyboard.press('Enter');
    await expect.poll(() => panel('Find and replace').getByRole('status').innerText()).toBe('1 of 1: Parts!B25');
    expect(await page.evaluate(() => window.tarebook!.workbook!.selection())).toMatchObject({ row: 24, column: 1 });
    await page.keyboard.press('Control+a');
    await page.keyboard.type('0.020');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => panel('Find and replace').getByRole('status').innerText())
      .toMatch(/^\d+ of \d+: Parts!E\d+$/);
    await shot('find');
    expect(await axeFindings(page, { without: ['.grid', '.pane-root'] })).toEqual([]);
  });

  it('replaces a gauge in all cells that hold it', async () => {
    const before = await column(4);
    const dialog = panel('Find and replace');
    await dialog.getByLabel('Replace with').fill('0.025');
    await dialog.getByLabel('Whole cell').check();
    await dialog.getByRole('button', { name: 'Replace all' }).click();
    await expect.poll(() => dialog.getByRole('status').innerText()).toMatch(/^\d+ cells changed\. \d+ formulas give/);
    await settle();
    const after = await column(4);
    expect(before.filter((gauge) => gauge === 0.02).length).toBeGreaterThan(after.filter((gauge) => gauge === 0.02).length); // prettier-ignore
    await shot('replaced');
    await page.keyboard.press('Escape');
    expect(await dialog.count()).toBe(0);
  });

  it('sorts by the weight, a column that one formula fills', async () => {
    await select(20, 12);
    await page.getByRole('button', { name: 'Find, sort, filter …' }).click();
    await page
      .getByRole('button', { name: /^Sort rows/ })
      .first()
      .click();
    const dialog = panel('Sort');
    expect(await dialog.getByLabel('Sort by').inputValue()).toBe('12');
    await dialog.getByLabel('Order', { exact: true }).selectOption('down');
    await shot('sort-panel');
    expect(await axeFindings(page, { without: ['.grid', '.pane-root'] })).toEqual([]);
    await page.keyboard.press('Enter');
    await dialog.getByRole('button', { name: 'Sort rows' }).click();
    await expect.poll(() => dialog.getByRole('status').innerText()).toMatch(/^78 rows are in order/);
    await settle();
    const weights = (await column(12)) as number[];
    expect(weights).toEqual([...weights].sort((a, b) => b - a));
    await shot('sorted');
    await page.keyboard.press('Escape');
  });

  it('filters one component; totals stay', async () => {
    const total = await readOne(page, 'Weights', 15, 1);
    await select(10, 0);
    await page.keyboard.press('Control+Shift+l');
    const dialog = panel('Filter');
    await dialog.getByRole('button', { name: 'Choose none' }).click();
    await dialog.getByLabel('Ribs').check();
    await shot('filter-panel');
    expect(await axeFindings(page, { without: ['.grid', '.pane-root'] })).toEqual([]);
    await dialog.getByRole('button', { name: 'Show chosen rows' }).click();
    await expect.poll(() => dialog.getByRole('status').innerText()).toMatch(/^69 of 78 rows hidden/);
    expect(await readOne(page, 'Weights', 15, 1)).toBe(total);
    await shot('filtered');
    // The keyboard is where it was, and goes back to the sheet.
    await page.keyboard.press('Escape');
    expect(await dialog.count()).toBe(0);
    await page.keyboard.press('ArrowDown');
    await expect
      .poll(() => page.evaluate(() => window.tarebook!.workbook!.selection()))
      .toMatchObject({ sheet: 'Parts', column: 0 });
    await shot('filtered-closed');
  });

  it('opens the filter of a heading with Alt+Down', async () => {
    await select(4, 9);
    await page.waitForTimeout(300);
    await page.keyboard.press('Alt+ArrowDown');
    await panel('Filter').waitFor();
    await expect.poll(() => panel('Filter').getByLabel('Column').inputValue()).toBe('9');
    await page.keyboard.press('Escape');
  });

  it('saves all of it, as other programs see', { timeout: 180_000 }, async () => {
    const waiting = page.waitForEvent('download');
    await page.getByRole('button', { name: /Save as .xlsx/ }).click();
    const bytes = new Uint8Array(readFileSync(await (await waiting).path()));
    const shown = await column(0);
    const gauges = await column(4);
    const sheet = readWorkbook(bytes).sheets.find(({ name }) => name === 'Parts')!;
    expect(sheet.hiddenRows).toHaveLength(69);
    if (PYTHON) {
      const path = join(folder, 'saved.xlsx');
      writeFileSync(path, bytes);
      const script = fileURLToPath(new URL('../hosts/univer/filter.py', import.meta.url));
      const done = spawnSync(PYTHON, [script, 'read', path, 'Parts'], { encoding: 'utf8' });
      const seen = JSON.parse(done.stdout) as { ref: string; columns: object; hidden: number[]; cells: unknown[][] };
      expect(seen).toMatchObject({ ref: 'A5:S83', columns: { 0: ['Ribs'] } });
      expect(seen.hidden).toEqual(sheet.hiddenRows!.map((row) => row + 1));
      expect(seen.cells.slice(5, 83).map((line) => line[0])).toEqual(shown);
    }
    if (OFFICE) {
      const theirs = readWorkbook(recalculatedByLibreOffice(OFFICE, bytes)).sheets.find(
        ({ name }) => name === 'Parts',
      )!;
      expect(theirs.hiddenRows).toEqual(sheet.hiddenRows);
      const column4 = theirs.cells.slice(5, 83).map((line) => line[4]?.value ?? null);
      expect(column4).toEqual(gauges);
      expect(theirs.cells.slice(5, 83).map((line) => line[0]?.value)).toEqual(shown);
    }
  });

  it('keeps what is being typed when the panel is opened', async () => {
    // From the bar's button to the sheet.
    await page.keyboard.press('F6');
    await select(90, 1);
    await page.waitForTimeout(300);
    await page.keyboard.type('half typed');
    await page.keyboard.press('Control+f');
    await panel('Find and replace').waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => readOne(page, 'Parts', 90, 1)).toBe('half typed');
    await page.keyboard.press('Control+z');
    await expect.poll(() => readOne(page, 'Parts', 90, 1)).toBe(null);
  });

  it('says its words in German where the page does', async () => {
    const german = await bench.context.newPage();
    await german.goto(`${bench.address}?language=de`);
    await ready(german);
    await german.getByRole('button', { name: 'Suchen, sortieren, filtern …' }).click();
    await german.getByRole('button', { name: /^Zeilen sortieren/ }).click();
    await german.getByRole('dialog', { name: 'Sortieren' }).waitFor();
    await german.screenshot({ path: join(shots, 'sort-german.png') });
    await german.close();
  });

  it('complains of nothing and asks nobody outside', () => {
    expect(bench.complaints).toEqual([]);
    expect(bench.outside).toEqual([]);
  });
});
