/** What a file has beside its cells is seen on the bench, and its saved form is not changed by that. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readExtras } from '../../src/xlsx/extras/read';
import { made, withThread } from '../xlsx/extras/made';
import { changedParts, partOf } from '../xlsx/parts';
import { axeFindings } from '../helpers/axe';
import { openBytes, readOne, ready, shots, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';
import { chromiumOfPages, python } from '../helpers/programs';

const executable = chromiumOfPages();
const withOpenpyxl = python('openpyxl');
const withXlsxwriter = python('xlsxwriter');

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

let bench: BenchBrowser;
let page: Page;
beforeAll(async () => {
  if (!executable) return;
  bench = await benchForTests(executable);
  page = await bench.open();
});
afterAll(() => bench?.close());

describe.skipIf(!executable || !withOpenpyxl)('notes of a file', () => {
  const bytes = withThread(made(withOpenpyxl, 'openpyxl-notes'), 'A3');
  beforeAll(() => openBytes(page, 'notes.xlsx', bytes));
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

  it('are there again when the page is loaded anew', async () => {
    // What was taken back is kept first.
    await ready(page);
    await page.reload();
    await ready(page);
    await select(page, 5, 1);
    await expect.poll(() => status().textContent()).toBe('B6 note: Ann:\ndrilled #40');
  });

  it('leave the file as it was, and no request leaves the page', async () => {
    expect(changedParts(bytes, await save(page))).toEqual([]);
    expect(bench.outside).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});

describe.skipIf(!executable || !withXlsxwriter)('conditional formats of a file', () => {
  const bytes = made(withXlsxwriter, 'xlsxwriter-conditions');
  beforeAll(() => openBytes(page, 'conditions.xlsx', bytes));

  /** Near the lower edge, beside the text. */
  const inCell = async (row: number, column: number, at = 0.3) => {
    const { x, y, width } = await boxOf(page, row, column);
    return colorsIn(page, { x: x + width * at, y: y + 17, width: 2, height: 2 });
  };

  it('fill cells, draw bars from the start of the cell and signs beside the text', async () => {
    await expect.poll(() => inCell(4, 0)).toEqual(['#ff0000']);
    expect(await inCell(2, 0)).toEqual(['#ff8080']);
    expect(await inCell(2, 1)).toEqual(['#ffff00']);
    expect(await inCell(0, 5)).toEqual(['#ffffff']);
    expect(await inCell(1, 5)).toEqual(['#ffeedd']);
    // A bar of half the cell, over which the sheet shows through.
    const [bar] = await inCell(2, 3, 0.4);
    expect(bar).not.toBe('#ffffff');
    expect(await inCell(2, 3, 0.6)).toEqual(['#ffffff']);
    await page.screenshot({ path: join(shots, 'conditions.png') });
  });

  it('follow what is typed', async () => {
    await typeInto(page, 'Parts', 0, 5, '30');
    await expect.poll(() => inCell(0, 5)).toEqual(['#ffeedd']);
    await page.keyboard.press('Control+z');
    await expect.poll(() => inCell(0, 5)).toEqual(['#ffffff']);
  });

  it('are no part of what is copied, or saved', async () => {
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await select(page, 1, 5);
    await page.keyboard.press('Control+c');
    await page.waitForTimeout(300);
    await select(page, 1, 8);
    await page.keyboard.press('Control+v');
    await expect.poll(() => readOne(page, 'Parts', 1, 8)).toBe(25);
    await page.waitForTimeout(300);
    expect(await inCell(1, 8)).toEqual(['#ffffff']);
    const saved = await save(page);
    const styles = partOf(saved, 'xl/styles.xml').replace(/<dxfs.*<\/dxfs>/, '');
    expect(styles).not.toMatch(/<b\/>|9C0006|FFEEDD/i);
    expect(partOf(saved, 'xl/worksheets/sheet1.xml')).toMatch(/<c r="I2"[^>]*><v>25<\/v>/);
    expect(bench.complaints).toEqual([]);
  });
});

