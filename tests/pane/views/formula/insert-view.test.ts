import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import type { Cell } from '../../../../src/sheet';
import { axeFindings } from '../../../helpers/axe';
import { layoutFaultsAt } from '../../../helpers/layout';
import { axeInEveryTheme, chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { FIRST, partsBook, ROWS } from './model';

describe.skipIf(!chromiumPath)('the view Formula in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (options: OpenOptions = {}): Promise<void> => {
    page = await pages.open(partsBook(), options);
    await page.getByRole('tab', { name: 'Formula' }).click();
    await page.getByRole('heading', { name: 'Areas', level: 2 }).waitFor();
  };
  const choose = async (name: string): Promise<void> => {
    await page.getByRole('searchbox', { name: 'Search the functions' }).fill(name);
    await page.getByRole('searchbox').press('Enter');
    await page.getByRole('heading', { name, level: 2 }).waitFor();
  };
  const select = async (row: number, column: number, rows = 1): Promise<void> => {
    await page.evaluate(
      ([r, c, n]) => window.handles.select({ sheet: 'Parts', row: r, column: c, rows: n, columns: 1 }),
      [row, column, rows] as const,
    );
  };
  const read = (row: number, column: number, rows = 1): Promise<Cell[]> =>
    page.evaluate(
      async ([r, c, n]) =>
        (await window.handles.workbook.read({ sheet: 'Parts', row: r, column: c, rows: n, columns: 1 })).flat(),
      [row, column, rows] as const,
    );
  const formulas = (row: number, column: number, rows = 1): Promise<(string | null)[]> =>
    page.evaluate(
      async ([r, c, n]) =>
        (await window.handles.workbook.readFormulas({ sheet: 'Parts', row: r, column: c, rows: n, columns: 1 })).flat(),
      [row, column, rows] as const,
    );
  const focused = (): Promise<string> =>
    page.evaluate(
      () =>
        document.activeElement?.getAttribute('aria-label') ??
        (document.activeElement instanceof HTMLInputElement
          ? (document.activeElement.labels?.[0]?.textContent ?? '')
          : (document.activeElement?.textContent ?? '')),
    );
  const drawing = (): Promise<string> =>
    page
      .locator('#view-insert svg[role=img]')
      .evaluate((svg) => [...svg.querySelectorAll('text')].map((text) => text.textContent).join('|'));
  const outside = (): Promise<string[]> => layoutFaultsAt(page, [page.viewportSize()!.width], '#view-insert');
  const field = (name: string): Locator =>
    page
      .locator('#view-insert')
      .getByRole(/^(staggered)$/.test(name) ? 'combobox' : 'textbox', { name: new RegExp(`^${name}\\b`) });
  const FIELDS = ['web', 'leg_a', 'leg_b', 'thickness', 'radius'];
  /** The first channel of the list, by its cells. */
  const fillIn = async (): Promise<void> => {
    for (const [index, name] of FIELDS.entries()) {
      await field(name).focus();
      await select(FIRST - 1, index + 1);
      await page.getByRole('button', { name: `Use ${'BCDEF'[index]}12 for ${name}` }).click();
    }
    await page.getByText('3.827275 in').waitFor();
  };

  /** In all themes, narrow and wide. */
  const findings = async (): Promise<string[]> => {
    const all: string[] = [];
    for (const width of [320, 600]) {
      await page.setViewportSize({ width, height: 700 });
      all.push(...[...(await axeInEveryTheme(page)), ...(await outside())].map((finding) => `${width}: ${finding}`));
    }
    return all;
  };

  it('in three themes, narrow and wide: axe finds nothing, nothing is cut off', async () => {
    await open({ width: 320 });
    expect(await findings()).toEqual([]);
    await choose('FLAT.CHANNEL');
    await fillIn();
    await field('thickness').fill('20');
    await page.keyboard.press('Enter');
    await page.getByText(/thickness: got 20/).waitFor();
    expect(await findings()).toEqual([]);
  });

  it('is axe-clean with folded fields, a table of results, and a question', async () => {
    await open({ width: 320 });
    await choose('STATIONS');
    for (const [name, value] of [
      ['first', '0'],
      ['last', '40'],
      ['count', '5'],
    ] as const)
      await field(name).fill(value);
    await page.getByText('5 rows').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'All functions' }).click();
    await choose('RIVET.COUNT');
    await page.getByRole('button', { name: 'More: edge, rows, staggered' }).click();
    await field('staggered').selectOption('yes');
    await field('run').fill('40');
    await field('pitch').fill('1');
    await select(FIRST - 1, 0);
    await page.getByRole('button', { name: 'Insert at A12' }).click();
    await page.getByText('1 cell there is not empty: write over it?').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await outside()).toEqual([]);
  });

  it('FLAT.CHANNEL from the cells of a parts list: drawn with its numbers, inserted, filled down, taken back', async () => {
    await open();
    await choose('FLAT.CHANNEL');
    expect(await drawing()).toBe('web|leg_a|leg_b|radius|thickness|flat width');
    await fillIn();
    expect(await drawing()).toBe('web = 2.5|0.75|0.75|radius = 0.125|thickness = 0.025|flat width = 3.827');
    expect(await page.getByText('B12: 2.5').count()).toBe(1);
    expect(await page.getByRole('textbox', { name: 'The formula' }).textContent()).toBe(
      '=TARE.FLAT.CHANNEL(B12,C12,D12,E12,F12)',
    );

    await select(FIRST - 1, 6);
    await page.getByRole('checkbox', { name: 'Fill down to row' }).check();
    const insert = page.getByRole('button', { name: 'Insert at G12:G40' });
    await insert.click();
    await page.getByRole('status').getByText('into Parts!G12:G40').waitFor();
    expect(await focused()).toBe('Insert at G12:G40');
    expect(await formulas(FIRST + ROWS - 2, 6, 2)).toEqual(['=TARE.FLAT.CHANNEL(B40,C40,D40,E40,F40)', null]);
    await expect.poll(async () => (await read(FIRST + ROWS - 2, 6))[0]).toBeCloseTo(3.827275 + 2.8, 6);
    expect((await read(FIRST - 1, 6, ROWS)).every((value) => typeof value === 'number')).toBe(true);

    await page.keyboard.press('Control+z');
    await page.getByRole('status').getByText('Undone.').waitFor();
    expect((await read(FIRST - 1, 6, ROWS)).every((value) => value === null)).toBe(true);
  });

  it('follows the sheet, and a wrong unit is named at its field', async () => {
    await open();
    await choose('FLAT.CHANNEL');
    await fillIn();
    await page.evaluate(() => window.handles.type('Parts', 11, 1, 3.5));
    await page.getByText('4.827275 in').waitFor();
    await page.evaluate(() => window.handles.type('Parts', 11, 4, 25));
    const thickness = field('thickness');
    await page.getByText(/thickness: got 25; takes inches above 0 and up to 1\. 25 looks like thousandths/).waitFor();
    expect(await thickness.getAttribute('aria-invalid')).toBe('true');
    expect(await field('web').getAttribute('aria-invalid')).toBeNull();
  });

  it('by keyboard alone: searched, filled in, written over a cell after the question, and back in the list', async () => {
    await open();
    await page.getByRole('tab', { name: 'Formula' }).focus();
    await page.keyboard.press('Tab');
    expect(await focused()).toBe('Search the functions');
    await page.keyboard.type('rectangle');
    await page.keyboard.press('ArrowDown');
    expect(await focused()).toContain('AREA.RECT');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'AREA.RECT' }).waitFor();
    expect(await focused()).toContain('length');
    await select(FIRST - 1, 1);
    await page.keyboard.press('F2');
    await page.keyboard.press('F4');
    await page.keyboard.press('Tab');
    await page.keyboard.type('1 1/2');
    await page.getByText('3.75 in²').waitFor();
    await select(FIRST - 1, 0);
    while (!/^Insert at/.test(await focused())) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByText('write over it?').waitFor();
    await expect.poll(focused).toBe('Keep');
    await page.keyboard.press('Enter');
    await expect.poll(focused).toBe('Insert at A12');
    expect(await read(FIRST - 1, 0)).toEqual(['Rib 1']);
    await page.keyboard.press('Enter');
    await expect.poll(focused).toBe('Keep');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByRole('status').getByText('Wrote =TARE.AREA.RECT($B$12,1.5)').waitFor();
    await expect.poll(focused).toBe('Insert at A12');
    expect(await formulas(FIRST - 1, 0)).toEqual(['=TARE.AREA.RECT($B$12,1.5)']);
    while (!/^All functions/.test(await focused())) await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.getByRole('searchbox').waitFor();
    expect(await focused()).toContain('AREA.RECT');
    await page.keyboard.press('Escape');
    expect(await focused()).toBe('Search the functions');
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Used last' }).waitFor();
  });

  it('a column of cells is one formula, and what is in the way of its results is told', async () => {
    await open();
    await choose('AREA.RECT');
    await field('length').fill('B12:B40');
    await field('width').fill('2');
    await select(FIRST - 1, 6);
    await page.getByText('One formula, whose results take G12:G40.').waitFor();
    await page.evaluate(() => window.handles.type('Parts', 13, 6, 'note'));
    await page.getByText('The results need G12:G40, and G14 is not empty').waitFor();
    await page.getByRole('button', { name: 'Insert at G12' }).press('Enter');
    expect(await formulas(FIRST - 1, 6)).toEqual([null]);
    await page.evaluate(() =>
      window.handles.workbook.select({ sheet: 'Locked', row: 3, column: 0, rows: 1, columns: 1 }),
    );
    await page.getByText('The sheet Locked is protected').waitFor();
    expect(await field('length').inputValue()).toBe('Parts!B12:B40');
  });

  it('says where the workbook refuses', async () => {
    await open();
    await choose('AREA.CIRCLE');
    await field('diameter').fill('2');
    await select(0, 9);
    await page.evaluate(
      () => (window.handles.refuseNext = { code: 'protected', message: 'The sheet "Parts" is protected' }),
    );
    await page.getByRole('button', { name: 'Insert at J1' }).click();
    await page.getByRole('alert').getByText('The sheet "Parts" is protected. Unprotect the sheet').waitFor();
    await page.getByRole('button', { name: 'Insert at J1' }).click();
    await page.getByRole('status').getByText('Wrote =TARE.AREA.CIRCLE(2)').waitFor();
  });

  it('nothing below the drawing moves while fields are filled in, and no field hides under what is stuck', async () => {
    await open({ width: 320 });
    await choose('FLAT.CHANNEL');
    const top = async (): Promise<number> => (await page.getByRole('button', { name: /^Use/ }).boundingBox())!.y;
    await select(FIRST - 1, 1);
    const before = await top();
    await fillIn();
    await field('web').focus();
    await field('web').evaluate((input) => input.closest('[tabindex="-1"]')!.scrollTo(0, 0));
    expect(await top()).toBe(before);
    await field('radius').focus();
    for (const name of [...FIELDS].reverse()) {
      await field(name).focus();
      const hit = await field(name).evaluate((input) => {
        const { left, top: y, width, height } = input.getBoundingClientRect();
        return [y + 2, y + height - 2].every((at) =>
          input.parentElement!.contains(document.elementFromPoint(left + width / 2, at)),
        );
      });
      expect(hit, name).toBe(true);
    }
  });

  it('in metric the form takes and shows millimetres, and copies its formula', async () => {
    await open();
    await choose('AREA.RECT');
    await page.getByLabel('Units').selectOption('metric');
    await field('length').fill('100');
    await field('width').fill('2 in');
    await page.getByText('5,080 mm²').waitFor();
    expect(await page.getByRole('textbox', { name: 'The formula' }).textContent()).toBe(
      '=TARE.AREA.RECT(100,50.8,"mm-kg")',
    );
    await page.getByRole('button', { name: 'Copy' }).click();
    await page.getByRole('status').getByText('Copied: =TARE.AREA.RECT').waitFor();
    expect(await page.getByRole('link', { name: 'About AREA.RECT' }).getAttribute('href')).toBe('/help/AREA.RECT.html');
  });
});
