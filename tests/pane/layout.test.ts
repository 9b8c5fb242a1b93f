/** Every view of the pane over sample workbooks, in a wide and a narrow font, in English and German: nothing is cut off, runs off the side or breaks inside a word. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { loadLocale } from '../../src/pane';
import { VIEWS } from '../../src/pane/shell/shell';
import type { WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { dense } from '../helpers/dense';
import { layoutFaultsAt } from '../helpers/layout';
import { chromiumPath, panePages, press } from './pane-page';

const WIDTHS = [320, 350, 600];

const sample = (name: string): WorkbookModel =>
  dense(readWorkbook(readFileSync(new URL(`../../sample-workbooks/${name}.xlsx`, import.meta.url))));

describe.skipIf(!chromiumPath)('the layout of the pane', () => {
  const pages = panePages();

  it('is told where it cuts off, runs off the side and breaks a word', async () => {
    const page = await pages.open(sample('weighing'));
    await page.evaluate(() => {
      // Beside the pane, which draws itself anew when it likes.
      const faults = document.body.appendChild(document.createElement('div'));
      faults.id = 'faults';
      faults.innerHTML =
        '<p style="width:40px;overflow-wrap:anywhere">Components</p><p style="margin-left:330px;width:60px">beside</p>' +
        '<p style="width:40px;overflow:hidden;white-space:nowrap">Cut off here</p><div style="overflow-x:auto"><table><td style="white-space:nowrap">' +
        'a long row that its box scrolls, as wide as it may be</table></div>';
    });
    const kinds = (await layoutFaultsAt(page, [350], '#faults')).map((fault) => fault.replace(/ “.*| in .*/, ''));
    for (const font of ['narrow', 'wide'])
      expect(kinds.filter((kind) => kind.startsWith(font))).toEqual([
        `${font}, 350 px: the page scrolls sideways`,
        `${font}, 350 px: broken inside: Components`,
        `${font}, 350 px: off the side: p`,
        `${font}, 350 px: cut off: p`,
      ]);
  });

  /** What is wrong on every tab of every view. */
  async function faults(page: Page): Promise<string[]> {
    const all: string[] = [];
    const look = async (where: string): Promise<void> => {
      await page.waitForFunction(() => !/(?:Opening|Reading|Öffne|Lese)[^.]*…/.test(document.body.innerText));
      all.push(...(await layoutFaultsAt(page, WIDTHS, '#pane')).map((fault) => `${where}: ${fault}`));
    };
    for (const { id } of VIEWS) {
      await press(page.locator(`#tab-${id}`));
      await page.waitForFunction((view) => document.getElementById(view)!.innerText.length > 20, `view-${id}`);
      const tabs = await page.locator(`#view-${id} [role=tab]`).evaluateAll((found) => found.map((tab) => tab.id));
      if (tabs.length === 0) await look(id);
      for (const tab of tabs) {
        await press(page.locator(`#${tab}`));
        await look(tab);
      }
    }
    return all;
  }

  it.each([
    ['wing', 'en-US'],
    ['weighing', 'de-DE'],
    ['buying', 'de-DE'],
  ])('holds in both fonts over %s.xlsx, in %s', { timeout: 120_000 }, async (name, tag) => {
    const page = await pages.open(sample(name), { locale: await loadLocale(tag), height: 900 });
    expect(await faults(page)).toEqual([]);
  });
});
