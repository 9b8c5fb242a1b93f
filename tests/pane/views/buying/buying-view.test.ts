import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { WorkbookModel } from '../../../../src/sheet';
import { axeFindings } from '../../../helpers/axe';
import { layoutFaultsAt } from '../../../helpers/layout';
import { chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { buyingBook } from './model';

describe.skipIf(!chromiumPath)('the view Buying in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (model: WorkbookModel, options: OpenOptions = {}): Promise<void> => {
    page = await pages.open(model, options);
    await page.getByRole('tab', { name: 'Prices' }).focus();
    await page.keyboard.press('End');
    while ((await page.evaluate(() => document.activeElement?.textContent)) !== 'Buying')
      await page.keyboard.press('ArrowLeft');
    await page.getByRole('heading', { name: 'Cutting plan', level: 2 }).waitFor();
  };
  const makePlan = async (): Promise<void> => {
    await page.getByRole('button', { name: 'Make the plan' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Save as DXF' }).waitFor({ timeout: 30_000 });
  };
  const inWorkers = (): number => page.workers().length;

  it.each([
    [320, 'light'],
    [350, 'contrast'],
    [600, 'dark'],
  ] as const)('at %d pixels, %s: axe finds nothing and nothing is cut off', async (width, theme) => {
    await open(buyingBook({ bought: true, stock: true }), { width, theme });
    await makePlan();
    await page.locator('#view-buying summary').first().focus();
    await page.keyboard.press('Enter');
    const shots = process.env.SHOTS;
    if (shots) {
      await page.setViewportSize({ width, height: 2600 });
      await page.screenshot({ path: `${shots}/buying-${width}.png` });
    }
    expect(await axeFindings(page)).toEqual([]);
    expect(await layoutFaultsAt(page, [width], '#view-buying')).toEqual([]);
  });

  it('by keyboard alone: adds a sheet, makes a plan in a worker, saves it, takes the sheet back', async () => {
    await open(buyingBook());
    await page.getByRole('button', { name: 'Add the sheet Buying' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('status').getByText('Added the sheet Buying').waitFor();
    let workers = 0;
    page.on('worker', () => (workers += 1));
    await makePlan();
    expect(workers).toBe(1);
    expect(inWorkers()).toBe(0);
    await page.getByRole('button', { name: 'Save as CSV' }).focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => window.handles.saved.map(({ name }) => name))).toEqual([
      'cutting-plan-6061-t6-0.025-in.csv',
    ]);
    await page.getByRole('button', { name: 'Undo' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Add the sheet Buying' }).waitFor();
  });

  it('by keyboard alone: counts by the plan, puts the leftovers on the shelf after asking, and takes them back', async () => {
    await open(buyingBook({ stock: true }));
    expect(await page.getByText(/2 sheets by the plan/).count()).toBe(0);
    await makePlan();
    await page.getByText(/2 sheets by the plan/).waitFor();
    const press = async (name: string): Promise<void> => {
      await page.getByRole('button', { name, exact: true }).focus();
      await page.keyboard.press('Enter');
    };
    const focused = (): Promise<string | null | undefined> => page.evaluate(() => document.activeElement?.textContent);
    await press('Put the leftovers on the shelf');
    await page.getByText(/Has this plan been cut/).waitFor();
    expect(await focused()).toBe('Not yet');
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await expect.poll(focused).toBe('Put the leftovers on the shelf');
    await page.keyboard.press('Enter');
    await press('It is cut: change the sheet Stock');
    await page
      .getByRole('status')
      .getByText(/put on the shelf, 1 piece taken off/)
      .waitFor();
    expect(await focused()).toContain('This plan has been cut');
    await page.getByText(/2 sheets by the plan/).waitFor();
    await press('Undo');
    await page.getByRole('button', { name: 'Put the leftovers on the shelf' }).waitFor();
  });

  it('makes the plan beside the pane where no worker is to be had', async () => {
    await open(buyingBook(), { workers: false });
    await makePlan();
    expect(await page.getByText(/This is the cheapest plan of its kind: 194\.40 USD/).count()).toBe(1);
  });
});
