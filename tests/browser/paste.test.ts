/** A table that is pasted from another spreadsheet brings values and looks; what else the markup holds stays out. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/xlsx';
import { read, ready, shots, benchForTests, type BenchBrowser } from '../helpers/bench-page';
import { chromiumOfPages } from '../helpers/programs';

const executable = chromiumOfPages();

/** As desktop spreadsheets put cells on the clipboard: a style sheet with classes, number formats in it. */
const OFFICE = `<html xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel" xmlns="http://www.w3.org/TR/REC-html40">
<head><meta http-equiv=Content-Type content="text/html; charset=utf-8"><meta name=ProgId content=Excel.Sheet>
<style><!--table {mso-displayed-decimal-separator:"\\.";} @page {margin:.75in;}
td {padding-top:1px; color:black; font-size:11.0pt; font-family:Calibri, sans-serif; vertical-align:bottom;}
.xl65 {font-weight:700; background:#FFF2CC; mso-pattern:black none;}
.xl66 {mso-number-format:"0\\.000"; color:red;}
.xl68 {mso-number-format:"\\#\\,\\#\\#0\\.00\\\\ \\0022lb\\0022";}
.xl69 {mso-number-format:"\\[ENG\\]what is this";}
.xl67 {mso-number-format:Percent; text-align:center; font-style:italic;}
--></style></head>
<body><!--StartFragment--><table border=0 cellpadding=0><tr><td class=xl65>Part</td><td class=xl65>Weight</td><td class=xl65>Share</td></tr>
<tr><td>rib &amp; web</td><td class=xl66 align=right>1.250</td><td class=xl67>25%</td></tr>
<tr><td class=xl69>odd</td><td class=xl68>1,234.50 lb</td><td></td></tr></table><!--EndFragment--></body></html>`;

/** As web spreadsheets do: looks in each cell. */
const WEB = `<meta charset='utf-8'><google-sheets-html-origin><style type="text/css"><!--td {border: 1px solid #cccccc;}br {mso-data-placement:same-cell;}--></style>
<table xmlns="http://www.w3.org/1999/xhtml" cellspacing="0" cellpadding="0" dir="ltr" border="1"><tbody><tr>
<td style="overflow:hidden;padding:2px 3px;vertical-align:bottom;background-color:rgb(217, 234, 211);font-weight:bold;">cap</td>
<td style="color:#ff0000;text-align:right;">0.75</td></tr></tbody></table>`;

/** Everything that could run or be fetched, in each place that markup has for it. */
const HOSTILE = `<html><head><base href="https://outside.example/"><link rel=stylesheet href="https://outside.example/link.css">
<meta http-equiv=refresh content="0;url=https://outside.example/refresh">
<style>@import url(https://outside.example/import.css); @import "https://outside.example/import2.css";
@font-face {font-family:x; src:url(https://outside.example/font.woff)} td {font-family:x; color:red}
:host {background:url(https://outside.example/host.png)} * {background:u\\72l(https://outside.example/escaped.png)}
td {background-image:image-set("https://outside.example/set.png" 1x)} .a {mso-number-format:"url(https://outside.example/format.png)"; font-weight:700}
td {mso-number-format:"x} :host {background:url(https://outside.example/quote.png)} td {color:red"}</style>
<script>window.ran = 'script'</script></head>
<body onload="window.ran='onload'"><img src="https://outside.example/x.png" onerror="window.ran='onerror'"><svg onload="window.ran='svg'"><image href="https://outside.example/svg.png"/></svg>
<iframe src="https://outside.example/frame"></iframe><iframe srcdoc="<script>parent.ran='srcdoc'</script>"></iframe><video src="https://outside.example/v.mp4" poster="https://outside.example/p.png"></video>
<object data="https://outside.example/o"></object><embed src="https://outside.example/e">
<table background="https://outside.example/table.png"><tr><td class=a onclick="window.ran='click'" style="background:url(https://outside.example/cell.png);font-style:italic">web<img src=x onerror="window.ran='cell'"></td>
<td><a href="javascript:window.ran='link'" onmouseover="window.ran='over'">strap</a></td><td>&lt;img src=x onerror="window.ran='text'"&gt;</td><td>=1+1</td></tr></table></body></html>`;

