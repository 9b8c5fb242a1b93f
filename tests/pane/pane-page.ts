/** The pane in the Chromium of the tests, on a page of its own; nothing leaves the page. */
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { WorkbookModel } from '../../src/sheet';
import { axeFindings } from '../helpers/axe';
import { connectBrowser, contextWithFonts, prepare } from '../helpers/browser';
import { fontsNotBrought, setFont, type TestFont } from '../helpers/fonts';
import type { StartOptions } from './page-main';

export { chromiumPath } from '../helpers/browser';

export interface OpenOptions extends StartOptions {
  readonly width?: number;
  readonly height?: number;
  /** Which of the tests' fonts shows the texts; the wide one if left out. */
  readonly font?: TestFont;
  /** False: the page's workers are not found. */
  readonly workers?: boolean;
}

/** A page with the pane over the workbook. All pages of a suite are of one context, whose second page finds the script compiled. */
async function openPane(
  context: BrowserContext,
  model: WorkbookModel,
  { width = 350, height = 700, workers = true, font, ...options }: OpenOptions = {},
): Promise<Page> {
  const page = await context.newPage();
  await page.setViewportSize({ width, height });
  page.setDefaultTimeout(10_000);
  page.setDefaultNavigationTimeout(30_000);
  page.on('pageerror', (error) => console.error(`in the page: ${error.stack ?? error.message}`));
  if (!workers) await page.route('**/plan-worker.ts', (route) => route.fulfill({ status: 404, body: '' }));
  await page.goto(`${inject('station')}/`);
  if (font) await setFont(page, font);
  await page.evaluate(
    ([given, chosen]) => {
      // What a page of another test kept is none of this one's.
      localStorage.clear();
      return window.handles.start(given, chosen);
    },
    [model, options] as const,
  );
  return page;
}

/** Pages for the tests of a suite, closed after each test; its texts must have been drawn with the tests' fonts. To be called in the suite. */
export function panePages(): { open(model: WorkbookModel, options?: OpenOptions): Promise<Page> } {
  let browser: Browser;
  let context: BrowserContext;
  const opened: Page[] = [];
  beforeAll(async () => {
    [browser] = await Promise.all([connectBrowser(), prepare('/page.js')]);
    context = await contextWithFonts(browser);
  });
  afterAll(() => browser?.close());
  afterEach(async () => {
    const open = opened.splice(0).filter((page) => !page.isClosed());
    const foreign = (await Promise.all(open.map(fontsNotBrought))).flat();
    await Promise.all(open.map((page) => page.close()));
    expect(foreign, 'texts drawn with a font of this machine').toEqual([]);
  });
  return {
    async open(model, options) {
      const page = await openPane(context, model, options);
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
