/** A list of one's own is matched in the pane, by keyboard, and is what the tab Weights then shows. */
import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { CellModel, WorkbookModel } from '../../../src/sheet';
import { axeFindings } from '../../helpers/axe';
import { layoutFaultsAt } from '../../helpers/layout';
import { chromiumPath, panePages } from '../pane-page';

const LIST: readonly (readonly (string | number)[])[] = [
  ['Tail group'],
  ['Part name', 'Qty', 'Gauge', 'Weight lb', 'Station'],
  ['Skin', 2, 25, 3.2, 212.5],
  ['Rib', 8, 22, '4 oz', 220],
];
const book = (values: typeof LIST): WorkbookModel => ({
  sheets: [{ name: 'Tail', tables: [], cells: values.map((line) => line.map((value): CellModel => ({ value }))) }],
  names: [],
  styles: [],
});

describe.skipIf(!chromiumPath)('a list of one’s own in Chromium', () => {
  const pages = panePages();
  const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
  const matches = (page: Page): Promise<unknown[][]> =>
    page.evaluate(() => window.handles.workbook.read({ sheet: 'Matches', row: 3, column: 0, rows: 7, columns: 5 }));

  it('is matched by keyboard from the start, asked what its weights are of, and weighed', async () => {
    const page = await pages.open(book(LIST), { firstRun: true });
    await page.getByText('The sheet Tail has Part name, Qty, Gauge, Weight lb, Station.').waitFor();
    await button(page, 'Match the columns of Tail').focus();
    await page.keyboard.press('Enter');
    await page.getByText('Say whether the weight is of each piece or of all pieces.').waitFor();
    // The heading has the focus; the keyboard goes on from there.
    expect(await page.evaluate(() => document.activeElement!.textContent)).toBe('Match the columns of Tail');
    expect(await page.getByLabel('Gauge goes to').inputValue()).toBe('4');
    expect(await page.getByLabel('Unit of Gauge').inputValue()).toBe('gauge');
    expect(await button(page, 'Use this list').getAttribute('aria-disabled')).toBe('true');
    const each = page.getByRole('radio', { name: 'of each piece; the quantity multiplies it' });
    await each.focus();
    await page.keyboard.press('Space');
    // 2 × 3.2 lb and 8 × 4 oz.
    await page.getByText('2 parts, together 8.40 lb.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await layoutFaultsAt(page, [320, 350])).toEqual([]);
    await button(page, 'Use this list').focus();
    await page.keyboard.press('Enter');
    await expect
      .poll(() => matches(page))
      .toEqual([
        ['Sheet', 'Header', 'Means', 'Unit', 'Read as'],
        ['Tail', 'Part name', 'Part', null, null],
        ['Tail', 'Qty', 'Qty', null, null],
        ['Tail', 'Gauge', 'Thickness', 'gauge', null],
        ['Tail', 'Weight lb', 'Weight', 'lb', 'each piece'],
        ['Tail', 'Station', 'Arm', 'in', null],
        ['Tail', '(sheet name)', 'Component', null, null],
      ]);
    expect(await page.evaluate(() => window.handles.workbook.selection())).toMatchObject({ sheet: 'Tail' });
    await page.getByRole('tab', { name: 'Weights' }).click();
    await page.getByRole('button', { name: /^Tail: now 8\.40/ }).waitFor();
    await button(page, 'Change the columns of Tail').click();
    await page.getByRole('radio', { name: 'of all pieces of the row' }).check();
    await button(page, 'Use this list').click();
    await page.getByRole('button', { name: /^Tail: now 3\.45/ }).waitFor();
  });

  it('is weighed by its sizes where it states no weights, and says so', async () => {
    const sizes = [
      ['Part name', 'Qty', 'Material', 'Thickness', 'Length', 'Width', 'Station'],
      ['Skin', 2, '6061-T6', 0.02, 60, 20, 212.5],
      ['Rib', 8, '6061-T6', 0.025, 10, 8, 220],
      ['Bracket', 2, '', '', '', '', 220],
    ];
    const page = await pages.open(book(sizes), { firstRun: true });
    await button(page, 'Match the columns of Tail').click();
    // (2 × 60 × 20 × .020 + 8 × 10 × 8 × .025) in³ of .0975 lb/in³, 2.70 g/cm³ by the Aluminum Association.
    await page.getByText('3 parts, together 6.24 lb.').waitFor();
    const bySize = 'The weights of 2 parts are reckoned from material and size; holes and trimmings are not taken off.';
    await page.getByText(bySize).waitFor();
    await page.getByText('1 part has no weight and is left out of it.').waitFor();
    expect(await layoutFaultsAt(page, [320, 350])).toEqual([]);
    await button(page, 'Use this list').click();
    await page.getByRole('tab', { name: 'Weights' }).click();
    await page.getByRole('button', { name: /^Tail: now 6\.24/ }).waitFor();
    await page.getByText(bySize).waitFor();
    await button(page, '1 cell to fix').click();
    await page.getByText('Bracket has no weight and is left out of the sums').waitFor();
  });

  it('is offered as soon as it is pasted, with the column that it lacks', async () => {
    const page = await pages.open(book([['notes']]));
    await page.getByRole('tab', { name: 'Weights' }).click();
    await page.getByText('Do you have a list already?').waitFor();
    await page.evaluate(() => {
      const cells = [
        ['Part', 'Weight each', 'Drawing'],
        ['Fin', 2.5, 'D-1'],
      ];
      return window.handles.workbook.apply('Paste', [
        { kind: 'write', range: { sheet: 'Tail', row: 2, column: 0, rows: 2, columns: 3 }, cells },
      ]);
    });
    await page.getByText('The sheet Tail has Part, Weight each, but no column for Arm.').waitFor();
  });

  it('comes in as a CSV file on a sheet of its own', async () => {
    const page = await pages.open(book([['notes']]));
    await page.getByRole('tab', { name: 'Weights' }).click();
    await page.getByLabel('CSV file of parts').setInputFiles({
      name: 'my wing.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('Teil;Anzahl;Masse gesamt (kg);Station (mm)\nRippe;4;1,25;1510\nHolm;2;3,5;=1+1\n'),
    });
    await page.getByText('2 parts, together 4.750 kg.').waitFor();
    await button(page, 'Use this list').click();
    await page.getByRole('button', { name: /^my wing: now 4\.75/ }).waitFor();
    // A file brings no formula in.
    expect(
      await page.evaluate(() =>
        window.handles.workbook.readFormulas({ sheet: 'my wing', row: 2, column: 3, rows: 1, columns: 1 }),
      ),
    ).toEqual([[null]]);
  });
});
