/** The built bench in a real browser, for tests. */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium as playwright, type BrowserContext, type Page } from 'playwright-core';
import { bringFonts } from './fonts';
import { serve } from '../../src/cli/serve';
import type { Cell, RangeAddress } from '../../src/sheet';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const shots = join(root, 'test-results', 'browser');

export const CHROMIUM_ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface BenchBrowser {
  readonly context: BrowserContext;
  readonly address: string;
  /** Requests that left the bench's own origin, and what the pages complained of. */
  readonly outside: string[];
  readonly complaints: string[];
  /** A new tab with the bench, its workbook calculated. */
  open(): Promise<Page>;
  close(): Promise<void>;
}

/** Starts the local server over the built bench, and a browser with an empty profile, its texts in the tests' fonts unless told not to. */
export async function startBench(executablePath: string, project = root, withFonts = true): Promise<BenchBrowser> {
  const bench = join(project, 'dist', 'bench');
  if (!existsSync(join(bench, 'index.html'))) throw new Error('The bench is not built: node tools/build.mjs bench');
  mkdirSync(join(project, 'test-results', 'browser'), { recursive: true });
  const served = await serve({
    port: 0,
    mounts: [
      { prefix: '/', folder: bench },
      { prefix: '/samples/', folder: join(project, 'sample-workbooks') },
    ],
  });
  // Playwright makes the profile, and takes it away also where this process ends before the browser is closed.
  const context = await playwright.launchPersistentContext('', {
    executablePath,
    headless: true,
    args: CHROMIUM_ARGS,
    viewport: { width: 1400, height: 900 },
    acceptDownloads: true,
  });
  if (withFonts) await bringFonts(context);
  const outside: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(served.address) && !/^(data|blob|chrome|about):/.test(url)) outside.push(url);
  });
  context.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  context.on('weberror', (error) => complaints.push(error.error().message));
  return {
    context,
    address: served.address,
    outside,
    complaints,
    async open() {
      const page = await context.newPage();
      await page.goto(served.address);
      await ready(page);
      return page;
    },
    async close() {
      await context.close();
      await served.close();
    },
  };
}

/** The browser of this process, with its server. */
let kept: Promise<BenchBrowser> | undefined;

/** Closes every page, and takes away what pages of the address have stored and what tests have given the context. */
async function emptied({ context, address, outside, complaints }: BenchBrowser): Promise<void> {
  const before = context.pages();
  const page = await context.newPage();
  await Promise.all(before.map((one) => one.close()));
  await Promise.all([
    context.unrouteAll(),
    context.clearPermissions(),
    context.clearCookies(),
    context.setOffline(false),
  ]);
  const session = await context.newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: new URL(address).origin, storageTypes: 'all' });
  await page.close();
  outside.length = 0;
  complaints.length = 0;
}

/**
 * The bench in a browser as a person has it who comes for the first time. The test files that one process runs, one
 * after the other, share the browser, which ends with the process: what it has compiled once it need not compile again.
 */
export async function benchForTests(executablePath: string): Promise<BenchBrowser> {
  const bench = await (kept ??= startBench(executablePath));
  return { ...bench, close: () => emptied(bench) };
}

/** Waits until a workbook is open and nothing is under way. */
export async function ready(page: Page, timeout = 60_000): Promise<void> {
  await page.waitForFunction(
    () => window.tarebook?.workbook && !/…/.test(document.querySelector('.status')?.textContent ?? '…'),
    undefined,
    { timeout },
  );
}

/** Cells of the open workbook; an error as its code. */
export const read = (page: Page, range: RangeAddress): Promise<(Cell | string)[][]> =>
  page.evaluate(async (wanted) => {
    const cells = await window.tarebook!.workbook!.read(wanted);
    return cells.map((row) =>
      row.map((cell) => (typeof cell === 'object' && cell !== null ? (cell as { code: string }).code : cell)),
    );
  }, range);

export const readOne = async (page: Page, sheet: string, row: number, column: number): Promise<Cell | string> =>
  (await read(page, { sheet, row, column, rows: 1, columns: 1 }))[0]![0]!;

declare global {
  interface Window {
    /** Workers that a page opened by `openWithWorkers` has started. */
    workers: Worker[];
    /** Has the next one die as it starts. */
    nextDies: boolean;
  }
}

/** A tab with the bench that remembers the workers that it starts. */
export async function openWithWorkers({ context, address }: BenchBrowser): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(() => {
    const Real = Worker;
    window.workers = [];
    window.Worker = class extends Real {
      constructor(script: string | URL, options?: WorkerOptions) {
        super(script, options);
        window.workers.push(this);
        // As when the system takes its memory: it says nothing, and the page hears nothing.
        if (window.nextDies) this.terminate();
        window.nextDies = false;
      }
    };
  });
  await page.goto(address);
  await ready(page);
  return page;
}

/** What a page does for the next frame has been done. */
const twoFrames = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** Types into a cell as a person does, from the keyboard; the cell is brought into view first. */
export async function typeInto(page: Page, sheet: string, row: number, column: number, text: string): Promise<void> {
  await page.evaluate((range) => window.tarebook!.workbook!.select(range), { sheet, row, column, rows: 1, columns: 1 });
  await twoFrames(page);
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** Opens a workbook through the page's own file button. */
export async function openBytes(page: Page, name: string, bytes: Uint8Array, timeout = 60_000): Promise<void> {
  await page.getByLabel('Workbook file').setInputFiles({
    name,
    mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    buffer: Buffer.from(bytes),
  });
  await page.waitForFunction((title) => document.title === `${title} – Tarebook`, name.replace(/\.xlsx$/, ''), {
    timeout,
  });
  await ready(page, timeout);
}
