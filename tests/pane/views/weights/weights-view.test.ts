import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import type { Cell, WorkbookModel } from '../../../../src/sheet';
import { readWorkbook } from '../../../../src/xlsx';
import { axeFindings } from '../../../helpers/axe';
import { dense } from '../../../helpers/dense';
import { layoutFaultsAt } from '../../../helpers/layout';
import { BUDGETED } from '../../../helpers/sample-figures';
import { chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { smallBook } from './small-book';

/** A sample as it can be handed to the page. */
function sample(name: string): WorkbookModel {
  return dense(readWorkbook(readFileSync(new URL(`../../../../sample-workbooks/${name}.xlsx`, import.meta.url))));
}

describe.skipIf(!chromiumPath)('the view Weights in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (
    model: WorkbookModel,
    tab: string | null = 'Budget',
    options: OpenOptions = {},
  ): Promise<void> => {
    page = await pages.open(model, options);
    await page.getByRole('tab', { name: 'Weights' }).click();
    if (tab) await page.getByRole('tab', { name: tab, exact: true }).click();
  };
  const read = (sheet: string, row: number, column: number): Promise<Cell> =>
    page.evaluate(
      async ([s, r, c]) =>
        (await window.handles.workbook.read({ sheet: s, row: r, column: c, rows: 1, columns: 1 }))[0]![0]!,
      [sheet, row, column] as const,
    );
  const everything = (): Promise<string> =>
    page.evaluate(async () => {
      const { workbook } = window.handles;
      const sheets = await workbook.sheets();
      const all = [];
      for (const { name } of sheets) {
        const used = await workbook.usedRange(name);
        all.push(name, used && (await workbook.read(used)), used && (await workbook.readFormulas(used)));
      }
      return JSON.stringify(all);
    });
  const type = (sheet: string, row: number, column: number, value: number | string): Promise<void> =>
    page.evaluate(([s, r, c, v]) => window.handles.type(s, r, c, v), [sheet, row, column, value] as const);
  const selected = (): Promise<unknown> => page.evaluate(async () => window.handles.workbook.selection());
  const bar = (name: RegExp): Locator => page.getByRole('button', { name });
  const eventually = async (look: () => Promise<unknown>, expected: unknown): Promise<void> =>
    expect.poll(look).toEqual(expected);

  describe('the pictures', () => {
    it('select a component’s rows, one place after the other, by key alone', async () => {
      await open(smallBook());
      await bar(/^Total/).focus();
      await page.keyboard.press('ArrowDown');
      expect(await page.evaluate(() => document.activeElement!.querySelector('title')!.textContent)).toMatch(/^Spar/);
      await page.keyboard.press('Enter');
      await eventually(selected, { sheet: 'Parts', row: 1, column: 0, rows: 2, columns: 14 });
      await page.getByText('1 of 2 places; press again for the next').waitFor();
      await bar(/^Spar/).focus();
      await page.keyboard.press(' ');
      await eventually(selected, { sheet: 'Parts', row: 4, column: 0, rows: 1, columns: 14 });
      await page.getByRole('tab', { name: 'Heaviest' }).click();
      await bar(/^Upper, Skin/).click();
      await eventually(selected, { sheet: 'Parts', row: 3, column: 0, rows: 1, columns: 14 });
    });

    it('go into a printable report that needs nothing beside it', async () => {
      await open(sample('budget'));
      await page.getByRole('button', { name: 'Save report' }).click();
      await page.getByText('The report is in your downloads').waitFor();
      const [file] = await page.evaluate(() => window.handles.saved);
      expect(file!.name).toMatch(/report\.html$/);
      expect(file!.text).toContain('<svg');
      expect(file!.text).toContain('An estimate is not a weighing');
      expect(file!.text).not.toMatch(/<script|src="http/);
    });

    it('read as tables with the same figures', async () => {
      await open(sample('budget'));
      await page.getByRole('button', { name: 'As a table' }).click();
      const cells = (name: RegExp): Promise<string[]> =>
        page.getByRole('row', { name }).getByRole('cell').allInnerTexts();
      // Computed by TARE.BUDGET on the sheet Budget: D9:J9.
      expect(await cells(/^Nose skin/)).toEqual(['10.79', '11.36', '11.00', '−0.36', '0\u00a0%']);
      expect(await cells(/^Total/)).toEqual([
        BUDGETED.weight,
        BUDGETED.forecast,
        BUDGETED.budget,
        `+${BUDGETED.margin}`,
        '30\u00a0%',
      ]);
      await page.getByRole('button', { name: 'Ribs' }).click();
      expect(await selected()).toMatchObject({ sheet: 'Parts', row: 19 });
    });

    it('offers the rows that bring rivets in, writes one for each component, and takes them back', async () => {
      const joints: Cell[][] = [
        ['Joint', 'Component', 'Rivets', 'Weight (lb)', 'Moment (lb·in)'],
        ['lap', 'Spar', 40, 0.02, 0.8],
        ['seam', 'Upper', 10, 0.01, 0.5],
        ['rib', 'spar', 20, 0.01, 0.4],
      ];
      const small = smallBook();
      const cells = joints.map((line) => line.map((value) => ({ value })));
      await open({ ...small, sheets: [...small.sheets, { name: 'Joints', cells, tables: [] }] });
      const free = small.sheets[0]!.cells.length;
      await page.getByRole('button', { name: 'Add 2 rows of rivets' }).click();
      await page.getByText('Added 2 rows below the parts; the weight comes from Joints and Hardware.').waitFor();
      await eventually(() => read('Parts', free, 0), 'Spar');
      expect([await read('Parts', free, 1), await read('Parts', free + 1, 0)]).toEqual([
        'Rivets, from the sheet Joints',
        'Upper',
      ]);
      // Weighed at once, though no formula waited in the rows.
      await eventually(async () => Number(await read('Parts', free, 5)).toFixed(4), '0.0300');
      expect(Number(await read('Parts', free, 6))).toBeCloseTo(40, 9);
      await eventually(() => page.getByRole('button', { name: /rows? of rivets/ }).count(), 0);
      await type('Joints', 1, 3, 0.05);
      await eventually(async () => Number(await read('Parts', free, 5)).toFixed(4), '0.0600');
      await page.evaluate(() => window.handles.workbook.undo());
      await page.evaluate(() => window.handles.workbook.undo());
      await eventually(() => read('Parts', free, 0), null);
      await page.getByRole('button', { name: 'Add 2 rows of rivets' }).waitFor();
    });

    it('follow the sheet without losing focus or place', async () => {
      await open(sample('wing'), 'Budget', { height: 400 });
      const panel = page.locator('#view-weights-budget');
      await bar(/^Stringers/).focus();
      const before = await panel.evaluate((element) => element.scrollTop);
      expect(before).toBeGreaterThan(0);
      await type('Design', 13, 1, 0.025);
      await expect
        .poll(
          () =>
            bar(/^Main skins/)
              .locator('title')
              .textContent(),
          { timeout: 8000 },
        )
        .toMatch(/over by/);
      expect(await page.evaluate(() => document.activeElement!.querySelector('title')!.textContent)).toMatch(
        /^Stringers/,
      );
      expect(await panel.evaluate((element) => element.scrollTop)).toBe(before);
    });
  });

  describe('the log', () => {
    it('is begun and gone on with by one button, as one step', async () => {
      await open(smallBook(), 'Log');
      await page.getByRole('button', { name: 'Add today’s weights to the log' }).click();
      await page.getByText('Logged 2 components and the total on 2026-03-31.').waitFor();
      expect(await read('Log', 5, 1)).toBe('Spar');
      expect(await read('Log', 7, 1)).toBe('Total');
      await page.getByRole('button', { name: 'Log today’s weights again' }).waitFor();
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByText('Undone.').waitFor();
      expect(
        await page.evaluate(async () => (await window.handles.workbook.sheets()).map(({ name }) => name)),
      ).not.toContain('Log');
    });

    it('tells what moved since a chosen day, by component', async () => {
      await open(sample('budget'), 'Log');
      const change = (): Promise<string[]> =>
        page
          .getByRole('table', { name: /What moved since/ })
          .getByRole('row', { name: /^Front spar/ })
          .getByRole('cell')
          .allInnerTexts();
      expect(await change()).toEqual(['10.64', '12.98', '+2.34']);
      await page.getByRole('combobox', { name: 'What moved since' }).selectOption('2025-12-13');
      expect(await change()).toEqual(['11.03', '12.98', '+1.95']);
    });
  });

  describe('the scale', () => {
    it('says how far the list is off, and shows the rest so only on request', async () => {
      await open(sample('budget'), 'Scale');
      await page.getByText(/10 parts weighed: .* The list runs light by 2(\.0)?\s?%/).waitFor();
      expect(await page.getByRole('table').count()).toBe(1);
      const before = await everything();
      await page.getByRole('checkbox').check();
      expect(
        await page
          .getByRole('table')
          .nth(1)
          .getByRole('row', { name: /^Total/ })
          .innerText(),
      ).toMatch(/±/);
      expect(await everything()).toBe(before);
    });
  });

  describe('what if', () => {
    const pickSkin = async (thickness: string): Promise<void> => {
      await page.getByLabel('All of a component').selectOption('Skin');
      await page.getByLabel('Thickness (in)').fill(thickness);
      await page.getByText('Cells that Apply writes').waitFor();
    };

    it('leaves no trace when it is let go', async () => {
      await open(smallBook(), 'What if');
      const before = await everything();
      await pickSkin('.025');
      const figures = await page
        .getByRole('table', { name: 'Before and after' })
        .getByRole('row', { name: /^Weight/ })
        .first()
        .getByRole('cell')
        .allInnerTexts();
      // 2 × 1000 × .020 × .1 and the strap's .11; .025 then, and the strap keeps the weight that is typed.
      expect(figures).toEqual(['4.11', '5.11', '+1.00']);
      await page.getByRole('button', { name: 'Cancel' }).click();
      await page.getByText('Dropped. Nothing was written.').waitFor();
      expect(await everything()).toBe(before);
      expect(await page.evaluate(() => window.handles.workbook.undo())).toBe(false);
      expect(await page.evaluate(() => document.activeElement!.textContent)).toBe('Rows selected in the sheet');
    });

    it('runs in a worker, which is gone when the panel is out of sight, and comes back with it', async () => {
      await open(smallBook(), 'What if');
      expect(page.workers()).toHaveLength(0);
      await pickSkin('.025');
      expect(page.workers()).toHaveLength(1);
      await page.getByRole('tab', { name: 'Budget', exact: true }).click();
      await eventually(async () => page.workers().length, 0);
      await page.getByRole('tab', { name: 'What if' }).click();
      await page
        .getByRole('button', { name: /^Apply \(/ })
        .and(page.locator(':enabled'))
        .waitFor();
      expect(page.workers()).toHaveLength(1);
      await page.getByRole('tab', { name: 'Prices' }).click();
      await eventually(async () => page.workers().length, 0);
    });

    it('says what to do where no worker is to be had, and tries again', async () => {
      await open(smallBook(), 'What if', { workers: false });
      await page.getByLabel('All of a component').selectOption('Skin');
      await page
        .getByRole('alert')
        .getByText('The calculator could not be loaded. Check the connection, then try again.')
        .waitFor();
      await page.unrouteAll();
      await page.getByLabel('Thickness (in)').fill('.025');
      await page.getByText('Cells that Apply writes').waitFor();
    });

    it('shows the first of many rows, and more where that is wanted', async () => {
      const book = smallBook();
      const [parts] = book.sheets;
      const rows = Array.from({ length: 150 }, (_row, index) => {
        const line = [...parts!.cells[3]!];
        line[1] = { value: `Skin ${index}` };
        return line;
      });
      parts!.cells.splice(4, 0, ...rows);
      await open(dense(book), 'What if');
      await pickSkin('.025');
      const boxes = page.getByRole('group', { name: 'Parts', exact: true });
      const more = boxes.getByRole('button', { name: /^Show / });
      for (const shown of [40, 80, 120]) {
        expect(await boxes.getByRole('checkbox').count()).toBe(shown);
        await more.focus();
        await page.keyboard.press('Enter');
      }
      await eventually(() => more.count(), 0);
      expect(await boxes.getByRole('checkbox').count()).toBeGreaterThan(150);
      // The button is gone: the keyboard goes on in the list.
      expect(await boxes.evaluate((group) => group.contains(document.activeElement))).toBe(true);
    });

    it('applies as one step that one undo takes back', async () => {
      await open(smallBook(), 'What if');
      const before = await everything();
      await pickSkin('.025');
      await page.getByRole('button', { name: /^Apply/ }).click();
      await eventually(() => read('Design', 0, 1), 0.025);
      await eventually(() => read('Parts', 3, 5), 5);
      expect(await read('Parts', 5, 12)).toBe(null);
      expect(await read('Parts', 5, 7)).toBe('laid out');
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByText('Undone.').waitFor();
      await eventually(everything, before);
    });

    it('keeps what is typed while the sheet changes, and is tried out anew', async () => {
      await open(smallBook(), 'What if');
      await pickSkin('.025');
      await page.getByLabel('Thickness (in)').focus();
      await type('Parts', 3, 4, 2000);
      const before = page
        .getByRole('table', { name: 'Before and after' })
        .getByRole('row', { name: /^Weight/ })
        .first()
        .getByRole('cell')
        .first();
      await eventually(() => before.innerText(), '8.11');
      await page.keyboard.type('4');
      expect(await page.getByLabel('Thickness (in)').inputValue()).toBe('.0254');
    });

    it('says at the field what is wrong, and takes the rows that are selected', async () => {
      await open(smallBook(), 'What if');
      await page.evaluate(() => window.handles.select({ sheet: 'Parts', row: 2, column: 0, rows: 1, columns: 3 }));
      await page.getByRole('button', { name: 'Rows selected in the sheet' }).click();
      await page.getByRole('checkbox', { name: /^Web/ }).waitFor();
      await page.getByLabel('Thickness (in)').fill('25');
      await page.getByText(/25 looks like thousandths/).waitFor();
      expect(await page.getByRole('button', { name: /^Apply/ }).isDisabled()).toBe(true);
    });

    it('says so where the workbook refuses, and keeps the trial', async () => {
      await open(smallBook(), 'What if');
      await pickSkin('.025');
      await page.evaluate(
        () => (window.handles.refuseNext = { code: 'protected', message: 'The sheet "Design" is protected' }),
      );
      await page.getByRole('button', { name: /^Apply/ }).click();
      await page
        .getByText('Nothing was written. The sheet "Design" is protected. Unprotect the sheet, then try again.')
        .waitFor();
      expect(await page.getByLabel('Thickness (in)').inputValue()).toBe('.025');
    });
  });

  describe('workbooks that lack something', () => {
    it('are told which headers are wanted, and read as soon as they are there', async () => {
      const bare = {
        styles: [],
        names: [],
        sheets: [{ name: 'Parts', cells: [[{ value: 'My airplane' }]], tables: [] }],
      } as WorkbookModel;
      await open(bare, null);
      await page.getByText('needs Component, Part and Weight (lb)').waitFor();
      for (const [column, header] of ['Component', 'Part', 'Weight'].entries()) await type('Parts', 2, column, header);
      for (const [column, cell] of ['Tail', 'Fin', 3.5].entries()) await type('Parts', 3, column, cell);
      await bar(/^Tail: now 3\.50/).waitFor();
      expect(await axeFindings(page)).toEqual([]);
    });

    it('get a budget by one button', async () => {
      await open(smallBook({ budget: false }));
      await page.getByRole('button', { name: 'Add a budget from today’s forecast' }).click();
      await bar(/^Skin: now 4\.11, forecast 5\.11, budget 5\.20/).waitFor();
      expect(await page.getByRole('button', { name: 'Add a budget from today’s forecast' }).count()).toBe(0);
    });

    it('are told which cells to mend, and taken there', async () => {
      await open(smallBook());
      await type('Parts', 2, 7, 'finished');
      await page.getByRole('button', { name: '1 cell to fix' }).click();
      await page.getByRole('button', { name: 'Parts!H3' }).click();
      await eventually(selected, { sheet: 'Parts', row: 2, column: 7, rows: 1, columns: 1 });
    });
  });

  it.each([
    ['light', 320, 'budget'],
    ['dark', 350, 'wing'],
    ['contrast', 600, 'budget'],
  ] as const)(
    'has nothing for axe to find and nothing cut off: %s, %i px',
    async (theme, width, book) => {
      await open(sample(book), 'Budget', { theme, width });
      for (const tab of ['Budget', 'Heaviest', 'Log', 'Scale', 'What if']) {
        await page.getByRole('tab', { name: tab, exact: true }).click();
        if (tab === 'Scale') await page.getByRole('checkbox').check();
        if (tab === 'What if') {
          await page.getByLabel('All of a component').selectOption('Ribs');
          await page.getByLabel('Thickness (in)').fill('.025');
          await page.getByText('Cells that Apply writes').waitFor();
        }
        for (const asTable of [false, true]) {
          const toggles = page.getByRole('button', { name: 'As a table' });
          if (asTable && (await toggles.count()) === 0) continue;
          if (asTable) await toggles.click();
          // A button under the pointer has another colour.
          await page.mouse.move(0, 0);
          expect(await axeFindings(page), `${tab}${asTable ? ' as a table' : ''}`).toEqual([]);
          expect(await layoutFaultsAt(page, [width], '[role=tabpanel]'), tab).toEqual([]);
        }
      }
    },
    60_000,
  );
});
