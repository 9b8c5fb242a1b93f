import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import type { CellModel, SheetModel, WorkbookModel } from '../../../../src/sheet';
import { layoutFaultsAt } from '../../../helpers/layout';
import { exampleSkins } from '../../../helpers/sample-figures';
import { axeInEveryTheme, chromiumPath, type OpenOptions, panePages } from '../../pane-page';

const sheet = (
  name: string,
  values: readonly (readonly (string | number)[])[] = [],
  rest: Partial<SheetModel> = {},
): SheetModel => ({
  name,
  cells: values.map((line) => line.map((value): CellModel => ({ value }))),
  tables: [],
  ...rest,
});
const book = (...sheets: readonly SheetModel[]): WorkbookModel => ({ sheets, names: [], styles: [] });
const NEW = book(sheet('Sheet1'));
const PRESS = 'Make this workbook ready';

describe.skipIf(!chromiumPath)('a new workbook in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (model: WorkbookModel = NEW, options: OpenOptions = {}): Promise<void> => {
    page = await pages.open(model, { firstRun: true, ...options });
  };
  const heading = (name: string): Locator => page.getByRole('heading', { name, level: 2 });
  const button = (name: string): Locator => page.getByRole('button', { name, exact: true });
  const make = async (): Promise<void> => {
    await button(PRESS).click();
    await heading('This workbook is ready').waitFor({ timeout: 20_000 });
  };
  const sheets = (): Promise<string[]> =>
    page.evaluate(async () => (await window.handles.workbook.sheets()).map(({ name }) => name));
  const read = (name: string, row: number, column: number): Promise<unknown> =>
    page.evaluate(
      async ([s, r, c]) =>
        (await window.handles.workbook.read({ sheet: s, row: r, column: c, rows: 1, columns: 1 }))[0]![0],
      [name, row, column] as const,
    );
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement!.textContent ?? '');
  const eventually = (look: () => Promise<unknown>, expected: unknown): Promise<void> =>
    expect.poll(look).toEqual(expected);

  it('is told what will be added, and is ready after one click', async () => {
    await open();
    await heading(PRESS).waitFor();
    // What is shown unasked takes no focus.
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(true);
    expect(await page.getByRole('listitem').allInnerTexts()).toEqual([
      expect.stringMatching(/^Prices/),
      expect.stringMatching(/^Parts/),
      expect.stringMatching(/^Joints/),
      expect.stringMatching(/^Rivets/),
      expect.stringMatching(/^Hardware/),
      expect.stringMatching(/^Budget/),
    ]);
    expect(await page.getByRole('tabpanel').count()).toBe(0);
    await make();
    // The one empty sheet of a new workbook has made room.
    expect(await sheets()).toEqual(['Prices', 'Rivets', 'Parts', 'Joints', 'Hardware', 'Budget']);
    expect(await focused()).toBe('This workbook is ready');
    expect(await page.getByText('6 sheets were added, with 22 invented example rows.').count()).toBe(1);
    expect(await page.getByRole('listitem').nth(2).innerText()).toContain(
      '5 example rows; formulas wait in every row. Type in A6:L205.',
    );
    // The person goes on in the first cell of the parts list.
    await eventually(() => page.evaluate(() => window.handles.workbook.selection()), {
      sheet: 'Parts',
      row: 5,
      column: 0,
      rows: 1,
      columns: 1,
    });
    await eventually(() => read('Budget', 8, 3), 'Total');
    await button('Go to Joints').click();
    await eventually(() => page.evaluate(() => window.handles.workbook.selection()), {
      sheet: 'Joints',
      row: 5,
      column: 0,
      rows: 1,
      columns: 1,
    });
    await button('Close').click();
    await page.getByRole('tabpanel').getByText('MS20470AD3-3').first().waitFor();
    await page.getByRole('tab', { name: 'Weights' }).click();
    await page.getByRole('button', { name: new RegExp(`^Skins: now ${exampleSkins().toFixed(2)}`) }).waitFor();
  });

  it('is made in millimetres and without examples where that is chosen', async () => {
    await open();
    await page.getByRole('radio', { name: 'Millimetres and kilograms' }).check();
    await page.getByRole('checkbox', { name: 'With example rows' }).uncheck();
    await make();
    expect(await page.getByText('6 sheets were added. Type in').count()).toBe(1);
    expect([await read('Parts', 4, 4), await read('Parts', 4, 12), await read('Parts', 5, 0)]).toEqual([
      'Thickness (mm)',
      'Weight (kg)',
      null,
    ]);
  });

  it('is as it was after one undo, and is offered the same again', async () => {
    await open(book(sheet('Sheet1', [['mine']])));
    await make();
    await button('Undo').click();
    await heading(PRESS).waitFor();
    await eventually(focused, PRESS);
    expect(await page.getByRole('status').filter({ hasText: 'The sheets are gone again' }).count()).toBe(1);
    expect(await sheets()).toEqual(['Sheet1']);
    expect(await read('Sheet1', 0, 0)).toBe('mine');
    await make();
    expect((await sheets()).length).toBe(7);
  });

  it('says so where an undo takes back what was typed since', async () => {
    await open();
    await make();
    await page.evaluate(() => window.handles.type('Parts', 20, 1, 'later'));
    await eventually(() => read('Parts', 20, 1), 'later');
    await button('Undo').click();
    await page.getByText('Your last change in the workbook is taken back.').waitFor();
    expect([await read('Parts', 20, 1), (await sheets()).length]).toEqual([null, 6]);
    await button('Undo').click();
    await heading(PRESS).waitFor();
    expect(await sheets()).toEqual(['Sheet1']);
  });

  it('keeps sheets that have the names and hold something else, and says which, before and after', async () => {
    await open(book(sheet('Parts', [['bolts in the drawer']]), sheet('Prices', [['of houses']])));
    await page.getByText('The sheet Parts holds something else and stays as it is').waitFor();
    expect(await page.getByText('the price list goes on a sheet Prices 2').count()).toBe(1);
    await make();
    expect(await page.getByText('The sheet Parts holds something else and was left as it is.').count()).toBe(1);
    expect(await page.getByText('the price list is on the sheet Prices 2').count()).toBe(1);
    expect([await read('Parts', 0, 0), await read('Prices', 0, 0)]).toEqual(['bolts in the drawer', 'of houses']);
    expect(await page.getByRole('listitem').allInnerTexts()).toEqual([
      expect.stringMatching(/^Prices 2/),
      expect.stringMatching(/^Rivets/),
      expect.stringMatching(/^Joints/),
      expect.stringMatching(/^Hardware/),
      expect.stringMatching(/^Budget/),
    ]);
  });

  it('is left whole where a sheet is protected, and told what to do', async () => {
    await open(book(sheet('Sheet1'), sheet('Joints', [], { protected: true })));
    await button(PRESS).click();
    await page
      .getByRole('alert')
      .filter({ hasText: 'Nothing was added. The sheet "Joints" is protected. Unprotect the sheet, then try again.' })
      .waitFor();
    expect(await sheets()).toEqual(['Sheet1', 'Joints']);
    expect(await page.evaluate(() => window.handles.workbook.tables())).toEqual([]);
  });

  it('is left whole where the host refuses, and can be tried again', async () => {
    await open();
    await page.evaluate(() => (window.handles.refuseNext = { code: 'host', message: 'The host is busy' }));
    await button(PRESS).click();
    await page
      .getByText('Nothing was added. The host is busy. Finish what is being typed in the sheet, then try again.')
      .waitFor();
    expect(await sheets()).toEqual(['Sheet1']);
    await make();
  });

  it('is worked by the keyboard alone', async () => {
    await open();
    await heading(PRESS).waitFor();
    const tabTo = async (name: RegExp): Promise<void> => {
      for (let presses = 0; presses < 20; presses++) {
        await page.keyboard.press('Tab');
        const label = await page.evaluate(
          () =>
            (document.activeElement as HTMLInputElement).labels?.[0]?.textContent ??
            document.activeElement!.textContent ??
            '',
        );
        if (name.test(label)) return;
      }
      throw new Error(`never came to ${String(name)}`);
    };
    await tabTo(/Inches and pounds/);
    await page.keyboard.press('ArrowDown');
    await tabTo(/With example rows/);
    await page.keyboard.press(' ');
    await tabTo(/^Make this workbook ready$/);
    await page.keyboard.press('Enter');
    await heading('This workbook is ready').waitFor({ timeout: 20_000 });
    expect(await read('Parts', 4, 12)).toBe('Weight (kg)');
    await tabTo(/^Go to Parts$/);
    await page.keyboard.press('Enter');
    await eventually(() => page.evaluate(async () => (await window.handles.workbook.selection())?.sheet), 'Parts');
    await page.keyboard.press('Control+z');
    await heading(PRESS).waitFor();
    await eventually(focused, PRESS);
    expect(await sheets()).toEqual(['Sheet1']);
  });

  it('makes room for a view that is chosen, and stays in reach', async () => {
    await open();
    await heading(PRESS).waitFor();
    await page.getByRole('tab', { name: 'Weights' }).click();
    await heading('No parts list in this workbook yet').waitFor();
    await button('Make it ready …').click();
    await eventually(focused, PRESS);
    await button('Look around first').click();
    await eventually(focused, 'Make it ready …');
  });

  it('is met by the line alone by whoever wanted to look around first, until it is in use', async () => {
    await open(NEW, { firstRun: false });
    await button('Make it ready …').waitFor();
    await page.getByRole('tabpanel').getByText('No price list in this workbook yet').waitFor();
    await button('Add a price list').click();
    await page.getByText('Added the sheet Prices').waitFor();
    await eventually(() => button('Make it ready …').count(), 0);
  });

  it('is not offered anything where one of the project’s sheets is there', async () => {
    await open(
      book(
        sheet('Weighing tailwheel'),
        sheet('Joints', [
          ['Joint', 'Component', 'Rivets'],
          ['lap', 'Wing', 4],
        ]),
      ),
    );
    await page.getByRole('tabpanel').getByText('No price list in this workbook yet').waitFor();
    expect(await page.getByText(PRESS).count()).toBe(0);
  });

  describe('one sheet', () => {
    it.each([
      ['Weights', 'Parts', 'A6', []],
      ['Rivets', 'Joints', 'A6', ['Rivets']],
    ])('is added by the view %s, with the price list that its costs come from', async (view, name, first, beside) => {
      await open(NEW, { firstRun: false });
      await page.getByRole('tab', { name: view }).click();
      await button(`Add the sheet ${name}`).click();
      await eventually(async () => [...(await sheets())].sort(), ['Sheet1', 'Prices', ...beside, name].sort());
      await eventually(() => button(`Add the sheet ${name}`).count(), 0);
      await page.getByText(`The sheet ${name} is ready and empty. Type the first row from ${first} on.`).waitFor();
      await button(`Go to ${name}`).click();
      await eventually(() => page.evaluate(() => window.handles.workbook.selection()), {
        sheet: name,
        row: 5,
        column: 0,
        rows: 1,
        columns: 1,
      });
    });
  });

  describe('as a guest', () => {
    const states: readonly (readonly [string, WorkbookModel, () => Promise<unknown>])[] = [
      ['the offer', NEW, async () => undefined],
      [
        'the offer beside sheets of those names',
        book(sheet('Parts', [['x']]), sheet('Prices', [['x']])),
        () => page.getByText('Prices 2').waitFor(),
      ],
      [
        'refused',
        book(sheet('Joints', [], { protected: true })),
        async () => {
          await button(PRESS).click();
          await page.getByText('Nothing was added').waitFor();
        },
      ],
      ['made', NEW, make],
      [
        'taken back',
        NEW,
        async () => {
          await make();
          await button('Undo').click();
          await page.getByText('The sheets are gone again').waitFor();
        },
      ],
      ['the line', NEW, () => button('Look around first').click()],
    ];

    it.each(states)(
      'has no accessibility finding in any theme at 320 and 600 px, and cuts nothing off: %s',
      async (_name, model, reach) => {
        await open(model, { width: 320 });
        await page.getByText(PRESS).first().waitFor();
        await reach();
        for (const width of [320, 600]) {
          await page.setViewportSize({ width, height: 700 });
          expect(await layoutFaultsAt(page, [width], '#pane')).toEqual([]);
          expect(await axeInEveryTheme(page), String(width)).toEqual([]);
        }
      },
    );
  });
});
