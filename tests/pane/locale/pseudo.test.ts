/** The pane in a made-up language, over the sample workbooks: nothing of it stays in English, and longer texts have room. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { PRICE_COLUMNS, PRICE_KINDS, SALE_UNITS } from '../../../src/core/price';
import { catalogue } from '../../../src/functions';
import { setLocale, t, writeNumber } from '../../../src/pane/locale';
import { VIEWS } from '../../../src/pane/shell/shell';
import * as workbook from '../../../src/project';
import type { WorkbookModel } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';
import { collectTexts } from '../../../tools/texts/collect';
import { paneSource } from '../../../tools/texts/files';
import { dense } from '../../helpers/dense';
import { layoutFaultsAt } from '../../helpers/layout';
import { chromiumPath, panePages, press } from '../pane-page';
import { airplanes, book, nothing, partsSheet, surfacesSheet } from '../views/balance/models';
import { looseList, noPrices, priceBook, PRICE_ROWS } from '../views/prices/price-book-model';
import { pseudoLocale, pseudoText } from './pseudo-locale';
import { foreignTexts, outsideBrackets } from './shown-texts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const locale = pseudoLocale(collectTexts(paneSource(root)).texts.keys());
const SAMPLES = readdirSync(`${root}sample-workbooks`).filter((name) => name.endsWith('.xlsx'));

/** What the layers below the pane name: they are the same in every language, as the cells of the workbook are. */
const BELOW = [
  ...[
    ...PRICE_COLUMNS.map(({ label }) => label),
    ...PRICE_KINDS,
    ...SALE_UNITS,
    workbook.PRICE_TABLE,
    ...workbook.COUNT_RULES,
    ...workbook.GEARS,
    'Total',
  ],
  ...workbook.USUAL_OPTIONS.flat(),
  ...Object.values(workbook).flatMap((form) =>
    isForm(form) ? [form.sheet, ...form.columns.flatMap(({ label, choices }) => [label, ...(choices ?? [])])] : [],
  ),
  ...catalogue.flatMap(({ name, summary, parameters }) => [
    name,
    summary,
    ...parameters.flatMap((parameter) => [parameter.name, parameter.help, ...(parameter.choices ?? [])]),
  ]),
];

interface Form {
  readonly sheet: string;
  readonly columns: readonly { readonly label: string; readonly choices?: readonly string[] }[];
}
function isForm(value: unknown): value is Form {
  return typeof value === 'object' && value !== null && 'sheet' in value && 'columns' in value;
}

const sample = (name: string): WorkbookModel =>
  dense(readWorkbook(new Uint8Array(readFileSync(`${root}sample-workbooks/${name}`))));

/** How the texts begin that stand there until a view has been fetched and has read its sheets. */
const WAITING = ['Opening', 'Reading'].map((word) => pseudoText(word).slice(0, -1)).join('|');

const wordsOf = ({ sheets, names }: WorkbookModel): string[] => [
  ...names.map(({ name }) => name),
  ...sheets.flatMap(({ name, cells, tables }) => [
    name,
    ...tables.map((table) => table.name),
    ...cells.flatMap((row) =>
      (row ?? []).flatMap((cell) => (typeof cell?.value === 'string' ? [cell.value.trim()] : [])),
    ),
  ]),
];

/** What a click asks for is drawn at once. What the pane waits with until somebody has stopped typing takes longer than any wait here, and has tests of its own. */
const QUIET_MS = 40;

/** Until nothing of the page has changed for a while. */
const settled = (page: Page): Promise<void> =>
  page.evaluate(
    (quiet) =>
      new Promise<void>((resolve) => {
        const done = (): void => {
          observer.disconnect();
          resolve();
        };
        let timer = setTimeout(done, quiet);
        const observer = new MutationObserver(() => {
          clearTimeout(timer);
          timer = setTimeout(done, quiet);
        });
        observer.observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
      }),
    QUIET_MS,
  );

