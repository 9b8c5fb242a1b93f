/** Report and pictures in a real browser: nothing cut off on paper or at a pane's width, and no finding of axe. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { reportPage } from '../../src/cli/report-html';
import { toSvgText, type SvgNode } from '../../src/core/markup';
import { budgetPicture, costPicture, envelopePicture, logPicture, paretoPicture } from '../../src/pictures';
import { budgetData, envelopeData, logData, paretoData } from '../../src/report/figures';
import { type WorkbookModel } from '../../src/sheet';
import { balanceModels, projectSheetsOf, weightsModel } from '../../src/project';
import { readWorkbook } from '../../src/xlsx';
import { axeFindings } from '../helpers/axe';
import { chromiumPath, connectBrowser, contextWithFonts, showHtml } from '../helpers/browser';
import { fontsNotBrought, setFont, TEST_FONTS } from '../helpers/fonts';
import { layoutFaultsAt } from '../helpers/layout';

const open = (name: string): WorkbookModel =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${name}`, import.meta.url))));
const MM = 96 / 25.4;
/** Width of the text on paper: the sheet less the report's margins. */
const PAPER = { A4: (210 - 28) * MM, Letter: 8.5 * 96 - 28 * MM } as const;

let browser: Browser;
let page: Page;
beforeAll(async () => {
  if (!chromiumPath) return;
  browser = await connectBrowser();
  page = await (await contextWithFonts(browser, { bypassCSP: true })).newPage();
});
afterAll(() => browser?.close());
afterEach(async () => {
  if (page) expect(await fontsNotBrought(page)).toEqual([]);
});

/** Texts of pictures that reach out of their picture, as the browser sets them. */
const cutTexts = (): Promise<string[]> =>
  page.$$eval('svg text', (texts) =>
    texts.flatMap((one) => {
      const [box, frame] = [one.getBoundingClientRect(), one.closest('svg')!.getBoundingClientRect()];
      return box.left < frame.left - 1 ||
        box.right > frame.right + 1 ||
        box.top < frame.top - 1 ||
        box.bottom > frame.bottom + 1
        ? [one.textContent ?? '']
        : [];
    }),
  );

describe.skipIf(!chromiumPath)('the report on paper', () => {
  for (const name of ['rib', 'wing', 'budget', 'weighing']) {
    it(`${name}: fits A4, Letter and the screen in a wide and a narrow font, and axe finds nothing`, async () => {
      await showHtml(page, reportPage(name, open(`${name}.xlsx`), '2026-11-20')!);
      for (const font of TEST_FONTS) {
        await setFont(page, font);
        for (const [paper, width] of Object.entries(PAPER)) {
          await page.emulateMedia({ media: 'print' });
          await page.setViewportSize({ width: Math.floor(width), height: 1000 });
          const wide = await page.$$eval(
            'body *',
            (all, limit) =>
              all.filter((one) => one.getBoundingClientRect().right > limit + 1).map((one) => one.tagName),
            Math.floor(width),
          );
          expect([font, paper, wide]).toEqual([font, paper, []]);
          expect(await cutTexts()).toEqual([]);
          const pdf = await page.pdf({ format: paper });
          expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
        }
      }
      await page.emulateMedia({ media: 'screen' });
      expect(await layoutFaultsAt(page, [600, 1000])).toEqual([]);
      expect(await axeFindings(page)).toEqual([]);
      await page.emulateMedia({ media: 'screen', colorScheme: 'dark' });
      expect(await axeFindings(page)).toEqual([]);
      await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
    });
  }
});

describe.skipIf(!chromiumPath)('pictures in a browser', () => {
  const weights = weightsModel(projectSheetsOf(open('budget.xlsx')).values)!;
  const { names, values } = projectSheetsOf(open('weighing.xlsx'));
  const options = [
    { id: 'a', name: 'Solid 3/32, universal', weight: 0.412, cost: 31.5, current: true },
    { id: 'b', name: 'Solid 1/8, universal', weight: 0.72, cost: 42.1 },
    { id: 'c', name: 'Blind aluminium 1/8', weight: 0.66, cost: 96.4 },
    { id: 'd', name: 'Blind, steel stem 1/8', weight: 0.81, cost: 121 },
    { id: 'e', name: 'Solid 3/32 with blind below', weight: 0.43, cost: 52 },
  ];
  const pictures = (width: number): SvgNode[] => [
    budgetPicture(budgetData(weights), { width }),
    paretoPicture(paretoData(weights), { width }),
    logPicture(logData(weights.log!), { width }),
    costPicture({ options, currency: 'USD' }, { width }),
    ...balanceModels(values, names).flatMap((model) =>
      [model.judged!.cases, ...model.judged!.cases.map((one) => [one])].map((cases) =>
        envelopePicture(envelopeData(model, cases)!, { width }),
      ),
    ),
  ];
  const html = (width: number, looks: string): string =>
    `<!doctype html><html lang="en"><title>Pictures</title><style>body{margin:8px;${looks}}svg{display:block}</style><main><h1>Pictures</h1>${pictures(width).map(toSvgText).join('')}</main></html>`;

  for (const width of [320, 350, 600]) {
    it(`fit ${width} px in a wide and a narrow font, and axe finds nothing`, async () => {
      await page.setViewportSize({ width: width + 16, height: 900 });
      await showHtml(page, html(width, ''));
      for (const font of TEST_FONTS) {
        await setFont(page, font);
        expect(await cutTexts()).toEqual([]);
      }
      expect(await axeFindings(page)).toEqual([]);
    });
  }

  it('follow the page’s colour in the dark and in forced colours', async () => {
    const looks = 'background:#1f1f1f;color:#eeeeee;--picture-ground:#1f1f1f';
    await showHtml(page, html(350, looks));
    const color = (): Promise<string> => page.$eval('svg text', (one) => getComputedStyle(one).fill);
    expect(await color()).toBe('rgb(238, 238, 238)');
    expect(await axeFindings(page)).toEqual([]);
    await page.emulateMedia({ forcedColors: 'active' });
    const [ink, canvasText] = [
      await color(),
      await page.evaluate(() => {
        const one = document.body.appendChild(document.createElement('p'));
        one.style.color = 'CanvasText';
        return getComputedStyle(one).color;
      }),
    ];
    expect(ink).toBe(canvasText);
    await page.emulateMedia({ forcedColors: 'none' });
  });
});
