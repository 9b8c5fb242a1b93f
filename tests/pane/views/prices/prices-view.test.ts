import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import type { Cell, WorkbookModel } from '../../../../src/sheet';
import { layoutFaultsAt } from '../../../helpers/layout';
import { axeInEveryTheme, chromiumPath, type OpenOptions, panePages } from '../../pane-page';
import { looseList, noPrices, priceBook, PRICE_ROWS } from './price-book-model';

/** Rows with every kind of fault, and long names. */
const FAULTY = [
  ...PRICE_ROWS.slice(0, 3),
  ['Our own rivet', 'rivet', 'lb', null, 20, 'USD', null, 'Rivet Shed', null, null, null],
  [
    'Strip .063 with a name that is long enough to wrap',
    'bar',
    'pack',
    null,
    -3,
    'dollars',
    null,
    'A supplier with a long name indeed',
    46000,
    null,
    null,
  ],
];
const CSV =
  'Item,Kind,Sold by,Contents,Price,Currency,Supplier,Quoted on,Colour\nMS20470AD4-4,rivet,lb,,33,USD,Rivet Shed,2026-03-01,blue\nnew pin,other,each,,2,USD,Rivet Shed,2026-03-01,\nbad,other,each,,two,USD,,,\n';

describe.skipIf(!chromiumPath)('the view Prices in Chromium', () => {
  const pages = panePages();
  let page: Page;

  const open = async (model: WorkbookModel = priceBook(), options: OpenOptions = {}): Promise<void> => {
    page = await pages.open(model, options);
    await page
      .getByRole('tabpanel')
      .getByText(/rows|price list|Use the rows/i)
      .first()
      .waitFor();
  };
  const cell = (row: number, column: string): Locator => page.locator(`[data-cell$=":${column}"]`).nth(row);
  const read = (row: number, column: number): Promise<Cell> =>
    page.evaluate(
      async ([r, c]) =>
        (await window.handles.workbook.read({ sheet: 'Prices', row: r!, column: c!, rows: 1, columns: 1 }))[0]![0]!,
      [row, column],
    );
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const element = document.activeElement as HTMLElement;
      return (
        element.dataset.cell?.split(':')[1] ??
        element.dataset.editor?.split(':')[1] ??
        element.getAttribute('aria-label') ??
        element.textContent ??
        ''
      );
    });
  const importCsv = (text: string): Promise<void> =>
    page
      .locator('input[type=file]')
      .setInputFiles({ name: 'spring.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  const eventually = async (read: () => Promise<unknown>, expected: unknown): Promise<void> =>
    expect.poll(read).toEqual(expected);

  describe('editing in place', () => {
    it('changes the sheet from the pane, and the pane from the sheet, cost with it', async () => {
      await open();
      await cell(0, 'price').dblclick();
      await page.keyboard.type('296');
      await page.keyboard.press('Enter');
      expect(await cell(0, 'price').innerText()).toContain('296.00');
      await eventually(() => read(1, 4), 296);
      await eventually(
        () =>
          page.evaluate(
            async () =>
              (await window.handles.workbook.read({ sheet: 'Parts', row: 1, column: 2, rows: 1, columns: 1 }))[0]![0],
          ),
        37,
      );
      await page.evaluate(() => window.handles.type('Prices', 1, 4, 74));
      await eventually(() => cell(0, 'unit').innerText(), '0.0107/in²');
    });

    it('keeps what is being typed while the sheet changes, and says what it holds now', async () => {
      await open();
      await cell(0, 'price').focus();
      await page.keyboard.type('15');
      await page.evaluate(() => {
        window.handles.type('Prices', 1, 4, 99);
        window.handles.type('Prices', 2, 4, 98);
      });
      await page.getByText('The sheet now says 99; saving keeps yours.').waitFor();
      expect(await cell(0, 'price').innerText()).toContain('98.00');
      await page.keyboard.type('5');
      await page.keyboard.press('Enter');
      await eventually(() => read(1, 4), 155);
    });

    it('says at the field what is wrong, tied to it for a screen reader', async () => {
      await open();
      await cell(0, 'price').focus();
      await page.keyboard.type('12,5x');
      await page.keyboard.press('Enter');
      const editor = page.getByRole('textbox', { name: 'Price of Sheet 2024-T3 .025' });
      expect(await editor.getAttribute('aria-invalid')).toBe('true');
      const described = await editor.getAttribute('aria-describedby');
      expect(await page.locator(`[id="${described}"]`).innerText()).toBe('“12,5x” is not a number');
      expect(await focused()).toBe('price');
      expect(await read(1, 4)).toBe(148);
      await page.keyboard.press('Escape');
      expect(await focused()).toBe('price');
      expect(await cell(0, 'price').innerText()).toContain('148.00');
    });

    it('shows the text again, with the reason, where the workbook refuses it', async () => {
      await open();
      await page.evaluate(
        () => (window.handles.refuseNext = { code: 'protected', message: 'The sheet "Prices" is protected' }),
      );
      await cell(0, 'price').focus();
      await page.keyboard.type('20');
      await page.keyboard.press('Enter');
      await page.getByText('The sheet "Prices" is protected. Unprotect the sheet, then try again.').waitFor();
      expect(await page.getByRole('textbox', { name: 'Price of Sheet 2024-T3 .025' }).inputValue()).toBe('20');
    });
  });

  describe('with the keyboard alone', () => {
    it('reaches the grid by Tab, moves by arrows, edits, and leaves by Tab', async () => {
      await open();
      await page.locator('[aria-label="A quote is old after"]').focus();
      for (let presses = 0; presses < 4; presses++) await page.keyboard.press('Tab');
      // The three sorting headers, then one cell for the whole grid.
      expect(await focused()).toBe('item');
      for (const key of ['ArrowDown', 'ArrowRight', 'ArrowRight', 'ArrowLeft']) await page.keyboard.press(key);
      expect(await focused()).toBe('price');
      await page.keyboard.press('F2');
      await page.keyboard.press('End');
      await page.keyboard.type('5');
      await page.keyboard.press('Tab');
      expect(await focused()).toBe('unit');
      await eventually(() => read(2, 4), 131.55);
      await page.keyboard.press('Control+End');
      expect(await focused()).toBe('open');
      await page.keyboard.press('Tab');
      expect(
        await page.evaluate(
          () => document.activeElement === document.body || !document.activeElement!.closest('[role=grid]'),
        ),
      ).toBe(true);
    });

    it('opens a row, saves it, and comes back to it', async () => {
      await open();
      await cell(4, 'open').focus();
      await page.keyboard.press('Enter');
      expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe('MS20470AD4-4');
      const save = (await page.getByRole('button', { name: 'Save', exact: true }).boundingBox())!;
      expect(save.y + save.height).toBeLessThanOrEqual(700);
      const note = page.getByRole('textbox', { name: 'Note' });
      await note.focus();
      await page.keyboard.type('by post');
      await page.keyboard.press('Enter');
      expect(await focused()).toBe('open');
      expect(await cell(4, 'open').getAttribute('aria-expanded')).toBe('false');
      await eventually(() => read(5, 9), 'by post');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Escape');
      expect(await focused()).toBe('open');
    });

    it('adds an item, and stays in the form for the next', async () => {
      await open();
      await page.getByRole('button', { name: 'Add item' }).focus();
      await page.keyboard.press('Enter');
      await page.keyboard.type('Bolt');
      await page.keyboard.press('Enter');
      // Refused: the first field that is wrong has the focus and is in sight.
      await eventually(() => page.evaluate(() => document.activeElement!.getAttribute('aria-invalid')), 'true');
      await page.getByRole('combobox', { name: 'Kind' }).selectOption('other');
      await page.getByRole('combobox', { name: 'Sold by' }).selectOption('100');
      await page.getByRole('textbox', { name: 'Price' }).fill('48');
      await page.getByText('Unit price: 0.4800 USD each').waitFor();
      await page.keyboard.press('Enter');
      await page.getByText('Added Bolt.').waitFor();
      await eventually(() => read(9, 4), 48);
      await eventually(() => page.evaluate(() => (document.activeElement as HTMLInputElement).value), '');
      expect(await page.getByRole('combobox', { name: 'Kind' }).inputValue()).toBe('other');
      await page.keyboard.press('Escape');
      expect(await focused()).toContain('Add item');
    });

    it('removes a row, keeps the focus in the list, and brings it back with Ctrl+Z', async () => {
      await open();
      await cell(0, 'open').click();
      await page.getByRole('button', { name: 'Remove' }).click();
      await page.getByText('Removed Sheet 2024-T3 .025.').waitFor();
      expect(await focused()).toBe('item');
      await eventually(() => read(1, 4), 131.5);
      await page.keyboard.press('Control+z');
      await eventually(() => read(1, 4), 148);
      await page.keyboard.press('Control+y');
      await eventually(() => read(1, 4), 131.5);
    });
  });

  describe('the view of the list', () => {
    it('sorts by a header, and back, without touching the sheet', async () => {
      await open();
      const items = (): Promise<string[]> =>
        page.locator('[data-cell$=":price"]').evaluateAll((cells) => cells.map((one) => one.firstChild!.textContent!));
      await page.getByRole('columnheader', { name: 'Price', exact: true }).getByRole('button').click();
      await eventually(async () => (await items())[0], '11.20');
      expect(await page.getByRole('columnheader', { name: 'Price', exact: true }).getAttribute('aria-sort')).toBe(
        'ascending',
      );
      expect(await read(1, 4)).toBe(148);
      await page.getByRole('button', { name: 'Sort the sheet like this' }).click();
      await eventually(() => read(1, 4), 11.2);
    });

    it('filters by text and kind, and finds old quotes by the chosen age', async () => {
      await open();
      await page.getByRole('searchbox', { name: 'Filter' }).fill('harbor');
      await page.getByText('3 of 8 rows').waitFor();
      await page.getByRole('searchbox', { name: 'Filter' }).fill('no such thing');
      await page.getByRole('button', { name: 'Show all rows' }).click();
      await page.getByRole('combobox', { name: 'Show' }).selectOption('old');
      await page.getByText('2 of 8 rows').waitFor();
      expect(await page.getByText('old: 14 months').count()).toBe(1);
      await page.getByRole('combobox', { name: 'A quote is old after' }).selectOption('3');
      await page.getByText('3 of 8 rows').waitFor();
      expect(await page.getByText('old: 4 months').count()).toBe(1);
    });

    it('finds rows among 800', async () => {
      await open(
        priceBook(
          Array.from({ length: 800 }, (_, index) => [
            `Part ${index}`,
            'other',
            'each',
            null,
            1,
            'USD',
            null,
            'Rivet Shed',
            46000,
            null,
            null,
          ]),
        ),
        { width: 600 },
      );
      await page.getByRole('searchbox').fill('part 77');
      await eventually(() => page.locator('[role=status]').first().innerText(), '17 of 800 rows');
    });
  });

  describe('files', () => {
    it('shows what a file brings before it does, brings it in, reports, and gives refused rows back', async () => {
      await open();
      await importCsv(CSV);
      await page.getByRole('heading', { name: 'Import spring.csv' }).waitFor();
      expect(await focused()).toBe('Import spring.csv');
      expect(await read(5, 4)).toBe(31);
      await page.getByRole('button', { name: 'Bring in 2 rows' }).click();
      await page.getByRole('heading', { name: 'Brought in spring.csv' }).waitFor();
      await page.getByText('Left out, because the list has no such column: Colour.').waitFor();
      await page.getByText('Row 4 (bad): Price: got "two"').waitFor();
      await page.getByRole('button', { name: 'Save refused rows as CSV' }).click();
      expect(await page.evaluate(() => window.handles.saved[0]!.text)).toContain('bad,other,each,,two,USD,,,,');
      await page.getByRole('button', { name: 'Close' }).click();
      await eventually(focused, 'Import');
      expect(await read(5, 4)).toBe(33);
      await page.getByRole('button', { name: 'Undo' }).click();
      await eventually(() => read(5, 4), 31);
    });

    it('exports the list with its own and the user’s columns', async () => {
      await open();
      await page.getByRole('button', { name: 'Export' }).click();
      const [file] = await page.evaluate(() => window.handles.saved);
      expect(file!.name).toBe('prices.csv');
      expect(file!.text.split('\r\n')[1]).toBe(
        'Sheet 2024-T3 .025,sheet,sheet,48 x 144,148,USD,,Harbor Metals,2026-02-10,,rack 2',
      );
    });
  });

  describe('a workbook without a list', () => {
    it('is given one by one button, and told what was added', async () => {
      await open(noPrices);
      await page.getByRole('button', { name: 'Add a price list' }).click();
      await page.getByText('Added the sheet Prices with the table Prices').waitFor();
      await eventually(async () => (await focused()).includes('Added the sheet Prices'), true);
      expect(await page.getByRole('row').count()).toBeGreaterThan(8);
      await page.getByRole('button', { name: 'Close' }).click();
      await eventually(async () => (await focused()).includes('Add item'), true);
    });
  });

  describe('the selected cell', () => {
    it('has its error explained, with the name of the function and its help', async () => {
      await open();
      await page.evaluate(() => window.handles.select({ sheet: 'Parts', row: 2, column: 2, rows: 1, columns: 1 }));
      const line = page.getByRole('status', { name: 'The selected cell' });
      await eventually(
        () =>
          line
            .innerText()
            .then((text) => text.includes('Parts!C3 #VALUE! TARE.PRICE.COST') && text.includes('quantity: got -5')),
        true,
      );
      expect(await line.getByRole('link').getAttribute('href')).toBe('/help/PRICE.COST.html');
      await page.evaluate(() => window.handles.type('Parts', 2, 1, 5));
      await eventually(() => line.innerText(), '');
    });
  });

  describe('as a guest', () => {
    /** Neighbouring cells of a row whose texts touch. */
    const overlaps = (): Promise<string[]> =>
      page.evaluate(() => {
        const out: string[] = [];
        for (const row of document.querySelectorAll('[role=row]')) {
          // The last header is there for screen readers alone.
          const boxes = [...row.children]
            .filter((one) => one.textContent !== 'Details')
            .map((one) => {
              const range = document.createRange();
              range.selectNodeContents(one);
              return { text: (one as HTMLElement).innerText, box: range.getBoundingClientRect() };
            });
          boxes.forEach(({ text, box }, index) => {
            const next = boxes[index + 1];
            if (next && box.width > 0 && next.box.width > 0 && box.right > next.box.left + 0.5)
              out.push(`${text} | ${next.text}`);
          });
        }
        return out;
      });

    const states: readonly (readonly [string, WorkbookModel, () => Promise<unknown>])[] = [
      ['list', priceBook(FAULTY), async () => undefined],
      [
        'cell that is wrong, and an explained error',
        priceBook(FAULTY),
        async () => {
          await page.evaluate(() => window.handles.select({ sheet: 'Parts', row: 2, column: 2, rows: 1, columns: 1 }));
          await page.getByText('TARE.PRICE.COST').first().waitFor();
          await cell(0, 'price').dblclick();
          await page.keyboard.type('x');
          await page.keyboard.press('Enter');
        },
      ],
      ['open row', priceBook(FAULTY), () => cell(2, 'open').click()],
      ['open row that has faults', priceBook(FAULTY), () => cell(4, 'open').click()],
      [
        'new item that is not complete',
        priceBook(),
        async () => {
          await page.getByRole('button', { name: 'Add item' }).click();
          await page.getByRole('button', { name: 'Add', exact: true }).click();
        },
      ],
      ['nothing matches', priceBook(), () => page.getByRole('searchbox', { name: 'Filter' }).fill('zzz')],
      ['import', priceBook(), () => importCsv(CSV)],
      [
        'report',
        priceBook(),
        async () => {
          await importCsv(CSV);
          await page.getByRole('button', { name: 'Bring in 2 rows' }).click();
          await page.getByRole('heading', { name: 'Brought in spring.csv' }).waitFor();
        },
      ],
      ['no list', noPrices, async () => undefined],
      ['rows that could be a list', looseList(), async () => undefined],
      [
        'list just added',
        noPrices,
        async () => {
          await page.getByRole('button', { name: 'Add a price list' }).click();
          await page.getByText('Added the sheet').waitFor();
        },
      ],
      ['column missing', priceBook([['bolt', 'other', 4]], ['Item', 'Kind', 'Price']), async () => undefined],
      [
        'empty list',
        priceBook([[null, null, null, null, null, null, null, null, null, null, null]]),
        async () => undefined,
      ],
    ];

    it.each(states)(
      'has no accessibility finding in light, dark and high contrast, and cuts nothing off: %s',
      async (_name, model, reach) => {
        await open(model, { width: 320 });
        await reach();
        expect(await axeInEveryTheme(page)).toEqual([]);
        for (const width of [320, 350, 430, 600]) {
          await page.setViewportSize({ width, height: 700 });
          expect(await layoutFaultsAt(page, [width], '#pane')).toEqual([]);
          expect(await overlaps(), `${width} px`).toEqual([]);
        }
      },
    );

    it('keeps the focus when the theme changes', async () => {
      await open();
      await cell(1, 'price').focus();
      await page.evaluate(() => window.handles.mounted.setTheme('dark'));
      expect(await focused()).toBe('price');
    });

    it('can be used at 320 × 256, the size of a pane at fourfold zoom', async () => {
      await open(priceBook(), { width: 320, height: 256 });
      await cell(7, 'price').focus();
      await page.keyboard.press('Enter');
      const box = (await page.getByRole('textbox', { name: 'Price of Primer, quart' }).boundingBox())!;
      expect(box.y).toBeGreaterThanOrEqual(0);
      expect(box.y + box.height).toBeLessThanOrEqual(256);
    });

    it('asks nothing of any network', async () => {
      const asked: string[] = [];
      page = await pages.open(priceBook());
      page.on('request', (request) => asked.push(request.url()));
      await page.getByRole('button', { name: 'Add item' }).click();
      await cell(0, 'open').click();
      await importCsv(CSV);
      await page.waitForTimeout(200);
      expect(asked).toEqual([]);
    });
  });
});
