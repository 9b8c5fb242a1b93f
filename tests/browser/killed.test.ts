import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium as playwright, type Browser, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { serve, type Served } from '../../src/cli/serve';
import { killKept, spawnKept, type KeptProcess } from '../helpers/kept-process';
import { chromium } from '../helpers/programs';
import { CHROMIUM_ARGS, read, readOne, ready, root, typeInto } from '../helpers/bench-page';

const executable = chromium();

describe.skipIf(!executable || process.platform === 'win32')('a browser that is killed', () => {
  let served: Served;
  let profile = '';
  let child: KeptProcess | undefined;
  let browser: Browser | undefined;
  let running: Page | undefined;
  beforeAll(async () => {
    served = await serve({
      port: 0,
      mounts: [
        { prefix: '/', folder: join(root, 'dist', 'bench') },
        { prefix: '/samples/', folder: join(root, 'sample-workbooks') },
      ],
    });
  });
  const end = async (): Promise<void> => {
    await kill();
    if (profile) rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
    profile = '';
  };
  afterAll(async () => {
    await end();
    await served.close();
  });
  // A test goes on with the browser that the one before it has started last.
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await end();
  });

  /** A browser whose process is ours, on a profile that stays when it is killed. */
  const start = async (): Promise<Page> => {
    profile ||= mkdtempSync(join(tmpdir(), 'tarebook-killed-'));
    const portFile = join(profile, 'DevToolsActivePort');
    rmSync(portFile, { force: true });
    child = spawnKept(executable!, [
      '--headless=new',
      ...CHROMIUM_ARGS,
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ]);
    for (const stream of [child.stdout, child.stderr]) stream.resume();
    await expect
      .poll(() => existsSync(portFile) && readFileSync(portFile, 'utf8').includes('\n'), { timeout: 30_000 })
      .toBe(true);
    browser = await playwright.connectOverCDP(`http://127.0.0.1:${readFileSync(portFile, 'utf8').split('\n')[0]}`);
    const page = await browser.contexts()[0]!.newPage();
    await page.goto(served.address);
    await ready(page);
    return (running = page);
  };
  const kill = async (): Promise<void> => {
    running = undefined;
    if (!child) return;
    await killKept(child);
    await browser?.close().catch(() => undefined);
  };

  it('loses nothing that was said to be kept', async () => {
    const page = await start();
    await typeInto(page, 'Design', 12, 1, '0.032');
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
    await kill();
    const again = await start();
    expect(await readOne(again, 'Design', 12, 1)).toBe(0.032);
  });

  it('leaves the state before an edit or after it, and never half of one', { timeout: 120_000 }, async () => {
    let page = running ?? (await start());
    const pair = { sheet: 'Design', row: 40, column: 0, rows: 1, columns: 1 };
    const other = { sheet: 'Parts', row: 150, column: 0, rows: 1, columns: 1 };
    for (const [round, delay] of [300, 410, 450].entries()) {
      // One step over two sheets, which storage keeps as two records.
      await page.evaluate(
        async ([first, second, value]) =>
          window.tarebook!.workbook!.apply('pair', [
            { kind: 'write', range: first, cells: [[value]] },
            { kind: 'write', range: second, cells: [[value]] },
          ]),
        [pair, other, round + 1] as const,
      );
      await page.waitForTimeout(delay);
      await kill();
      page = await start();
      const [[[one]], [[two]]] = (await Promise.all([read(page, pair), read(page, other)])) as [
        [[unknown]],
        [[unknown]],
      ];
      expect(one).toBe(two);
      expect([null, round, round + 1]).toContain(one);
    }
  });

  it('between the records of one keeping leaves the state before it', { timeout: 120_000 }, async () => {
    let page = running ?? (await start());
    const places = [
      { sheet: 'Design', row: 40 },
      { sheet: 'Parts', row: 150 },
    ].map((place) => ({ ...place, column: 0, rows: 1, columns: 1 }));
    const write = (value: number): Promise<unknown> =>
      page.evaluate(
        async ([ranges, cell]) =>
          window.tarebook!.workbook!.apply(
            'pair',
            ranges.map((range) => ({ kind: 'write', range, cells: [[cell]] }) as const),
          ),
        [places, value] as const,
      );
    const seen = async (): Promise<unknown[]> =>
      Promise.all(places.map(({ sheet, row }) => readOne(page, sheet, row, 0)));
    await write(1);
    await page
      .getByRole('status')
      .filter({ hasText: /^Kept in this browser/ })
      .waitFor();
    await page.waitForTimeout(1000);
    let inTheMiddle: () => void = () => undefined;
    const reached = new Promise<void>((resolve) => (inTheMiddle = resolve));
    await page.exposeFunction('reached', () => inTheMiddle());
    await page.evaluate(() => {
      const usual = IDBObjectStore.prototype.put;
      let sheets = 0;
      IDBObjectStore.prototype.put = function put(this: IDBObjectStore, ...args) {
        const request = usual.apply(this, args);
        if (this.name !== 'sheets' || (sheets += 1) > 1) return request;
        // The first sheet is in: the transaction is held open, request after request, and the second one waits.
        const hold = (): void => void (this.count().onsuccess = hold);
        request.addEventListener('success', () => {
          hold();
          (window as unknown as { reached: () => void }).reached();
        });
        return new Proxy(request, {
          get: (target, key) => (key === 'addEventListener' ? () => undefined : Reflect.get(target, key)),
        });
      };
    });
    await write(2);
    await reached;
    await kill();
    page = await start();
    expect(await seen()).toEqual([1, 1]);
  });
});
