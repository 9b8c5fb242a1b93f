/** What if over a few thousand rows on the bench: in a worker, with the outcome of calculating it here. */
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { recalculateCopy } from '../../src/calculation/recalculate-copy';
import { figures } from '../../src/pane/views/weights/weight-figures';
import { Trial } from '../../src/pane/views/weights/what-if/trial';
import { writeWorkbook } from '../../src/xlsx';
import { bigList } from '../../tools/benchmarks/big-list';
import { benchForTests, openBytes, openWithWorkers, type BenchBrowser } from '../helpers/bench-page';
import { chromiumOfPages } from '../helpers/programs';
import { blindWorkbook, copyOf } from '../pane/views/weights/blind-workbook';

const executable = chromiumOfPages();
const ROWS = 3000;

describe.skipIf(!executable)('what if on the bench', () => {
  let bench: BenchBrowser;
  let bytes: Uint8Array;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    bytes = await writeWorkbook(bigList(ROWS, 'cells'));
  });
  afterAll(() => bench?.close());
  let page: Page | undefined;
  afterEach(async ({ task }) => {
    if (task.result?.state !== 'fail') return;
    await page?.close();
    page = undefined;
  });

  const open = async (): Promise<Page> => {
    page ??= await openWithWorkers(bench);
    await openBytes(page, 'long.xlsx', bytes);
    // The one that calculates the sheet goes on.
    await page.evaluate(() => void (window.workers = []));
    await page.getByRole('tablist', { name: 'Views' }).getByRole('tab', { name: 'Weights' }).click();
    await page.getByRole('tab', { name: 'What if' }).click();
    await page.getByLabel('All of a component').selectOption('Flap');
    await page.getByLabel('Thickness (in)').waitFor();
    return page;
  };
  /** Beside the one that calculates the sheet. */
  const others = (page: Page): number => page.workers().length - 1;
  const worked = (page: Page): Promise<void> =>
    page
      .getByRole('button', { name: /^Apply \(/ })
      .and(page.locator(':enabled'))
      .waitFor({ timeout: 60_000 });
  const figuresOf = (page: Page): Promise<string[][]> =>
    page
      .getByRole('table', { name: 'Before and after' })
      .getByRole('row')
      .evaluateAll((rows) => rows.map((row) => [...row.children].map(({ textContent }) => textContent)));

  it('gives the outcome of calculating it here, of what was typed last, and leaves no worker behind', async () => {
    const trial = Trial.of(await copyOf(blindWorkbook(bigList(ROWS, 'cells'))), recalculateCopy)!;
    const rows = trial.standing.weights.components.find(({ name }) => name === 'Flap')!.rows;
    const { picked, standing, swap } = trial.outcome({ rows, thickness: 0.05, atSource: true, keepWeighed: false });
    const page = await open();
    await page.getByLabel('Thickness (in)').pressSequentially('.0505', { delay: 30 });
    await page.keyboard.press('Backspace');
    await page.keyboard.press('Backspace');
    await worked(page);
    const { weight, arm, moment } = figures('in-lb');
    const shown = await figuresOf(page);
    const line = (label: string, last = false): string[] | undefined =>
      shown[last ? 'findLast' : 'find'](([head]) => head === label)?.slice(1, 3);
    expect(line('Weight, lb')).toEqual([picked.before.weight, picked.after.weight].map(weight));
    expect(line('Arm, in')).toEqual([picked.before.arm, picked.after.arm].map(arm));
    expect(line('Moment, lb·in')).toEqual([picked.before.moment, picked.after.moment].map(moment));
    const { before, after } = standing;
    expect(line('Weight, lb', true)).toEqual([before.summary.total.weight, after.summary.total.weight].map(weight));
    expect(await page.getByRole('button', { name: `Apply (${swap.changes.length} cells)` }).count()).toBe(1);
    expect(others(page)).toBe(1);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect.poll(() => others(page)).toBe(0);
    expect(await page.evaluate(() => window.workers.length)).toBe(1);
  }, 120_000);

  it('is cancelled while it calculates', async () => {
    const page = await open();
    await page.getByLabel('Thickness (in)').fill('.05');
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('Dropped. Nothing was written.').waitFor();
    await expect.poll(() => others(page)).toBe(0);
  }, 120_000);

  it('is worked out by another worker when its own dies without a word', async () => {
    const page = await open();
    await page.getByLabel('Thickness (in)').fill('.05');
    await worked(page);
    await page.getByLabel('Thickness (in)').fill('.04');
    await page.evaluate(() => window.workers[0]!.terminate());
    await page.getByLabel('Thickness (in)').fill('.032');
    await worked(page);
    expect(await page.evaluate(() => window.workers.length)).toBe(2);
    expect(await page.getByText('The calculator could not be loaded.').count()).toBe(0);
    expect(others(page)).toBe(1);
  }, 120_000);
});
