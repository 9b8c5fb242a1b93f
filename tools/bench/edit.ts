/** One edit, typed in the grid of the bench with 20,000 rows open, until the roll-up on another sheet follows and a frame is painted. */
import { chromium } from '../../tests/helpers/programs';
import { openBytes, startBench, typeInto } from '../../tests/browser/bench-page';
import { writeWorkbook } from '../../src/xlsx';
import { bigList, COLUMN, HEAD_ROWS, TOTAL_ROW } from './big-list';
import { bestOf, type Measure, type Part } from './measure';
import '../../src/hosts/bench/window';

const ROWS = 20_000;
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
    const bench = await startBench(executable, process.cwd());
    try {
      const page = await bench.open();
      page.setDefaultTimeout(WAIT_MS);
      say(`opening ${ROWS.toLocaleString('en-US')} rows, ${words}`);
      const started = performance.now();
      await openBytes(page, `${form}.xlsx`, bytes, WAIT_MS);
      measures.push({ part: 'edit', name: `opening and calculating, ${words}`, value: (performance.now() - started) / 1000, unit: 's' });
      await page.evaluate((total) => {
        const weight = async (): Promise<unknown> => (await window.tarebook!.workbook!.read({ sheet: 'Weights', row: total, column: 1, rows: 1, columns: 1 }))[0]![0];
        let before: unknown;
        void weight().then((value) => (before = value));
        addEventListener('keydown', ({ key }) => key === 'Enter' && performance.mark('typed'), true);
        window.tarebook!.workbook!.onChange(async () => {
          const now = await weight();
          if (now === before) return;
          before = now;
          // The value is in the workbook: the next frame paints it, and the one after that has painted it.
          requestAnimationFrame(() => requestAnimationFrame(() => performance.mark('visible')));
        });
      }, TOTAL_ROW);
      let quantity = 20;
      const once = async (): Promise<number> => {
        await page.evaluate(() => performance.clearMarks());
        await typeInto(page, 'Parts', HEAD_ROWS + 8, COLUMN.quantity, String((quantity += 1)));
        await page.waitForFunction(() => performance.getEntriesByName('visible').length > 0);
        return page.evaluate(() => performance.getEntriesByName('visible')[0]!.startTime - performance.getEntriesByName('typed')[0]!.startTime);
      };
      const best = await bestOf(runs + 1, once, (time) => time);
      measures.push({ part: 'edit', name: `one edit, ${words}`, value: best, unit: 'ms', ...(form === 'columns' ? { bar: { most: MOST_MS, of: 'value' } } : {}) });
    } finally {
      await bench.close();
    }
  }
  return measures;
};
