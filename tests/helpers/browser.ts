/** The Chromium that the tests of a run share; pages of it show their texts in the fonts that the tests bring. */
import {
  chromium as playwright,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core';
import { inject } from 'vitest';
import { bringFonts } from './fonts';
import { chromiumOfPages } from './programs';

/** Where there is no Chromium, the tests that need one are skipped. */
export const chromiumPath = chromiumOfPages();

/** Text of the station at a path; throws what it says where it cannot give it. */
async function ask(path: string): Promise<string> {
  const answer = await fetch(`${inject('station')}${path}`, { headers: { chromium: chromiumPath! } });
  if (!answer.ok) throw new Error(await answer.text());
  return answer.text();
}

/** Has the station make what it has at a path, before a page waits for it. */
export const prepare = async (path: string): Promise<void> => void (await ask(path));

/** A connection to the shared browser: closing it closes the pages that were opened over it, and no others. */
export const connectBrowser = async (): Promise<Browser> => playwright.connect(await ask('/chromium'));

/** A context of the browser, with the tests' fonts. */
export async function contextWithFonts(browser: Browser, options: BrowserContextOptions = {}): Promise<BrowserContext> {
  const context = await browser.newContext(options);
  await bringFonts(context);
  return context;
}

const SHOWN = 'http://page.test/';

/** Shows a page of its own, as it comes from a server. */
export async function showHtml(page: Page, html: string): Promise<void> {
  await page.unroute(SHOWN);
  await page.route(SHOWN, (route) => route.fulfill({ contentType: 'text/html; charset=utf-8', body: html }));
  await page.goto(SHOWN);
}
