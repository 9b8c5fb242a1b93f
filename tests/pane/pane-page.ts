/** The pane in the Chromium of the tests, on a page of its own; nothing leaves the page. */
import { afterEach, beforeAll, expect, inject } from 'vitest';
import type { BrowserContext, Locator, Page } from 'playwright-core';
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

/**
 * A tab of the browser with the page of the tests. It shows the pane for one test after the other: a page that is
 * loaded anew compiles its script again, which takes longer than most tests.
 */
async function newTab(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  page.setDefaultNavigationTimeout(30_000);
  await page.goto(`${inject('station')}/`);
  return page;
}

/** Shows the pane over the workbook. */
async function openPane(
  page: Page,
  model: WorkbookModel,
  { width = 350, height = 700, workers = true, font = 'wide', ...options }: OpenOptions = {},
): Promise<void> {
  await page.setViewportSize({ width, height });
  page.on('pageerror', (error) => console.error(`in the page: ${error.stack ?? error.message}`));
  if (!workers) await page.route('**/*-worker.ts', (route) => route.fulfill({ status: 404, body: '' }));
  await setFont(page, font);
  await page.evaluate(([given, chosen]) => window.handles.start(given, chosen), [model, options] as const);
}

/** Leaves nothing of a test in its tab: what it listened for, answered itself and pointed at, and the pane with its workbook. */
async function clear(page: Page): Promise<void> {
  page.removeAllListeners();
  await page.unrouteAll();
  await page.emulateMedia({ media: null });
  await page.mouse.move(0, 0);
  await page.evaluate(() => window.handles.end());
}

/** The context of this process, for the test files that it runs, and its tabs that no test has; the browser ends with the run. */
let contextOfProcess: Promise<BrowserContext> | undefined;
const free: Page[] = [];

async function startContext(): Promise<BrowserContext> {
  const [browser] = await Promise.all([connectBrowser(), prepare('/page.js')]);
  // What moves is where it goes to at once, and need not be waited for.
  return contextWithFonts(browser, { reducedMotion: 'reduce' });
}

/** Pages for the tests of a suite, cleared after each test; its texts must have been drawn with the tests' fonts. To be called in the suite. */
export function panePages(): { open(model: WorkbookModel, options?: OpenOptions): Promise<Page> } {
  let context: BrowserContext;
  const opened: Page[] = [];
  beforeAll(async () => {
    context = await (contextOfProcess ??= startContext());
  });
  afterEach(async ({ task }) => {
    const open = opened.splice(0).filter((page) => !page.isClosed());
    const foreign = (await Promise.all(open.map(fontsNotBrought))).flat();
    // What a test that failed left on its page is none of the next one's.
    if (task.result?.state === 'fail') await Promise.all(open.map((page) => page.close()));
    else {
      await Promise.all(open.map(clear));
      free.push(...open);
    }
    expect(foreign, 'texts drawn with a font of this machine').toEqual([]);
  });
  return {
    async open(model, options) {
      const page = free.pop() ?? (await newTab(context));
      opened.push(page);
      await openPane(page, model, options);
      return page;
    },
  };
}

/** Presses a button without the pointer's way there, which takes longer than looking at what comes of it. */
export const press = (button: Locator): Promise<void> => button.evaluate((element) => (element as HTMLElement).click());

/** What axe finds on the pane as it stands, in light, dark and high contrast. */
export async function axeInEveryTheme(page: Page): Promise<string[]> {
  const all: string[] = [];
  for (const theme of ['light', 'dark', 'contrast'] as const) {
    await page.evaluate((chosen) => window.handles.mounted.setTheme(chosen), theme);
    all.push(...(await axeFindings(page, { coloursOnly: theme !== 'light' })).map((finding) => `${theme}: ${finding}`));
  }
  return all;
}