describe.skipIf(!executable)('a table that is pasted', () => {
  let bench: BenchBrowser;
  let page: Page;
  const asked: string[] = [];
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    await bench.context.grantPermissions(['clipboard-read', 'clipboard-write']);
    page = await bench.open();
    page.on('request', (request) => asked.push(request.url()));
  });
  afterAll(() => bench?.close());
  beforeEach(async () => {
    await page.getByRole('button', { name: 'Open …' }).click();
    await page.getByRole('button', { name: /^New workbook/ }).click();
    await page.waitForFunction(() => document.title.startsWith('airplane'));
    await ready(page);
    await page.waitForTimeout(500);
  });

  /** Puts markup on the clipboard as another program does, not cleaned by the browser, and pastes it by the key. */
  async function paste(html: string): Promise<void> {
    await page.evaluate((markup) => {
      const copy = (event: ClipboardEvent): void => {
        event.clipboardData!.setData('text/html', markup);
        event.preventDefault();
        event.stopImmediatePropagation();
      };
      document.addEventListener('copy', copy, { capture: true, once: true });
      document.execCommand('copy');
      document.removeEventListener('copy', copy, true);
    }, html);
    await page.evaluate(() =>
      window.tarebook!.workbook!.select({ sheet: 'Sheet1', row: 0, column: 0, rows: 1, columns: 1 }),
    );
    await page.waitForFunction(() => document.activeElement?.closest('.sheet'));
    await page.waitForTimeout(300);
    await page.keyboard.press('ControlOrMeta+v');
  }
  const cells = (rows: number, columns: number) => read(page, { sheet: 'Sheet1', row: 0, column: 0, rows, columns });
  async function saved() {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as .xlsx' }).click(),
    ]);
    const { sheets, styles } = readWorkbook(new Uint8Array(readFileSync(await download.path())));
    return (row: number, column: number) => styles[sheets[0]!.cells[row]?.[column]?.style ?? 0] ?? {};
  }

  it('from a desktop spreadsheet brings values, looks and number formats', async () => {
    await paste(OFFICE);
    await expect
      .poll(() => cells(3, 3))
      .toEqual([
        ['Part', 'Weight', 'Share'],
        ['rib & web', 1.25, 0.25],
        ['odd', 1234.5, null],
      ]);
    await page.screenshot({ path: join(shots, 'pasted.png') });
    const look = await saved();
    expect(look(0, 0)).toMatchObject({ bold: true, fill: '#fff2cc' });
    expect(look(1, 1)).toMatchObject({ numberFormat: '0.000', color: '#ff0000' });
    expect(look(1, 2)).toMatchObject({
      italic: true,
      align: 'center',
      numberFormat: expect.stringMatching(/%$/) as string,
    });
  });

  it('from a web spreadsheet brings values and looks', async () => {
    await paste(WEB);
    await expect.poll(() => cells(1, 2)).toEqual([['cap', 0.75]]);
    const look = await saved();
    expect(look(0, 0)).toMatchObject({ bold: true, fill: '#d9ead3' });
    expect(look(0, 1)).toMatchObject({ color: '#ff0000' });
  });

  it('runs nothing and fetches nothing, whatever else stands in it', async () => {
    asked.length = 0;
    await paste(HOSTILE);
    await expect
      .poll(() => cells(1, 3).then(([line]) => line))
      .toEqual(['web', 'strap', '<img src=x onerror="window.ran=\'text\'">']);
    await page.waitForTimeout(1_000);
    expect(await page.evaluate(() => (window as { ran?: string }).ran)).toBeUndefined();
    expect(asked.filter((url) => !/^(blob|data):/.test(url))).toEqual([]);
    expect(bench.outside).toEqual([]);
    const look = await saved();
    expect(look(0, 0)).toMatchObject({ italic: true });
  });
});
