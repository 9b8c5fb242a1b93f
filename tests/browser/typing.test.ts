/** What is typed on the bench, by keyboard, is what is stored. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CellError, type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { chromiumOfPages } from '../helpers/programs';
import { openBytes, read, readOne, shots, benchForTests, typeInto, type BenchBrowser } from '../helpers/bench-page';

const executable = chromiumOfPages();

/** Formulas with numbers, texts, cases and spaces that a program may be tempted to write anew. */
const FORMULAS = [
  '=TARE.WEIGHT.SHEET(100,.02,"6061-T6")',
  '=TARE.WEIGHT.SHEET(100,.020,"6061-T6")',
  '=IF(A3>=5.0,"thick","thin")',
  '=COUNTIF(A1:A9,5.0)&"x"',
  '=IF(.5>.25,"a 5.0 b","c")',
  '=sum( a1:a3 , 1.50 )',
  '="1,000.0"&.1&"%"',
  '=1E3+1e-2+007',
  '=IF(TRUE,"true",false)',
  '={1.0,2.50;3,"x,y"}',
  "='Parts'!A1&\"'x'\"",
  '=-.5%+.25^2.0',
];

describe.skipIf(!executable)('typing on the bench', () => {
  let bench: BenchBrowser;
  let page: Page;
  beforeAll(async () => {
    bench = await benchForTests(executable!);
    page = await bench.open();
  });
  afterAll(() => bench?.close());

  const formulasAt = (row: number, column: number, rows: number): Promise<(string | null)[][]> =>
    page.evaluate((range) => window.tarebook!.workbook!.readFormulas(range), {
      sheet: 'Design',
      row,
      column,
      rows,
      columns: 1,
    });
  const typeFormula = async (row: number, column: number, formula: string): Promise<void> => {
    await typeInto(page, 'Design', row, column, formula);
    await expect.poll(() => formulasAt(row, column, 1)).toEqual([[formula]]);
  };
  const weights = () => read(page, { sheet: 'Weights', row: 0, column: 0, rows: 30, columns: 8 });
  const settled = (): Promise<void> => page.evaluate(() => window.tarebook!.workbook!.settled());
  const save = async (name: string): Promise<WorkbookModel> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as .xlsx' }).click(),
    ]);
    const file = join(shots, name);
    await download.saveAs(file);
    // From the bar back to the grid; the button that was clicked still has the keyboard.
    await page.keyboard.press('F6');
    return readWorkbook(readFileSync(file));
  };

  it('stores formulas as they were typed, in the file too', { timeout: 240_000 }, async () => {
    for (const [index, formula] of FORMULAS.entries()) await typeFormula(40 + index, 12, formula);
    const expected = FORMULAS.map((formula) => [formula]);
    expect(await formulasAt(40, 12, FORMULAS.length)).toEqual(expected);
    await settled();
    expect(await readOne(page, 'Design', 40, 12)).toBeGreaterThan(0);
    const { cells } = (await save('typed.xlsx')).sheets.find(({ name }) => name === 'Design')!;
    expect(FORMULAS.map((_formula, index) => [`=${cells[40 + index]?.[12]?.formula}`])).toEqual(expected);
  });

  it('enters a formula whose end is typed while the list of functions still shows', async () => {
    const range = { sheet: 'Design', row: 55, column: 12, rows: 1, columns: 1 };
    await page.evaluate((cell) => window.tarebook!.workbook!.select(cell), range);
    await page.keyboard.type('=su');
    await page.getByText('SUBSTITUTE', { exact: true }).waitFor();
    await page.keyboard.type('m(4,5)');
    await page.keyboard.press('Enter');
    await expect.poll(() => formulasAt(55, 12, 1)).toEqual([['=sum(4,5)']]);
  });

  it('has a typo be an error in its cell alone, which an undo takes back', { timeout: 240_000 }, async () => {
    const before = await weights();
    for (const typo of ['=SUM(M6]', '=#this row],a]*2', '=SUM(M6:M9', '=NOSUCH.THING(M6)']) {
      await typeFormula(60, 12, typo);
      await settled();
      expect(await readOne(page, 'Design', 60, 12)).toMatch(/^#/);
      expect(await weights()).toEqual(before);
    }
    await page.evaluate((range) => window.tarebook!.workbook!.select(range), {
      sheet: 'Design',
      row: 60,
      column: 12,
      rows: 1,
      columns: 1,
    });
    await page.keyboard.press('ControlOrMeta+z');
    await settled();
    expect(await formulasAt(60, 12, 1)).toEqual([['=SUM(M6:M9']]);
    await page.evaluate(() => window.tarebook!.workbook!.undo());
    const errors = (await save('typo.xlsx')).sheets.flatMap(({ cells }) =>
      cells.flatMap((line) => (line ?? []).filter((cell) => cell?.value instanceof CellError)),
    );
    expect(errors.length).toBeLessThan(5);
    await openBytes(page, 'typo again.xlsx', readFileSync(join(shots, 'typo.xlsx')));
    expect(await weights()).toEqual(before);
  });

  describe('lengths that are pasted', () => {
    const values = (row: number, column: number, rows: number, columns: number) =>
      read(page, { sheet: 'Parts', row, column, rows, columns });
    const paste = async (row: number, column: number, parts: Record<string, string>): Promise<void> => {
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await page.evaluate((given) => {
        const blobs = Object.entries(given).map(([type, text]) => [type, new Blob([text], { type })]);
        return navigator.clipboard.write([new ClipboardItem(Object.fromEntries(blobs) as Record<string, Blob>)]);
      }, parts);
      await page.evaluate((range) => window.tarebook!.workbook!.select(range), {
        sheet: 'Parts',
        row,
        column,
        rows: 1,
        columns: 1,
      });
      await page.keyboard.press('ControlOrMeta+v');
    };
    /** Column E is Thickness (in), I is Arm (in), B is the part's name; rows 91 and below are free. */
    const [FIRST, THICKNESS] = [90, 4];

    it('as text keep the length', { timeout: 120_000 }, async () => {
      for (const [index, [text, length]] of [
        ['1/8', 0.125],
        ['3/32"', 0.09375],
        ['1 1/4', 1.25],
        ['.032', 0.032],
      ].entries()) {
        await paste(FIRST + index, THICKNESS, { 'text/plain': String(text) });
        await expect.poll(() => values(FIRST + index, THICKNESS, 1, 1)).toEqual([[length]]);
      }
      // Shown as a number too: a spreadsheet that reads 1/8 as a date gives the cell a date's format.
      const saved = await save('lengths.xlsx');
      const parts = saved.sheets.find(({ name }) => name === 'Parts')!;
      for (const row of [0, 1, 2, 3]) {
        const style = parts.cells[FIRST + row]?.[THICKNESS]?.style;
        expect(saved.styles[style ?? 0]?.numberFormat ?? 'General').not.toMatch(/[dmy/]/);
      }
      await page.keyboard.press('ControlOrMeta+z');
      await expect.poll(() => values(FIRST + 3, THICKNESS, 1, 1)).toEqual([[null]]);
      expect(await values(FIRST, THICKNESS, 3, 1)).toEqual([[0.125], [0.09375], [1.25]]);
    });

    it.each([
      ['text/plain', 'web\t1\t6061-T6\t1/8\ncap\t2\t6061-T6\t3/32"\nstrap\t3\t6061-T6\t1 1/4'],
      [
        'text/html',
        '<table><tr><td>web</td><td>1</td><td>6061-T6</td><td>1/8</td></tr><tr><td>cap</td><td>2</td><td>6061-T6</td><td>3/32"</td></tr><tr><td>strap</td><td>3</td><td>6061-T6</td><td>1 1/4</td></tr></table>',
      ],
    ])('as a block of %s keep theirs, and one undo takes the block back', { timeout: 120_000 }, async (type, block) => {
      await paste(FIRST + 10, 1, { [type]: block });
      const expected = [
        ['web', 1, '6061-T6', 0.125],
        ['cap', 2, '6061-T6', 0.09375],
        ['strap', 3, '6061-T6', 1.25],
      ];
      await expect.poll(() => values(FIRST + 10, 1, 3, 4)).toEqual(expected);
      await page.keyboard.press('ControlOrMeta+z');
      await expect.poll(() => values(FIRST + 10, 1, 3, 4)).toEqual(expected.map((line) => line.map(() => null)));
      await page.keyboard.press('ControlOrMeta+y');
      await expect.poll(() => values(FIRST + 10, 1, 3, 4)).toEqual(expected);
      await page.keyboard.press('ControlOrMeta+z');
    });
  });

  it('Alt+Down opens the list of a cell’s choices, from which one is taken', { timeout: 120_000 }, async () => {
    await page.evaluate((range) => window.tarebook!.workbook!.select(range), {
      sheet: 'Parts',
      row: 95,
      column: 9,
      rows: 1,
      columns: 1,
    });
    const choice = page.getByText('laid out', { exact: true });
    expect(await choice.count()).toBe(0);
    await page.keyboard.press('Alt+ArrowDown');
    await choice.click();
    await expect.poll(() => readOne(page, 'Parts', 95, 9)).toBe('laid out');
  });
});
