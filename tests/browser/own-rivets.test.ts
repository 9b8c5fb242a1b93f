/**
 * A made-up kit with six rivets of its own on the bench, as a builder does it: brought in from a file, a bad row named
 * by its cell, a sample weighed, then picked, weighed, priced and checked by the joints, compared and bought.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { read, readOne, ready, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';
import { chromiumOfPages } from '../helpers/programs';
import '../../src/hosts/bench/window';
import type { Cell, Edit } from '../../src/sheet';

const executable = chromiumOfPages();
const GRAM = 1 / 453.59237;

/** Millimetres, grams and decimal commas; KS-3-4 has no weight, and KP-99 no diameter. */
const KIT = [
  'Label;Kind;Diameter (mm);Min grip (mm);Max grip (mm);1000 bought (g);1000 installed (g);Shear (N)',
  'KP-42;blind;3,2;1,0;3,2;680;281;1150',
  'KP-43;blind;3,2;3,2;4,8;720;300;1150',
  'KR-42;blind retained;3,2;1,0;3,2;900;700;',
  'KS-4-5;universal;3,175;1,5;4;281;281;1700',
  'KF-3-3;flush;2,38125;0,4;1,2;160;160;',
  'KS-3-4;universal;2,38125;1,2;3,2;;;',
  'KP-99;blind;thick;1;2;1;1;',
].join('\r\n');

