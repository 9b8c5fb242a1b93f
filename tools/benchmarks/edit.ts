/** One edit, typed in the grid of the bench with 20,000 rows open, until the roll-up on another sheet follows and a frame is painted. */
import type { Page } from 'playwright-core';
import { chromium } from '../../tests/helpers/programs';
import { openBytes, startBench, typeInto } from '../../tests/helpers/bench-page';
import { writeWorkbook } from '../../src/xlsx';
import { bigList, COLUMN, HEAD_ROWS, TOTAL_ROW } from './big-list';
import { bestOf, type Measure, type Part } from './measure';
import '../../src/hosts/bench/window';

const ROWS = 20_000;
/** From 0; seen without scrolling. */
const EDITED_ROW = HEAD_ROWS + 8;
const MOST_MS = 500;
const WAIT_MS = 600_000;
const FORMS = [
  { form: 'columns', words: 'one formula a column' },
  { form: 'cells', words: 'one formula a cell' },
] as const;

export const edit: Part = async ({ runs, say }) => {
  const executable = chromium();
  if (executable === undefined) return [];
  const measures: Measure[] = [];
  for (const { form, words } of FORMS) {
    const bytes = await writeWorkbook(bigList(ROWS, form));
    const bench = await startBench(executable, process.cwd(), false);
    try {
      const page = await bench.open();
      page.setDefaultTimeout(WAIT_MS);
      say(`opening ${ROWS.toLocaleString('en-US')} rows, ${words}`);
      const started = performance.now();
      await openBytes(page, `${form}.xlsx`, bytes, WAIT_MS);
      measures.push({
        part: 'edit',
        name: `opening and calculating, ${words}`,
        value: (performance.now() - started) / 1000,
        unit: 's',
      });
      await watchTotal(page);
      let quantity = 20;
      const once = (): Promise<number> => edited(page, (quantity += 1));
      const best = await bestOf(runs + 1, once, (time) => time);
      measures.push({
        part: 'edit',
        name: `one edit, ${words}`,
        value: best,
        unit: 'ms',
        bar: { most: MOST_MS, of: 'value' },
      });
    } finally {
      await bench.close();
    }
  }
  return measures;
};

declare global {
  interface Window {
    /** The total weight that the next edit has to lead to; undefined while none is awaited. */
    awaited?: number;
  }
}

/** Marks the moment of the key and the moment at which the total that is awaited has been painted. */
export const watchTotal = (page: Page): Promise<void> =>
  page.evaluate((total) => {
    const { workbook } = window.tarebook!;
    addEventListener('keydown', ({ key }) => key === 'Enter' && performance.mark('key'), true);
    // oxlint-disable-next-line typescript/no-misused-promises -- nobody waits for a listener
    workbook!.onChange(async () => {
      if (window.awaited === undefined) return;
      const now = Number(
        (await workbook!.read({ sheet: 'Weights', row: total, column: 1, rows: 1, columns: 1 }))[0]![0],
      );
      if (window.awaited === undefined || Math.abs(now - window.awaited) > 1e-9 * now) return;
      window.awaited = undefined;
      // The value is in the workbook: the next frame paints it, and the one after that has painted it.
      requestAnimationFrame(() => requestAnimationFrame(() => performance.mark('total painted')));
    });
  }, TOTAL_ROW);

/** Types a quantity into a row of the list; the time from the key to the roll-up's new total on the screen, ms. */
export async function edited(page: Page, quantity: number): Promise<number> {
  await page.evaluate(
    async ([row, total, wanted, columns]) => {
      const { workbook } = window.tarebook!;
      await workbook!.settled();
      const one = async (sheet: string, at: number, column: number): Promise<number> =>
        Number((await workbook!.read({ sheet, row: at, column, rows: 1, columns: 1 }))[0]![0]);
      const weight = await one('Parts', row, columns.weight);
      window.awaited =
        (await one('Weights', total, 1)) - weight + (weight / (await one('Parts', row, columns.quantity))) * wanted;
      performance.clearMarks();
    },
    [EDITED_ROW, TOTAL_ROW, quantity, COLUMN] as const,
  );
  await typeInto(page, 'Parts', EDITED_ROW, COLUMN.quantity, String(quantity));
  await page.waitForFunction(() => performance.getEntriesByName('total painted').length > 0);
  return page.evaluate(
    () =>
      performance.getEntriesByName('total painted')[0]!.startTime - performance.getEntriesByName('key')[0]!.startTime,
  );
}
