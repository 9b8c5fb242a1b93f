/** What a file has beside its cells is seen on the bench, and its saved form is not changed by that. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readExtras } from '../../src/xlsx/extras/read';
import { made, withThread } from '../xlsx/extras/made';
import { changedParts } from '../xlsx/parts';
import { openBytes, shots, startBench, type BenchBrowser } from '../helpers/bench-page';
import { chromium, python } from '../helpers/programs';

const executable = chromium();
const withOpenpyxl = python('openpyxl');

const select = (page: Page, row: number, column: number, sheet = 'Parts') =>
  page.evaluate((range) => window.tarebook!.workbook!.select(range), { sheet, row, column, rows: 1, columns: 1 });

/** The colour of a dot of the page, from a picture of it. */
async function colorsIn(page: Page, clip: { x: number; y: number; width: number; height: number }): Promise<string[]> {
  const shot = await page.screenshot({ clip });
  return page.evaluate(
    async (bytes) => {
      const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)]));
      const context = new OffscreenCanvas(picture.width, picture.height).getContext('2d')!;
      context.drawImage(picture, 0, 0);
      const { data } = context.getImageData(0, 0, picture.width, picture.height);
      const found = new Set<string>();
      for (let at = 0; at < data.length; at += 4)
        found.add(`#${[...data.subarray(at, at + 3)].map((part) => part.toString(16).padStart(2, '0')).join('')}`);
      return [...found];
    },
    [...shot],
  );
}

/** Where a cell of a sheet with usual widths and heights is on the page. */
async function boxOf(page: Page, row: number, column: number) {
  const { x, y } = (await page.locator('.grid canvas[data-u-comp="render-canvas"]').last().boundingBox())!;
  return { x: x + 46 + column * 88, y: y + 20 + row * 24, width: 88, height: 24 };
}

/** The workbook as the page saves it. */
async function save(page: Page): Promise<Uint8Array> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as .xlsx' }).click(),
  ]);
  return new Uint8Array(readFileSync(await download.path()));
}

describe.skipIf(!executable || !withOpenpyxl)('notes of a file', () => {
  let bench: BenchBrowser;
  let page: Page;
  const bytes = withThread(made(withOpenpyxl!, 'openpyxl-notes'), 'A3');
  beforeAll(async () => {
    bench = await startBench(executable!);
    page = await bench.open();
    await openBytes(page, 'notes.xlsx', bytes);
  });
  afterAll(() => bench?.close());
  const status = () => page.getByRole('status', { name: 'Note' });

  it('are told of the selected cell, in one line and whole on a button that F6 reaches', async () => {
    await select(page, 2, 0);
    await expect.poll(() => status().textContent()).toBe('A3 note: Ann: Is this drilled?\nBen: Yes, #40');
    await page.screenshot({ path: join(shots, 'notes.png') });
  });

  it('have a mark in the corner of their cell', async () => {
    const corner = async (row: number, column: number) => {
      const { x, y, width } = await boxOf(page, row, column);
      return colorsIn(page, { x: x + width - 5, y: y + 2, width: 3, height: 3 });
    };
    expect(await corner(5, 1)).toContain('#107284');
    expect(await corner(4, 1)).not.toContain('#107284');
  });

  it('are shown beside the pointer as plain text, until Escape or another cell', async () => {
    const over = async (row: number, column: number) => {
      const { x, y } = await boxOf(page, row, column);
      await page.mouse.move(x + 20, y + 10);
      await page.mouse.move(x + 22, y + 12);
    };
    const card = page.getByRole('tooltip').filter({ hasText: /\S/ });
    await over(5, 1);
    await expect.poll(() => card.allTextContents()).toEqual(['Ann:\ndrilled #40']);
    await page.screenshot({ path: join(shots, 'note-hovered.png') });
    await page.keyboard.press('Escape');
    await expect.poll(() => card.count()).toBe(0);
    await over(4, 1);
    await over(2, 0);
    await expect.poll(() => card.allTextContents()).toEqual(['Ann: Is this drilled?\nBen: Yes, #40']);
    await over(3, 0);
    await expect.poll(() => card.count()).toBe(0);
  });

  it('are shown whole from the keyboard', async () => {
    await select(page, 5, 1);
    const button = page.getByRole('button', { name: 'Show note' });
    await button.waitFor();
    await page.getByRole('button', { name: 'Hide pane' }).focus();
    await page.keyboard.press('Shift+F6');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Show note');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'Note of B6' }).waitFor();
    await page.screenshot({ path: join(shots, 'note-whole.png') });
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Show note');
  });

  it('move with rows that go, and back when that is undone, and stand so in the saved file', async () => {
    const { x, y } = await boxOf(page, 1, 0);
    await page.mouse.click(x - 20, y + 10);
    await page.mouse.click(x - 20, y + 10, { button: 'right' });
    await page.getByText('Delete Selected Row').click();
    await select(page, 4, 1);
    await expect.poll(() => status().textContent()).toBe('B5 note: Ann:\ndrilled #40');
    const saved = await save(page);
    expect(
      readExtras(saved)
        .get('Parts')!
        .notes.map(({ row }) => row),
    ).toEqual([1, 4]);
    await page.evaluate(() => window.tarebook!.workbook!.undo());
    await select(page, 5, 1);
    await expect.poll(() => status().textContent()).toBe('B6 note: Ann:\ndrilled #40');
  });

  it('leave the file as it was, and no request leaves the page', async () => {
    expect(changedParts(bytes, await save(page))).toEqual([]);
    expect(bench.outside).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});
