/** What is typed on the bench, by keyboard, is what is stored. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CellError, type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { chromium } from '../helpers/programs';
import { openBytes, read, readOne, shots, startBench, typeInto, type BenchBrowser } from '../helpers/bench-page';

const executable = chromium();

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
    bench = await startBench(executable!);
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
  /** Enter is only taken when the list of functions that the editor offers has gone. */
  const typeFormula = async (row: number, column: number, formula: string): Promise<void> => {
    await typeInto(page, 'Design', row, column, formula);
    await expect.poll(() => formulasAt(row, column, 1), { timeout: 20_000 }).toEqual([[formula]]);
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
    // From the bar back to the grid.
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
});
