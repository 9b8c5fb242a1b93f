import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { labelIn } from '../../../../src/core/quantity';
import type { Cell, WorkbookModel } from '../../../../src/sheet';
import { axeFindings } from '../../../helpers/axe';
import { layoutFaultsAt } from '../../../helpers/layout';
import { chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { rivetBook } from './model';

describe.skipIf(!chromiumPath)('the view Rivets in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (model: WorkbookModel, options: OpenOptions = {}): Promise<void> => {
    page = await pages.open(model, options);
    await page.getByRole('tab', { name: 'Rivets' }).focus();
    await page.keyboard.press('End');
    while ((await page.evaluate(() => document.activeElement?.textContent)) !== 'Rivets')
      await page.keyboard.press('ArrowLeft');
    await page.getByRole('heading', { name: 'Options', level: 2 }).waitFor();
  };
  const read = (sheet: string, row: number, column: number): Promise<Cell> =>
    page.evaluate(
      async ([name, r, c]) =>
        (await window.handles.workbook.read({ sheet: name, row: r, column: c, rows: 1, columns: 1 }))[0]![0]!,
      [sheet, row, column] as const,
    );

  it.each([
    [320, 'light'],
    [350, 'contrast'],
    [600, 'dark'],
  ] as const)('at %d pixels, %s: axe finds nothing and nothing is cut off', async (width, theme) => {
    await open(rivetBook({ options: true }), { width, theme });
    expect(await axeFindings(page)).toEqual([]);
    expect(await layoutFaultsAt(page, [width], '#view-rivets')).toEqual([]);
  });

  it('by keyboard alone: adds the sheet, shows another option, sets a labour rate, mixes a joint, takes it back', async () => {
    await open(rivetBook());
    await page.getByRole('button', { name: 'Add the sheet Rivet options' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('status').getByText('Added the sheet Rivet options').waitFor();

    await page.getByRole('button', { name: 'Solid 1/8', exact: true }).focus();
    await page.keyboard.press('Space');
    await page.getByRole('heading', { name: 'Solid 1/8' }).waitFor();
    const refused = page.getByText(/Cannot be used at Tip: Tip cap: only one side/);
    // 3/32 and 1/8.
    expect(await refused.count()).toBe(2);

    await page.getByLabel('Labour rate (an hour)').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('twelve');
    await page.keyboard.press('Enter');
    expect(await page.getByText('“twelve” is not a number').count()).toBe(1);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('12');
    await page.keyboard.press('Enter');
    await expect.poll(() => read('Rivet options', 4, 1)).toBe(12);

    await page.getByLabel('Rivets of Tip: Tip cap').focus();
    await page.keyboard.type('blind AA');
    await page.keyboard.press('Enter');
    await expect.poll(() => refused.count()).toBe(1);
    expect(await read('Rivet options', 14, 4)).toBe('Tip: Tip cap');

    await page.getByRole('button', { name: 'Undo' }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => refused.count()).toBe(2);
  });

  it('adds a line to a list, says what is wrong with it, and removes it again', async () => {
    await open(rivetBook({ options: true }));
    const lines = page.getByRole('button', { name: /^Remove / });
    const before = await lines.count();
    await page.getByRole('button', { name: 'Add tool' }).click();
    expect(await lines.count()).toBe(before + 1);
    await page.keyboard.type('Test squeezer');
    await page.keyboard.press('Enter');
    const tool = page.getByRole('group', { name: 'Test squeezer' });
    await tool.waitFor();
    await tool.getByLabel(/^Tool price/).fill('dear');
    await page.keyboard.press('Enter');
    expect(await tool.getByText('“dear” is not a number').count()).toBe(1);
    await tool.getByLabel(/^Tool price/).fill('45');
    await page.keyboard.press('Enter');
    await expect.poll(() => tool.getByText('“dear” is not a number').count()).toBe(0);
    await page.getByRole('button', { name: 'Remove Test squeezer' }).click();
    await page.getByRole('status').getByText('Removed Test squeezer. Undo brings it back.').waitFor();
    await expect.poll(() => lines.count()).toBe(before);
  });

  it('picks an option by its point, with the arrow keys', async () => {
    await open(rivetBook());
    const points = page.locator('#view-rivets [data-pick]');
    await points.first().focus();
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Blind, steel stem' }).waitFor();
  });

  it('is in kilograms and millimetres where the joints are, and in the numbers of the place', async () => {
    const book = rivetBook();
    const joints = book.sheets.find(({ name }) => name === 'Joints')!;
    const [title, labels, ...rows] = joints.cells;
    const inches = labels!.map((cell) => String(cell?.value).endsWith('(in)'));
    const metric = [
      title!,
      labels!.map((cell) => ({ value: labelIn(String(cell?.value), 'mm-kg') })),
      ...rows.map((line) =>
        line.map((cell, column) =>
          inches[column] && typeof cell?.value === 'number' ? { value: cell.value * 25.4 } : cell,
        ),
      ),
    ];
    await open(
      { ...book, sheets: book.sheets.map((sheet) => (sheet === joints ? { ...sheet, cells: metric } : sheet)) },
      { locale: { language: 'en', numbers: 'de-DE' } },
    );
    await page.getByRole('columnheader', { name: 'Installed (kg)' }).first().waitFor();
    const text = await page.locator('#view-rivets').innerText();
    expect(text).not.toMatch(/\d lb\b|\(lb\)|\d in\b/);
    expect(text).toMatch(/as bought 0,\d+ kg/);
  });
});