describe('the made-up language', () => {
  afterEach(() => setLocale());

  it('keeps the places of a text', () => {
    setLocale(pseudoLocale(['{count, plural, one {# row} other {# rows}} of {name}']));
    expect(t('{count, plural, one {# row} other {# rows}} of {name}', { count: 1200, name: 'Parts' })).toBe(
      '⟦1.200 róòwš óòf Parts⟧',
    );
    expect(writeNumber(0.5, 1)).toBe('0,5');
    expect(pseudoText('See <b>{what}</b>')).toBe('⟦Séèéè <b>{what}</b>⟧');
  });
});

describe('texts that are not translated', () => {
  it('are found, and those of the workbook are let alone', () => {
    const shown = [
      'Undo',
      'Parts',
      'Parts C3',
      'Spar web 12,5 kg',
      'Sparrow',
      '0,02/in²',
      '#VALUE! TARE.PRICE.COST',
    ].map((text) => ({ text, place: 'p' }));
    expect(foreignTexts(shown, ['Parts', 'Spar web', 'Spar'])).toEqual(['p: Undo', 'p: Sparrow']);
  });
});

describe.skipIf(!chromiumPath)('the pane in a made-up language', { timeout: 120_000 }, () => {
  const pages = panePages();
  let page: Page;

  /** Everything that is shown now is translated, and has room at the narrowest width. */
  async function look(model: WorkbookModel, where: string): Promise<void> {
    await settled(page);
    expect.soft(foreignTexts(await outsideBrackets(page), [...BELOW, ...wordsOf(model)]), where).toEqual([]);
    expect.soft(await layoutFaultsAt(page, [320], '#pane'), where).toEqual([]);
  }

  /** Goes through a view: its tabs, and on each what can be unfolded or pressed to show more. */
  async function walk(model: WorkbookModel, view: string): Promise<void> {
    await press(page.locator(`#tab-${view}`));
    await page.waitForFunction(
      ([id, waiting]) => {
        const said = document.getElementById(id!)?.innerText ?? '';
        return said.length > 20 && !waiting!.split('|').some((word) => said.includes(word));
      },
      [`view-${view}`, WAITING],
    );
    const inner = await page.locator(`#view-${view} [role=tab]`).evaluateAll((found) => found.map(({ id }) => id));
    for (const tab of inner.length > 0 ? inner : [undefined]) {
      if (tab) await press(page.locator(`#${tab}`));
      const name = tab ?? view;
      await look(model, name);
      const more = page
        .locator(`#view-${view} :is([aria-expanded=false], [aria-pressed=false], details:not([open]) > summary)`)
        .filter({ visible: true });
      for (let index = 0; index < Math.min(3, await more.count()); index += 1) {
        await press(more.nth(index));
        await look(model, `${name}, opened ${index + 1}`);
      }
    }
  }

  const open = async (model: WorkbookModel, firstRun = false): Promise<void> => {
    page = await pages.open(model, { width: 320, height: 900, locale, firstRun });
    await page.locator('#tab-prices').waitFor();
  };

  it('is told where a text is left in English', async () => {
    const { 'Add item': _text, Filter: _label, ...texts } = locale.texts!;
    page = await pages.open(priceBook(), { locale: { ...locale, texts } });
    await page.locator('#tab-prices').waitFor();
    await expect
      .poll(async () => foreignTexts(await outsideBrackets(page), [...BELOW, ...wordsOf(priceBook())]))
      .toEqual(['button: Add item', 'input aria-label: Filter']);
  });

  it.each(SAMPLES)('has no English text and cuts nothing off over %s', async (name) => {
    const model = sample(name);
    await open(model);
    for (const { id } of VIEWS) await walk(model, id);
  });

  it.each([
    ['no price list', noPrices],
    ['rows that could be one', looseList()],
    ['a column missing', priceBook([['bolt', 'other', 4]], ['Item', 'Kind', 'Price'])],
    ['an empty list', priceBook([PRICE_ROWS[0]!.map(() => null)])],
    [
      'faults',
      priceBook([
        ...PRICE_ROWS.slice(0, 5),
        ['Our own rivet', 'rivet', 'lb', null, 20],
        ['Strip .063', 'bar', 'pack', null, -3, 'dollars', null, null, 46_000],
      ]),
    ],
  ] as const)('has none in the prices with %s', async (_name, model) => {
    await open(model);
    await walk(model, 'prices');
  });

  it('has none in the balance: loads out of range, ballast, a new airplane, control surfaces, cells to mend', async () => {
    const model = airplanes();
    await open(model);
    await page.locator('#tab-balance').click();
    await page.locator('#tab-balance-loading').click();
    const load = (index: number) => page.locator('#view-balance-loading td input').nth(index);
    for (const [index, pounds] of [
      [0, '110'],
      [2, '180'],
      [1, '2 m'],
    ] as const) {
      await load(index).fill(pounds);
      await page.keyboard.press('Enter');
    }
    await look(model, 'loads out of range');
    await page.locator('#view-balance-loading select').last().selectOption('other');
    await look(model, 'ballast without an arm');
    await page
      .locator('#view-balance-loading select ~ * input, #view-balance-loading input:not(td input)')
      .first()
      .fill('10');
    await look(model, 'ballast');
    await page.close();

    await open(nothing);
    await walk(nothing, 'balance');
    await page.locator('#tab-balance-weighing').click();
    await page.locator('#view-balance button[type=submit]').click();
    await settled(page);
    const names = ['Weighing', 'Loading', 'Envelope', 'Cases', 'invented example, put your own'].map((name) => ({
      name,
      ref: '',
    }));
    await look({ ...airplanes(), names } as unknown as WorkbookModel, 'a new airplane');
    await page.close();

    const surfaces = book(
      partsSheet(),
      surfacesSheet([
        ['Aileron', 'Aileron', 90, 1.2, 1, 10, 4],
        ['Rudder', 'Rudder', 12, 1],
      ]),
    );
    await open(surfaces);
    await walk(surfaces, 'balance');
  });

  it('has none while prices are typed, refused, brought in and taken back', async () => {
    const model = priceBook();
    await open(model);
    const cell = page.locator('[data-cell$=":price"]').first();
    await cell.dblclick();
    await page.keyboard.type('12.345,6.7');
    await page.keyboard.press('Enter');
    await look(model, 'a number that is none');
    await page.keyboard.press('Escape');
    await cell.dblclick();
    await page.keyboard.type('1.234,5');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell.innerText()).toContain('1.234,50');
    await page.evaluate(() => window.handles.select({ sheet: 'Parts', row: 2, column: 2, rows: 1, columns: 1 }));
    await look(model, 'an explained error');
    await page.locator('#view-prices button').first().click();
    await page.locator('form button[type=submit]').click();
    await look(model, 'an item that is not complete');
    await page.locator('form button[type=button]').first().click();
    await page.locator('input[type=search]').fill('zzz');
    await look(model, 'nothing matches');
    const csv =
      'Item;Kind;Sold by;Price;Colour\nnew pin;other;each;2,5;red\nbad;other;each;two;\nnew pin;other;each;3;\n';
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'spring.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
    await look(
      {
        ...model,
        names: [
          ...model.names,
          { name: 'spring.csv', ref: '' },
          { name: 'Colour', ref: '' },
        ] as unknown as WorkbookModel['names'],
      },
      'import',
    );
  });

  it('has none at the first start', async () => {
    await open({ styles: [], names: [], sheets: [{ name: 'Sheet1', cells: [], tables: [] }] }, true);
    await look({ styles: [], names: [], sheets: [{ name: 'Sheet1', cells: [], tables: [] }] }, 'first start');
  });
});
