/** The pane in a real Chromium, on a page of its own; nothing is served and nothing leaves the page. */
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { chromium as playwright, type Browser, type Page } from 'playwright-core';
import type { WorkbookModel } from '../../src/sheet';
import { axeFindings } from '../helpers/axe';
import { chromium } from '../helpers/programs';
import type { StartOptions } from './page-main';

const ORIGIN = 'http://pane.test';
const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where there is no Chromium, the tests that need one are skipped. */
export const chromiumPath = chromium();

const HTML = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Pane</title>
<style>html, body { margin: 0; height: 100% } #pane { height: 100vh; width: 100% }</style></head>
<body><main id="pane"></main><script src="/page.js"></script></body></html>`;

export interface OpenOptions extends StartOptions {
  readonly width?: number;
  readonly height?: number;
  /** False: the page's workers are not found. */
  readonly workers?: boolean;
}

class PanePages {
  private constructor(
    private readonly browser: Browser,
    private readonly script: string,
    /** The worker of the cutting plans. */
    private readonly worker: string,
  ) {}

  static async start(): Promise<PanePages> {
    const built = await build({
      entryPoints: [`${root}tests/pane/page-main.ts`],
      bundle: true,
      write: false,
      format: 'iife',
      minify: true,
      // Files beside the script are asked for at this page's own address.
      define: { 'process.env.NODE_ENV': '"production"', 'import.meta.url': '"http://pane.test/page.js"' },
      loader: { '.css': 'empty' },
      external: ['node:*'],
      logLevel: 'error',
    });
    const worker = await build({
      entryPoints: [`${root}src/pane/views/buying/plan-worker.ts`],
      bundle: true,
      write: false,
      format: 'iife',
      minify: true,
      platform: 'browser',
      external: ['node:*'],
      define: { 'import.meta.url': '"http://pane.test/page.js"' },
      logLevel: 'error',
    });
    const browser = await playwright.launch({
      executablePath: chromiumPath!,
      args: ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
    });
    return new PanePages(browser, built.outputFiles[0]!.text, worker.outputFiles[0]!.text);
  }

  async open(
    model: WorkbookModel,
    { width = 350, height = 700, workers = true, ...options }: OpenOptions = {},
  ): Promise<Page> {
    const page = await this.browser.newPage({ viewport: { width, height } });
    page.setDefaultTimeout(10_000);
    page.on('pageerror', (error) => console.error(`in the page: ${error.stack ?? error.message}`));
    await page.route('**/*', (route) => {
      const { pathname } = new URL(route.request().url());
      if (pathname === '/') return route.fulfill({ contentType: 'text/html', body: HTML });
      if (pathname === '/page.js') return route.fulfill({ contentType: 'text/javascript', body: this.script });
      if (pathname === '/plan-worker.ts' && workers)
        return route.fulfill({ contentType: 'text/javascript', body: this.worker });
      if (pathname === '/highs/runtime')
        return route.fulfill({
          contentType: 'application/wasm',
          path: createRequire(import.meta.url).resolve('highs/runtime'),
        });
      return route.fulfill({ status: 404, body: '' });
    });
    await page.goto(`${ORIGIN}/`);
    await page.evaluate(([given, chosen]) => window.handles.start(given, chosen), [model, options] as const);
    return page;
  }

  async close(): Promise<void> {
    await this.browser.close();
  }
}

/** Pages for the tests of a suite; each test's are closed after it, the browser after all of them. To be called in the suite. */
export function panePages(): { open(model: WorkbookModel, options?: OpenOptions): Promise<Page> } {
  let pages: PanePages;
  const opened: Page[] = [];
  beforeAll(async () => {
    pages = await PanePages.start();
  });
  afterAll(() => pages?.close());
  afterEach(() => Promise.all(opened.splice(0).map((page) => page.close())));
  return {
    async open(model, options) {
      const page = await pages.open(model, options);
      opened.push(page);
      return page;
    },
  };
}

/** What axe finds on the pane as it stands, in light, dark and high contrast. */
export async function axeInEveryTheme(page: Page): Promise<string[]> {
  const all: string[] = [];
  for (const theme of ['light', 'dark', 'contrast'] as const) {
    await page.evaluate((chosen) => window.handles.mounted.setTheme(chosen), theme);
    all.push(...(await axeFindings(page, { coloursOnly: theme !== 'light' })).map((finding) => `${theme}: ${finding}`));
  }
  return all;
}

/** Elements whose text runs out of their box, and a page that scrolls sideways. */
export const cutOff = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const out: string[] = document.documentElement.scrollWidth > innerWidth ? ['the page scrolls sideways'] : [];
    for (const element of document.querySelectorAll<HTMLElement>('#pane *')) {
      const style = getComputedStyle(element);
      // A table of figures may be wider than the pane, and scrolls in a box of its own.
      const around =
        element.closest('table')?.parentElement ?? (element.querySelector(':scope > table') ? element : null);
      if (around && getComputedStyle(around).overflowX === 'auto') continue;
      // A long text scrolls in its input as it does in a cell of the sheet.
      if (style.clipPath !== 'none' || element.clientWidth === 0 || element.tagName === 'INPUT') continue;
      if (element.scrollWidth > element.clientWidth + 1 && style.overflowX !== 'visible')
        out.push(`${element.tagName} ${element.className} ${element.innerText?.slice(0, 40)}`);
      const box = element.getBoundingClientRect();
      const own = [...element.childNodes].some(
        (node) => node.nodeType === Node.TEXT_NODE && node.textContent!.trim() !== '',
      );
      if (own && (box.right > innerWidth + 0.5 || box.left < -0.5))
        out.push(`off the side: ${element.innerText.slice(0, 40)}`);
    }
    return out;
  });