describe.skipIf(!executable)('own rivets on the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  const labels: string[] = [];

  const apply = (edits: readonly Edit[]): Promise<void> =>
    page.evaluate((all) => window.tarebook!.workbook!.apply('test', all), edits as Edit[]);
  const tab = (name: string): Promise<void> =>
    page.getByRole('tablist', { name: 'Views' }).getByRole('tab', { name, exact: true }).click();
  /** Column of a label on the sheet Rivets or Joints, whose header stands in `row`. */
  const columnOf = async (sheet: string, row: number, label: RegExp): Promise<number> => {
    const [header] = await read(page, { sheet, row, column: 0, rows: 1, columns: 40 });
    return header!.findIndex((cell) => typeof cell === 'string' && label.test(cell));
  };
  const headerRow = async (sheet: string, label: RegExp): Promise<number> => {
    const rows = await read(page, { sheet, row: 0, column: 0, rows: 12, columns: 3 });
    return rows.findIndex((cells) => cells.some((cell) => typeof cell === 'string' && label.test(cell)));
  };

  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
    page.setDefaultTimeout(30_000);
  });
  afterAll(() => bench?.close());

  it('begin with a new workbook, made ready by the pane', async () => {
    await page.getByRole('button', { name: 'Open …' }).click();
    await page.getByRole('button', { name: /^New workbook/ }).click();
    await page.getByRole('checkbox', { name: 'With example rows' }).uncheck();
    await page.getByRole('button', { name: /^Make this workbook ready/ }).click();
    await expect.poll(() => headerRow('Rivets', /^Rivet$/), { timeout: 30_000 }).toBe(0);
    await ready(page);
    await apply([
      {
        kind: 'insertTableRows',
        table: 'Prices',
        at: 0,
        cells: [
          ['KP-42', 'rivet', 1000, null, 52, 'USD', null, null, null, null],
          ['KS-4-5', 'rivet', 'lb', null, 30, 'USD', null, null, null, null],
          ['KF-3-3', 'rivet', 100, null, 4, 'USD', null, null, null, null],
        ],
      },
    ]);
  });

  it('are brought in from a file; the row that cannot be read is refused with its reason', async () => {
    await tab('Rivets');
    await page
      .locator('#view-rivets')
      .getByLabel('CSV file')
      .setInputFiles({ name: 'kit.csv', mimeType: 'text/csv', buffer: Buffer.from(KIT) });
    await page
      .getByRole('list', { name: 'Refused rows' })
      .getByText(/KP-99.*Diameter: got "thick"/)
      .waitFor();
    await page.getByRole('button', { name: 'Bring in 6 rows' }).click();
    await page.getByText('6 rivets added, 0 changed, 1 refused.').waitFor();
    const rows = await read(page, { sheet: 'Rivets', row: 1, column: 0, rows: 6, columns: 1 });
    labels.push(...rows.map(([label]) => String(label)));
    expect(labels).toEqual(['KP-42', 'KP-43', 'KR-42', 'KS-4-5', 'KF-3-3', 'KS-3-4']);
  });

  it('a wrong cell that is typed is named by its address until it is right', async () => {
    const diameter = await columnOf('Rivets', 0, /^Diameter/);
    await typeInto(page, 'Rivets', 2, diameter, 'thick');
    const cell = `Rivets ${'ABCDEFGH'[diameter]}3`;
    await page
      .getByRole('listitem')
      .filter({ hasText: cell })
      .getByText(/Diameter: got "thick"/)
      .waitFor();
    await typeInto(page, 'Rivets', 2, diameter, '0.126');
    await page.getByRole('button', { name: cell }).waitFor({ state: 'detached' });
  });

  it('a weighed sample fills in the weight by one button, once, and undo takes it back', async () => {
    const [pieces, grams, bought] = [
      await columnOf('Rivets', 0, /^Sample pieces/),
      await columnOf('Rivets', 0, /^Sample \(g\)/),
      await columnOf('Rivets', 0, /^1000 bought/),
    ];
    await typeInto(page, 'Rivets', 6, pieces, '50');
    await typeInto(page, 'Rivets', 6, grams, '6.5');
    const fill = page.getByRole('button', { name: 'Fill in 1 weight from samples' });
    await fill.click();
    await page.getByText('1 weight filled in from samples.').waitFor();
    // 1,000 × 6.5 g / 50, in pounds.
    expect(await readOne(page, 'Rivets', 6, bought)).toBeCloseTo((1000 * 6.5 * GRAM) / 50, 5);
    await fill.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Undo', exact: true }).last().click();
    await fill.waitFor();
    expect(await readOne(page, 'Rivets', 6, bought)).toBeNull();
    await fill.click();
    await expect.poll(() => readOne(page, 'Rivets', 6, bought)).toBeCloseTo(0.2866, 4);
  });

  it('are picked, weighed, priced and checked by the joints', async () => {
    const header = await headerRow('Joints', /^Joint$/);
    const write = (row: number, column: number, cells: Cell[]): Edit => ({
      kind: 'write',
      range: { sheet: 'Joints', row, column, rows: 1, columns: cells.length },
      cells: [cells],
    });
    await apply([
      write(header + 1, 0, ['Rib', 'Wing', 0.032, 0.032, null, 'blind', 0.125, 20, 1, 0.3, 1, 2, 60]),
      write(header + 2, 0, ['Spar', 'Wing', 0.04, 0.04, null, 'universal', 0.125, 30, 1, 0.3, 1, 1, 50]),
      write(header + 3, 0, ['Lap', 'Wing', 0.016, 0.016, null, 'flush', 0.09375, 10, 1, 0.3, 1, 1, 60]),
    ]);
    const at = async (row: number, label: RegExp): Promise<Cell | string> =>
      readOne(page, 'Joints', header + row, await columnOf('Joints', header, label));
    await expect.poll(() => at(1, /^Rivet$/)).toBe('KP-42');
    expect([await at(2, /^Rivet$/), await at(3, /^Rivet$/)]).toEqual(['KS-4-5', 'KF-3-3']);
    expect(await at(1, /^Weight/)).toBeCloseTo(40 * 0.281 * GRAM, 9);
    expect(await at(2, /^Weight/)).toBeCloseTo(30 * 0.281 * GRAM, 9);
    expect(await at(1, /^Cost/)).toBeCloseTo(40 * 0.052, 9);
    expect([await at(1, /^Check/), await at(2, /^Check/)]).toEqual(['ok', 'ok']);
    expect(await at(3, /^Check/)).toMatch(/ok|countersunk|thin/);
  });

  it('are compared with other rivets', async () => {
    await tab('Rivets');
    await page.getByRole('heading', { name: 'Options', level: 2 }).waitFor();
    await page
      .getByRole('button', { name: /^Solid 1\/8/ })
      .first()
      .waitFor();
    expect(await page.locator('#view-rivets').innerText()).toMatch(/As designed/i);
  });

  it('are on the shopping list with the rest', async () => {
    await tab('Buying');
    for (const item of ['KP-42', 'KS-4-5', 'KF-3-3'])
      await page.locator('#view-buying').getByText(item, { exact: true }).first().waitFor();
  });

  it('leaves nothing to complain of', () => {
    expect(bench.outside).toEqual([]);
    expect(bench.complaints).toEqual([]);
  });
});
