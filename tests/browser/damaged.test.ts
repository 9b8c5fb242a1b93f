/** What the browser keeps, with a part missing or spoiled: it is told, and what is left is opened. */
import { join } from 'node:path';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import { readOne, ready, shots, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';

const executable = chromiumOfPages();

describe.skipIf(!executable)('a kept workbook that is damaged', { timeout: 120_000 }, () => {
  let bench: BenchBrowser;
  let page: Page;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
    await typeInto(page, 'Design', 12, 1, '1/4');
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
  }, 120_000);
  afterAll(() => bench?.close());

  /** Changes the records of a store; undefined takes one out. */
  const spoil = (store: string, how: 'remove' | 'no order' | 'garbage'): Promise<void> =>
    page.evaluate(
      ([name, what]) =>
        new Promise<void>((done, failed) => {
          const opening = indexedDB.open('tarebook-bench');
          opening.onerror = () => failed(new Error(opening.error?.message));
          opening.onsuccess = () => {
            const transaction = opening.result.transaction(name, 'readwrite');
            const cursor = transaction.objectStore(name).openCursor();
            cursor.onsuccess = () => {
              const at = cursor.result;
              if (!at) return;
              const record = at.value as Record<string, unknown>;
              if (what === 'remove') at.delete();
              else at.update(what === 'garbage' ? 42 : { ...record, order: undefined });
              at.continue();
            };
            transaction.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
      [store, how] as const,
    );
  const notice = (): Promise<string | null> => page.locator('.notice-place').textContent();
  const reload = async (): Promise<void> => {
    await page.reload();
    await ready(page);
  };

  it('opens with its edits where the list of its sheets is missing', async () => {
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.25);
    await spoil('workbooks', 'no order');
    await reload();
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.25);
  });

  it('opens with its edits where its file is missing, says so, and is saved as a new file', async () => {
    await spoil('files', 'remove');
    await reload();
    expect(await readOne(page, 'Design', 12, 1)).toBe(0.25);
    expect(await notice()).toMatch(/file that it came from is missing/);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as .xlsx' }).click(),
    ]);
    const file = join(shots, 'recovered.xlsx');
    await download.saveAs(file);
    const design = readWorkbook(readFileSync(file)).sheets.find(({ name }) => name === 'Design')!;
    expect(design.cells[12]?.[1]?.value).toBe(0.25);
  });

  it('is told where nothing of it is left, and saving goes on', async () => {
    await spoil('files', 'garbage');
    await spoil('workbooks', 'garbage');
    await spoil('sheets', 'garbage');
    await reload();
    expect(await notice()).toMatch(/This is a sample/);
    await typeInto(page, 'Design', 12, 1, '.5');
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
  });
});