describe.skipIf(!executable || !withOpenpyxl)('links of a file', () => {
  const bytes = made(withOpenpyxl, 'openpyxl-links');
  beforeAll(async () => {
    // What is opened is to be seen, and not to be fetched.
    await bench.context.route(/example\.org/, (route) => route.fulfill({ body: 'a page' }));
    await openBytes(page, 'links.xlsx', bytes);
  });
  const status = () => page.getByRole('status', { name: 'Note' });
  const question = () => page.getByRole('dialog');

  it('look like links, in their own colour where they have one', async () => {
    const inText = async (row: number) => {
      const { x, y, width, height } = await boxOf(page, row, 0);
      return colorsIn(page, { x: x + 1, y: y + 2, width: width / 2, height: height - 4 });
    };
    await expect.poll(() => inText(1)).toContain('#0b5cad');
    await page.screenshot({ path: join(shots, 'links.png') });
    expect(await inText(7)).toContain('#aa0000');
    expect(await inText(8)).not.toContain('#0b5cad');
  });

  it('are followed to pages after asking, with the whole address, in a tab that knows nothing of this one', async () => {
    await select(page, 0, 0);
    await expect.poll(() => status().textContent()).toBe('A1 link: https://example.org/a?b=1&c=2');
    await page.getByRole('button', { name: 'Hide pane' }).focus();
    await page.keyboard.press('Shift+F6');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Open link');
    await page.keyboard.press('Enter');
    await expect.poll(() => question().textContent()).toContain('https://example.org/a?b=1&c=2');
    expect(await axeFindings(page)).toEqual([]);
    await page.screenshot({ path: join(shots, 'link-question.png') });
    await page.keyboard.press('Escape');
    await expect.poll(() => question().count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Open link');
    await page.keyboard.press('Enter');
    const [opened] = await Promise.all([
      bench.context.waitForEvent('page'),
      question().getByRole('link', { name: 'Open in a new tab' }).press('Enter'),
    ]);
    await opened.waitForLoadState();
    expect(opened.url()).toBe('https://example.org/a?b=1&c=2');
    expect(await opened.evaluate(() => [window.opener, document.referrer])).toEqual([null, '']);
    await opened.close();
    expect(await question().count()).toBe(0);
  });

  it('of formulas lead where the formula says', async () => {
    await select(page, 7, 0);
    await expect.poll(() => status().textContent()).toBe('A8 link: https://example.org/rib');
  });

  it('lead to places of the workbook', async () => {
    for (const row of [2, 6]) {
      await select(page, row, 0);
      await page.getByRole('button', { name: 'Go to link' }).click();
      await expect
        .poll(() => page.evaluate(() => window.tarebook!.workbook!.selection()))
        .toEqual({ sheet: 'My list', row: 2, column: 1, rows: 1, columns: 1 });
    }
  });

  it('are refused with a reason where they lead to scripts, files and what is not there', async () => {
    const reasons: [row: number, says: string][] = [
      [3, 'Links that begin with javascript: are not opened here'],
      [4, 'It leads to a file.'],
      [5, 'There is no sheet Gone'],
    ];
    for (const [row, says] of reasons) {
      await select(page, row, 0);
      await page.getByRole('button', { name: 'Open link' }).click();
      await expect.poll(() => question().textContent()).toContain(says);
      expect(await question().getByRole('link').count()).toBe(0);
      await question().getByRole('button', { name: 'Close' }).click();
    }
    expect(bench.context.pages().filter((one) => one.url() !== 'about:blank').length).toBe(1);
    expect(bench.complaints).toEqual([]);
  });
});

describe.skipIf(!executable || !withXlsxwriter)('pictures and charts of a file', () => {
  const bytes = made(withXlsxwriter, 'xlsxwriter-drawings');
  beforeAll(() => openBytes(page, 'drawings.xlsx', bytes));
  const line = () => page.getByRole('status', { name: 'On this sheet' });
  const dot = async (row: number, column: number, across = 40) => {
    const { x, y } = await boxOf(page, row, column);
    return colorsIn(page, { x: x + across, y: y + 12, width: 2, height: 2 });
  };

  it('are counted in words, and pictures are drawn where they lie', async () => {
    await expect
      .poll(() => line().textContent())
      .toBe('2 charts and 1 picture on this sheet. The file keeps them; charts and shapes show as frames.');
    await expect.poll(() => dot(3, 7)).toEqual(['#3366cc']);
    await page.screenshot({ path: join(shots, 'drawings.png') });
    // A chart's frame leaves the cells below to be read.
    expect(await dot(4, 4, 30)).toEqual(['#ffffff']);
    const { x, y } = await boxOf(page, 1, 3);
    expect(await colorsIn(page, { x: x + 1, y: y + 2, width: 4, height: 4 })).toContain('#5f7a84');
  });

  it('scroll with the sheet', async () => {
    const { x, y } = await boxOf(page, 10, 1);
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, 48);
    await expect.poll(() => dot(1, 7)).toEqual(['#3366cc']);
    await page.screenshot({ path: join(shots, 'drawings-scrolled.png') });
    await page.mouse.wheel(0, -400);
    await expect.poll(() => dot(3, 7)).toEqual(['#3366cc']);
  });

  it('leave clicks to the cells below, and the keyboard alone', async () => {
    const { x, y } = await boxOf(page, 3, 7);
    await page.mouse.click(x + 20, y + 10);
    await expect
      .poll(() => page.evaluate(() => window.tarebook!.workbook!.selection()))
      .toMatchObject({ row: 3, column: 7, rows: 1, columns: 1 });
  });

  it('are not told of on a sheet that has none', async () => {
    await select(page, 0, 0, 'Other');
    await expect.poll(() => line().textContent()).toBe('');
    await select(page, 0, 0);
    await expect.poll(() => line().textContent()).toContain('2 charts');
  });

  it('stand in the saved file byte for byte', async () => {
    expect(changedParts(bytes, await save(page))).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});
